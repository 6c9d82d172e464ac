package requests

import (
	"guildhand/calc/bezel"
	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// usualFilingMM is what a strip has beyond its length for truing the joint.
// Common practice, no source.
const usualFilingMM = 0.3

// stripOf lays out the straight strip of a collet's rim: its wall measured level,
// as long as the finished rim's. Collar cuts it, and match looks for it.
func stripOf(s setting.Spec, seam outline.Place) (bezel.Bezel, error) {
	corners := bezel.Bent
	if s.Corners == development.Scored {
		corners = bezel.Mitred
	}
	return bezel.Straight(bezel.Spec{
		Stone: s.Stone, ClearanceMM: s.FaceMM(s.RimMM), ThicknessMM: s.ThicknessMM / s.Lean.Cos(),
		NeutralFactor: s.NeutralFactor, CornerFactor: s.CornerFactor, Corners: corners,
	}, seam)
}
