// Package units holds the two things about quantities that are easiest to get
// silently wrong at the bench: angles (degrees against radians, lean against
// included angle) and the exact factors between the trade's units.
//
// It is not a dimension system: other lengths, masses and forces are plain
// float64 whose names end in their unit (heightMM, massG, forceN).
package units

import "math"

// Angle is a plane angle. Its value is in radians; write 8.5*units.Degree and
// read back with Degrees.
type Angle float64

// Unit constants of Angle.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

// Degrees returns the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Radians returns the angle in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Sin, Cos and Tan are the functions of the angle.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos is the cosine of the angle.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan is the tangent of the angle.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }

// MMPerInch is exact: the international inch (1959).
const MMPerInch = 25.4
