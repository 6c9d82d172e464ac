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

// A picture has sixteen greys: enough for smooth edges, and two pixels share a
// byte, so that there is half as much to compress. The standard library's
// encoder packs such pixels one by one and takes three times as long as all of
// this; Portable Network Graphics Specification, third edition,
// https://www.w3.org/TR/png-3/

const (
	shadeBits = 4
	shadeStep = math.MaxUint8 / (1<<shadeBits - 1)

	pngSignature   = "\x89PNG\r\n\x1a\n"
	colourIndexed  = 3
	unitMetre      = 1
	filterNone     = 0
	compression    = 6         // costs no time that is felt, and files are a fifth smaller than at best speed
	chunkFrame     = 4 + 4 + 4 // length, name, sum
	whiteEight     = math.MaxUint64
	whiteFourBytes = math.MaxUint32
)

// shades is the palette, black first.
var shades = func() (rgb [3 << shadeBits]uint8) {
	for i := range rgb {
		rgb[i] = uint8(i / 3 * shadeStep)
	}
	return rgb
}()

// shadeOf is the nearest shade of a level, of every third one: six greys make an
// edge as smooth to the eye, and a file a tenth smaller.
var shadeOf = func() (list [256]uint8) {
	for level := range list {
		const apart = 3 * shadeStep
		list[level] = uint8((level + apart/2) / apart * 3)
	}
	return list
}()

// packer is an encoder's working memory, kept between pictures.
type packer struct {
	rows []byte
	out  bytes.Buffer
	zip  *zlib.Writer
}

var packers = sync.Pool{New: func() any { return &packer{} }}

// encodePNG makes the file of an image of an even width, with its resolution.
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
	row := 1 + w/2
	if cap(k.rows) < row*h {
		k.rows = make([]byte, row*h)
	}
	k.rows = k.rows[:row*h]
	for y := range h {
		to := k.rows[y*row:][:row]
		to[0] = filterNone
		packRow(to[1:], img.Pix[y*img.Stride:][:w])
	}
	k.out.Reset()
	if k.zip == nil {
		var err error
		if k.zip, err = zlib.NewWriterLevel(&k.out, compression); err != nil {
			return err
		}
	} else {
		k.zip.Reset(&k.out)
	}
	if _, err := k.zip.Write(k.rows); err != nil {
		return err
	}
	return k.zip.Close()
}

// packRow packs two pixels to a byte. Most of a picture is white paper, which
// goes eight pixels at a time.
func packRow(to []byte, from []uint8) {
	for len(from) >= 8 && len(to) >= 4 {
		if binary.LittleEndian.Uint64(from) == whiteEight {
			binary.LittleEndian.PutUint32(to, whiteFourBytes)
		} else {
			for i := range 4 {
				to[i] = shadeOf[from[2*i]]<<shadeBits | shadeOf[from[2*i+1]]
			}
		}
		to, from = to[4:], from[8:]
	}
	for i := range to {
		to[i] = shadeOf[from[2*i]]<<shadeBits | shadeOf[from[2*i+1]]
	}
}
