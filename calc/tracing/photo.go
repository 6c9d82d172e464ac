package tracing

import (
	"image"
	"image/color"
	"math"
)

// Photo is a photograph the right way up.
type Photo struct {
	Width, Height int
	// luma is the brightness as coded, row by row.
	luma []uint8
	rgb  func(x, y int) (r, g, b uint8)
}

// NewPhoto turns a picture the right way up. Orientation is the number 1 to 8
// of the Exif tag 274; any other counts as 1.
func NewPhoto(img image.Image, orientation int) Photo {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	p := Photo{Width: w, Height: h}
	if orientation >= 5 && orientation <= 8 {
		p.Width, p.Height = h, w
	}
	stored := storedPlace(orientation, w, h)
	switch img := img.(type) {
	case *image.YCbCr:
		p.rgb = func(x, y int) (uint8, uint8, uint8) {
			x, y = stored(x, y)
			x, y = x+b.Min.X, y+b.Min.Y
			c := img.COffset(x, y)
			return color.YCbCrToRGB(img.Y[img.YOffset(x, y)], img.Cb[c], img.Cr[c])
		}
		if orientation <= 1 || orientation > 8 {
			if img.YStride == w {
				p.luma = img.Y[:w*h]
				return p
			}
		}
		p.luma = make([]uint8, w*h)
		for y := range p.Height {
			for x := range p.Width {
				sx, sy := stored(x, y)
				p.luma[y*p.Width+x] = img.Y[img.YOffset(sx+b.Min.X, sy+b.Min.Y)]
			}
		}
	default:
		p.rgb = func(x, y int) (uint8, uint8, uint8) {
			x, y = stored(x, y)
			r, g, bl, _ := img.At(x+b.Min.X, y+b.Min.Y).RGBA()
			return uint8(r >> 8), uint8(g >> 8), uint8(bl >> 8)
		}
		p.luma = make([]uint8, w*h)
		for y := range p.Height {
			for x := range p.Width {
				r, g, bl := p.rgb(x, y)
				p.luma[y*p.Width+x] = uint8((19595*uint32(r) + 38470*uint32(g) + 7471*uint32(bl) + 1<<15) >> 16)
			}
		}
	}
	return p
}

// storedPlace maps a place of the upright picture to where it is stored, for a
// stored picture of w x h (Exif 2.3, table of tag 274).
func storedPlace(orientation, w, h int) func(x, y int) (int, int) {
	switch orientation {
	case 2:
		return func(x, y int) (int, int) { return w - 1 - x, y }
	case 3:
		return func(x, y int) (int, int) { return w - 1 - x, h - 1 - y }
	case 4:
		return func(x, y int) (int, int) { return x, h - 1 - y }
	case 5:
		return func(x, y int) (int, int) { return y, x }
	case 6:
		return func(x, y int) (int, int) { return y, h - 1 - x }
	case 7:
		return func(x, y int) (int, int) { return w - 1 - y, h - 1 - x }
	case 8:
		return func(x, y int) (int, int) { return w - 1 - y, x }
	}
	return func(x, y int) (int, int) { return x, y }
}

// RGB is the colour of a pixel of the upright picture.
func (p Photo) RGB(x, y int) (r, g, b uint8) { return p.rgb(x, y) }

// level is the brightness between pixels, bilinear; the middle of a pixel is at
// a whole number. Places outside take the nearest pixel.
func (p Photo) level(x, y float64) float64 {
	x = math.Max(0, math.Min(x, float64(p.Width-1)-1e-6))
	y = math.Max(0, math.Min(y, float64(p.Height-1)-1e-6))
	ix, iy := int(x), int(y)
	fx, fy := x-float64(ix), y-float64(iy)
	i := iy*p.Width + ix
	a, b := float64(p.luma[i]), float64(p.luma[i+1])
	c, d := float64(p.luma[i+p.Width]), float64(p.luma[i+p.Width+1])
	return (a*(1-fx)+b*fx)*(1-fy) + (c*(1-fx)+d*fx)*fy
}

func (p Photo) holds(x, y, margin float64) bool {
	return x >= margin && y >= margin && x <= float64(p.Width-1)-margin && y <= float64(p.Height-1)-margin
}

// linear is the light of a coded level of 0 to 255, from 0 to 1 (IEC 61966-2-1).
var linear = func() (t [256]float64) {
	for i := range t {
		v := float64(i) / 255
		if v <= 0.04045 {
			t[i] = v / 12.92
		} else {
			t[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return t
}()

// light is the linear light between pixels, bilinear.
func (p Photo) light(x, y float64) [3]float64 {
	x = math.Max(0, math.Min(x, float64(p.Width-1)-1e-6))
	y = math.Max(0, math.Min(y, float64(p.Height-1)-1e-6))
	ix, iy := int(x), int(y)
	fx, fy := x-float64(ix), y-float64(iy)
	var sum [3]float64
	for k, weight := range [4]float64{(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy} {
		r, g, b := p.rgb(ix+k&1, iy+k>>1)
		sum[0] += weight * linear[r]
		sum[1] += weight * linear[g]
		sum[2] += weight * linear[b]
	}
	return sum
}

// shrunk is the brightness in blocks of k x k pixels.
func (p Photo) shrunk(k int) (w, h int, grey []uint8) {
	w, h = p.Width/k, p.Height/k
	grey = make([]uint8, w*h)
	sums := make([]uint32, w)
	for y := range h {
		clear(sums)
		for dy := range k {
			row := p.luma[(y*k+dy)*p.Width:]
			for x := range sums {
				s := uint32(0)
				for _, v := range row[x*k : x*k+k] {
					s += uint32(v)
				}
				sums[x] += s
			}
		}
		for x, s := range sums {
			grey[y*w+x] = uint8(s / uint32(k*k))
		}
	}
	return w, h, grey
}
