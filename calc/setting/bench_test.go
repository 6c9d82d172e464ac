package setting

import (
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
)

// BenchmarkLay computes a collet of every outline, the check of the solid and all
// included: go test -bench Lay -run '^$' ./calc/setting
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
				for b.Loop() {
					_, _ = Lay(s)
				}
			})
		}
	}
}
