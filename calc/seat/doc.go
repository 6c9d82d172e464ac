// Package seat puts a faceted stone into a wall that leans: where the stone
// rests, what the bearing takes of the wall, and what else it would touch.
//
// # The stone
//
// A stone is a solid of four parts. The girdle is a prism over the outline,
// from z = 0 up to GirdleMM; the crown rises from there to the table, its level
// sections parallel to the outline. Below z = 0 lies the pavilion. That of a
// brilliant runs to a point, the culet: at the depth s its section is the
// outline shrunk by 1 - s/P about the culet, P being the pavilion's depth, so
// that a side whose tangent passes the culet at the distance h slopes by
// tan p = P/h. That of a step cut closes in a keel line: its sections are
// parallel to the outline, and h is the outline's inradius all round.
//
// # The wall
//
// With lean a, thickness t, clearance c and ledge e, the inner face at the
// height z is the outline offset by z tan a - e: at z = 0 the wall is narrower
// than the stone, and there is metal for it to rest on. The bearing is cut into
// that wall. Its side stands at the outline offset by c, from z = 0 up to
//
//	z* = (e + c) / tan a,
//
// where the wall itself is that wide, or up to the rim. Its floor is the
// pavilion's own surface and runs out of the wall at the depth
//
//	s = e / (cot p - tan a),
//
// deepest where p is steepest. Where p + a reaches 90 degrees it never does:
// the stone wedges. The wall left at z is t / cos a - max(0, e + c - z tan a).
//
// A ledge of 0 is another wall: its inner face is offset by c + z tan a, and the
// stone drops into it until its edge meets metal, c / tan a below z = 0.
//
// Each of these is a statement about one direction of the level normal, so
// that the check all round is the check at the direction where it is worst. It
// is exact where the sections are the parallels of the outline; the difference
// that a straight ridge makes at a point is TipPinchMM's.
package seat
