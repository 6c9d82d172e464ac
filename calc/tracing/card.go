// Package tracing finds a stone's outline in a photograph of it on the tracing
// card: marks, camera pose and lens, the stone's edge, a smooth closed curve.
//
// Places on the card are in mm from its centre, x to the right and y down, as
// the card is read. Heights are in mm above the card.
package tracing

// Sizes of the card and its parts, mm. A card of this size fits a wallet.
const (
	CardWidthMM  = 85.6
	CardHeightMM = 54.0
	// MarkMM is the side of a corner mark: seven modules of 1 mm, dark and light
	// as 1:1:3:1:1 through its middle.
	MarkMM = 7.0
	// CheckMM is the side of one check of the ring.
	CheckMM = 2.5
	// BarMM is the length of the bar that shows whether the print is full size.
	BarMM = 50.0
)

// Place is a place on the card, mm.
type Place struct{ X, Y float64 }

// Rect is a rectangle on the card, mm.
type Rect struct{ Left, Top, Right, Bottom float64 }

func (r Rect) holds(p Place, marginMM float64) bool {
	return p.X >= r.Left+marginMM && p.X <= r.Right-marginMM && p.Y >= r.Top+marginMM && p.Y <= r.Bottom-marginMM
}

// Zone is a part of the card on which a stone may lie.
type Zone string

// Zones. The black one suits most stones, the white one black and deeply
// coloured ones.
const (
	Black Zone = "black"
	White Zone = "white"
)

// Marks are the centres of the corner marks, clockwise from the top left.
var Marks = [4]Place{{-38.3, -22.5}, {38.3, -22.5}, {38.3, 22.5}, {-38.3, 22.5}}

// Zones are where the zones lie.
var Zones = map[Zone]Rect{
	Black: {-33.5, -19.5, 3.5, 17.5},
	White: {3.5, -19.5, 33.5, 17.5},
}

// Bar is the check bar.
var Bar = Rect{-BarMM / 2, 24.6, BarMM / 2, 25.6}

// band is one side of the ring: checks two rows wide, whose inner corners lie
// along a line.
type band struct {
	from   Place
	dx, dy float64
	count  int
	// first is the sign of the first corner. The signs alternate, and opposite
	// bands have opposite signs, so that a half turn of the card changes all.
	first int
}

var bands = []band{
	{Place{-30, -23}, CheckMM, 0, 25, 1},
	{Place{-30, 21}, CheckMM, 0, 25, -1},
	{Place{-39, -15}, 0, CheckMM, 13, 1},
	{Place{39, -15}, 0, CheckMM, 13, -1},
}

// corner is a point of the ring at which four checks meet. Sign is 1 where the
// checks at its upper left and lower right are black, else -1.
type corner struct {
	at   Place
	sign int
}

func corners() []corner {
	var all []corner
	for _, b := range bands {
		sign := b.first
		for i := range b.count {
			all = append(all, corner{Place{b.from.X + float64(i)*b.dx, b.from.Y + float64(i)*b.dy}, sign})
			sign = -sign
		}
	}
	return all
}

// Checks are the black checks of the ring.
func Checks() []Rect {
	seen := map[Rect]bool{}
	var all []Rect
	for _, c := range corners() {
		x, y := c.at.X, c.at.Y
		pair := [2]Rect{{x - CheckMM, y - CheckMM, x, y}, {x, y, x + CheckMM, y + CheckMM}}
		if c.sign < 0 {
			pair = [2]Rect{{x, y - CheckMM, x + CheckMM, y}, {x - CheckMM, y, x, y + CheckMM}}
		}
		for _, r := range pair {
			if !seen[r] {
				seen[r] = true
				all = append(all, r)
			}
		}
	}
	return all
}

// whites are places of bare paper all round the ring: the middles of its white
// checks.
func whites() []Place {
	seen := map[Place]bool{}
	var all []Place
	for _, c := range corners() {
		h := CheckMM / 2
		pair := [2]Place{{c.at.X + h, c.at.Y - h}, {c.at.X - h, c.at.Y + h}}
		if c.sign < 0 {
			pair = [2]Place{{c.at.X - h, c.at.Y - h}, {c.at.X + h, c.at.Y + h}}
		}
		for _, p := range pair {
			if !seen[p] {
				seen[p] = true
				all = append(all, p)
			}
		}
	}
	return all
}
