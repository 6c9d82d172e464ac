// Package photograph reads photographs that people send: hostile input until it
// is a picture. What a picture would take is worked out from its first bytes,
// before it is decoded, and of its Exif data the orientation alone is read.
package photograph

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"
)

// Limits of a photograph.
const (
	MaxBytes   = 25 << 20
	MaxPixels  = 40_000_000
	maxDecoded = 200 << 20
	maxSide    = 20_000
)

// Error is a file that can't be used; its text is a sentence for its sender,
// without a full stop.
type Error struct{ Problem string }

func (e *Error) Error() string { return e.Problem }

func problem(format string, args ...any) error { return &Error{fmt.Sprintf(format, args...)} }

// Picture is a decoded photograph as it is stored, and the Exif orientation
// (1 to 8) by which it is turned upright.
type Picture struct {
	Image       image.Image
	Orientation int
}

var damaged = &Error{"the file is damaged or is no photograph; send the original JPEG or PNG"}

// Read decodes a JPEG or PNG. When ctx ends, so does the reading, with ctx's
// cause; any other error is an *Error.
func Read(ctx context.Context, data []byte) (p Picture, err error) {
	defer func() {
		// The decoders are the standard library's; one that panics on a file
		// must not end the program.
		if recover() != nil {
			p, err = Picture{}, damaged
		}
	}()
	if len(data) > MaxBytes {
		return p, problem("the photograph has %d MB, and %d MB is the most: send it as a JPEG", len(data)>>20, MaxBytes>>20)
	}
	size, decode, err := measure(data)
	if err != nil {
		return p, err
	}
	if err := size.check(); err != nil {
		return p, err
	}
	img, err := decode(&deadlineReader{ctx, bytes.NewReader(data)})
	switch {
	case ctx.Err() != nil:
		return p, context.Cause(ctx)
	case err != nil:
		return p, damaged
	case img.Bounds().Dx() != size.width || img.Bounds().Dy() != size.height:
		return p, damaged
	}
	return Picture{img, orientation(data)}, nil
}

// deadlineReader ends the decoder that reads from it when its time is over.
type deadlineReader struct {
	ctx  context.Context
	from io.Reader
}

func (r *deadlineReader) Read(to []byte) (int, error) {
	if r.ctx.Err() != nil {
		return 0, context.Cause(r.ctx)
	}
	if len(to) > 64<<10 {
		to = to[:64<<10]
	}
	return r.from.Read(to)
}

// dimensions are what a file says of itself, and the bytes that decoding takes.
type dimensions struct {
	width, height int
	decoded       int64
}

func (d dimensions) check() error {
	pixels := int64(d.width) * int64(d.height)
	switch {
	case d.width < 1 || d.height < 1:
		return damaged
	case d.width > maxSide || d.height > maxSide || pixels > MaxPixels:
		return problem("the photograph has %.0f megapixels, and %d is the most: set the camera to 12 megapixels", float64(pixels)/1e6, MaxPixels/1_000_000)
	case d.decoded > maxDecoded:
		return problem("the photograph takes too much memory to open: save it as an ordinary JPEG of 12 megapixels")
	}
	return nil
}

// measure tells the format and its size.
func measure(data []byte) (dimensions, func(io.Reader) (image.Image, error), error) {
	var d dimensions
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		d, ok := jpegDimensions(data)
		if !ok {
			return d, nil, damaged
		}
		return d, jpeg.Decode, nil
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		d, ok := pngDimensions(data)
		if !ok {
			return d, nil, damaged
		}
		return d, png.Decode, nil
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		return d, nil, problem("this is a HEIC or AVIF photograph, which I can't open: on an iPhone choose Settings, Camera, Formats, Most Compatible, or share the photograph as a JPEG, and send it again")
	case len(data) == 0:
		return d, nil, problem("the photograph is empty; send it again")
	}
	return d, nil, problem("I can open photographs as JPEG or PNG only; save it as a JPEG and send it again")
}

// jpegDimensions reads the frame header (ISO/IEC 10918-1, B.2.2). A progressive
// file is kept whole as coefficients of four bytes until its end, besides the
// picture.
func jpegDimensions(data []byte) (dimensions, bool) {
	adobeRGB := false
	for i := 2; i+4 <= len(data); {
		if data[i] != 0xff {
			return dimensions{}, false
		}
		marker := data[i+1]
		if marker == 0xff || marker == 0x01 || marker >= 0xd0 && marker <= 0xd7 {
			i++
			if marker != 0xff {
				i++
			}
			continue
		}
		n := int(binary.BigEndian.Uint16(data[i+2:]))
		if n < 2 || i+2+n > len(data) {
			return dimensions{}, false
		}
		body := data[i+4 : i+2+n]
		switch marker {
		case 0xee:
			adobeRGB = adobeRGB || len(body) >= 12 && string(body[:5]) == "Adobe" && body[11] == 0
		case 0xc0, 0xc1, 0xc2:
			return frameDimensions(body, marker == 0xc2, adobeRGB)
		case 0xda, 0xd9:
			return dimensions{}, false
		}
		i += 2 + n
	}
	return dimensions{}, false
}

func frameDimensions(body []byte, progressive, adobeRGB bool) (dimensions, bool) {
	if len(body) < 6 {
		return dimensions{}, false
	}
	d := dimensions{height: int(binary.BigEndian.Uint16(body[1:])), width: int(binary.BigEndian.Uint16(body[3:]))}
	count := int(body[5])
	if count < 1 || count > 4 || len(body) < 6+3*count {
		return d, false
	}
	mostH, mostV, blocks := 1, 1, 0
	rgb := count == 3
	for k := range count {
		c := body[6+3*k:]
		h, v := int(c[1]>>4), int(c[1]&15)
		if h < 1 || v < 1 || h > 4 || v > 4 {
			return d, false
		}
		mostH, mostV, blocks = max(mostH, h), max(mostV, v), blocks+h*v
		rgb = rgb && c[0] == "RGB"[k]
	}
	units := int64((d.width+8*mostH-1)/(8*mostH)) * int64((d.height+8*mostV-1)/(8*mostV))
	each := int64(64)
	if progressive {
		each += 4 * 64
	}
	d.decoded = units * int64(blocks) * each
	if count == 4 || rgb || adobeRGB && count == 3 {
		d.decoded += 4 * int64(d.width) * int64(d.height)
	}
	return d, true
}

// pngDimensions reads the first chunk (ISO/IEC 15948, 11.2.2). The decoder makes
// an interlaced picture pass by pass, besides the picture.
func pngDimensions(data []byte) (dimensions, bool) {
	if len(data) < 33 || string(data[12:16]) != "IHDR" {
		return dimensions{}, false
	}
	w, h := binary.BigEndian.Uint32(data[16:]), binary.BigEndian.Uint32(data[20:])
	if w == 0 || h == 0 || w > 1<<20 || h > 1<<20 {
		return dimensions{width: min(int(w), 1<<20), height: min(int(h), 1<<20)}, w > 0 && h > 0
	}
	each := int64(1)
	switch data[25] { // type of colour
	case 0:
		each = 4 // grey with a transparent level is made colour
	case 2, 4, 6:
		each = 4
	}
	if data[24] == 16 {
		each = 8
	}
	d := dimensions{width: int(w), height: int(h), decoded: each * int64(w) * int64(h)}
	if data[28] != 0 {
		d.decoded *= 2
	}
	return d, true
}

// orientation finds the Exif orientation of a JPEG or PNG, 1 where there is none.
// Nothing else of the Exif data is looked at: it may say where somebody lives.
func orientation(data []byte) int {
	o, err := exifOrientation(exifOf(data))
	if err != nil {
		return 1
	}
	return o
}

func exifOf(data []byte) []byte {
	if bytes.HasPrefix(data, []byte("\x89PNG")) {
		for i := 8; i+12 <= len(data); {
			n := int(binary.BigEndian.Uint32(data[i:]))
			if n < 0 || n > len(data)-i-12 {
				return nil
			}
			if string(data[i+4:i+8]) == "eXIf" {
				return data[i+8 : i+8+n]
			}
			i += 12 + n
		}
		return nil
	}
	for i := 2; i+4 <= len(data) && data[i] == 0xff; {
		n := int(binary.BigEndian.Uint16(data[i+2:]))
		if n < 2 || i+2+n > len(data) || data[i+1] == 0xda {
			return nil
		}
		if body := data[i+4 : i+2+n]; data[i+1] == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return body[6:]
		}
		i += 2 + n
	}
	return nil
}

var errNoOrientation = errors.New("no orientation")

// exifOrientation reads tag 274 of the first directory (TIFF 6.0, section 2).
func exifOrientation(tiff []byte) (int, error) {
	if len(tiff) < 14 {
		return 0, errNoOrientation
	}
	var order binary.ByteOrder = binary.BigEndian
	if string(tiff[:2]) == "II" {
		order = binary.LittleEndian
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 0, errNoOrientation
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			break
		}
		if order.Uint16(entries) == 274 {
			if v := int(order.Uint16(entries[8:])); v >= 1 && v <= 8 {
				return v, nil
			}
			break
		}
		entries = entries[12:]
	}
	return 0, errNoOrientation
}
