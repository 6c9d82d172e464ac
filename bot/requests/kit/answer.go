package kit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/cautions"
	"guildhand/bot/requests/treatment"
	"guildhand/bot/requests/words"
	"guildhand/calc/stock"
)

// Estimates of what a class uses up. Common option.Practice, no source.
const (
	// jointMM is the gap that solder fills in a joint.
	jointMM = 0.1
	// solderTimes is how many times what the joint holds is cut: some runs
	// beside it, some falls off, and some joints are done twice.
	solderTimes = 3
)

func (k *kit) headline() string {
	also := ""
	if len(k.stocks) > 0 {
		pieces := fmt.Sprintf("%s from %s", words.Counted(k.straight(), "piece", "pieces"), k.lengthsWords())
		if len(k.metals) == 0 {
			return fmt.Sprintf("Cut for %s: %s.", k.class(), pieces)
		}
		also = ", and " + pieces
	}
	blanks := fmt.Sprintf("%d blanks", k.count())
	if k.count() == 1 {
		blanks = "1 blank"
	}
	if n := len(k.blanks()); n > 1 {
		blanks += fmt.Sprintf(" of %d kinds", n)
	}
	if len(k.metals) > 2 {
		return fmt.Sprintf("Cut %s for %s from %d metals and thicknesses%s; the working says from which.", blanks, k.class(), len(k.metals), also)
	}
	var from []string
	for _, m := range k.metals {
		from = append(from, k.takes(m)+" of "+m.metal())
	}
	return fmt.Sprintf("Cut %s for %s from %s%s.", blanks, k.class(), strings.Join(from, " and "), also)
}

func (k *kit) class() string {
	if k.makers == 1 {
		return "one maker"
	}
	return fmt.Sprintf("%d makers", k.makers)
}

// totals are the sums over all metals.
type totals struct {
	sheets                   int
	usedMM2, piecesMM2       float64
	blanksG, sheetG          float64
	sawMM, solderMM, solderG float64
}

func (k *kit) totals() totals {
	var t totals
	for _, m := range k.metals {
		t.sheets += m.layout.Sheets
		t.usedMM2 += m.usedMM2
		t.piecesMM2 += m.piecesMM2
		t.blanksG += m.massG(m.piecesMM2)
		t.sheetG += m.massG(m.usedMM2)
	}
	for _, b := range k.blanks() {
		t.sawMM += float64(b.count) * b.sawMM
	}
	for _, l := range k.lengths() {
		t.sawMM += float64(l.pieces()) * l.SawMM
	}
	for _, p := range k.pieces {
		t.solderMM += float64(p.count) * p.joinsMM()
		t.solderG += float64(p.count) * p.solderG()
	}
	return t
}

// joinsMM is the length that is soldered on one piece, 0 for a metal that is
// not soldered at the bench.
func (p *kitPiece) joinsMM() float64 {
	if treatment.Of(p.alloy).Joint == treatment.NotSoldered {
		return 0
	}
	return p.solderMM
}

// solderG is the solder to cut for one piece, counted at the density of its
// metal: joint gap times thickness times length, with the allowance.
func (p *kitPiece) solderG() float64 {
	if p.joinsMM() == 0 {
		return 0
	}
	return solderTimes * stock.MassG(p.solderMM2*jointMM, p.alloy.DensityGPerCM3)
}

// blades is how many saw blades the class breaks or wears out.
func (k *kit) blades() float64 {
	return max(float64(min(k.makers, k.count()+k.straight())), math.Ceil(k.totals().sawMM/k.call.Worded("blade").Number))
}

func (k *kit) figures(a *answer.Answer) {
	a.Figures = []answer.Figure{{ID: "pieces", Label: "blanks and pieces, spares included", Value: float64(k.count() + k.straight()), Unit: answer.Count}}
	if len(k.metals) > 0 {
		k.sheetFigures(a)
	}
	k.lengthFigures(a)
	k.cost(a)
	t := k.totals()
	a.Figures = append(a.Figures,
		answer.Figure{ID: "saw_length", Label: "length to saw", Value: t.sawMM, Unit: answer.MM},
		answer.Figure{ID: "blades", Label: "saw blades", Value: k.blades(), Unit: answer.Count},
		answer.Figure{ID: "joint_length", Label: "length of joints to solder", Value: t.solderMM, Unit: answer.MM},
		answer.Figure{ID: "solder_mass", Label: "solder, estimate", Value: t.solderG, Unit: answer.Gram},
		answer.Figure{ID: "makers", Label: "makers", Value: float64(k.makers), Unit: answer.Count},
	)
}

// sheetFigures are those of the blanks and the sheets that they are cut from.
func (k *kit) sheetFigures(a *answer.Answer) {
	t := k.totals()
	sheets := fmt.Sprintf("%d, of %d metals or thicknesses", t.sheets, len(k.metals))
	used := fmt.Sprintf("%.0f cm² in all", t.usedMM2/100)
	if len(k.metals) == 1 {
		m := k.metals[0]
		sheets = fmt.Sprintf("%d of %s", t.sheets, k.sheetName(m))
		used = k.takes(m)
	}
	a.Figures = append(a.Figures, []answer.Figure{
		{ID: "sheets", Label: "sheets to have", Value: float64(t.sheets), Unit: answer.Count, Text: sheets, Main: true},
		{ID: "used_area", Label: "sheet used", Value: t.usedMM2, Unit: answer.MM2, Text: used, Main: used != "" && len(k.metals) > 1},
		{ID: "yield", Label: "of it becomes blanks", Value: 100 * t.piecesMM2 / t.usedMM2, Unit: answer.Percent, Main: true},
		{ID: "blank_mass", Label: "mass of all blanks", Value: t.blanksG, Unit: answer.Gram, Text: fmt.Sprintf("%.2f g, from %.2f g of sheet", t.blanksG, t.sheetG), Main: true},
		{ID: "sheet_mass", Label: "mass of the sheet used", Value: t.sheetG, Unit: answer.Gram},
		{ID: "offcut_mass", Label: "mass of offcuts and filings", Value: t.sheetG - t.blanksG, Unit: answer.Gram},
		{ID: "blank_area", Label: "area of all blanks", Value: t.piecesMM2, Unit: answer.MM2},
	}...)
	for i, m := range k.metals {
		id := func(what string) string { return fmt.Sprintf("metal_%d_%s", i+1, what) }
		of := func(what string) string { return fmt.Sprintf("%s: %s", m.metal(), what) }
		a.Figures = append(a.Figures,
			answer.Figure{ID: id("sheets"), Label: of("sheets"), Value: float64(m.layout.Sheets), Unit: answer.Count, Text: fmt.Sprintf("%d of %s", m.layout.Sheets, k.sheetName(m))},
			answer.Figure{ID: id("used_width"), Label: of("last sheet, width used"), Value: m.usedWidthMM, Unit: answer.MM},
			answer.Figure{ID: id("used_length"), Label: of("last sheet, length used"), Value: m.usedLengthMM, Unit: answer.MM},
			answer.Figure{ID: id("yield"), Label: of("becomes blanks"), Value: 100 * m.piecesMM2 / m.usedMM2, Unit: answer.Percent},
			answer.Figure{ID: id("blank_mass"), Label: of("mass of blanks"), Value: m.massG(m.piecesMM2), Unit: answer.Gram},
			answer.Figure{ID: id("sheet_mass"), Label: of("mass of sheet used"), Value: m.massG(m.usedMM2), Unit: answer.Gram})
	}
	for _, b := range k.blanks() {
		id := "piece_" + strings.ToLower(b.letter)
		a.Figures = append(a.Figures,
			answer.Figure{ID: id + "_count", Label: b.letter + ": " + b.name(), Value: float64(b.count), Unit: answer.Count},
			answer.Figure{ID: id + "_area", Label: b.letter + ": area of one blank", Value: b.areaMM2, Unit: answer.MM2},
			answer.Figure{ID: id + "_mass", Label: b.letter + ": mass of one blank", Value: b.massG(), Unit: answer.Gram})
	}
}

// cost adds what the sheet used costs, or says why it does not. Prices never
// come from the network.
func (k *kit) cost(a *answer.Answer) {
	var currencies, dates, unpriced []string
	sum, perGram := 0.0, map[float64]bool{}
	for _, u := range k.usedMetals() {
		price, ok := stock.Price{}, false
		if k.call.Shop != nil {
			price, ok = k.call.Shop.PriceOf(u.alloy.Key)
		}
		if !ok {
			unpriced = append(unpriced, u.alloy.Name)
			continue
		}
		perGram[price.PerGram] = true
		sum += price.PerGram * u.massG
		currencies, dates = append(currencies, price.Currency), append(dates, price.Date)
	}
	for _, list := range []*[]string{&currencies, &dates, &unpriced} {
		slices.Sort(*list)
		*list = slices.Compact(*list)
	}
	switch {
	case len(unpriced) > 0:
		a.Notes = append(a.Notes, words.NoPrice(strings.Join(unpriced, " and ")))
		return
	case len(currencies) > 1:
		a.Notes = append(a.Notes, "the prices of these metals are in "+strings.Join(currencies, " and ")+", so there is no total")
		return
	}
	how := "prices of " + strings.Join(dates, " and ")
	if len(k.usedMetals()) == 1 {
		for price := range perGram {
			how = fmt.Sprintf("at %g a gram, price of %s", price, dates[0])
		}
	}
	if k.call.Shop.Demo {
		how += " (invented)"
	}
	a.Figures = append(a.Figures, answer.Figure{
		ID: "cost", Label: "cost of the " + k.usedWords() + " used in " + currencies[0], Value: sum, Unit: answer.Money, Text: fmt.Sprintf("%.2f, %s", sum, how), Main: true,
	})
}

// usedMetal is a mass of metal that is bought and cut into.
type usedMetal struct {
	alloy stock.Alloy
	massG float64
}

// usedMetals are the sheet, the wire and the tube that the class uses.
func (k *kit) usedMetals() []usedMetal {
	var list []usedMetal
	for _, m := range k.metals {
		list = append(list, usedMetal{m.alloy(), m.massG(m.usedMM2)})
	}
	for _, s := range k.stocks {
		list = append(list, usedMetal{s.alloy(), s.massG(s.needMM)})
	}
	return list
}

// usedWords name what is used.
func (k *kit) usedWords() string {
	switch {
	case len(k.stocks) == 0:
		return "sheet"
	case len(k.metals) == 0:
		return "wire and tube"
	}
	return "sheet, wire and tube"
}

// notes are the warnings about single pieces; what several share is said once.
func (k *kit) notes(a *answer.Answer) {
	a.Notes = append(a.Notes, k.shared(func(p *kitPiece) []string {
		// The kit's own cost says it for all.
		return slices.DeleteFunc(slices.Clone(p.answer.Notes), func(note string) bool { return note == words.NoPrice(p.alloy.Name) })
	})...)
	for _, u := range k.usedMetals() {
		if note := u.alloy.Name + " is not soldered at the bench: no solder is counted for it"; treatment.Of(u.alloy).Joint == treatment.NotSoldered && !slices.Contains(a.Notes, note) {
			a.Notes = append(a.Notes, note)
		}
	}
}

// shared merges lines of all pieces: one that all have is said once, the
// others with the letters of their pieces.
func (k *kit) shared(of func(*kitPiece) []string) []string {
	var order []string
	letters := map[string][]string{}
	for _, p := range k.pieces {
		for _, line := range of(p) {
			if letters[line] == nil {
				order = append(order, line)
			}
			if !slices.Contains(letters[line], p.letter) {
				letters[line] = append(letters[line], p.letter)
			}
		}
	}
	for i, line := range order {
		if n := len(letters[line]); n < len(k.pieces) {
			order[i] = strings.Join(letters[line], ", ") + ": " + line
		}
	}
	return order
}

func (k *kit) assumptions() []string {
	c := k.call
	var lines []string
	if c.Worded("spare").Number == 0 {
		lines = append(lines, "no spare blanks (\"spare 10\" adds ten in the hundred)")
	}
	if len(k.stocks) > 0 && !c.Args.Typed("stocklength") {
		lines = append(lines, fmt.Sprintf("wire and tube in lengths of %s (common practice, no source)", words.Length(c, k.barMM())))
	}
	if len(k.metals) > 0 && !c.Args.Has("sheet") && !c.Args.Has("stock") {
		if c.Shop == nil || len(c.Shop.Sheets) == 0 {
			lines = append(lines, fmt.Sprintf("cut from sheets of %s (default; the workshop lists none)", words.Size(c, usualSheet.WidthMM, usualSheet.LengthMM)))
		} else {
			from := "the listed sheet that wastes least metal"
			if c.Shop.Demo {
				from += " (the list is an invented example)"
			}
			lines = append(lines, from)
		}
	}
	lines = append(lines, fmt.Sprintf("a blade for every maker and %s of cut, solder for %d joints of %s (rough: common practice, no source)",
		words.Length(c, c.Worded("blade").Number), solderTimes, words.Length(c, jointMM)))
	all := k.shared(func(p *kitPiece) []string { return p.answer.Assumptions })
	if len(k.pieces) == 1 {
		return append(lines, all...)
	}
	left := false
	for _, line := range all {
		if k.ofOne(line) && !strings.Contains(line, "estimate") && !strings.Contains(line, "bench)") {
			left = true
			continue
		}
		lines = append(lines, line)
	}
	if left {
		lines = append(lines, "the handout has the rest, on each piece's page")
	}
	return lines
}

// ofOne reports whether a shared line is not of all pieces.
func (k *kit) ofOne(line string) bool {
	return slices.ContainsFunc(k.pieces, func(p *kitPiece) bool {
		return strings.HasPrefix(line, p.letter+": ") || strings.HasPrefix(line, p.letter+", ")
	})
}

// cautions are the worst of its pieces', what depends on their metal or stone,
// and the class's own. The handout and the teacher's pages have them all.
func (k *kit) cautions() []string {
	carried := map[string]bool{}
	for _, p := range k.pieces {
		for _, line := range p.answer.Cautions {
			carried[line] = true
		}
	}
	var ofPieces, general []string
	for _, c := range cautions.All() {
		switch {
		case !carried[c.Short]:
		case c.OfThisPiece() || len(ofPieces)+len(general) == 0:
			ofPieces = append(ofPieces, c.Short)
		default:
			general = append(general, c.Short)
		}
	}
	lines := append(ofPieces, cautions.Lines(cautions.Work{Jobs: []cautions.Job{cautions.Class}})[0])
	lines = append(lines, general...)
	return lines[:min(len(lines), cautions.MostShown)]
}

// jobs are what the makers do with their blanks, worst hazards first. All
// blanks are sawn out.
func (k *kit) jobs() []cautions.Job {
	var jobs []cautions.Job
	for _, j := range cautions.Jobs() {
		asked := j == cautions.Saw
		for _, p := range k.pieces {
			asked = asked || p.does(j)
		}
		if asked {
			jobs = append(jobs, j)
		}
	}
	return jobs
}

// steps are the cut list and how to cut it.
func (k *kit) steps(a *answer.Answer) {
	a.Steps = slices.Concat(k.cutList(), k.lengthList(), k.eachMaker(), k.supplies())
	if len(k.metals) == 0 {
		a.Steps = append(a.Steps, "the handout has a page for each piece, with its drawing, steps and cautions")
		return
	}
	a.Steps = append(a.Steps,
		"print the layout at full size, measure its check bars, glue it on the sheet and saw every blank outside its lines; the handout has a page for each piece, with its template, steps and cautions",
		fmt.Sprintf("the layout keeps %s between blanks and to the edge of the sheet; every blank lies as drawn or turned by quarters, whatever the grain", words.Length(k.call, k.gapMM)))
}

// cutList says for every metal what is cut from it.
func (k *kit) cutList() []string {
	var lines []string
	for _, m := range k.metals {
		lines = append(lines, fmt.Sprintf("%s: have %d of %s; used is %s, %.1f g, of which %.1f %% becomes blanks",
			m.metal(), m.layout.Sheets, k.sheetName(m), k.takes(m), m.massG(m.usedMM2), 100*m.piecesMM2/m.usedMM2))
		for _, b := range m.blanks {
			lines = append(lines, fmt.Sprintf("%s: cut %d of the %s (%s), each %s and %.2f g, together %.2f g",
				b.letter, b.count, b.name(), shorten(b.typed), words.Size(k.call, b.widthMM, b.heightMM), b.massG(), b.massG()*float64(b.count)))
		}
	}
	return lines
}

// eachMaker is the wire and tube of one maker as a step.
func (k *kit) eachMaker() []string {
	if list := k.makerList(); len(list) > 0 {
		return []string{"each maker gets " + strings.Join(list, "; ")}
	}
	return nil
}

// supplies are the estimates of what is used up.
func (k *kit) supplies() []string {
	t := k.totals()
	lines := []string{fmt.Sprintf("saw blades: %.0f, for %.2f m of cut (estimate, common practice, no source); take a blade with three teeth or more in the metal", k.blades(), t.sawMM/1000)}
	if t.solderMM > 0 {
		lines = append(lines, fmt.Sprintf("hard solder that suits the metal: about %.2f g for %.2f m of joint, %d times thickness x %s gap x length (estimate, common practice, no source)",
			t.solderG, t.solderMM/1000, solderTimes, words.Length(k.call, jointMM)))
	}
	return lines
}
