package forming

import (
	"math"

	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// Friction of a waxed or oiled collar in a steel hole. Common practice, no
// source for the value: lubricated sheet forming is usually put at 0.05 to
// 0.15.
const Friction = 0.1

// NosingShare is the axial stress in the straight wall above a tapered die, as
// a share of the flow stress: (1 + mu cot a)(1 - r) with r the foot's
// perimeter as a share of the rim's.
//
// Thin-wall tube nosing, compressive, constant wall, Tresca, no hardening (W.
// Johnson and P. B. Mellor, Engineering Plasticity; from memory). At 1 the
// straight wall gives way before the foot closes.
func NosingShare(lean units.Angle, friction, r float64) float64 {
	if lean <= 0 || r >= 1 {
		return 0
	}
	mu, cotA := friction, 1/lean.Tan()
	return (1 + mu*cotA) * (1 - r)
}

// SinkingShare is the drawing stress of tube sinking through a tapered die as
// a share of the flow stress, ((1+B)/B)(1 - r^B) with B = mu cot a (G. E.
// Dieter, Mechanical Metallurgy, "Tube-drawing processes"; from memory). It is
// here to judge NosingShare by: the two differ by the sense of the axial
// stress and agree to first order.
func SinkingShare(lean units.Angle, friction, r float64) float64 {
	if lean <= 0 || r >= 1 {
		return 0
	}
	B := friction / lean.Tan()
	if B < 1e-9 {
		return -math.Log(r)
	}
	return (1 + B) / B * (1 - math.Pow(r, B))
}

// MeanFlowMPa is the mean of sigma = K strain^n between two true strains
// since the last anneal.
func MeanFlowMPa(a stock.Alloy, from, to float64) float64 {
	K, n := a.FlowMPa, a.HardeningExponent
	from, to = math.Min(from, to), math.Max(from, to)
	if to-from < 1e-9 {
		return K * math.Pow(to, n)
	}
	return K * (math.Pow(to, n+1) - math.Pow(from, n+1)) / ((n + 1) * (to - from))
}

// GaugeBar is the pressure that the press's gauge shows at a force, bar: the
// force over the area of the ram (1 N/mm2 is 10 bar).
func GaugeBar(p stock.Press, forceN float64) float64 {
	return forceN / p.RamAreaMM2 * units.BarPerMPa
}

// SpreadFactor is by how much a press load computed here may be off either
// way: it is an order of magnitude. Common practice, no source; the flow
// curve, friction and the wall's own bending each carry tens of per cent.
const SpreadFactor = 2
