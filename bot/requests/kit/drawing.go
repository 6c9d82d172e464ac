package kit

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/nesting"
)

// kitPictures is how many sheets have a picture and an SVG of their own; the
// layout's PDF has them all.
const kitPictures = 4

// kitSheet is one sheet of a kit: its number from 1, and its place in a metal.
type kitSheet struct {
	number int
	metal  *kitMetal
	index  int
}

// everySheet lists the sheets in the order of the cut list.
func (k *kit) everySheet() []kitSheet {
	var list []kitSheet
	for _, m := range k.metals {
		for i := range m.layout.Sheets {
			list = append(list, kitSheet{len(list) + 1, m, i})
		}
	}
	return list
}

// last reports whether the sheet is the one that only a piece is cut off.
func (s kitSheet) last() bool { return s.index == s.metal.layout.Sheets-1 }

// kinds is how many kinds of pieces lie on this sheet.
func (s kitSheet) kinds() int {
	seen := map[int]bool{}
	for _, pl := range s.placements() {
		seen[pl.Piece] = true
	}
	return len(seen)
}

// clearMM is the room for a letter on the slimmest blank of the sheet.
func (s kitSheet) clearMM() float64 {
	least := math.Inf(1)
	for _, pl := range s.placements() {
		_, clear := inside(s.metal.blanks[pl.Piece].outline)
		least = min(least, clear)
	}
	return least
}

func (s kitSheet) placements() []nesting.Placement {
	var list []nesting.Placement
	for _, pl := range s.metal.layout.Placements {
		if pl.Sheet == s.index {
			list = append(list, pl)
		}
	}
	return list
}

// layoutDrawing is a sheet with its blanks at 1:1: of the last sheet only the
// piece that is cut off, its lower left corner at the origin.
func (k *kit) layoutDrawing(s kitSheet) template.Drawing {
	m := s.metal
	width, length, origin := m.sheet.WidthMM, m.sheet.LengthMM, nesting.Point{}
	of := "a whole sheet, " + k.sheetName(m)
	if s.last() {
		width, length, origin = m.usedWidthMM, m.usedLengthMM, m.low
		of = fmt.Sprintf("a piece %s of %s", k.used(m), k.sheetName(m))
	}
	placed := s.placements()
	d := template.Drawing{
		Name:  fmt.Sprintf("%s-sheet-%d", k.fileName(), s.number),
		Title: fmt.Sprintf("Sheet %d of %d: %s", s.number, k.totals().sheets, m.metal()),
		Lines: []string{of + fmt.Sprintf(", %s between blanks", words.Length(k.call, k.gapMM))},
	}
	d.Paths = append(d.Paths, template.Rect("sheet", template.Outline, "", [2]float64{}, [2]float64{width, length}))
	counts := make([]int, len(m.blanks))
	for i, pl := range placed {
		b := m.blanks[pl.Piece]
		counts[pl.Piece]++
		for _, path := range b.onSheet() {
			path = path.Placed(pl.QuarterTurns, pl.X-origin.X, pl.Y-origin.Y)
			path.ID = fmt.Sprintf("blank-%d%s", i+1, path.ID)
			d.Paths = append(d.Paths, path)
		}
		if s.kinds() > 1 {
			middle, _ := inside(b.outline)
			at := pl.Apply([]nesting.Point{middle})[0]
			d.Texts = append(d.Texts, template.Text{At: [2]float64{at.X - origin.X, at.Y - origin.Y}, Text: b.letter})
		}
	}
	var kinds []string
	for i, b := range m.blanks {
		if counts[i] == 0 {
			continue
		}
		line := fmt.Sprintf("%d x %s", counts[i], b.name())
		if len(k.blanks()) > 1 {
			line = b.letter + ": " + line
		}
		d.Lines = append(d.Lines, line)
		kinds = append(kinds, line)
	}
	d.Dimensions = []template.Dimension{
		{A: [2]float64{0, 0}, B: [2]float64{width, 0}, Side: template.Below, Text: words.Length(k.call, width)},
		{A: [2]float64{width, 0}, B: [2]float64{width, length}, Side: template.Right, Text: words.Length(k.call, length)},
	}
	d.Alt = fmt.Sprintf("Blanks nested on sheet %d: %s, on %s.", s.number, strings.Join(kinds, "; "), of)
	return d
}

// onSheet is what is drawn of a blank on the layout: its edge as one line, and
// what is worked on it with the saw, the drill and the bend. Levels and marks
// are on its own template.
func (b *kitBlank) onSheet() []template.Path {
	edge := make([][2]float64, len(b.outline))
	for i, at := range b.outline {
		edge[i] = [2]float64{at.X, at.Y}
	}
	paths := []template.Path{template.Polyline("", template.Cut, "", true, edge...)}
	box := template.Bounds(template.Drawing{Paths: paths})
	for _, path := range b.drawing.Paths {
		// A drawing may show the finished piece beside its blank.
		if at := template.Bounds(template.Drawing{Paths: []template.Path{path}}); at.X0 > box.X1 || at.X1 < box.X0 || at.Y0 > box.Y1 || at.Y1 < box.Y0 {
			continue
		}
		if slices.Contains([]template.Role{template.Fold, template.Waste, template.Drill}, path.Role) {
			path.ID, path.Label = "-"+path.ID, ""
			paths = append(paths, path)
		}
	}
	return paths
}

// inside is a point well inside a polygon: the middle of the longest stretch of
// metal straight up its middle, and that stretch's length.
func inside(polygon []nesting.Point) (at nesting.Point, clearMM float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range polygon {
		low, high = min(low, p.X), max(high, p.X)
	}
	// Off the very middle, where a corner may lie.
	x := low + 0.5003*(high-low)
	var crossings []float64
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.X < x) != (b.X < x) {
			crossings = append(crossings, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
		}
	}
	slices.Sort(crossings)
	at.X = x
	for i := 0; i+1 < len(crossings); i += 2 {
		if l := crossings[i+1] - crossings[i]; l > clearMM {
			at.Y, clearMM = (crossings[i]+crossings[i+1])/2, l
		}
	}
	return at, clearMM
}

// fileName is the base of the kit's file names.
func (k *kit) fileName() string {
	if len(k.pieces) == 1 && k.pieces[0].drawing.Name != "" {
		return fmt.Sprintf("kit-%d-%s", k.makers, k.pieces[0].drawing.Name)
	}
	return fmt.Sprintf("kit-%d-makers-%d-pieces", k.makers, len(k.pieces))
}

// attach adds the files: the picture of the first sheet, the handout, the
// layout to print, the pictures of further sheets, and the layouts as SVG.
func (k *kit) attach(ctx context.Context, a *answer.Answer) {
	paper, _ := template.PaperNamed(k.call.Word("paper")) // A4 where none is asked for
	var pictures, vectors []answer.Attachment
	sheets := k.everySheet()
	drawings := make([]template.Drawing, len(sheets))
	for i, s := range sheets {
		drawings[i] = k.layoutDrawing(s)
		if i >= kitPictures || ctx.Err() != nil {
			continue
		}
		pictures = append(pictures, picture(k.call, glance(drawings[i], s.clearMM()), paper))
		vectors = append(vectors, vector(drawings[i]))
	}
	if len(sheets) == 0 { // wire and tube have no layout; a phone shows the first piece
		pictures = append(pictures, picture(k.call, k.pieces[0].drawing, paper))
	}
	if len(sheets) > kitPictures {
		a.Notes = append(a.Notes, fmt.Sprintf("there are pictures of the first %d sheets; the layout's PDF has all %d", kitPictures, len(sheets)))
	}
	a.Attachments = append(a.Attachments, pictures[:min(1, len(pictures))]...)
	a.Attachments = append(a.Attachments,
		answer.Attachment{
			Name: k.fileName() + "-handout.pdf", Type: "application/pdf",
			Alt: fmt.Sprintf("Handout for the makers, on %s: %s, its template at full size, steps and cautions.", paper, pagesFor(len(k.blanks())+len(k.pieces)-k.piecesOfSheet())),
			Render: func(ctx context.Context) ([]byte, error) {
				return pagesUnlessDone(ctx, k.handout(), paper, words.Foot(k.call))
			},
		},
		answer.Attachment{
			Name: k.fileName() + "-layout.pdf", Type: "application/pdf",
			Alt: k.teacherWords(paper, len(sheets)),
			Render: func(ctx context.Context) ([]byte, error) {
				return pagesUnlessDone(ctx, k.teacherPages(drawings), paper, words.Foot(k.call))
			},
		})
	a.Attachments = append(a.Attachments, pictures[min(1, len(pictures)):]...)
	a.Attachments = append(a.Attachments, vectors...)
}

// piecesOfSheet is how many kinds of pieces are cut from sheet.
func (k *kit) piecesOfSheet() int {
	n := 0
	for _, p := range k.pieces {
		if len(p.blanks) > 0 {
			n++
		}
	}
	return n
}

// teacherWords describe the teacher's pages.
func (k *kit) teacherWords(paper template.Paper, sheets int) string {
	if sheets == 0 {
		return fmt.Sprintf("For the teacher, on %s: the cut list of wire and tube, and the class's cautions.", paper)
	}
	return fmt.Sprintf("For the teacher, on %s: the cut list, the class's cautions, and the layout of %s at full size.", paper, words.Counted(sheets, "sheet", "sheets"))
}

// picture is a layout as PNG. It has no Scene: it is no piece for another kit.
func picture(c *catalogue.Call, d template.Drawing, paper template.Paper) answer.Attachment {
	d.Foot = words.Foot(c)
	files := d.Attachments(paper, func() template.Page { return template.Page{} })
	png := files[slices.IndexFunc(files, func(f answer.Attachment) bool { return f.Type == "image/png" })]
	png.Scene = nil
	return png
}

// vector is a layout as SVG at full size.
func vector(d template.Drawing) answer.Attachment {
	return answer.Attachment{
		Name: d.Name + ".svg", Type: "image/svg+xml", Alt: "Full size, one unit is one millimetre. " + d.Alt,
		Render: func(ctx context.Context) ([]byte, error) {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			return template.SVG(d)
		},
	}
}

// What a phone's picture of a layout can show: it is 752 px wide and 880 px
// high at the most, a letter needs 44 px, and fold lines closer than some
// 8 px/mm are a blur.
const (
	glanceWide, glanceHigh = 752.0, 880.0
	letterPx               = 44.0
	foldPxPerMM            = 8.0
)

// glance is a layout for a phone: where there is no room for a letter on every
// blank, one of each kind has it.
func glance(d template.Drawing, clearMM float64) template.Drawing {
	b := template.Bounds(d)
	pxPerMM := min(glanceWide/b.W(), glanceHigh/b.H())
	if pxPerMM*clearMM < letterPx {
		texts := d.Texts
		d.Texts = nil
		for _, t := range texts {
			if !slices.ContainsFunc(d.Texts, func(u template.Text) bool { return u.Text == t.Text }) {
				d.Texts = append(d.Texts, t)
			}
		}
	}
	if pxPerMM < foldPxPerMM {
		d.Paths = slices.DeleteFunc(slices.Clone(d.Paths), func(p template.Path) bool { return p.Role == template.Fold })
	}
	return d
}

// pagesUnlessDone prints pages unless nobody waits for them any more.
func pagesUnlessDone(ctx context.Context, pages []template.Page, paper template.Paper, foot string) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if entry := answer.EntryOf(ctx); entry > 0 {
		foot += fmt.Sprintf(" Entry %d.", entry)
	}
	return template.PDFPages(pages, paper, foot)
}

// handout has a page for each piece: template, measures, steps, cautions.
func (k *kit) handout() []template.Page {
	var pages []template.Page
	for _, p := range k.pieces {
		heading := p.drawing.Title
		if len(k.blanks())+len(k.lengths()) > 1 {
			heading = p.letter + ". " + heading
		}
		d := p.drawing
		d.Title = heading
		var measures []string
		for _, f := range p.answer.Figures {
			if f.Main {
				measures = append(measures, words.Capital(f.Label)+": "+k.show(f))
			}
		}
		take := append(slices.Clone(p.answer.Cautions), cautions.Lines(cautions.Work{Jobs: []cautions.Job{cautions.Class}})[0])
		page := template.Page{Heading: heading, Drawing: &d, ToFill: []string{"maker, date", "cut", "formed"}, Sections: []template.Section{
			{Title: "Measures", Paragraphs: []string{p.answer.Headline}, Bullets: measures},
			{Title: "Take care", Bullets: append(cautions.InFull(take), cautions.Deferral)},
			{Title: "Steps", Bullets: p.answer.Steps, Numbered: true},
		}}
		if len(p.lengths) > 0 {
			page.Sections = append(page.Sections, template.Section{Title: "Wire and tube", Bullets: k.piecesLengths(p)})
		}
		if heat := p.heat(); len(heat) > 0 {
			page.Sections = append(page.Sections, template.Section{Title: "Heat: " + p.alloy.Name, Bullets: heat})
		}
		if len(p.answer.Notes) > 0 {
			page.Sections = append(page.Sections, template.Section{Title: "Mind", Bullets: p.answer.Notes})
		}
		page.Sections = append(page.Sections, template.Section{Title: "Assumed", Paragraphs: []string{strings.Join(answer.Brief(p.answer.Assumptions), "; ")}})
		pages = append(pages, page)
		pages = append(pages, k.partPages(p)...)
	}
	return pages
}

// piecesLengths are the wire and tube of one kind of piece, for its page.
func (k *kit) piecesLengths(p *kitPiece) []string {
	var lines []string
	for _, l := range p.lengths {
		lines = append(lines, fmt.Sprintf("%s %s: %s", l.alloy.Name, l.Stock, k.lengthLine(l)))
		if mm := l.perMakerMM(k.barMM()); mm > 0 {
			lines = append(lines, fmt.Sprintf("each maker gets %s (%s)", words.Length(k.call, upMM(mm)), l.makerWords()))
		}
	}
	return lines
}

// partPages are the templates of a piece's further blanks.
func (k *kit) partPages(p *kitPiece) []template.Page {
	var pages []template.Page
	for _, b := range p.blanks {
		if b.part == "" {
			continue
		}
		d := b.drawing
		d.Title = b.letter + ". " + d.Title
		pages = append(pages, template.Page{Heading: d.Title, Drawing: &d, Sections: []template.Section{{
			Title:      "Measures",
			Paragraphs: []string{fmt.Sprintf("Cut it from %s: %s, %.2f g.", b.metal(), words.Size(k.call, b.widthMM, b.heightMM), b.massG())},
		}}})
	}
	return pages
}

// heat says how the piece's metal is cooled and soldered, hazards first; a
// maker at the bench has no chat to ask. Nothing for a piece that stays cold.
func (p *kitPiece) heat() []string {
	if !p.does(cautions.Soldering) && !p.does(cautions.Annealing) {
		return nil
	}
	t := treatment.Of(p.alloy)
	lines := []string{words.Capital(treatment.Anneal(p.alloy)) + ". " + t.Why}
	if p.does(cautions.Soldering) {
		lines = append(lines, t.Solder...)
	}
	return append(lines, "the alloy maker's data sheet comes before these figures")
}

// does reports whether a job belongs to the piece's steps.
func (p *kitPiece) does(j cautions.Job) bool { return slices.Contains(p.answer.Jobs, string(j)) }

// show is a figure as the kit's maker wants to read it.
func (k *kit) show(f answer.Figure) string {
	if words.Inches(k.call) && f.Text == "" && f.Unit == answer.MM {
		return f.Display() + " (" + f.DisplayInches() + ")"
	}
	return f.Display()
}

// teacherPages are the cut list with the cautions, then the sheets.
func (k *kit) teacherPages(drawings []template.Drawing) []template.Page {
	first := template.Page{
		Heading: fmt.Sprintf("Kit for %s: what to cut", k.class()),
		Sections: []template.Section{
			{Paragraphs: []string{k.headline()}},
			{Title: "Cut list", Bullets: k.cutList()},
			{Title: "Wire and tube", Bullets: k.lengthList()},
			{Title: "Wire and tube for each maker", Bullets: k.makerList()},
			{Title: "Also have ready", Bullets: k.supplies()},
			{Title: "Before the class", Bullets: append(fullNotes(cautions.Class), cautions.Deferral)},
		},
	}
	first.Sections = slices.DeleteFunc(first.Sections, func(s template.Section) bool { return len(s.Paragraphs)+len(s.Bullets) == 0 })
	for _, j := range k.jobs() {
		first.Sections = append(first.Sections, template.Section{Title: words.Capital(string(j)), Bullets: fullNotes(j)})
	}
	pages := []template.Page{first}
	for i := range drawings {
		pages = append(pages, template.Page{Heading: drawings[i].Title, Drawing: &drawings[i]})
	}
	return pages
}

// fullNotes are the whole notes of a job, worst first.
func fullNotes(j cautions.Job) []string {
	var notes []string
	for _, c := range cautions.OfJob(j) {
		notes = append(notes, c.Full)
	}
	return notes
}

func pagesFor(pieces int) string {
	if pieces == 1 {
		return "a page for the piece"
	}
	return fmt.Sprintf("a page for each of %d blanks", pieces)
}
