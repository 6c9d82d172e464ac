package scene

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
)

// SVG is the scene as a file in which one user unit is one millimetre. Each
// path is one element with its tag as id and class, curves kept as cubics. The
// y axis points down, as SVG has it. Title and desc are for those who do not
// see the drawing.
func (s *Scene) SVG(title, desc string) ([]byte, error) {
	doc := svgFile{
		Width: number(s.Box.W()) + "mm", Height: number(s.Box.H()) + "mm",
		ViewBox: "0 0 " + number(s.Box.W()) + " " + number(s.Box.H()),
		Role:    "img", Labels: "title desc",
		Family: "'DejaVu Sans Condensed','DejaVu Sans',sans-serif",
		Title:  svgNote{"title", Plain(title)}, Desc: svgNote{"desc", Plain(desc)},
	}
	for _, it := range s.items {
		if it.text != nil {
			doc.Items = append(doc.Items, s.svgText(*it.text))
		} else {
			doc.Items = append(doc.Items, s.svgPath(it))
		}
	}
	data, err := xml.Marshal(doc)
	if err != nil {
		return nil, fmt.Errorf("writing the SVG: %w", err)
	}
	return data, nil
}

type svgFile struct {
	XMLName xml.Name `xml:"http://www.w3.org/2000/svg svg"`
	Width   string   `xml:"width,attr"`
	Height  string   `xml:"height,attr"`
	ViewBox string   `xml:"viewBox,attr"`
	Role    string   `xml:"role,attr"`
	Labels  string   `xml:"aria-labelledby,attr"`
	Family  string   `xml:"font-family,attr"`
	Title   svgNote  `xml:"title"`
	Desc    svgNote  `xml:"desc"`
	Items   []any
}

type svgNote struct {
	ID   string `xml:"id,attr"`
	Text string `xml:",chardata"`
}

type svgPath struct {
	XMLName xml.Name `xml:"path"`
	ID      string   `xml:"id,attr,omitempty"`
	Class   string   `xml:"class,attr,omitempty"`
	D       string   `xml:"d,attr"`
	Fill    string   `xml:"fill,attr"`
	Stroke  string   `xml:"stroke,attr,omitempty"`
	Width   string   `xml:"stroke-width,attr,omitempty"`
	Join    string   `xml:"stroke-linejoin,attr,omitempty"`
	Dashes  string   `xml:"stroke-dasharray,attr,omitempty"`
}

func (s *Scene) svgPath(it item) svgPath {
	out := svgPath{ID: it.id, Class: it.layer, D: s.svgData(it.path), Fill: it.ink.hex()}
	if it.line.Width > 0 {
		out.Fill, out.Stroke, out.Width, out.Join = "none", it.ink.hex(), number(it.line.Width), "bevel"
		for _, d := range it.line.Dashes {
			out.Dashes += " " + number(d)
		}
		out.Dashes = strings.TrimPrefix(out.Dashes, " ")
	}
	return out
}

type svgText struct {
	XMLName   xml.Name `xml:"text"`
	X         string   `xml:"x,attr"`
	Y         string   `xml:"y,attr"`
	Anchor    string   `xml:"text-anchor,attr,omitempty"`
	Transform string   `xml:"transform,attr,omitempty"`
	Size      string   `xml:"font-size,attr"`
	Weight    string   `xml:"font-weight,attr,omitempty"`
	Text      string   `xml:",chardata"`
}

func (s *Scene) svgText(t Text) svgText {
	x, y := number(t.At.X-s.Box.X0), number(s.Box.Y1-t.At.Y)
	out := svgText{
		X: x, Y: y, Anchor: []string{"", "middle", "end"}[t.Anchor], Size: number(t.Em), Text: t.Line,
	}
	if t.Angle != 0 {
		out.Transform = "rotate(" + number(-t.Angle) + " " + x + " " + y + ")"
	}
	if t.Bold {
		out.Weight = "bold"
	}
	return out
}

// svgData writes a path as SVG has it.
func (s *Scene) svgData(p Path) string {
	out := make([]byte, 0, 24*len(p))
	pair := func(sign byte, at Point) {
		out = append(out, sign)
		out = appendNumber(out, at.X-s.Box.X0)
		out = append(out, ' ')
		out = appendNumber(out, s.Box.Y1-at.Y)
	}
	for _, seg := range p {
		switch seg.Op {
		case MoveTo:
			pair('M', seg.P)
		case LineTo:
			pair('L', seg.P)
		case CubicTo:
			pair('C', seg.C1)
			pair(' ', seg.C2)
			pair(' ', seg.P)
		case ClosePath:
			out = append(out, 'z')
		}
	}
	return string(out)
}

// number prints to twelve digits: the length of a short edge must be true to
// 1e-7 of itself.
func number(v float64) string { return string(appendNumber(nil, v)) }

func appendNumber(to []byte, v float64) []byte { return strconv.AppendFloat(to, v, 'g', 12, 64) }

func (g Grey) hex() string { return fmt.Sprintf("#%02x%02x%02x", uint8(g), uint8(g), uint8(g)) }
