package resaw

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Point is a place on the end grain: X along the face, Z through the thickness
// from face 1 into the wood. Either may be negative; the pith is often outside.
type Point struct{ X, Z quantity.Length }

// RingAngleAt returns the angle of the ring line at a place of the end grain to the face,
// 0 to 90 degrees: 0 flatsawn, 90 quartersawn. at and pith are any two places; at the pith
// itself it is 0.
//
// Accuracy: exact for circular rings.
//
// Source: derived; the ring line is square to the line from the pith.
func RingAngleAt(at, pith Point) quantity.Angle {
	return quantity.Angle(math.Atan2(math.Abs(float64(at.X-pith.X)), math.Abs(float64(at.Z-pith.Z))))
}

// PithFix is a pith found from two ring angles on one face.
type PithFix struct {
	Depth quantity.Length // H, square to the face line, always positive
	X     quantity.Length // along the face line, on the axis of the readings
	// OnQuarter says that both readings are within half a degree of 90, where
	// the depth cannot be told.
	OnQuarter bool
	Notes     method.Notes
}

// PithFromAngles returns the position of a pith off the billet from the ring
// angle read at two places of one face on the same side of the pith.
//
// x1, x2: places along the face, within 100 m of 0, not equal; a1, a2: ring
// angles there, 0 to 90 degrees, different. Errors: method.OutOfRange;
// method.Contradictory for equal angles away from 90. Accuracy: exact for
// circular rings; ill-conditioned near 90 degrees, where OnQuarter is set and
// nothing else.
//
// Source: derived; H = (x2 - x1)/(tan a2 - tan a1), xp = x1 - H tan a1. A
// negative H means that the pith lies beyond the larger x.
func PithFromAngles(x1 quantity.Length, a1 quantity.Angle, x2 quantity.Length, a2 quantity.Angle) (PithFix, error) {
	var f PithFix
	for _, c := range []struct {
		name  string
		value float64
	}{
		{"x1", exact.Millimetres(x1)}, {"x2", exact.Millimetres(x2)},
		{"ring_angle_1", math.Round(a1.Degrees()*1e9) / 1e9}, {"ring_angle_2", math.Round(a2.Degrees()*1e9) / 1e9},
	} {
		if err := f.Notes.Use(rowPith, c.name, c.value); err != nil {
			return PithFix{}, err
		}
	}
	if x1 == x2 {
		return PithFix{}, exact.Contradictory("x2", "the two readings are at the same place")
	}
	const quarter = 89.5 * quantity.Degree
	if min(a1, a2) >= quarter {
		f.OnQuarter = true
		f.Notes.Warn(method.Warning{
			Code: method.Assumption, Method: rowPith.ID, Input: "ring_angle_1",
			Detail: "both readings are on quarter; the pith lies in the plane of the face, at a distance these " +
				"readings cannot tell",
		})
		return f, nil
	}
	// A tangent of 90 degrees is large but finite in floating point; hold it at
	// that of 89.99 so that the depth stays meaningful.
	const steep = 89.99 * quantity.Degree
	t1, t2 := min(a1, steep).Tan(), min(a2, steep).Tan()
	if math.Abs(t2-t1) < 1e-9 {
		return PithFix{}, exact.Contradictory("ring_angle_2",
			"equal ring angles at two places have no pith on one side")
	}
	h := float64(x2-x1) / (t2 - t1)
	f.Depth, f.X = quantity.Length(math.Abs(h)), x1-quantity.Length(h*t1)
	f.Notes.Warn(method.Warning{
		Code: method.Assumption, Method: rowPith.ID,
		Detail: "both readings are taken to lie on the same side of the pith, and the rings to be circles about it",
	})
	return f, nil
}
