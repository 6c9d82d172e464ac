package sentence

import (
	"fmt"
	"maps"
	"math"
	"strings"
)

// A piece of stock that was weighed is pierced or filed, and a share of it goes: "about 15
// percent will go away, what will remain?".

// goesAway are words of metal that is taken off a piece, and stays of what is left of it.
var (
	goesAway = []string{"away", "off", "lost", "lose", "loses", "loss", "waste", "wasted", "scrap", "cut out", "saw out", "sawn out", "pierce", "pierced", "piercing", "remove", "removed", "filing", "filings", "filed", "drilled", "goes", "comes out", "take out", "taken out"}
	stays    = []string{"left", "remain", "remains", "stays", "keep", "what will it weigh", "what does it weigh"}
	// notTaken are words of a share that is not of the metal.
	notTaken = []string{"more", "longer", "wider", "heavier", "bigger", "discount", "price", "cost", "alloy", "fine", "copper in", "solder", "shrink", "shrinks"}
)

// shareTaken is the share of a piece that a message says is taken off, 0 for none.
func (m *message) shareTaken() float64 {
	if len(m.found) != 1 || m.found[0].measure != percent {
		return 0
	}
	if share := m.found[0].value / 100; share > 0 && share < 1 {
		return share
	}
	return 0
}

// shareLeft tells what is left of the stock that was weighed, once a share of it is taken off.
func (m *message) shareLeft() (Reading, bool) {
	last := m.context.Last
	if last == nil || last.Request != "weigh" || last.Options["collet"] != "" || len(m.alloys) > 0 || !m.says(goesAway...) && !m.says(stays...) || m.says(notTaken...) {
		return Reading{}, false
	}
	share := m.shareTaken()
	if share == 0 {
		return Reading{}, false
	}
	m.useAll()
	piece := Last{Request: last.Request, Options: maps.Clone(last.Options)}
	key := piece.Options["alloy"]
	mm3 := volumeOfStock(piece.Options)
	text := fmt.Sprintf("%s %% off leaves %s %% of the weight above.", plain2(100*share), plain2(100*(1-share)))
	if alloy := alloyOf(key); key != "" && mm3 > 0 && alloy.DensityGPerCM3 > 0 {
		all := mm3 / 1000 * alloy.DensityGPerCM3
		text = fmt.Sprintf("About %.2f g is left of %.2f g of %s: %s %%, with %.2f g gone. Keep the offcuts and filings apart from other metals and from solder.", (1-share)*all, all, alloy.Name, plain2(100*(1-share)), share*all)
	}
	return worked("what is left of a weight", "weight x what is left of it", text)
}

// volumeOfStock is the volume of a piece of stock, mm³, 0 where it is not told whole.
func volumeOfStock(options map[string]string) float64 {
	thick, long := lengthOf(options["thickness"]), lengthOf(options["length"])
	sides := newMessage(options["size"]).quantityOfAny()
	if sides == nil && options["size"] != "" {
		return 0
	}
	two := sides != nil && len(sides.sides) == 2
	switch form := options["form"]; {
	case form == "sheet" && two:
		return sides.sides[0] * sides.sides[1] * thick
	case form == "disc" && sides != nil && !two:
		return math.Pi / 4 * sides.value * sides.value * thick
	case form == "wire" && sides == nil:
		return math.Pi / 4 * thick * thick * long
	case form == "square-wire" && sides == nil:
		return thick * thick * long
	case form == "tube" && two && !strings.Contains(options["size"], "in"):
		outer, wall := sides.sides[0], sides.sides[1]
		return math.Pi * (outer - wall) * wall * long
	}
	return 0
}
