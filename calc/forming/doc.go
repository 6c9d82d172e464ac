// Package forming is the block way of making a collet: a straight collar of
// strip or tube is pressed foot first into the tapered holes of a steel block,
// each smaller than the last, until the whole wall leans.
//
// # Geometry
//
// A block hole is an outline at the block's face, its opening, that narrows
// with the block's lean a. A hole whose opening is wider than the finished
// outer rim by the gap g all round lets the collar sink by g / tan a before it
// touches; from there on the wall is tapered. So the tapered part of the wall
// has the same shape after every hole, only longer: at the depth x under the
// place where the taper starts, the outer face is the finished outer rim
// offset inward by x tan a.
//
// A collar is pressed until its rim is flush with the block's face, which a
// flat plate does; in the last hole a punch or a follower pushes it below the
// face until the taper starts at the rim. The foot never goes past the block's
// far side, so that at most thickness - g / tan a can be tapered in a hole.
//
// # Metal
//
// Hoop compression alone in an incompressible metal (Levy-Mises flow rule with
// one stress; R. Hill, The Mathematical Theory of Plasticity, ch. II, from
// memory): where the mid-wall perimeter goes from Ps to P, the hoop strain is
// ln(Ps/P), and wall and length along the wall both grow by (Ps/P)^(1/2).
// Volume is kept exactly, element by element.
//
// Invariants, which tests answer by number:
//
//  1. The volume after every pass is the volume of the stock, to 1e-9.
//  2. The hoop strains of the passes add up to ln(Ps/P) of the finished foot.
//  3. No strain since the last anneal exceeds the alloy's limit.
//  4. The last hole takes the finished outer rim, and no smaller hole does.
//  5. Each pass tapers more of the wall than the one before.
//  6. A strip's finished height is the height asked for, where the block is
//     thick enough.
//  7. No anneal follows a strain under LightStrain.
//
// What does not hold: the rim's wall is the stock's only for a strip, whose
// perimeter is that of the finished rim; a tube is stretched or squeezed first.
package forming
