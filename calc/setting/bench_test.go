//go:build unix

package setting

import (
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
)

// BenchmarkLay computes a collet of every outline, the check of the solid and all
// included. The microseconds are those of all processors together, which other work
// on the machine changes little:
//
//	go test -tags goolm -run '^$' -bench Lay -benchtime 2000x ./calc/setting
func BenchmarkLay(b *testing.B) {
	for _, kind := range drawn() {
		for _, taper := range []Taper{Even, ApexCone, BaseGiven} {
			curve, err := outline.New(shapeOf(kind, 7, 1))
			require.NoError(b, err)
			s := specOf(curve, 1, 0.8, 8.5, taper)
			if taper == BaseGiven {
				s.Base, s.BaseFollows = stone(b, outline.Round, 0, 3), true
				if !curve.Convex() {
					s.Base = curve
				}
			}
			if _, err := Lay(s); err != nil {
				continue
			}
			b.Run(string(kind)+"/"+string(taper), func(b *testing.B) {
				runtime.GC()
				before := processorTime(b)
				for b.Loop() {
					_, _ = Lay(s)
				}
				b.ReportMetric(float64((processorTime(b)-before).Microseconds())/float64(b.N), "µs-processor")
				b.ReportMetric(0, "ns/op")
			})
		}
	}
}

func processorTime(b *testing.B) time.Duration {
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
