package figures

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestRoles(t *testing.T) {
	for _, test := range []struct {
		request, message string
		all              []Figure
		want             []string
	}{
		{"bezel", "strip for a # oval cab it stands # tall in # fine silver", []Figure{{First: 3, Next: 4, Measure: "size", Value: 14, Unit: false}, {First: 8, Next: 9, Measure: "bare", Value: 5, Unit: false}, {First: 11, Next: 12, Measure: "length", Value: 0.4, Unit: true}}, []string{"size", "dome", "thickness"}},
		{"band", "ring size # , # wide and # thick", []Figure{{First: 2, Next: 3, Measure: "ring", Value: 7, Unit: false}, {First: 4, Next: 5, Measure: "length", Value: 4, Unit: true}, {First: 7, Next: 8, Measure: "length", Value: 1.5, Unit: true}}, []string{"ring", "width", "thickness"}},
	} {
		words := strings.Fields(test.message)
		for i, want := range test.want {
			role, chance := Roles(test.request, words, test.all, i).Best()
			assert.Equal(t, want, role, test.message)
			assert.Greater(t, chance, 0.5, test.message)
		}
	}
}

// A figure's features name the words round it with their places, and what it is itself.
func TestFeatures(t *testing.T) {
	near, far, itself := Features("collet", []string{"stone", "is", "#", "deep"}, []Figure{{First: 2, Next: 3, Measure: "length", Value: 4, Unit: true}}, 0)
	assert.Equal(t, 1, near["-1 is"])
	assert.Equal(t, 1, near["+1 deep"])
	assert.Equal(t, 1, far["before stone"])
	assert.Equal(t, 1, itself["kind length!"])
}
