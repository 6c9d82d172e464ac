// Package development lays a tapered wall flat.
//
// The wall is the developable that joins two sections (package outline) in
// level planes: its rulings join points of equal outward normal angle phi. A
// corner facing an arc gives a piece of a cone, an edge facing an edge a
// plane, a corner facing a corner a straight ridge. One walk round the
// sections serves every outline and every taper.
//
// With X(phi) and Y(phi) the rim and base points, n and T the level normal and
// tangent, h the height, the tangent plane at phi leans by
//
//	tan alpha = (X - Y).n / h
//
// and since it turns about the ruling while the level direction T turns by
// dphi, T turns in the flat by
//
//	d tau = -sin alpha dphi
//
// (the geodesic curvature of the rim is kappa sin alpha). The flat rim is then
// the integral of e^(i tau) rho dphi, rho being the radius of curvature of
// the rim, and the flat base point lies at e^(i tau) ((Y-X).T - i h/cos alpha)
// from it. At a ridge the same integral has the closed form of two faces that
// meet: the rulings on both sides are the ridge.
//
// Blanks are seen from outside, rim up; walking counter-clockwise round the
// stone runs to the right.
//
// # Invariants
//
// Tests answer to these numbers.
//
//  1. The flat area is the area of the space surface.
//  2. Each flat edge is as long as its space curve.
//  3. The flat rim of an even slope of a smooth convex outline turns by
//     2 pi sin a in all, whatever the outline.
//  4. Folding the flat blank back gives the space surface within 1e-6 mm.
//  5. A round outline gives the textbook frustum.
//  6. Lean zero gives the straight strip.
//  7. Even slope on a smooth convex outline gives
//     P_base = P_rim - 2 pi h tan a, until the base gains a corner.
//  8. On a polygon, an even slope's faces are trapezoids that turn in the flat
//     by 2 atan(sin a tan(theta/2)) at a corner of turning theta.
//
// What does not hold: the area of the two faces of a real blank with bent or
// scored corners is not the neutral surface's (see Corners), and under an
// apex or a base-given taper the wall's thickness measured level varies with
// the lean round the outline; the mean lean is used for it, an error under
// k t (1/cos alpha - 1/cos a), some hundredths of a millimetre at most for
// leans within 15 degrees of the mean.
package development
