package quantity

import "math"

// Angle is a plane angle in radians.
type Angle float64

// Units of angle.
const (
	Radian Angle = 1
	Degree       = math.Pi / 180 * Radian
)

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a / Degree) }

// Sin returns the sine of a.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of a.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan returns the tangent of a.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }
