package matrix

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strconv"

	"golang.org/x/image/draw"
	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"
)

// numbered is a PNG with the number of the answer that it belongs to.
type numbered struct {
	number int
	png    []byte
}

const (
	// sheetColumns are as many as a phone's screen can be turned and zoomed to.
	sheetColumns = 4
	sheetGapPx   = 40
	// numberScale makes the number large enough to find: 13 px times this.
	numberScale = 5
)

// sheet puts pictures side by side on one PNG, each below its number. They keep
// their size.
func sheet(pictures []numbered) ([]byte, error) {
	var all []image.Image
	var cell image.Point
	for _, p := range pictures {
		one, err := png.Decode(bytes.NewReader(p.png))
		if err != nil {
			return nil, fmt.Errorf("picture of answer %d: %w", p.number, err)
		}
		all = append(all, one)
		cell.X, cell.Y = max(cell.X, one.Bounds().Dx()), max(cell.Y, one.Bounds().Dy())
	}
	face := basicfont.Face7x13
	head := face.Height*numberScale + sheetGapPx
	columns := min(sheetColumns, len(all))
	rows := (len(all) + columns - 1) / columns
	cell = cell.Add(image.Pt(sheetGapPx, head))
	size := image.Rect(0, 0, columns*cell.X, rows*cell.Y)
	palette, few := commonPalette(all)
	var out draw.Image = image.NewPaletted(size, palette)
	if !few {
		out = image.NewRGBA(size)
	}
	draw.Draw(out, size, image.White, image.Point{}, draw.Src)
	for i, one := range all {
		at := image.Pt(i%columns*cell.X+sheetGapPx/2, i/columns*cell.Y)
		drawNumber(out, at, pictures[i].number)
		at.Y += head - sheetGapPx/2
		put(out, at, one)
	}
	var buf bytes.Buffer
	if err := png.Encode(&buf, out); err != nil {
		return nil, fmt.Errorf("sheet of pictures: %w", err)
	}
	return buf.Bytes(), nil
}

// put draws a picture at a place. Both with palettes, each colour is looked up
// once, not for each pixel.
func put(on draw.Image, at image.Point, one image.Image) {
	to, ok := on.(*image.Paletted)
	from, lines := one.(*image.Paletted)
	if !ok || !lines {
		draw.Draw(on, image.Rectangle{at, at.Add(one.Bounds().Size())}, one, one.Bounds().Min, draw.Src)
		return
	}
	index := make([]uint8, 256)
	for i, c := range from.Palette {
		index[i] = uint8(to.Palette.Index(c))
	}
	size := from.Bounds().Size()
	for y := range size.Y {
		row := to.Pix[to.PixOffset(at.X, at.Y+y):]
		for x, i := range from.Pix[y*from.Stride : y*from.Stride+size.X] {
			row[x] = index[i]
		}
	}
}

// drawNumber draws a number at a place, enlarged without smoothing.
func drawNumber(on draw.Image, at image.Point, number int) {
	face := basicfont.Face7x13
	text := strconv.Itoa(number)
	small := image.NewPaletted(image.Rect(0, 0, face.Advance*len(text), face.Height), color.Palette{color.White, color.Black})
	d := font.Drawer{Dst: small, Src: image.Black, Face: face, Dot: fixed.P(0, face.Ascent)}
	d.DrawString(text)
	to := image.Rectangle{at, at.Add(small.Bounds().Size().Mul(numberScale))}
	draw.NearestNeighbor.Scale(on, to, small, small.Bounds(), draw.Src, nil)
}

// commonPalette gives the colours of all pictures with black and white, where
// these are few enough for a PNG with a palette, which is far smaller.
func commonPalette(all []image.Image) (color.Palette, bool) {
	palette := color.Palette{color.White, color.Black}
	seen := map[color.RGBA64]bool{}
	for _, c := range palette {
		seen[color.RGBA64Model.Convert(c).(color.RGBA64)] = true
	}
	for _, one := range all {
		p, ok := one.(*image.Paletted)
		if !ok {
			return palette, false
		}
		for _, c := range p.Palette {
			key := color.RGBA64Model.Convert(c).(color.RGBA64)
			if seen[key] {
				continue
			}
			seen[key] = true
			palette = append(palette, c)
		}
	}
	return palette, len(palette) <= 256
}
