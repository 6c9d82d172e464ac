package template

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/svg"
)

// SVG draws d at 1:1: one user unit is one millimetre. Each path of d is one
// path element with its id, class and geometry alone, curves kept as cubics;
// ticks and leaders are paths without an id. Title and description are there
// for those who do not see it. The y axis points down, as SVG has it.
func SVG(d Drawing) ([]byte, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	set, err := fonts()
	if err != nil {
		return nil, err
	}
	b := Bounds(d)
	const margin, spare = 2.0, 5 * paperEm
	window := grow(canvas.Rect{X0: b.X0, Y0: b.Y0, X1: b.X1, Y1: b.Y1}, spare)
	s := newScene(d, set, fitting{
		toView: canvas.Identity, window: window, room: window, curves: true,
		pen: paperPen, em: paperEm, tolerance: 0.01, widest: 40,
	})

	// the text under the drawing is no wider than it need be
	text := lettering{set: set, em: paperTextEm}
	heading := lettering{set: set, em: paperTextEm, bold: true}
	wide := max(s.used.W(), 90)
	titles := heading.wrap(d.Title, wide)
	var rows []string
	for _, line := range d.Lines {
		rows = append(rows, text.wrap(line, wide)...)
	}
	rows = append(rows, "1 unit = 1 mm")
	width := max(s.used.W(), heading.widest(titles), text.widest(rows)) + 2*margin
	under := float64(len(titles)+len(rows))*paperTextEm*lineHeight + paperTextEm
	height := s.used.H() + under + 2*margin

	var out bytes.Buffer
	to := svg.New(&out, width, height, &svg.Options{SizeUnits: "mm"})
	pen := brush{to: to, pen: paperPen}
	dx, dy := margin-s.used.X0, margin+under-s.used.Y0
	m := canvas.Identity.Translate(dx, dy)
	for i, p := range d.Paths {
		to.SetClass(styleOf(p.Role).name, pathClass+strconv.Itoa(i))
		pen.line(s.lines[i].Copy().Transform(m), s.styles[i])
	}
	to.SetClass("aid")
	for i := range d.Paths {
		s.drawDecoration(pen, i, m)
	}
	s.drawLabels(pen, dx, dy)
	y := margin + under - paperTextEm
	for _, row := range titles {
		y -= paperTextEm * lineHeight
		pen.write(heading, row, margin, y+paperTextEm*descent, 0, canvas.Left)
	}
	for _, row := range rows {
		y -= paperTextEm * lineHeight
		pen.write(text, row, margin, y+paperTextEm*descent, 0, canvas.Left)
	}
	if err := to.Close(); err != nil {
		return nil, fmt.Errorf("drawing the SVG: %w", err)
	}
	return annotate(out.Bytes(), d, set)
}

// pathClass marks a path element with its number, for annotate to find.
const pathClass = "path-"

// annotate adds what the renderer has no words for: ids of paths, the title and
// description, and a fall-back for a reader without the font. All else is
// copied byte by byte, so that no number is printed anew.
func annotate(src []byte, d Drawing, set *fontSet) ([]byte, error) {
	var out bytes.Buffer
	dec := xml.NewDecoder(bytes.NewReader(src))
	ids := uniqueIDs(d)
	named := 0
	for {
		from := dec.InputOffset()
		token, err := dec.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("reading the drawn SVG: %w", err)
		}
		raw := src[from:dec.InputOffset()]
		start, ok := token.(xml.StartElement)
		if !ok {
			out.Write(raw)
			continue
		}
		switch start.Name.Local {
		case "svg":
			out.Write(bytes.TrimSuffix(raw, []byte(">")))
			out.WriteString(` role="img" aria-labelledby="title desc"><title id="title">`)
			_ = xml.EscapeText(&out, []byte(set.plain(d.Title))) // a buffer never fails
			out.WriteString(`</title><desc id="desc">`)
			_ = xml.EscapeText(&out, []byte(set.plain(d.Alt)))
			out.WriteString(`</desc>`)
		case "path":
			n, marker := pathNumber(start)
			if marker == "" {
				out.Write(raw)
				break
			}
			named++
			raw = bytes.Replace(raw, []byte(marker), nil, 1)
			out.WriteString(`<path id="` + ids[n] + `"`)
			out.Write(bytes.TrimPrefix(raw, []byte("<path")))
		case "text", "tspan":
			out.Write(fontName.ReplaceAll(raw, []byte("px 'DejaVu Sans Condensed','DejaVu Sans',sans-serif")))
		default:
			out.Write(raw)
		}
	}
	want := 0
	for _, p := range d.Paths {
		if !p.canvas().Empty() {
			want++
		}
	}
	if named != want {
		return nil, fmt.Errorf("the SVG names %d of %d paths", named, want)
	}
	return out.Bytes(), nil
}

// fontName is the font in the form that the renderer writes into a style.
var fontName = regexp.MustCompile(`px DejaVuSansCondensed(-Bold)?`)

// pathNumber finds the number of a path element and the class that holds it.
func pathNumber(e xml.StartElement) (int, string) {
	for _, a := range e.Attr {
		if a.Name.Local != "class" {
			continue
		}
		for _, class := range strings.Fields(a.Value) {
			if digits, ok := strings.CutPrefix(class, pathClass); ok {
				if n, err := strconv.Atoi(digits); err == nil {
					return n, " " + class
				}
			}
		}
	}
	return 0, ""
}

// uniqueIDs are the ids of d's paths, fit for XML and each used once: letters,
// digits, dot, dash and underscore, beginning with a letter.
func uniqueIDs(d Drawing) []string {
	used := map[string]bool{"title": true, "desc": true}
	var out []string
	for i, p := range d.Paths {
		id := strings.Map(func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_', r == '.':
				return r
			}
			return '-'
		}, p.ID)
		if id == "" || !(id[0] >= 'a' && id[0] <= 'z' || id[0] >= 'A' && id[0] <= 'Z') {
			id = "p" + strconv.Itoa(i+1) + id
		}
		for base, n := id, 2; used[id]; n++ {
			id = base + "-" + strconv.Itoa(n)
		}
		used[id] = true
		out = append(out, id)
	}
	return out
}
