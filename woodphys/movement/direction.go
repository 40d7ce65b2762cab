package movement

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

var ringAngleRow = method.Method{
	ID: "movement.ring-angle", Chapter: "movement",
	Summary:  "Shrinkage of a dimension at any angle to the growth rings",
	Equation: "S(a) = S_T cos^2 a + S_R sin^2 a, a between the dimension and the ring tangent",
	Inputs: []method.Input{
		{Name: "ring_angle_deg", Unit: "deg", Fitted: method.Range{Low: 0, High: 90}, Limit: method.Range{Low: 0, High: 90}},
		{Name: "ring_angle_sd_deg", Unit: "deg", Fitted: method.Range{Low: 0, High: 20}, Limit: method.Range{Low: 0, High: 45}},
	},
	Accuracy: "exact for one ring angle over the section; a section near the pith has many",
	Source:   "rotation of plane strain; MacLean, FPL R1473, 1945, names the problem",
	Checked:  method.Derived,
}

// Direction of a dimension in the wood. The zero value is tangential.
type Direction struct {
	longitudinal bool
	angle        quantity.Angle // between the dimension and the ring tangent
	sd           quantity.Angle
}

// Tangential is along the rings: the width of a flatsawn board.
func Tangential() Direction { return Direction{} }

// Radial is across the rings: the width of a quartersawn board.
func Radial() Direction { return Direction{angle: 90 * quantity.Degree} }

// Longitudinal is along the grain.
func Longitudinal() Direction { return Direction{longitudinal: true} }

// WidthAt is the width of a piece whose rings meet the wide face at ringAngle,
// 0 (flatsawn) to 90 degrees (quartersawn), known to a standard deviation sd
// (0 to 45 degrees, 0 for exact). Any range error comes from the calculation.
func WidthAt(ringAngle, sd quantity.Angle) Direction { return Direction{angle: ringAngle, sd: sd} }

// ThicknessAt is the thickness of the same piece: 90 degrees from its width.
func ThicknessAt(ringAngle, sd quantity.Angle) Direction {
	return Direction{angle: 90*quantity.Degree - ringAngle, sd: sd}
}

// Ring is the angle of the rings to the wide face of a piece, 0 (flatsawn) to 90 degrees
// (quartersawn), with its standard deviation, 0 to 45 degrees.
type Ring struct{ Angle, SD quantity.Angle }

// unknownRing is a ring angle of which nothing is known: the middle and the standard
// deviation of all there are, 90 degrees over the square root of 12.
var unknownRing = Ring{45 * quantity.Degree, 26 * quantity.Degree}

// UnknownRing returns the ring angle of a piece that did not tell it, with a warning that
// names the piece.
//
// Accuracy: its standard deviation is that of an angle of which nothing is known.
//
// Source: mean and standard deviation of a uniform distribution.
func UnknownRing(name string, n *method.Notes) Ring {
	n.Warn(method.Warning{Code: method.DefaultUsed, Input: "ring_angle_deg", Detail: "the ring angle of " + name + " is taken as 45 degrees, give or take 26"})
	return unknownRing
}

// rotation holds what a direction does to a pair of values v_T, v_R:
// v = tangential v_T + radial v_R.
type rotation struct {
	tangential, radial float64
	bias, sd           float64 // of the tangential share, from the angle's uncertainty
}

// exactAngle in radians: closer to 0 or 90 degrees than this counts as there.
const exactAngle = 1e-9

func (d Direction) check(n *method.Notes) error {
	if d.longitudinal || d.sd == 0 && (d.angle == 0 || d.angle == 90*quantity.Degree) {
		return nil
	}
	degrees := d.angle.Degrees()
	if degrees > 90 && degrees < 90+1e-9 { // dust of a conversion
		degrees = 90
	}
	if degrees < 0 && degrees > -1e-9 {
		degrees = 0
	}
	if err := n.Use(&ringAngleRow, "ring_angle_deg", degrees); err != nil {
		return err
	}
	return n.Use(&ringAngleRow, "ring_angle_sd_deg", d.sd.Degrees())
}

// rotate returns the shares of the tangential and the radial value. With
// a ~ N(a0, s): E[cos 2a] = cos 2a0 e^(-2s^2), E[cos^2 2a] = (1 + cos 4a0 e^(-8s^2))/2.
func (d Direction) rotate() rotation {
	if d.angle < exactAngle && d.sd == 0 {
		return rotation{tangential: 1}
	}
	if d.angle > math.Pi/2-exactAngle && d.sd == 0 {
		return rotation{radial: 1}
	}
	c2 := math.Cos(2 * float64(d.angle))
	r := rotation{tangential: (1 + c2) / 2, radial: (1 - c2) / 2} // cos^2 a, sin^2 a
	if d.sd > 0 {
		s2 := float64(d.sd * d.sd)
		mean := c2 * math.Exp(-2*s2)
		square := (1 + (2*c2*c2-1)*math.Exp(-8*s2)) / 2
		r.bias = (mean - c2) / 2
		r.sd = math.Sqrt(math.Max(0, square-mean*mean)) / 2
	}
	return r
}

// needs says which of the two values the rotation uses.
func (r rotation) needs() (tangential, radial bool) {
	return r.tangential > 1e-15 || r.sd > 0, r.radial > 1e-15 || r.sd > 0
}

// uncertain is a value with what its uncertainty does to the mean.
type uncertain struct{ value, bias, sd float64 }

// of returns the rotated value of a pair with the piece-to-piece variation cv;
// both directions of one piece are taken to vary together, which is the wider way.
func (r rotation) of(tangential, radial wood.Figure, cv float64) (uncertain, bool) {
	needT, needR := r.needs()
	if needT && !tangential.Known || needR && !radial.Known {
		return uncertain{}, false
	}
	v := r.tangential*tangential.Value + r.radial*radial.Value
	if v != 0 { // what the figures themselves are unsure of goes with the directions
		cv = math.Hypot(cv, (r.tangential*tangential.SD+r.radial*radial.SD)/v)
	}
	spread := tangential.Value - radial.Value
	mean := v + r.bias*spread
	return uncertain{value: v, bias: r.bias * spread, sd: math.Sqrt(cv*cv*mean*mean + (1+cv*cv)*r.sd*r.sd*spread*spread)}, true
}
