package stone

import "strings"

// Gem is a gemstone of the trade.
type Gem struct {
	// Key is the canonical word, "sapphire"; Aliases are other names.
	Key     string
	Aliases []string
	// SpecificGravity with its published range.
	SpecificGravity, LowSG, HighSG float64
	// RoundFactor is the gem's own factor in the weight of a round, its specific
	// gravity included; 0 for most, which take the outline's.
	RoundFactor float64
	// Heat is how well it survives a torch nearby.
	Heat Heat
	// HeatNote is what goes wrong.
	HeatNote string
}

// Heat is how well a stone survives heat. Take out even the best if you can.
type Heat string

// How stones survive heat.
const (
	// Never: a torch nearby ruins the stone.
	Never Heat = "never"
	// Risky: stones of this kind are lost to heat again and again.
	Risky Heat = "risky"
	// Bears: experienced bench workers heat it set, at the owner's risk.
	Bears Heat = "bears some heat"
)

// gems: specific gravities from the gemmological society's table of physical
// properties (ranges) and a bench forum's table (single values); how they bear
// heat is common practice, no source. The round factor of diamond is from the
// jewellers' tables of outline.CaratFormula.
var gems = []Gem{
	{Key: "diamond", SpecificGravity: 3.52, LowSG: 3.51, HighSG: 3.53, RoundFactor: 0.0061, Heat: Bears, HeatNote: "burns at the surface in air at red heat unless it is covered, and fracture filling is destroyed"},
	{Key: "ruby", Aliases: []string{"corundum"}, SpecificGravity: 4.00, LowSG: 3.97, HighSG: 4.03, Heat: Bears, HeatNote: "borax and flux etch it, glass-filled stones are destroyed, sudden cooling cracks it"},
	{Key: "sapphire", SpecificGravity: 4.00, LowSG: 3.97, HighSG: 4.03, Heat: Bears, HeatNote: "borax and flux etch it, diffused and heated colours may change, sudden cooling cracks it"},
	{Key: "garnet", SpecificGravity: 3.84, LowSG: 3.40, HighSG: 4.25, Heat: Risky, HeatNote: "cracks when heated or cooled unevenly"},
	{Key: "chrysoberyl", Aliases: []string{"alexandrite"}, SpecificGravity: 3.73, LowSG: 3.70, HighSG: 3.78, Heat: Risky, HeatNote: "cracks when heated unevenly"},
	{Key: "spinel", SpecificGravity: 3.60, LowSG: 3.58, HighSG: 3.63, Heat: Risky, HeatNote: "may lose colour or crack"},
	{Key: "topaz", SpecificGravity: 3.54, LowSG: 3.53, HighSG: 3.56, Heat: Never, HeatNote: "cleaves, and pink and coated stones lose their colour"},
	{Key: "tanzanite", SpecificGravity: 3.35, LowSG: 3.35, HighSG: 3.35, Heat: Never, HeatNote: "cracks with any quick change of temperature"},
	{Key: "peridot", SpecificGravity: 3.34, LowSG: 3.27, HighSG: 3.48, Heat: Never, HeatNote: "cracks, and acid attacks it"},
	{Key: "kunzite", Aliases: []string{"spodumene"}, SpecificGravity: 3.18, LowSG: 3.18, HighSG: 3.18, Heat: Never, HeatNote: "cleaves and loses its colour"},
	{Key: "tourmaline", SpecificGravity: 3.06, LowSG: 2.84, HighSG: 3.10, Heat: Never, HeatNote: "cracks along inclusions and changes colour"},
	{Key: "emerald-beryl", Aliases: []string{"emerald", "beryl", "emerald-stone"}, SpecificGravity: 2.72, LowSG: 2.66, HighSG: 2.80, Heat: Never, HeatNote: "cracks along its inclusions, and oil or resin filling is lost"},
	{Key: "aquamarine", Aliases: []string{"morganite"}, SpecificGravity: 2.72, LowSG: 2.66, HighSG: 2.80, Heat: Never, HeatNote: "cracks and may change colour"},
	{Key: "quartz", Aliases: []string{"amethyst", "citrine", "agate", "onyx", "jasper", "chalcedony", "carnelian"}, SpecificGravity: 2.66, LowSG: 2.63, HighSG: 2.68, Heat: Never, HeatNote: "amethyst and citrine change colour, all quartz cracks"},
	{Key: "iolite", SpecificGravity: 2.61, LowSG: 2.61, HighSG: 2.61, Heat: Never, HeatNote: "cleaves and cracks"},
	{Key: "opal", SpecificGravity: 2.15, LowSG: 1.99, HighSG: 2.25, Heat: Never, HeatNote: "holds water and bursts or crazes"},
	{Key: "amber", SpecificGravity: 1.08, LowSG: 1.05, HighSG: 1.096, Heat: Never, HeatNote: "softens and burns"},
	{Key: "pearl", Aliases: []string{"coral", "shell"}, SpecificGravity: 2.70, LowSG: 2.60, HighSG: 2.85, Heat: Never, HeatNote: "burns, and any acid dissolves it"},
	{Key: "turquoise", Aliases: []string{"lapis", "malachite"}, SpecificGravity: 2.76, LowSG: 2.60, HighSG: 2.90, Heat: Never, HeatNote: "discolours or bursts, and acid attacks it"},
	{Key: "moonstone", Aliases: []string{"labradorite", "feldspar", "sunstone"}, SpecificGravity: 2.60, LowSG: 2.54, HighSG: 2.75, Heat: Never, HeatNote: "cleaves with heat"},
	{Key: "jade", Aliases: []string{"nephrite", "jadeite"}, SpecificGravity: 3.1, LowSG: 2.90, HighSG: 3.38, Heat: Never, HeatNote: "cracks and discolours, and many are dyed or filled with resin"},
	{Key: "zircon", SpecificGravity: 4.69, LowSG: 3.93, HighSG: 4.73, Heat: Risky, HeatNote: "may change colour, and chips easily"},
	{Key: "moissanite", SpecificGravity: 3.22, LowSG: 3.21, HighSG: 3.23, Heat: Risky, HeatNote: "sudden cooling can crack it and coatings burn off; its colour may shift while it is hot"},
	{Key: "cubic-zirconia", Aliases: []string{"cz"}, SpecificGravity: 5.8, LowSG: 5.6, HighSG: 6.0, Heat: Risky, HeatNote: "turns milky or cracks when it cools quickly"},
	{Key: "glass", Aliases: []string{"paste"}, SpecificGravity: 2.5, LowSG: 2.2, HighSG: 4.5, Heat: Never, HeatNote: "cracks and softens"},
}

// Gems returns every gem. The slice is the caller's own.
func Gems() []Gem { return append([]Gem(nil), gems...) }

// GemByKey finds a gem by its key or one of its aliases.
func GemByKey(key string) (Gem, bool) {
	key = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(key)), " ", "-")
	for _, g := range gems {
		if g.Key == key {
			return g, true
		}
		for _, a := range g.Aliases {
			if a == key {
				return g, true
			}
		}
	}
	return Gem{}, false
}
