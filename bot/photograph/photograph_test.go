package photograph

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/testcount"
)

func asJPEG(t testing.TB, w, h int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.Set(x, y, color.RGBA{uint8(x * 7), uint8(y * 5), uint8(x * y), 255})
		}
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, nil))
	return b.Bytes()
}

func asPNG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	return b.Bytes()
}

// withExif puts an Exif segment after the start of a JPEG.
func withExif(file []byte, order binary.ByteOrder, orientation uint16) []byte {
	tiff := []byte("MM\x00*\x00\x00\x00\x08")
	if order == binary.ByteOrder(binary.LittleEndian) {
		tiff = []byte("II*\x00\x08\x00\x00\x00")
	}
	entry := make([]byte, 2+12+4)
	order.PutUint16(entry, 1)
	order.PutUint16(entry[2:], 274)
	order.PutUint16(entry[4:], 3)
	order.PutUint32(entry[6:], 1)
	order.PutUint16(entry[10:], orientation)
	body := append([]byte("Exif\x00\x00"), append(tiff, entry...)...)
	segment := []byte{0xff, 0xe1, 0, 0}
	binary.BigEndian.PutUint16(segment[2:], uint16(len(body)+2))
	out := append([]byte{}, file[:2]...)
	return append(append(append(out, segment...), body...), file[2:]...)
}

func TestReadJPEGAndPNG(t *testing.T) {
	p, err := Read(context.Background(), asJPEG(t, 60, 40))
	require.NoError(t, err)
	assert.Equal(t, image.Pt(60, 40), p.Image.Bounds().Size())
	assert.Equal(t, 1, p.Orientation)
	p, err = Read(context.Background(), asPNG(t, image.NewGray(image.Rect(0, 0, 30, 20))))
	require.NoError(t, err)
	assert.Equal(t, image.Pt(30, 20), p.Image.Bounds().Size())
}

func TestOrientation(t *testing.T) {
	file := asJPEG(t, 20, 10)
	for _, order := range []binary.ByteOrder{binary.BigEndian, binary.LittleEndian} {
		for o := uint16(1); o <= 8; o++ {
			p, err := Read(context.Background(), withExif(file, order, o))
			require.NoError(t, err)
			assert.Equal(t, int(o), p.Orientation)
		}
		p, err := Read(context.Background(), withExif(file, order, 99))
		require.NoError(t, err)
		assert.Equal(t, 1, p.Orientation)
	}
}

// bomb is a PNG header that promises a picture.
func bomb(w, h uint32, depth, kind, interlaced byte) []byte {
	head := make([]byte, 17)
	copy(head, "IHDR")
	binary.BigEndian.PutUint32(head[4:], w)
	binary.BigEndian.PutUint32(head[8:], h)
	head[12], head[13], head[16] = depth, kind, interlaced
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// frame is a JPEG that promises a picture.
func frame(w, h uint16, kind byte, sampling ...byte) []byte {
	body := []byte{8, byte(h >> 8), byte(h), byte(w >> 8), byte(w), byte(len(sampling))}
	for i, s := range sampling {
		body = append(body, byte(i+1), s, 0)
	}
	out := []byte{0xff, 0xd8, 0xff, kind, 0, byte(len(body) + 2)}
	return append(out, body...)
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		data []byte
		says string
	}{
		"empty":                  {nil, "empty"},
		"text":                   {[]byte("hello, this is no photograph"), "JPEG or PNG"},
		"heic":                   {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "Most Compatible"},
		"gif":                    {[]byte("GIF89a..............."), "JPEG or PNG"},
		"too many bytes":         {make([]byte, MaxBytes+1), "25 MB"},
		"60 megapixels":          {bomb(10000, 6000, 8, 2, 0), "megapixels"},
		"a million wide":         {bomb(1<<30, 2, 8, 2, 0), "megapixels"},
		"16 bits a colour":       {bomb(6000, 6000, 16, 6, 0), "memory"},
		"interlaced":             {bomb(6000, 6000, 8, 6, 1), "memory"},
		"progressive 4:4:4":      {frame(6000, 4000, 0xc2, 0x11, 0x11, 0x11), "memory"},
		"four colours":           {frame(6300, 6300, 0xc0, 0x11, 0x11, 0x11, 0x11), "memory"},
		"cut off":                {asJPEG(t, 50, 50)[:200], "damaged"},
		"header and no picture":  {frame(4000, 3000, 0xc0, 0x22, 0x11, 0x11), "damaged"},
		"png with no picture":    {bomb(400, 300, 8, 2, 0), "damaged"},
		"jpeg without its frame": {[]byte("\xff\xd8\xff\xd9"), "damaged"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read(context.Background(), c.data)
			var e *Error
			require.ErrorAs(t, err, &e)
			assert.Contains(t, e.Problem, c.says)
		})
	}
}

// An ordinary phone's photographs are under the limits.
func TestOrdinaryOnesFit(t *testing.T) {
	for _, data := range [][]byte{
		frame(4032, 3024, 0xc0, 0x22, 0x11, 0x11), frame(4032, 3024, 0xc2, 0x22, 0x11, 0x11),
		frame(8000, 5000, 0xc0, 0x22, 0x11, 0x11), bomb(4032, 3024, 8, 2, 0),
	} {
		d, _, err := measure(data)
		require.NoError(t, err)
		assert.NoError(t, d.check())
	}
}

func TestDeadline(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Read(ctx, asJPEG(t, 60, 40))
	assert.ErrorIs(t, err, context.Canceled)
}

func TestBudget(t *testing.T) {
	ctx, cancel := Budget(t.Context(), 3*tick)
	defer cancel()
	<-ctx.Done()
	_, err := Read(ctx, asJPEG(t, 60, 40))
	assert.ErrorIs(t, err, context.DeadlineExceeded)
}

// TestMutated changes files at random: nothing panics, and nothing takes more
// than it may. Two thousand every day, a hundred thousand with
// GUILDHAND_LONG.
func TestMutated(t *testing.T) {
	files := 2000
	if testcount.Long() {
		files = 100_000
	}
	rng := rand.New(rand.NewPCG(17, 4))
	palette := image.NewPaletted(image.Rect(0, 0, 40, 30), color.Palette{color.Black, color.White})
	seeds := [][]byte{
		asJPEG(t, 64, 48), withExif(asJPEG(t, 33, 17), binary.BigEndian, 6), asPNG(t, palette),
		asPNG(t, image.NewNRGBA64(image.Rect(0, 0, 24, 24))), asPNG(t, image.NewGray(image.Rect(0, 0, 31, 7))),
		withExif(asJPEG(t, 16, 90), binary.LittleEndian, 8), frame(300, 200, 0xc2, 0x22, 0x11, 0x11),
	}
	opened := 0
	var before, after runtime.MemStats
	longest, most := time.Duration(0), uint64(0)
	for i := range files {
		data := bytes.Clone(seeds[i%len(seeds)])
		for range 1 + rng.IntN(8) {
			at := rng.IntN(len(data))
			switch rng.IntN(5) {
			case 0:
				data[at] = byte(rng.Uint32())
			case 1:
				data[at] ^= 1 << rng.IntN(8)
			case 2:
				data = data[:max(at, 4)]
			case 3:
				end := min(len(data), at+rng.IntN(20))
				data = append(data[:at:at], append(bytes.Clone(data[at:end]), data[at:]...)...)
			case 4: // sizes are what an attacker changes first
				if n := min(len(data), 200); n > 24 {
					binary.BigEndian.PutUint16(data[rng.IntN(n-2):], uint16(rng.Uint32()))
				}
			}
		}
		if bytes.HasPrefix(data, []byte("\x89PNG")) && rng.IntN(2) == 0 {
			mendChecksum(data)
		}
		runtime.ReadMemStats(&before)
		start := time.Now()
		ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
		_, err := Read(ctx, data)
		cancel()
		longest = max(longest, time.Since(start))
		runtime.ReadMemStats(&after)
		most = max(most, after.TotalAlloc-before.TotalAlloc)
		var e *Error
		if err == nil {
			opened++
		} else if !errors.As(err, &e) && !errors.Is(err, context.DeadlineExceeded) {
			t.Fatalf("file %d: %v", i, err)
		}
	}
	t.Logf("%d files, %d opened, longest %v, most memory %d MB", files, opened, longest, most>>20)
	assert.Positive(t, opened, "some mutated files must still open")
	assert.Less(t, most, uint64(maxDecoded+32<<20))
}

// mendChecksum makes the first chunk's checksum right again.
func mendChecksum(data []byte) {
	if len(data) >= 33 {
		binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	}
}

func FuzzRead(f *testing.F) {
	f.Add(asJPEG(f, 16, 16))
	f.Add(asPNG(f, image.NewGray(image.Rect(0, 0, 8, 8))))
	f.Add(frame(300, 200, 0xc2, 0x22, 0x11, 0x11))
	f.Fuzz(func(t *testing.T, data []byte) {
		ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
		defer cancel()
		p, err := Read(ctx, data)
		if err == nil {
			assert.NotNil(t, p.Image)
			assert.LessOrEqual(t, p.Image.Bounds().Dx()*p.Image.Bounds().Dy(), MaxPixels)
		}
	})
}
