package resaw

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// RingShift returns how far ring lines miss each other across the seam, measured
// across the width.
//
// d: distance between the show faces (FaceDistance), 0 to 100 m; ringAngle:
// between the ring tangent and the face at mid-kerf, 0.01 to 90 degrees (at 0
// the ring never leaves the face). Errors: method.OutOfRange. Accuracy: exact
// for plane rings; against circular rings 0.0003 mm at d = 2.3 mm and 69 mm or
// more from the pith, 0.10 in 10.1 mm at d = 5 mm and 89 mm. For a truly radial
// centre cut the rings are symmetric about it and the shift cancels: then this
// is an upper bound.
//
// Source: derived; d cot(theta).
func RingShift(d quantity.Length, ringAngle quantity.Angle) (quantity.Length, error) {
	if err := checkSeam(rowRingShift, d, "ring_angle", ringAngle); err != nil {
		return 0, err
	}
	return quantity.Length(float64(d) * math.Max(0, ringAngle.Cos()/ringAngle.Sin())), nil
}

// TipShift returns how far the tip of a cathedral moves along the length.
//
// d: distance between the show faces, 0 to 100 m; oneIn: the ring surface dips
// 1 in this many to the face along the length, 0 to 1e6. Errors:
// method.OutOfRange. Accuracy: exact for plane rings.
//
// Source: derived; d / taper = d x oneIn.
func TipShift(d quantity.Length, oneIn float64) (quantity.Length, error) {
	if _, err := rowTipShift.Check("d", millimetres(d)); err != nil {
		return 0, err
	}
	if _, err := rowTipShift.Check("one_in", oneIn); err != nil {
		return 0, err
	}
	return d * quantity.Length(oneIn), nil
}

// Skew is the shift of a ring surface that dips both ways.
type Skew struct {
	Dihedral quantity.Angle   // between the ring surface and the face
	Square   quantity.Length  // shift square to the line on the face
	Across   *quantity.Length // along the width alone; nil where the end angle is 0
	Along    *quantity.Length // along the length alone; nil where the edge angle is 0
}

// SkewShift returns the shift of ring lines that are inclined on the end grain
// and on the edge of the billet.
//
// d: distance between the show faces, 0 to 100 m; end, edge: angle of the rings
// to the face read on the end grain and on the edge, 0 to 90 degrees, not both
// below 0.01. Errors: method.OutOfRange. Accuracy: exact for plane rings.
//
// Source: derived; d / sqrt(tan^2(end) + tan^2(edge)); with one angle zero it
// reduces to the other.
func SkewShift(d quantity.Length, end, edge quantity.Angle) (Skew, error) {
	if err := checkSeam(rowSkewShift, d, "end_angle", end); err != nil {
		return Skew{}, err
	}
	if err := checkSeam(rowSkewShift, d, "edge_angle", edge); err != nil {
		return Skew{}, err
	}
	const least = 0.01 * quantity.Degree
	if max(end, edge) < least {
		return Skew{}, outOfRange("end_angle", "one of end_angle and edge_angle must be at least 0.01 deg", "at least 0.01 deg")
	}
	slope := math.Hypot(end.Tan(), edge.Tan())
	s := Skew{Dihedral: quantity.Angle(math.Atan(slope)), Square: d / quantity.Length(slope)}
	s.Across, s.Along = cot(d, end), cot(d, edge)
	return s, nil
}

func cot(d quantity.Length, a quantity.Angle) *quantity.Length {
	if a <= 0 {
		return nil
	}
	l := quantity.Length(float64(d) * math.Max(0, a.Cos()/a.Sin()))
	return &l
}

// RayShift returns how far marks that follow the rays (bird's-eye, pin knots)
// miss each other across the seam: best on flat-cut faces, worst on quarter.
//
// d: distance between the show faces, 0 to 100 m; ringAngle: 0 to 89.99
// degrees. Errors: method.OutOfRange. Accuracy: exact for straight rays.
//
// Source: derived; d tan(theta), rays being square to the rings.
func RayShift(d quantity.Length, ringAngle quantity.Angle) (quantity.Length, error) {
	if err := checkSeam(rowRayShift, d, "ring_angle", ringAngle); err != nil {
		return 0, err
	}
	return d * quantity.Length(ringAngle.Tan()), nil
}

// BandShift returns how far flame and other bands that lie across the fibre miss
// each other along the length. With bands square to the fibre the lean is the
// runout (RunoutAngle).
//
// d: distance between the show faces, 0 to 100 m; lean: of the band from square
// to the face, read on the billet's edge, 0 to 89.99 degrees. Errors:
// method.OutOfRange. Accuracy: exact for plane bands; the change of the wave
// itself over d comes on top.
//
// Source: derived; d tan(phi).
func BandShift(d quantity.Length, lean quantity.Angle) (quantity.Length, error) {
	if err := checkSeam(rowBandShift, d, "lean", lean); err != nil {
		return 0, err
	}
	return d * quantity.Length(lean.Tan()), nil
}

// RunoutAngle returns the angle of a runout of 1 in oneIn.
//
// oneIn: 0.1 to 1e9. Errors: method.OutOfRange. Accuracy: exact; 1 in 24 is
// 2.39 degrees.
//
// Source: derived; atan(1/N).
func RunoutAngle(oneIn float64) (quantity.Angle, error) {
	if _, err := rowBandShift.Check("one_in", oneIn); err != nil {
		return 0, err
	}
	return quantity.Angle(math.Atan2(1, oneIn)), nil
}

// LargestDistance returns the largest distance between the show faces that keeps
// the ring shift at or below shift.
//
// shift: 0 to 100 m; ringAngle: 0.01 to 89.99 degrees (at 90 any distance does).
// Errors: method.OutOfRange. Accuracy: as RingShift, whose inverse it is.
//
// Source: derived; shift tan(theta).
func LargestDistance(shift quantity.Length, ringAngle quantity.Angle) (quantity.Length, error) {
	if err := checkSeam(rowRingLimit, shift, "ring_angle", ringAngle); err != nil {
		return 0, err
	}
	return shift * quantity.Length(ringAngle.Tan()), nil
}

// LeastRingAngle returns the smallest ring angle that keeps the ring shift at or
// below shift.
//
// shift, d: 0 to 100 m, not both 0. Errors: method.OutOfRange. Accuracy: as
// RingShift, whose inverse it is.
//
// Source: derived; atan(d/shift).
func LeastRingAngle(shift, d quantity.Length) (quantity.Angle, error) {
	if _, err := rowRingLimit.Check("d", millimetres(d)); err != nil {
		return 0, err
	}
	if _, err := rowRingLimit.Check("shift", millimetres(shift)); err != nil {
		return 0, err
	}
	if shift == 0 && d == 0 {
		return 0, outOfRange("shift", "shift must be more than 0 when d is 0", "more than 0")
	}
	return quantity.Angle(math.Atan2(float64(d), float64(shift))), nil
}

// Cure is what it takes to bring a pair back into match.
type Cure struct {
	Width  quantity.Length // more taken from one seam edge, of that half only
	Length quantity.Length // one half slid along the grain: extra length
}

// Cures returns the wood it costs to correct the ring shift by taking more from
// one seam edge and the band shift by sliding one half.
//
// d: 0 to 100 m; ringAngle: 0.01 to 90 degrees; lean: 0 to 89.99 degrees.
// Errors: method.OutOfRange. Accuracy: as RingShift and BandShift.
//
// Source: derived; each costs its own shift.
func Cures(d quantity.Length, ringAngle, lean quantity.Angle) (Cure, error) {
	across, err := RingShift(d, ringAngle)
	if err != nil {
		return Cure{}, err
	}
	along, err := BandShift(d, lean)
	if err != nil {
		return Cure{}, err
	}
	return Cure{Width: across, Length: along}, nil
}

// checkSeam checks a distance and an angle; the first input of the row names the
// distance.
func checkSeam(m *method.Method, d quantity.Length, name string, a quantity.Angle) error {
	if _, err := m.Check(m.Inputs[0].Name, millimetres(d)); err != nil {
		return err
	}
	// Degrees are rounded to 1e-9 so that 90 degrees in radians stays 90.
	_, err := m.Check(name, math.Round(a.Degrees()*1e9)/1e9)
	return err
}
