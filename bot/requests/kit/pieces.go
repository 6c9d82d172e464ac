package kit

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/nesting"
	"guildhand/calc/stock"
)

// chordMM is by how much the polygon that is nested may differ from the blank's
// curved edge; the gap is widened by as much on both sides.
const chordMM = 0.005

// kitPiece is one kind of piece of a kit.
type kitPiece struct {
	// letter marks the piece on the layout: A, B ...
	letter string
	// typed is the piece as asked for, without its number, with what a bench
	// gave it.
	typed string
	count int
	// perMaker is how many every maker gets, 0 where count was given in all.
	perMaker int

	call    *catalogue.Call
	answer  *answer.Answer
	drawing template.Drawing
	// blanks are cut from sheet for each piece, the drawn one first: a bezel has its
	// strip and its back plate.
	blanks []*kitBlank
	// lengths are the wire and tube of each piece.
	lengths []*kitLength
	// solderMM is the length of the joints of one piece, solderMM2 their area.
	solderMM, solderMM2 float64

	alloy stock.Alloy
}

// kitBlank is one blank from sheet of a kind of piece.
type kitBlank struct {
	*kitPiece
	// letter marks the blank on the layout: A, and A2 for the second of a piece.
	letter string
	// part is what a further blank of a piece is, "back plate"; "" for the first.
	part    string
	drawing template.Drawing
	outline []nesting.Point
	areaMM2 float64
	// widthMM and heightMM of the blank's box.
	widthMM, heightMM float64
	// sawMM is what has to be sawn, edges and windows.
	sawMM       float64
	thicknessMM float64
	thickness   string
}

// massG is the mass of one blank as cut.
func (b *kitBlank) massG() float64 {
	return stock.MassG(b.areaMM2*b.thicknessMM, b.alloy.DensityGPerCM3)
}

// name is the blank in words: "back plate of the bezel for an oval stone".
func (b *kitBlank) name() string {
	if b.part == "" {
		return b.kitPiece.name()
	}
	return b.part + " of the " + b.kitPiece.name()
}

// metal is the blank's sheet in words: "22 ga (0.64 mm) sterling silver".
func (b *kitBlank) metal() string { return b.thickness + " " + b.alloy.Name }

// name is the piece in words: "collet blank for an oval stone".
func (p *kitPiece) name() string {
	title := p.drawing.Title
	if title == "" {
		return p.typed
	}
	return strings.ToLower(title[:1]) + title[1:]
}

// kitLine is one line of the text behind pieces.
type kitLine struct {
	// number as typed, "" if none was; each is set for a number per maker.
	number string
	each   bool
	typed  string
}

func (l kitLine) String() string {
	switch {
	case l.number == "":
		return l.typed
	case l.each:
		return l.number + " each " + l.typed
	}
	return l.number + " " + l.typed
}

var (
	// leadingNumber is a number before a piece, with the words that may follow;
	// what is no number after all is refused as one.
	leadingNumber = regexp.MustCompile(`(?i)^([-+]?[0-9.]+|[-+]?[0-9.]\S*?)(?:\s*[x×*])?(\s+(?:each|apiece|per maker))?(?:\s+(?:pieces?|pcs))?(?:\s+of)?\s+`)
	// pointPair begins a line that goes on with the points of the one before.
	pointPair = regexp.MustCompile(`^[-+]?[0-9]*\.?[0-9]+\s*,\s*[-+]?[0-9.]`)
)

// kitLines takes the text of the pieces apart at semicolons, plus signs and
// line ends. Points of a measured outline, which may have semicolons between
// them too, stay together.
func kitLines(text string) []kitLine {
	var parts []string
	begin := 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != ';' && text[i] != '+' && text[i] != '\n' {
			continue
		}
		part := strings.TrimSpace(text[begin:i])
		switch n := len(parts); {
		case part == "":
		case n > 0 && pointPair.MatchString(part):
			parts[n-1] += text[begin-1:begin] + " " + part
		default:
			parts = append(parts, part)
		}
		begin = i + 1
	}
	var lines []kitLine
	for _, p := range parts {
		l := kitLine{typed: p}
		if m := leadingNumber.FindStringSubmatch(p); m != nil {
			l = kitLine{number: m[1], each: m[2] != "", typed: p[len(m[0]):]}
		}
		lines = append(lines, l)
	}
	return lines
}

// joinLines writes lines as they can be typed behind pieces.
func joinLines(lines []kitLine) string {
	words := make([]string, len(lines))
	for i, l := range lines {
		words[i] = l.String()
	}
	return strings.Join(words, " ; ")
}

// try is the kit as typed with other pieces, and options set anew, as a line
// that can be typed.
func (k *kit) try(lines []kitLine, changes map[string]string) string {
	text := joinLines(lines)
	if len(lines) > 0 && lines[0].number != "" {
		text = "pieces " + text // a number there would be read as the makers
	}
	all := map[string]string{"pieces": text}
	for name, value := range changes {
		all[name] = value
	}
	return k.call.Retyped(all)
}

// read reads the pieces and computes each one's blank.
func (k *kit) read(ctx context.Context) error {
	lines := kitLines(k.call.Word("pieces"))
	if len(lines) == 0 {
		return answer.Refuse(k.call.Spec.Example(), "which pieces? a kit holds 1 to %d kinds", maxKitKinds)
	}
	if len(lines) > maxKitKinds {
		return answer.Refuse(k.try(lines[:maxKitKinds], nil), "%d kinds of pieces are too many; a kit holds 1 to %d", len(lines), maxKitKinds)
	}
	counts, err := k.counts(lines)
	if err != nil {
		return err
	}
	for i, l := range lines {
		if err := ctx.Err(); err != nil {
			return err
		}
		k.progress(20*i/len(lines), "blank of "+shorten(l.typed))
		p := &kitPiece{letter: string(rune('A' + i)), typed: l.typed, count: counts[i], perMaker: k.perMaker(l)}
		if err := p.compute(ctx, k.call, k.cutting); err != nil {
			return k.refuse(lines, i, err)
		}
		k.pieces = append(k.pieces, p)
	}
	return nil
}

// perMaker is how many of a line every maker gets, 0 where its number is that of
// the class.
func (k *kit) perMaker(l kitLine) int {
	if l.number == "" {
		return int(k.call.NumberOr("each", 1))
	}
	if n, err := strconv.Atoi(l.number); err == nil && l.each {
		return n
	}
	return 0
}

// settle writes into the kit's line what each piece took from a bench.
func (k *kit) settle() {
	lines := kitLines(k.call.Word("pieces"))
	for i, p := range k.pieces {
		lines[i].typed = p.typed
	}
	k.call.Settle("pieces", catalogue.Value{Text: joinLines(lines)})
}

// counts says how many of each line are cut, with the spares.
func (k *kit) counts(lines []kitLine) ([]int, error) {
	spare := 1 + k.call.Worded("spare").Number/100
	each := int(k.call.NumberOr("each", 1))
	counts, sum := make([]int, len(lines)), 0
	for i, l := range lines {
		n := k.makers * each
		if l.number != "" {
			typed, err := strconv.Atoi(l.number)
			if err != nil || typed < 1 || typed > maxKitPieces {
				mended := slices.Clone(lines)
				mended[i].number, mended[i].each = "", false
				return nil, answer.Refuse(k.try(mended, nil), "%q is not a number of pieces; it is whole, from 1 to %d, or left out for one for every maker", l.number, maxKitPieces)
			}
			if n = typed; l.each {
				n *= k.makers
			}
		}
		counts[i] = int(math.Ceil(float64(n)*spare - 1e-9))
		sum += counts[i]
	}
	if sum > maxKitPieces {
		fewer := slices.Clone(lines)
		for i := range fewer {
			// One of each at the least is allowed for by the twelve kinds.
			n := max(1, counts[i]*(maxKitPieces-maxKitKinds)/sum)
			fewer[i].number, fewer[i].each = strconv.Itoa(n), false
		}
		return nil, answer.Refuse(k.try(fewer, map[string]string{"each": "", "spare": ""}),
			"%d pieces in all, spares included, are too many; a kit holds up to %d", sum, maxKitPieces)
	}
	return counts, nil
}

// refuse words the refusal of a piece, with the whole line mended.
func (k *kit) refuse(lines []kitLine, i int, err error) error {
	r, ok := answer.AsRefusal(err)
	if !ok {
		return err
	}
	which := ""
	if len(lines) > 1 {
		which = fmt.Sprintf("piece %d: ", i+1)
	}
	mended := slices.Clone(lines)
	if before, option := k.misplaced(lines[i].typed); option != "" {
		mended[i].typed = before
		name, value, _ := strings.Cut(option, " ")
		if try := k.try(mended, map[string]string{name: value}); k.works(try) {
			return answer.Refuse(try, "%s%s is an option of the kit; type it before the pieces", which, name)
		}
	}
	try := k.call.Spec.Example()
	if word, _, _ := strings.Cut(r.Try, " "); slices.Contains(k.cutting, word) {
		mended[i].typed = r.Try
		try = k.try(mended, nil)
	}
	return &answer.Refusal{Problem: which + r.Problem, Try: try, Cause: r.Cause}
}

// misplaced finds an option of the kit that was typed behind a piece.
func (k *kit) misplaced(piece string) (before, option string) {
	words := strings.Fields(piece)
	for i := 1; i < len(words)-1; i++ {
		if o, ok := k.call.Spec.Option(strings.ToLower(words[i])); ok && o.Kind != catalogue.Text {
			return strings.Join(words[:i], " "), o.Name + " " + strings.Join(words[i+1:], " ")
		}
	}
	return "", ""
}

func (k *kit) works(line string) bool {
	_, err := k.call.Nested(line)
	return err == nil
}

// compute answers the piece's own request and measures the blank it draws.
func (p *kitPiece) compute(ctx context.Context, c *catalogue.Call, cutting []string) error {
	var err error
	if p.call, err = c.Nested(p.typed); err != nil {
		return err
	}
	name := p.call.Spec.Name
	if !slices.Contains(cutting, name) {
		return answer.Refuse(colletSample, "%s cuts nothing that a kit lays out; a kit holds pieces of %s", name, strings.Join(cutting, ", "))
	}
	if p.answer, err = p.call.Answer(ctx); err != nil {
		return err
	}
	coil := slices.ContainsFunc(p.answer.Lengths, func(l answer.Length) bool { return l.Rings > 0 })
	if n := p.call.Args.Word("count"); n != "" && p.call.Args.Typed("count") && !coil {
		return answer.Refuse(p.call.Retyped(map[string]string{"count": ""}), "count %s belongs before the piece in a kit: type %s before %s, or leave it out for one for every maker", n, n, name)
	}
	p.typed = reading.Echo(p.answer.Line)
	if p.alloy, err = option.AlloyOf(p.call, "alloy"); err != nil {
		return err
	}
	drawn := p.drawn()
	// A drawing of a piece of wire or tube is no blank.
	if p.fromSheet() {
		if err := p.cutFromSheet(drawn); err != nil {
			return err
		}
	}
	for _, l := range p.answer.Lengths {
		letter := p.letter
		if n := len(p.blanks) + len(p.lengths); n > 0 {
			letter += strconv.Itoa(n + 1)
		}
		p.lengths = append(p.lengths, &kitLength{kitPiece: p, Length: l, letter: letter})
		p.solderMM += l.JointMM
		p.solderMM2 += l.JointMM2
	}
	return nil
}

// fromSheet reports whether the piece's drawing is a blank of sheet.
func (p *kitPiece) fromSheet() bool {
	_, asksThickness := p.call.Spec.Option("thickness")
	return asksThickness && (len(p.answer.Lengths) == 0 || p.call.Spec.Name == "bezel")
}

// cutFromSheet measures the blanks of a piece and its joints.
func (p *kitPiece) cutFromSheet(drawn bool) error {
	if !drawn || p.drawing.LengthMM(template.Cut, template.Seam) == 0 {
		return answer.Refuse(colletSample, "%s cuts nothing from sheet this way; a kit holds blanks of sheet, pieces of tube, jump rings and bands of wire", shorten(p.typed))
	}
	// Both ends of the seam are drawn, and it is one joint.
	p.solderMM = p.drawing.LengthMM(template.Seam) / 2
	if p.call.Word("corner") == "scored" {
		p.solderMM += p.drawing.LengthMM(template.Fold)
	}
	p.solderMM2 = p.solderMM * p.call.Number("thickness")
	first := &kitBlank{kitPiece: p, letter: p.letter, drawing: p.drawing, thicknessMM: p.call.Number("thickness"),
		thickness: words.Thickness(p.call, p.call.Value("thickness"))}
	if err := first.measure(); err != nil {
		return err
	}
	p.blanks = []*kitBlank{first}
	for _, part := range p.answer.Parts {
		drawing, ok := part.Scene.(template.Drawing)
		if !ok {
			return fmt.Errorf("the %s of %s has no drawing", part.Name, p.typed)
		}
		b := &kitBlank{kitPiece: p, letter: p.letter + strconv.Itoa(len(p.blanks)+1), part: part.Name,
			drawing: drawing, thicknessMM: part.ThicknessMM, thickness: part.Thickness}
		if err := b.measure(); err != nil {
			return err
		}
		b.areaMM2 -= part.OpenMM2
		p.solderMM += part.JointMM
		p.solderMM2 += part.JointMM * p.call.Number("thickness")
		p.blanks = append(p.blanks, b)
	}
	return nil
}

// measure finds a blank's outline, area, box and saw cut from its drawing.
func (b *kitBlank) measure() error {
	points, err := template.Contour(b.drawing, chordMM)
	if err != nil {
		return fmt.Errorf("the %s: %w", b.name(), err)
	}
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, at := range points {
		b.outline = append(b.outline, nesting.Point{X: at[0], Y: at[1]})
		next := points[(i+1)%len(points)]
		b.areaMM2 += (at[0]*next[1] - next[0]*at[1]) / 2
		low = [2]float64{min(low[0], at[0]), min(low[1], at[1])}
		high = [2]float64{max(high[0], at[0]), max(high[1], at[1])}
	}
	b.widthMM, b.heightMM = high[0]-low[0], high[1]-low[1]
	b.sawMM = b.drawing.LengthMM(template.Cut, template.Seam, template.Waste)
	return nil
}

// colletSample is a piece that works, for lines to try.
const colletSample = "collet oval 8x6 depth 4 sterling 22ga"

// drawn finds the drawing of the piece's answer.
func (p *kitPiece) drawn() bool {
	for _, f := range p.answer.Attachments {
		if d, ok := f.Scene.(template.Drawing); ok {
			p.drawing = d
			return true
		}
	}
	return false
}

// shorten makes a line of a person short enough for a note.
func shorten(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}
