package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/casting"
	"guildhand/calc/units"
)

// What a piece or a ball weighs, where no request works it out.

// castingWords tell that a piece is a model to be cast, which wants a button besides.
var castingWords = []string{"wax", "cast", "casting", "casts", "button", "sprue", "crucible", "master", "pattern", "model", "melt", "pour", "flask", "investment", "delft", "mould", "mold", "alloy it", "scrap", "grain", "refine"}

// massSource is where a mass by volume or by densities comes from.
const massSource = "mass = volume x density; densities as the answers have them"

// sameInOtherMetal tells what a finished piece would weigh in other metals: "the band weighs
// 4.83 g in sterling, what would it be in platinum?"
func (m *message) sameInOtherMetal() (Reading, bool) {
	if len(m.alloys) < 2 || len(m.alloys) > 4 || m.has("wax") || m.says(castingWords...) || m.says("mix", "together", "add", "solder") || m.context.Last != nil {
		return Reading{}, false
	}
	if !m.says("=same", "identical", "what if", "whats it", "what would", "what about", "how much would", "how heavy", "weigh", "weighs", "weight", "remade", "remake", "what will", "instead") {
		return Reading{}, false
	}
	piece, stone := m.pieceWithStone()
	if piece == nil || piece.value <= stone || !strings.ContainsAny(piece.typed(m), "0123456789") {
		return Reading{}, false
	}
	of := m.nearestMetal(piece)
	if of == nil || of.likeliestKey() == "" {
		return Reading{}, false
	}
	var told []string
	for _, a := range m.alloys {
		key := a.likeliestKey()
		if key == "" {
			return Reading{}, false
		}
		if key == of.likeliestKey() {
			continue
		}
		grams := (piece.value-stone)*alloyOf(key).DensityGPerCM3/alloyOf(of.likeliestKey()).DensityGPerCM3 + stone
		told = append(told, fmt.Sprintf("%.1f g (%.2f dwt) in %s", grams, grams/units.GramPerPennyweight, alloyName(key)))
	}
	if len(told) == 0 {
		return Reading{}, false
	}
	beside := ""
	if stone > 0 {
		beside = fmt.Sprintf(" The stone, %.2f g, is taken off before and added again.", stone)
	}
	return worked("mass in another metal", massSource,
		fmt.Sprintf("The same piece, %s in %s, would weigh %s.%s To cast it from this one as a model, ask melt for the button and the shrinkage.", strings.TrimSpace(piece.typed(m)), alloyName(of.likeliestKey()), strings.Join(told, ", "), beside))
}

// pieceWithStone is the one mass of a message, and the mass of the stone that is in it, in
// grams; nil where there is another figure.
func (m *message) pieceWithStone() (piece *quantity, stone float64) {
	for _, q := range m.found {
		switch {
		case q.measure == mass && piece == nil:
			piece = q
		case q.measure == carat && m.says("stone", "stones", "garnet", "diamond", "sapphire", "ruby", "opal", "amethyst", "including"):
			stone += q.value * units.GramPerCarat
		case q.measure == size && m.of(carat) != nil: // of the same stone
		case (q.measure == bare || q.measure == mass) && m.saysOneBetween(max(0, q.first-3), q.first, "to", "within"): // how finely the scale reads
		default:
			return nil, 0
		}
	}
	return piece, stone
}

// severalMetals reports whether a mass is wanted in several metals, or of a piece with its
// stone: in one it is reckoned by melt too.
func (m *message) severalMetals() (Reading, bool) {
	if len(m.alloys) < 3 && m.of(carat) == nil {
		return Reading{}, false
	}
	return m.sameInOtherMetal()
}

// ballWords name what is a whole ball.
var ballWords = []string{"ball", "balls", "bead", "beads", "sphere", "spheres", "granule", "granules", "granulation", "shot"}

// ballWeighed tells what balls weigh, solid or hollow.
func (m *message) ballWeighed() (Reading, bool) {
	a := m.metal()
	if a == nil || a.likeliestKey() == "" || len(m.alloys) != 1 || !m.says(ballWords...) || m.says("half ball", "half a ball", "dome", "domes", "disc", "discs") || m.chance("weigh") < surelyWeighs && !m.says("weigh", "weighs", "weight", "mass", "how heavy") || m.context.Last != nil {
		return Reading{}, false
	}
	many, across, wall := m.figuresOfBall()
	if across == nil || wall == nil && m.says("hollow") {
		return Reading{}, false
	}
	if many == 1 && m.says("pair") {
		many = 2
	}
	d, thick := across.value, 0.0
	if wall != nil {
		if thick = thicknessOf(wall); thick > d {
			d, thick = thick, d
		}
	}
	return m.ballTold(a.likeliestKey(), d, thick, many)
}

// mostBallMM is how wide a solid ball may be that is made by the number.
const mostBallMM = 20

// ballsOfMass tells how many solid balls a mass of metal makes.
func (m *message) ballsOfMass() (Reading, bool) {
	if len(m.alloys) != 1 || m.alloys[0].likeliestKey() == "" || !m.says(ballWords...) || !m.says("how many") || m.says("hollow") || m.context.Last != nil {
		return Reading{}, false
	}
	var heap, across *quantity
	for _, q := range m.found {
		switch {
		case heap == nil && (q.measure == mass || q.measure == gauge && strings.HasSuffix(q.typed(m), "g")): // "10g" may be either
			heap = q
		case (q.measure == length || q.measure == bare) && across == nil && q.value > 0 && q.value <= mostBallMM:
			across = q
		default:
			return Reading{}, false
		}
	}
	if heap == nil || across == nil {
		return Reading{}, false
	}
	alloy := alloyOf(m.alloys[0].likeliestKey())
	one := math.Pi / 6 * math.Pow(across.value, 3) / 1000 * alloy.DensityGPerCM3
	return worked("balls of a mass", massSource,
		fmt.Sprintf("%s of %s make %.0f solid balls of %s, if nothing is lost: one weighs %.3g g, which is %.4g mm³. Weigh one piece, melt it and measure the ball before you cut the rest.",
			strings.TrimSpace(heap.typed(m)), alloy.Name, math.Floor(heap.value/one+1e-9), mm(across.value), one, one*1000/alloy.DensityGPerCM3))
}

// figuresOfBall are how many balls a message tells of, how wide they are and their wall.
func (m *message) figuresOfBall() (many float64, across, wall *quantity) {
	many = 1
	m.numbersInWords()
	for _, q := range m.found {
		behind := m.at(q.next).text
		counts := q.measure == count || q.late && q.value >= 2 || q.measure == bare && q.value == math.Trunc(q.value) && (slices.Contains(ballWords, behind) || slices.Contains([]string{"pieces", "pcs", "off", "x", "of", "small", "little", "tiny", "hollow", "solid"}, behind))
		switch {
		case counts && many == 1:
			many = q.value
		case q.measure == gauge && wall == nil:
			wall = q
		case q.measure != length && q.measure != bare:
			return 0, nil, nil
		case across == nil:
			across = q
		case wall == nil:
			wall = q
		default:
			return 0, nil, nil
		}
	}
	return many, across, wall
}

// ballTold is the mass of balls of a diameter and a wall in mm, 0 for solid ones.
func (m *message) ballTold(metal string, d, wall, many float64) (Reading, bool) {
	mm3, how := math.Pi/6*d*d*d, fmt.Sprintf("a solid ball of %s", mm(d))
	if wall > 0 {
		if 2*wall >= d {
			return Reading{}, false
		}
		in := d - 2*wall
		mm3 -= math.Pi / 6 * in * in * in
		how = fmt.Sprintf("a hollow ball of %s with a wall of %s", mm(d), mm(wall))
	}
	alloy := alloyOf(metal)
	one := mm3 / 1000 * alloy.DensityGPerCM3
	text := fmt.Sprintf("%s of %s weighs %.3g g: %.4g mm³ at %.2f g/cm³.", sentenceCase(how), alloy.Name, one, mm3, alloy.DensityGPerCM3)
	if many > 1 {
		text += fmt.Sprintf(" %s of them weigh %.2f g (%.2f dwt).", plain(many), many*one, many*one/units.GramPerPennyweight)
	}
	return worked("mass of balls", massSource, text)
}

// densityAsked tells the density that is reckoned with, of a metal or of wax.
func (m *message) densityAsked() (Reading, bool) {
	asks := m.says("density", "densities", "specific gravity", "wax factor", "sg")
	if !asks || m.of(mass, size, gauge) != nil || !m.says("you", "your") || !m.says("what", "whats", "which", "do you", "does your", "are you", "you using", "you use", "assume", "is it") || m.context.Last != nil {
		return Reading{}, false
	}
	if m.has("wax") || m.says("wax") {
		return worked("density of wax", "O. Untracht: carving and injection wax",
			fmt.Sprintf("I take %.2f g/cm³ for wax, carving and injection wax without filler, so sterling weighs %.1f times the wax. Wax that floats is below 1.00. If yours differs, say so: melt wax 2 g sterling wax-density 0.93.", casting.WaxDensityGPerCM3, alloyOf("sterling").DensityGPerCM3/casting.WaxDensityGPerCM3))
	}
	var told []string
	for _, a := range m.alloys {
		if key := a.likeliestKey(); key != "" && !m.says("resin", "print") {
			told = append(told, fmt.Sprintf("%.2f g/cm³ for %s", alloyOf(key).DensityGPerCM3, alloyName(key)))
		}
	}
	if len(told) == 0 {
		return Reading{}, false
	}
	return worked("density of a metal", "handbook densities", fmt.Sprintf("I take %s. Tables differ by a percent, since alloys do and since rolled metal is denser than cast: on 10 g that is 0.1 g.", strings.Join(told, " and ")))
}
