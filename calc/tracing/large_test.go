package tracing

import (
	"bytes"
	"image/jpeg"
	"runtime"
	"runtime/metrics"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twelveMegapixels is a phone's photograph of 4000 x 3000 px as it arrives.
func twelveMegapixels() (*scene, []byte) {
	s := careful(12)
	s.width, s.height = 4000, 3000
	return s, s.jpeg()
}

// heapInUse is what the heap holds, in bytes, with what is not collected yet.
func heapInUse() uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

// A photograph of 12 megapixels is opened and traced with less than 250 MB, counting
// what is not collected yet.
func TestMemoryOfTwelveMegapixels(t *testing.T) {
	s, data := twelveMegapixels()
	runtime.GC()
	before, most, done := heapInUse(), uint64(0), make(chan struct{})
	watched := make(chan struct{})
	go func() {
		defer close(watched)
		for {
			select {
			case <-done:
				return
			case <-time.After(time.Millisecond):
				most = max(most, heapInUse())
			}
		}
	}()
	img, err := jpeg.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	requireTraced(t, s, NewPhoto(img, 1))
	close(done)
	<-watched
	megabytes := (float64(most) - float64(before)) / 1e6
	t.Logf("%.0f MB", megabytes)
	assert.Greater(t, megabytes, 10.0, "the photograph alone takes more")
	assert.Less(t, megabytes, 250.0)
}

// On one core, opening included: go test -bench TwelveMegapixels -cpu 1.
func BenchmarkTwelveMegapixels(b *testing.B) {
	s, data := twelveMegapixels()
	for b.Loop() {
		img, err := jpeg.Decode(bytes.NewReader(data))
		if err != nil {
			b.Fatal(err)
		}
		if _, err := Find(NewPhoto(img, 1), Options{EdgeMM: s.stone.edgeMM}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
