package casting

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// T. Teague, Santa Fe Symposium, quoted in a bench forum: a ring's inner
// diameter measured 19.95 mm on the model, 19.88 on the wax, 19.63 as cast.
// With the shares of those two steps the factor must lead back to the model.
func TestShrinkageAgainstMeasuredRing(t *testing.T) {
	s := Shrinkage{Wax: 1 - 19.88/19.95, Metal: 1 - 19.63/19.88}
	assert.InDelta(t, 19.95, 19.63*s.Factor(), 1e-9, "model for a casting of 19.63 mm")
	assert.InDelta(t, 1.26, 100*s.Metal, 0.005, "metal's own share, percent")
}
