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
		{"bezel", "strip for a # oval cab it stands # tall in # fine silver", []Figure{{3, 4, "size", 14, false}, {8, 9, "bare", 5, false}, {11, 12, "length", 0.4, true}}, []string{"size", "dome", "thickness"}},
		{"band", "ring size # , # wide and # thick", []Figure{{2, 3, "ring", 7, false}, {4, 5, "length", 4, true}, {7, 8, "length", 1.5, true}}, []string{"ring", "width", "thickness"}},
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
	near, far, itself := Features("collet", []string{"stone", "is", "#", "deep"}, []Figure{{2, 3, "length", 4, true}}, 0)
	assert.Equal(t, 1, near["-1 is"])
	assert.Equal(t, 1, near["+1 deep"])
	assert.Equal(t, 1, far["before stone"])
	assert.Equal(t, 1, itself["kind length!"])
}
