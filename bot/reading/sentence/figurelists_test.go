package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWhichOfSeveral(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ say, says string }{
		{"I've stones of 2.5, 3 and 4 mm and a tube 3.5 outside, 0.5 wall. Which stone goes in?", "Take the 3 mm stone"},
		{"Which tube for a 3 mm round? I have 3.5, 4.5 and 5 outside, all 0.5 wall", "Take the tube of 3.5"},
		{"cabs of 8, 10 and 12 mm and a strip 40 mm long, 0.3 thick. which stone fits best", "The 12 mm stone leaves least"},
		{"stones 4, 5 and 6 mm and a collet 5.4 outside at the top with 0.4 wall, which one suits", "Take the 5 mm stone"},
		{"We need domes 20 across and 5 high. Our disc cutter does 19, 22 and 25, which one?", "Take the 22 mm disc"},
		{"Our discs are 16, 20 and 24 mm. Which for a half ball of 14 mm?", "Take the 20 mm disc and trim it"},
		{"my cutter has discs of 10 and 12 mm, which for a dome 20 wide and 6 high", "None of them is large enough"},
		{"Two domes, 16 mm and 12 mm, both hemispheres, 0.5 mm sterling. discs?", "12 mm across and 6 mm high takes a disc of 16.3 mm"},
		{"two waxes, 1.8 g and 2.4 g, both in 9k yellow, separate flasks", "2.4 g of wax is"},
		{"my disc cutter does 20 mm, how deep will it dome to a half sphere", "14.14 mm across"},
		{"how much do i add to the blank when the rim is 0.15 under, oval 9x7 22 ga", "0.47 mm longer"},
		{"strip lengths for 4, 5, 6 and 8 mm rounds at 0.4mm sheet", "8 mm: 26.4 mm"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Verdict+r.Text, c.says, c.say)
	}
}

func TestListsEndWhereSomethingElseIsSaid(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		say  string
		long []int
	}{
		{"stones of 3, 4 and 5 mm and a tube of 6 mm", []int{3}},
		{"oval 8x6, 0.5 sheet", nil},
		{"discs 16 and 20, domes 12 and 14", []int{2, 2}},
	} {
		var long []int
		m := newMessage(c.say)
		for _, list := range m.lists() {
			long = append(long, len(list))
		}
		assert.Equal(t, c.long, long, c.say)
	}
}
