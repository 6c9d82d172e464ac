package requeststest

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/template"
	"guildhand/bot/template/scene"
)

// Drawn is a phone picture as it is read back from its SVG, pixels, y down.
type Drawn struct {
	WidthPx, HeightPx float64
	Lines             []DrawnLine
	Texts             []DrawnText
}

// DrawnLine is a line of a picture, flattened. Class is the name of its role,
// "cut", or "leader", "dimension", "hatching". Period is the length of its
// pattern, 0 of a continuous line.
type DrawnLine struct {
	Class  string
	Path   scene.Path
	Period float64
}

// DrawnText is one line of lettering with the box that its letters take up.
type DrawnText struct {
	Text string
	Em   float64
	Bold bool
	Box  scene.Rect
}

// PictureOf reads an answer's phone picture back; ok is false where the answer
// has none that tells its drawing.
func PictureOf(t testing.TB, a *answer.Answer) (Drawn, bool) {
	t.Helper()
	for _, f := range a.Attachments {
		if d, ok := f.Scene.(template.Drawing); ok {
			return ReadPicture(t, d), true
		}
	}
	return Drawn{}, false
}

// ReadPicture draws the phone picture of d as SVG and reads that.
func ReadPicture(t testing.TB, d template.Drawing) Drawn {
	t.Helper()
	s, err := template.Picture(d)
	require.NoError(t, err)
	data, err := s.SVG(d.Title, d.Alt)
	require.NoError(t, err)
	var doc struct {
		ViewBox string `xml:"viewBox,attr"`
		Paths   []struct {
			Class  string `xml:"class,attr"`
			D      string `xml:"d,attr"`
			Dashes string `xml:"stroke-dasharray,attr"`
		} `xml:"path"`
		Texts []struct {
			X         float64 `xml:"x,attr"`
			Y         float64 `xml:"y,attr"`
			Anchor    string  `xml:"text-anchor,attr"`
			Transform string  `xml:"transform,attr"`
			Em        float64 `xml:"font-size,attr"`
			Weight    string  `xml:"font-weight,attr"`
			Text      string  `xml:",chardata"`
		} `xml:"text"`
	}
	require.NoError(t, xml.Unmarshal(data, &doc))
	var out Drawn
	_, err = fmt.Sscanf(doc.ViewBox, "0 0 %g %g", &out.WidthPx, &out.HeightPx)
	require.NoError(t, err)
	for _, p := range doc.Paths {
		line := DrawnLine{Class: p.Class, Path: SVGPath(t, p.D).Flatten(0.2)}
		for _, word := range strings.Fields(p.Dashes) {
			v, err := strconv.ParseFloat(word, 64)
			require.NoError(t, err)
			line.Period += v
		}
		out.Lines = append(out.Lines, line)
	}
	for _, x := range doc.Texts {
		require.Empty(t, x.Transform, "%q is not level", x.Text)
		text := DrawnText{Text: x.Text, Em: x.Em, Bold: x.Weight == "bold"}
		wide := scene.Lettering{Em: x.Em, Bold: text.Bold}.Width(x.Text)
		left := x.X
		switch x.Anchor {
		case "middle":
			left -= wide / 2
		case "end":
			left -= wide
		}
		text.Box = scene.Rect{X0: left, X1: left + wide, Y0: x.Y - scene.CapHeight*x.Em, Y1: x.Y + scene.Descent*x.Em}
		out.Texts = append(out.Texts, text)
	}
	return out
}

// Lettering is all that is lettered, in one line.
func (p Drawn) Lettering() string {
	var words []string
	for _, x := range p.Texts {
		words = append(words, x.Text)
	}
	return strings.Join(words, " ")
}

// leastEm is the smallest lettering: at half the size, on a phone, its capitals
// are 9 px high.
const leastEm = 2 * 8.95 / scene.CapHeight

// uncut are the classes of lines that neither label nor leader may lie over.
var uncut = map[string]bool{"cut": true, "seam": true, "edge": true}

// Faults are what the picture does against its contract: nothing outside the
// frame, no label over another or over a line to cut, no leader across one,
// every pattern a whole period long, lettering that a phone shows, no word of
// the title alone on a line, a view of the finished piece that shows it, and every
// measure of want there.
func (p Drawn) Faults(want ...string) []string {
	var faults []string
	add := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	frame := scene.Rect{X1: p.WidthPx, Y1: p.HeightPx}
	inside := func(r scene.Rect) bool {
		return r.X0 >= frame.X0 && r.Y0 >= frame.Y0 && r.X1 <= frame.X1 && r.Y1 <= frame.Y1
	}
	var cuts []scene.Path
	for _, l := range p.Lines {
		if r, ok := l.Path.Bounds(); ok && !inside(r) {
			add("frame: a line %q reaches %v", l.Class, r)
		}
		if shortest := l.Path.Shortest(); l.Period > shortest+0.01 {
			add("period: a line %q of %.1f px shows no whole period of %.1f px", l.Class, shortest, l.Period)
		}
		if uncut[l.Class] {
			cuts = append(cuts, l.Path)
		}
	}
	for i, x := range p.Texts {
		if !inside(x.Box) {
			add("frame: %q reaches %v", x.Text, x.Box)
		}
		if x.Em < leastEm {
			add("size: %q is %.1f px", x.Text, x.Em)
		}
		for _, y := range p.Texts[:i] {
			if x.Box.Grow(-0.5).Overlaps(y.Box.Grow(-0.5)) {
				add("overlap: %q lies over %q", x.Text, y.Text)
			}
		}
		for _, cut := range cuts {
			if cut.Clip(x.Box).Length() > 0 {
				add("cut line: %q lies over one", x.Text)
			}
		}
	}
	for _, l := range p.Lines {
		if l.Class == "leader" {
			faults = append(faults, crossings(l.Path, cuts)...)
		}
	}
	faults = append(faults, orphan(p)...)
	all := p.Lettering()
	faults = append(faults, unfinished(p)...)
	for _, w := range want {
		if !strings.Contains(all, w) {
			add("measure: no %q in %q", w, all)
		}
	}
	return faults
}

// crossings are where a leader crosses a line to cut. Its first pixels may lie
// on the line that it names.
func crossings(leader scene.Path, cuts []scene.Path) []string {
	var faults []string
	leader.EachLine(func(a, b scene.Point) {
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		const own = 4 // px
		if l <= own {
			return
		}
		a = scene.Point{X: a.X + own/l*(b.X-a.X), Y: a.Y + own/l*(b.Y-a.Y)}
		for _, cut := range cuts {
			cut.EachLine(func(c, d scene.Point) {
				if scene.Cross(a, b, c, d) {
					faults = append(faults, fmt.Sprintf("leader: one from %.0f, %.0f crosses a line to cut", a.X, a.Y))
				}
			})
		}
	})
	return faults
}

// finishedTitle heads the view of the finished piece.
const finishedTitle = "Finished piece"

// unfinished are the faults of the view of the finished piece, where the picture
// has one: it must show the edges of its metal, in a drawing that is at least 100
// px across at 400 px, and nothing of it may stand above its title.
func unfinished(p Drawn) []string {
	title := slices.IndexFunc(p.Texts, func(x DrawnText) bool { return x.Text == finishedTitle })
	if title < 0 {
		return nil
	}
	var boxes []scene.Rect
	for _, l := range p.Lines {
		if r, ok := l.Path.Bounds(); ok && l.Class == "seen" && r.Y0 >= p.Texts[title].Box.Y0 {
			boxes = append(boxes, r)
		}
	}
	if all := scene.JoinAll(boxes); max(all.W(), all.H()) < 200 {
		return []string{fmt.Sprintf("finished: its view is %.0f x %.0f px", all.W(), all.H())}
	}
	return nil
}

// orphan finds a last line of the title that is much shorter than the others.
func orphan(p Drawn) []string {
	var title []DrawnText
	for _, x := range p.Texts {
		if !x.Bold || len(title) > 0 && x.Em != title[0].Em {
			break
		}
		title = append(title, x)
	}
	if len(title) < 2 {
		return nil
	}
	last, before := title[len(title)-1], title[len(title)-2]
	if last.Box.W() < 0.3*before.Box.W() {
		return []string{fmt.Sprintf("title: %q is left alone on its last line", last.Text)}
	}
	return nil
}
