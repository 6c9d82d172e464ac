package tracing

import (
	"image"
	"math"
)

// Overlay is the part of the photograph round the stone's zone, at most widest
// pixels wide or high, with the outline on it.
func Overlay(p Photo, t Trace, widest int) *image.RGBA {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, c := range t.Corners {
		for k := range c {
			low[k], high[k] = math.Min(low[k], c[k]), math.Max(high[k], c[k])
		}
	}
	x0, y0 := math.Max(0, low[0]), math.Max(0, low[1])
	wide, tall := math.Min(high[0], float64(p.Width-1))-x0, math.Min(high[1], float64(p.Height-1))-y0
	scale := math.Min(1, float64(widest)/math.Max(math.Max(wide, tall), 1))
	out := image.NewRGBA(image.Rect(0, 0, max(1, int(wide*scale)), max(1, int(tall*scale))))
	for y := range out.Bounds().Dy() {
		for x := range out.Bounds().Dx() {
			r, g, b := p.rgb(min(int(x0+float64(x)/scale), p.Width-1), min(int(y0+float64(y)/scale), p.Height-1))
			i := out.PixOffset(x, y)
			out.Pix[i], out.Pix[i+1], out.Pix[i+2], out.Pix[i+3] = r, g, b, 255
		}
	}
	// Dark beside bright, so that the line is seen on any stone.
	for _, pen := range []struct {
		r        float64
		r8, g, b uint8
	}{{1.9, 0, 0, 0}, {1, 255, 60, 200}} {
		for i, a := range t.Drawn {
			b := t.Drawn[(i+1)%len(t.Drawn)]
			steps := int(math.Hypot(b[0]-a[0], b[1]-a[1])*scale*2) + 1
			for s := range steps {
				f := float64(s) / float64(steps)
				dot(out, (a[0]+f*(b[0]-a[0])-x0)*scale, (a[1]+f*(b[1]-a[1])-y0)*scale, pen.r, pen.r8, pen.g, pen.b)
			}
		}
	}
	return out
}

func dot(img *image.RGBA, cx, cy, r float64, red, green, blue uint8) {
	for y := int(cy - r); y <= int(cy+r); y++ {
		for x := int(cx - r); x <= int(cx+r); x++ {
			if image.Pt(x, y).In(img.Rect) && math.Hypot(float64(x)-cx, float64(y)-cy) <= r {
				i := img.PixOffset(x, y)
				img.Pix[i], img.Pix[i+1], img.Pix[i+2] = red, green, blue
			}
		}
	}
}
