package scene

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"math"
	"sync"

	"github.com/klauspost/compress/zlib"
)

// A picture has four greys: enough for edges that look smooth on a phone, which
// shows it at half its size, and four pixels share a byte, so that there is a
// quarter as much to compress. The standard library's encoder packs such pixels
// one by one and takes three times as long as all of this; Portable Network Graphics Specification, third edition,
// https://www.w3.org/TR/png-3/

const (
	shadeBits = 2
	shadeStep = math.MaxUint8 / (1<<shadeBits - 1)

	pngSignature  = "\x89PNG\r\n\x1a\n"
	colourIndexed = 3
	unitMetre     = 1
	filterNone    = 0
	chunkFrame    = 4 + 4 + 4 // length, name, sum
	pixelsInByte  = 8 / shadeBits
)

// Levels of compression. The quick one takes two thirds of the other's time, for a
// file that is a tenth larger; one that would be large has the other.
const (
	quick, thorough = 3, 6
	largeBytes      = 45_000
)

// shades is the palette, black first.
var shades = func() (rgb [3 << shadeBits]uint8) {
	for i := range rgb {
		rgb[i] = uint8(i / 3 * shadeStep)
	}
	return rgb
}()

// shadeOf is the nearest shade of a level.
var shadeOf = func() (list [256]uint8) {
	for level := range list {
		list[level] = uint8((level + shadeStep/2) / shadeStep)
	}
	return list
}()

// packer is an encoder's working memory, kept between pictures.
type packer struct {
	rows []byte
	out  bytes.Buffer
	// zips are the compressors by level.
	zips map[int]*zlib.Writer
}

var packers = sync.Pool{New: func() any { return &packer{zips: map[int]*zlib.Writer{}} }}

// encodePNG makes the file of an image whose width is a whole number of bytes, with its resolution.
func encodePNG(img *image.Gray, pxPerMetre float64) ([]byte, error) {
	k := packers.Get().(*packer)
	defer packers.Put(k)
	if err := k.compress(img); err != nil {
		return nil, fmt.Errorf("encoding the picture: %w", err)
	}
	w, h := img.Rect.Dx(), img.Rect.Dy()
	const others = 13 + 9 + len(shades) + 5*chunkFrame
	file := make([]byte, 0, len(pngSignature)+others+k.out.Len())
	file = append(file, pngSignature...)
	head := binary.BigEndian.AppendUint32(nil, uint32(w))
	head = binary.BigEndian.AppendUint32(head, uint32(h))
	file = chunk(file, "IHDR", append(head, shadeBits, colourIndexed, 0, 0, 0))
	n := uint32(math.Round(math.Min(math.Max(pxPerMetre, 1), math.MaxInt32)))
	size := binary.BigEndian.AppendUint32(nil, n)
	size = binary.BigEndian.AppendUint32(size, n)
	file = chunk(file, "pHYs", append(size, unitMetre))
	file = chunk(file, "PLTE", shades[:])
	file = chunk(file, "IDAT", k.out.Bytes())
	return chunk(file, "IEND", nil), nil
}

// chunk appends a chunk to a file.
func chunk(file []byte, name string, data []byte) []byte {
	file = binary.BigEndian.AppendUint32(file, uint32(len(data)))
	from := len(file)
	file = append(file, name...)
	file = append(file, data...)
	return binary.BigEndian.AppendUint32(file, crc32.ChecksumIEEE(file[from:]))
}

// compress leaves the image's rows, packed, in out.
func (k *packer) compress(img *image.Gray) error {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	row := 1 + w/pixelsInByte
	if cap(k.rows) < row*h {
		k.rows = make([]byte, row*h)
	}
	k.rows = k.rows[:row*h]
	// Many rows are like the one above them: paper, or lines straight down.
	var above []uint8
	for y := range h {
		to, from := k.rows[y*row:][:row], img.Pix[y*img.Stride:][:w]
		if bytes.Equal(from, above) {
			copy(to, k.rows[(y-1)*row:])
			continue
		}
		to[0] = filterNone
		packRow(to[1:], from)
		above = from
	}
	if err := k.zip(quick); err != nil || k.out.Len() < largeBytes {
		return err
	}
	return k.zip(thorough)
}

// zip compresses the rows into out.
func (k *packer) zip(level int) error {
	k.out.Reset()
	z := k.zips[level]
	if z == nil {
		var err error
		if z, err = zlib.NewWriterLevel(&k.out, level); err != nil {
			return err
		}
		k.zips[level] = z
	}
	z.Reset(&k.out)
	if _, err := z.Write(k.rows); err != nil {
		return err
	}
	return z.Close()
}

// packRow packs pixels into bytes. Most of a picture is white paper, which goes
// many pixels at a time.
func packRow(to []byte, from []uint8) {
	for len(from) >= len(paper) {
		if bytes.Equal(from[:len(paper)], paper[:]) {
			copy(to, packedPaper[:])
		} else {
			packPixels(to, from[:len(paper)])
		}
		to, from = to[len(packedPaper):], from[len(paper):]
	}
	packPixels(to, from)
}

// paper is a part of a row without ink.
var paper = func() (white [64]uint8) {
	for i := range white {
		white[i] = math.MaxUint8
	}
	return white
}()

var packedPaper = func() (white [len(paper) / pixelsInByte]byte) {
	packPixels(white[:], paper[:])
	return white
}()

func packPixels(to []byte, from []uint8) {
	for i := range len(from) / pixelsInByte {
		to[i] = packed(from[i*pixelsInByte:])
	}
}

// packed is the byte of four pixels, the first in its highest bits.
func packed(from []uint8) uint8 {
	return shadeOf[from[0]]<<6 | shadeOf[from[1]]<<4 | shadeOf[from[2]]<<2 | shadeOf[from[3]]
}
