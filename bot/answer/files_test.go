package answer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/answer"
)

// Each attachment is shown at one time only, and none is left out.
func TestFiles(t *testing.T) {
	a := &answer.Answer{Attachments: []answer.Attachment{
		{Name: "a.pdf", Type: answer.PDF}, {Name: "a.png", Type: answer.PNG}, {Name: "b.png", Type: answer.PNG},
		{Name: "a.svg", Type: answer.SVG}, {Name: "a.csv", Type: "text/csv; charset=utf-8"},
	}}
	names := func(list []answer.Attachment) (names []string) {
		for _, at := range list {
			names = append(names, at.Name)
		}
		return names
	}
	f := a.Files(false)
	assert.Equal(t, "a.png", f.Picture.Name)
	assert.Equal(t, []string{"a.csv"}, names(f.AtOnce))
	assert.Equal(t, []string{"a.pdf"}, names(f.PDF))
	assert.Equal(t, []string{"a.svg"}, names(f.SVG))
	assert.Equal(t, []string{"b.png"}, names(f.Others))

	// What can't be made again goes with the answer.
	fleeting := *a
	fleeting.Fleeting = true
	for _, f := range []answer.FileSet{a.Files(true), fleeting.Files(false)} {
		assert.Equal(t, "a.png", f.Picture.Name)
		assert.Equal(t, []string{"a.pdf", "b.png", "a.svg", "a.csv"}, names(f.AtOnce))
		assert.Empty(t, append(append(f.PDF, f.SVG...), f.Others...))
	}
	assert.Equal(t, answer.FileSet{}, (&answer.Answer{}).Files(false))
}

func TestHasLengths(t *testing.T) {
	for name, test := range map[string]struct {
		figure answer.Figure
		want   bool
	}{
		"length": {answer.Figure{Value: 12, Unit: answer.MM}, true},
		"area":   {answer.Figure{Value: 12, Unit: answer.MM2}, true},
		"mass":   {answer.Figure{Value: 12, Unit: answer.Gram}, false},
		"words":  {answer.Figure{Text: "medium solder", Unit: answer.MM}, false},
	} {
		t.Run(name, func(t *testing.T) {
			a := answer.Answer{Figures: []answer.Figure{test.figure}}
			assert.Equal(t, test.want, a.HasLengths())
		})
	}
}
