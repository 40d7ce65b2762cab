package resaw

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Point is a place on the end grain: X along the face, Z through the thickness
// from face 1 into the wood. Either may be negative; the pith is often outside.
type Point struct{ X, Z quantity.Length }

// RingAngle returns the acute angle between the ring tangent and the face at a
// point, 90 degrees in the pith's own plane and 0 straight above the pith, and
// the radius of the ring there.
//
// at, pith: on the same axes, each coordinate within 100 m of 0, not the same
// point. Errors: method.OutOfRange. Accuracy: exact for rings that are circles
// about the pith; eccentric pith makes them off-circular.
//
// Source: derived; atan(|x - xp| / |z - zp|).
func RingAngle(at, pith Point) (quantity.Angle, quantity.Length, error) {
	for _, g := range []given{{"x", at.X}, {"z", at.Z}, {"pith_x", pith.X}, {"pith_z", pith.Z}} {
		if _, err := rowRingAngle.Check(g.name, millimetres(g.l)); err != nil {
			return 0, 0, err
		}
	}
	dx, dz := math.Abs(float64(at.X-pith.X)), math.Abs(float64(at.Z-pith.Z))
	if dx == 0 && dz == 0 {
		return 0, 0, outOfRange("x", "there is no ring angle at the pith itself", "")
	}
	return quantity.Angle(math.Atan2(dx, dz)), quantity.Length(math.Hypot(dx, dz)), nil
}

// LeafAngles is the ring angle of one leaf at its two edges and its middle.
type LeafAngles struct {
	Leaf              int // from face 1
	Near, Middle, Far quantity.Angle
}

// RingAnglesOfLeaves returns the ring angle at both edges and the middle of every
// leaf, at the mid-plane of the leaf, because it changes across one leaf and
// from leaf to leaf.
//
// width: of the leaves, X from 0 to width, 1 micrometre to 100 m; n: 0 to
// MaxLeaves leaves; first: depth of the first leaf's outer face below face 1;
// leaf, kerf: each 0 to 100 m, kerf with any re-facing; pith: as RingAngle.
// A point that is the pith itself is told as 90 degrees. Errors:
// method.OutOfRange, method.TooMuchWork. Accuracy: as RingAngle.
//
// Source: derived; RingAngle at each place.
func RingAnglesOfLeaves(width quantity.Length, n int, first, leaf, kerf quantity.Length, pith Point) ([]LeafAngles, error) {
	for _, g := range []given{{"width", width}, {"first", first}, {"leaf", leaf}, {"kerf", kerf}} {
		if _, err := rowRingAngle.Check(g.name, millimetres(g.l)); err != nil {
			return nil, err
		}
	}
	if err := tooManyLeaves(int64(n)); err != nil {
		return nil, err
	}
	if _, _, err := RingAngle(Point{pith.X + quantity.Millimetre, pith.Z}, pith); err != nil {
		return nil, err
	}
	out := make([]LeafAngles, 0, max(n, 0))
	for i := range max(n, 0) {
		z := first + quantity.Length(i)*(leaf+kerf) + leaf/2
		angle := func(x quantity.Length) quantity.Angle {
			dx, dz := math.Abs(float64(x-pith.X)), math.Abs(float64(z-pith.Z))
			if dx == 0 && dz == 0 {
				return 90 * quantity.Degree
			}
			return quantity.Angle(math.Atan2(dx, dz))
		}
		out = append(out, LeafAngles{i + 1, angle(0), angle(width / 2), angle(width)})
	}
	return out, nil
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
		{"x1", millimetres(x1)}, {"x2", millimetres(x2)},
		{"ring_angle_1", math.Round(a1.Degrees()*1e9) / 1e9}, {"ring_angle_2", math.Round(a2.Degrees()*1e9) / 1e9},
	} {
		if err := f.Notes.Use(rowPith, c.name, c.value); err != nil {
			return PithFix{}, err
		}
	}
	if x1 == x2 {
		return PithFix{}, contradictory("x2", "the two readings are at the same place")
	}
	const quarter = 89.5 * quantity.Degree
	if min(a1, a2) >= quarter {
		f.OnQuarter = true
		f.Notes.Warn(method.Warning{
			Code: method.Assumption, Method: rowPith.ID, Input: "ring_angle_1",
			Detail: "both readings are on quarter; the pith lies in the plane of the face, at a distance these readings cannot tell",
		})
		return f, nil
	}
	// A tangent of 90 degrees is large but finite in floating point; hold it at
	// that of 89.99 so that the depth stays meaningful.
	const steep = 89.99 * quantity.Degree
	t1, t2 := min(a1, steep).Tan(), min(a2, steep).Tan()
	if math.Abs(t2-t1) < 1e-9 {
		return PithFix{}, contradictory("ring_angle_2", "equal ring angles at two places have no pith on one side")
	}
	h := float64(x2-x1) / (t2 - t1)
	f.Depth, f.X = quantity.Length(math.Abs(h)), x1-quantity.Length(h*t1)
	f.Notes.Warn(method.Warning{
		Code: method.Assumption, Method: rowPith.ID,
		Detail: "both readings are taken to lie on the same side of the pith, and the rings to be circles about it",
	})
	return f, nil
}

// PlaneBand returns how far a leaf may lie from the pith plane, either way, and
// keep at least a ring angle from a distance outward. Feed parallel to the ray at
// the centre: only the middle leaves of a billet are dead on quarter.
//
// from: distance of the leaf's near edge from the pith, 0 to 100 m; least: 0.01
// to 90 degrees. Errors: method.OutOfRange. Accuracy: exact for circular rings.
//
// Source: derived; |z - zp| <= x0 / tan(theta_min); the band is twice that.
func PlaneBand(from quantity.Length, least quantity.Angle) (quantity.Length, error) {
	if err := checkSeam(rowPlaneBand, from, "ring_angle", least); err != nil {
		return 0, err
	}
	return quantity.Length(float64(from) * math.Max(0, least.Cos()/least.Sin())), nil
}

// LeavesInBand returns how many whole leaves lie within a band of given height,
// the band's edges needing no cut.
//
// band, kerf: 0 to 100 m; leaf: 1 micrometre to 100 m. Errors:
// method.OutOfRange, method.TooMuchWork. Accuracy: exact, the band rounded down
// to 1 nm.
//
// Source: derived; floor((band + k)/(t + k)).
func LeavesInBand(band, leaf, kerf quantity.Length) (int, error) {
	var notes method.Notes
	if err := check(&notes, rowLeaves, given{"thickness", band}, given{"leaf", leaf}, given{"kerf", kerf}); err != nil {
		return 0, rename(err, map[string]string{"thickness": "band"})
	}
	n := stack{usable: wholeFloor(band), leaf: whole(leaf), kerf: whole(kerf), far: true}.count()
	return int(n), tooManyLeaves(n)
}

// RingSpacing returns the spacing of ring lines seen on the face.
//
// ring: width of one ring, 0 to 100 m; ringAngle: 0.01 to 90 degrees. Errors:
// method.OutOfRange. Accuracy: exact for plane rings.
//
// Source: derived; ring / sin(theta).
func RingSpacing(ring quantity.Length, ringAngle quantity.Angle) (quantity.Length, error) {
	if err := checkSeam(rowRingSpacing, ring, "ring_angle", ringAngle); err != nil {
		return 0, err
	}
	return ring / quantity.Length(ringAngle.Sin()), nil
}
