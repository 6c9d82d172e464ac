package kit

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/requests/words"
	"guildhand/calc/cutting"
	"guildhand/calc/stock"
)

// kitLength is the wire or tube of a kind of piece.
type kitLength struct {
	*kitPiece
	answer.Length
	// letter is the piece's, with a number after its blanks.
	letter string
}

// wholeMM is a piece with what is filed, held and sawn; of a coil one ring.
func (l *kitLength) wholeMM() float64 {
	if l.Rings > 0 {
		return l.EachMM
	}
	return l.EachMM + l.AllowanceMM + l.KerfMM
}

// rings is how many rings the class winds, spares included.
func (l *kitLength) rings() int { return l.count * l.Rings }

// pieces is how many straight pieces or rings there are in all.
func (l *kitLength) pieces() int { return l.count * max(1, l.Rings) }

// coils is how the rings of the class are wound: a coil for every maker, or one
// where their number was given in all.
func (l *kitLength) coils(makers int) []int {
	if l.perMaker == 0 {
		return []int{l.rings()}
	}
	coils := make([]int, makers)
	for i := range coils {
		coils[i] = l.rings() / makers
		if i < l.rings()%makers {
			coils[i]++
		}
	}
	return coils
}

// cuts are the pieces to cut from stock lengths. A coil that no length holds is
// wound from several.
func (l *kitLength) cuts(makers int, lengthMM float64) []float64 {
	if l.Rings == 0 {
		return slices.Repeat([]float64{l.wholeMM()}, l.count)
	}
	var cuts []float64
	for _, rings := range l.coils(makers) {
		cuts = append(cuts, l.wound(rings, lengthMM)...)
	}
	return cuts
}

// wound are the lengths that so many rings are wound from, each with its ends.
func (l *kitLength) wound(rings int, lengthMM float64) []float64 {
	most := max(1, int((lengthMM-l.AllowanceMM)/l.EachMM+1e-9))
	var cuts []float64
	for ; rings > 0; rings -= most {
		cuts = append(cuts, float64(min(rings, most))*l.EachMM+l.AllowanceMM)
	}
	return cuts
}

// perMakerMM is the wire or tube that every maker gets, 0 where the number of
// pieces was given in all.
func (l *kitLength) perMakerMM(lengthMM float64) float64 {
	if l.Rings == 0 {
		return float64(l.perMaker) * l.wholeMM()
	}
	sum := 0.0
	for _, mm := range l.wound(l.perMaker*l.Rings, lengthMM) {
		sum += mm
	}
	return sum
}

// what is the piece in words: "bearing wire of the bezel for an oval 14 x 10 mm".
func (l *kitLength) what() string {
	if len(l.kitPiece.blanks) == 0 {
		return l.kitPiece.name()
	}
	return l.Name + " of the " + l.kitPiece.name()
}

// kitStock is wire or tube of one metal and section, and what is cut from it.
type kitStock struct {
	lengths []*kitLength
	bars    []cutting.Bar
	// needMM is what all pieces take, with what is filed, held and sawn.
	needMM float64
}

func (s *kitStock) alloy() stock.Alloy { return s.lengths[0].alloy }

// name is the stock in words: "sterling silver round wire, 2 mm".
func (s *kitStock) name() string { return s.alloy().Name + " " + s.lengths[0].Stock }

// massG is the mass of so much of it.
func (s *kitStock) massG(mm float64) float64 {
	return stock.MassG(s.lengths[0].SectionMM2*mm, s.alloy().DensityGPerCM3)
}

// piecesG is the mass of the pieces without what is filed, held and sawn.
func (s *kitStock) piecesG() float64 {
	sum := 0.0
	for _, l := range s.lengths {
		sum += float64(l.pieces()) * l.MassG
	}
	return sum
}

func (s *kitStock) pieces() int {
	n := 0
	for _, l := range s.lengths {
		n += l.pieces()
	}
	return n
}

func (s *kitStock) perMakerMM(lengthMM float64) float64 {
	sum := 0.0
	for _, l := range s.lengths {
		sum += l.perMakerMM(lengthMM)
	}
	return sum
}

// lengths are those of all pieces.
func (k *kit) lengths() []*kitLength {
	var list []*kitLength
	for _, p := range k.pieces {
		list = append(list, p.lengths...)
	}
	return list
}

// straight is how many pieces of wire and tube there are in all; a coil's rings
// are pieces too.
func (k *kit) straight() int {
	n := 0
	for _, l := range k.lengths() {
		n += l.pieces()
	}
	return n
}

func (k *kit) barMM() float64 { return k.call.Worded("stocklength").Number }

// share shares the pieces of wire and tube out over stock lengths.
func (k *kit) share() error {
	if err := k.tooManyRings(); err != nil {
		return err
	}
	for _, l := range k.lengths() {
		i := slices.IndexFunc(k.stocks, func(s *kitStock) bool { return s.alloy().Key == l.alloy.Key && s.lengths[0].Stock == l.Stock })
		if i < 0 {
			k.stocks = append(k.stocks, &kitStock{lengths: []*kitLength{l}})
			continue
		}
		k.stocks[i].lengths = append(k.stocks[i].lengths, l)
	}
	for _, s := range k.stocks {
		var cuts []float64
		for _, l := range s.lengths {
			cuts = append(cuts, l.cuts(k.makers, k.barMM())...)
		}
		var err error
		if s.bars, err = cutting.Plan(cuts, k.barMM()); err != nil {
			return k.tooShort(s, err)
		}
		for _, mm := range cuts {
			s.needMM += mm
		}
	}
	return nil
}

// tooManyRings refuses more jump rings than a class winds, with as many as a kit
// holds.
func (k *kit) tooManyRings() error {
	rings := 0
	for _, l := range k.lengths() {
		rings += l.rings()
	}
	if rings <= maxKitRings {
		return nil
	}
	lines := kitLines(k.call.Word("pieces"))
	for i, p := range k.pieces {
		for _, l := range p.lengths {
			if l.Rings > 0 {
				fewer := max(1, l.Rings*(maxKitRings-maxKitPieces)/rings)
				lines[i].typed = p.call.Retyped(map[string]string{"count": strconv.Itoa(fewer), "chain": ""})
			}
		}
	}
	return answer.Refuse(k.try(lines, nil), "%d jump rings in all, spares included, are too many; a kit holds up to %d", rings, maxKitRings)
}

// tooShort words why a piece can't be cut from the stock length, with a length
// that will do for all.
func (k *kit) tooShort(s *kitStock, err error) error {
	var e *cutting.Error
	if !errors.As(err, &e) {
		return err
	}
	need := 0.0
	for _, l := range k.lengths() {
		mm := l.wholeMM()
		if l.Rings > 0 {
			mm += l.AllowanceMM
		}
		need = max(need, mm)
	}
	return answer.Refuse(k.try(kitLines(k.call.Word("pieces")), map[string]string{"stocklength": words.MM(math.Ceil(need/10) * 10)}),
		"one piece of %s takes %s, filing and sawing included; that is more than the stock length of %s", s.name(), words.Length(k.call, e.PieceMM), words.Length(k.call, k.barMM()))
}

// bought is how many stock lengths a kind of wire or tube takes.
func (k *kit) bought(s *kitStock) string {
	return fmt.Sprintf("%s of %s", words.Counted(len(s.bars), "length", "lengths"), words.Length(k.call, k.barMM()))
}

// lengthsWords say in the headline what wire and tube is cut from.
func (k *kit) lengthsWords() string {
	if n := len(k.stocks); n > 2 || n > 1 && len(k.metals) > 0 {
		return fmt.Sprintf("%d sorts of wire and tube (listed in the working)", n)
	}
	var from []string
	for _, s := range k.stocks {
		from = append(from, fmt.Sprintf("%s of %s", words.Length(k.call, upMM(s.needMM)), s.name()))
	}
	return strings.Join(from, " and of ")
}

// lengthList is the cut list of wire and tube.
func (k *kit) lengthList() []string {
	var lines []string
	for _, s := range k.stocks {
		lines = append(lines, fmt.Sprintf("%s: have %s; used is %s, %.2f g, of which %.2f g becomes pieces",
			s.name(), k.bought(s), words.Length(k.call, upMM(s.needMM)), s.massG(s.needMM), s.piecesG()))
		for _, l := range s.lengths {
			lines = append(lines, l.letter+": "+k.lengthLine(l))
		}
	}
	return lines
}

// lengthLine says how one kind of piece is cut.
func (k *kit) lengthLine(l *kitLength) string {
	if l.Rings > 0 {
		coils := l.coils(k.makers)
		each := fmt.Sprintf("%d", coils[0])
		if least := coils[len(coils)-1]; least != coils[0] {
			each = fmt.Sprintf("%d or %d", least, coils[0])
		}
		line := fmt.Sprintf("wind %s of %s for the %s (%s), %s of wire a ring with the saw's %s, and %s for the ends of each coil; together %.2f g",
			words.Counted(len(coils), "coil", "coils"), each, l.what(), shorten(l.typed), words.Length(k.call, l.EachMM), words.Length(k.call, l.KerfMM),
			words.Length(k.call, l.AllowanceMM), l.MassG*float64(l.rings()))
		if float64(coils[0])*l.EachMM+l.AllowanceMM > k.barMM() {
			line += "; a coil longer than the stock is wound from several lengths, each with its ends"
		}
		return line
	}
	return fmt.Sprintf("saw %d for the %s (%s), each %s and %s to file or hold, the saw takes %s; %.2f g, together %.2f g",
		l.count, l.what(), shorten(l.typed), words.Length(k.call, l.EachMM), words.Length(k.call, l.AllowanceMM), words.Length(k.call, l.KerfMM),
		l.MassG, l.MassG*float64(l.count))
}

// makerList is what every maker gets of wire and tube.
func (k *kit) makerList() []string {
	var lines []string
	for _, s := range k.stocks {
		var parts []string
		for _, l := range s.lengths {
			if l.perMaker > 0 {
				parts = append(parts, l.makerWords())
			}
		}
		if len(parts) > 0 {
			lines = append(lines, fmt.Sprintf("%s: %s (%s)", s.name(), words.Length(k.call, upMM(s.perMakerMM(k.barMM()))), strings.Join(parts, ", ")))
		}
	}
	return lines
}

// makerWords count what one maker gets: "2 pieces of A".
func (l *kitLength) makerWords() string {
	if l.Rings > 0 {
		return words.Counted(l.perMaker*l.Rings, "ring", "rings") + " of " + l.letter
	}
	return words.Counted(l.perMaker, "piece", "pieces") + " of " + l.letter
}

// lengthFigures are those of wire and tube; main where they have room.
func (k *kit) lengthFigures(a *answer.Answer) {
	if len(k.stocks) == 0 {
		return
	}
	bars := 0
	var have []string
	for _, s := range k.stocks {
		bars += len(s.bars)
		have = append(have, k.bought(s)+" of "+s.name())
	}
	text := strings.Join(have, " and ")
	if len(have) > 2 {
		text = fmt.Sprintf("%d, of %d sorts", bars, len(have))
	}
	a.Figures = append(a.Figures, answer.Figure{ID: "stock_lengths", Label: "wire and tube to have", Value: float64(bars), Unit: answer.Count, Text: text, Main: true})
	for i, s := range k.stocks {
		id := func(what string) string { return fmt.Sprintf("stock_%d_%s", i+1, what) }
		alone := len(k.metals) == 0 && len(k.stocks) == 1
		of := func(what string) string {
			if alone {
				return what
			}
			return s.name() + ": " + what
		}
		a.Figures = append(a.Figures,
			answer.Figure{ID: id("pieces"), Label: of("pieces"), Value: float64(s.pieces()), Unit: answer.Count, Main: alone},
			answer.Figure{ID: id("length"), Label: of("length for the class"), Value: s.needMM, Unit: answer.MM},
			answer.Figure{ID: id("per_maker"), Label: of("length for each maker"), Value: s.perMakerMM(k.barMM()), Unit: answer.MM, Main: alone && s.perMakerMM(k.barMM()) > 0},
			answer.Figure{ID: id("lengths"), Label: of("stock lengths"), Value: float64(len(s.bars)), Unit: answer.Count},
			answer.Figure{ID: id("stock_length"), Label: of("one stock length"), Value: k.barMM(), Unit: answer.MM},
			answer.Figure{ID: id("mass"), Label: of("mass of the length for the class"), Value: s.massG(s.needMM), Unit: answer.Gram, Main: alone},
			answer.Figure{ID: id("piece_mass"), Label: of("mass of the pieces"), Value: s.piecesG(), Unit: answer.Gram})
	}
	for _, l := range k.lengths() {
		id := "piece_" + strings.ToLower(l.letter)
		a.Figures = append(a.Figures,
			answer.Figure{ID: id + "_count", Label: l.letter + ": " + l.what(), Value: float64(l.pieces()), Unit: answer.Count},
			answer.Figure{ID: id + "_length", Label: l.letter + ": length of one", Value: l.EachMM, Unit: answer.MM},
			answer.Figure{ID: id + "_allowance", Label: l.letter + ": to file or hold", Value: l.AllowanceMM, Unit: answer.MM},
			answer.Figure{ID: id + "_kerf", Label: l.letter + ": kerf of the saw", Value: l.KerfMM, Unit: answer.MM},
			answer.Figure{ID: id + "_mass", Label: l.letter + ": mass of one", Value: l.MassG, Unit: answer.Gram})
	}
}
