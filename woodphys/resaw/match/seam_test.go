package match_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// acrossTrueRings returns the distance along the width between the places where
// one circular ring, at ring angle theta (radians) at mid-kerf and radius r,
// meets the two show faces d apart. The section is turned by turn first, so that
// nothing rests on the axes.
func acrossTrueRings(r, theta, d, turn float64) float64 {
	cos, sin := math.Cos(turn), math.Sin(turn)
	// Mid-kerf point at the origin, face along (cos, sin), normal (-sin, cos).
	// tan(theta) = |x - xp| / |z - zp|.
	px := -r*math.Sin(theta)*cos + r*math.Cos(theta)*sin
	pz := -r*math.Sin(theta)*sin - r*math.Cos(theta)*cos
	meet := func(height float64) float64 {
		// (s cos - h sin - px)^2 + (s sin + h cos - pz)^2 = r^2, the root near 0.
		ox, oz := -height*sin-px, height*cos-pz
		b, c := ox*cos+oz*sin, ox*ox+oz*oz-r*r
		root := math.Sqrt(b*b - c)
		near, other := -b+root, -b-root
		if math.Abs(other) < math.Abs(near) {
			near = other
		}
		return near
	}
	return math.Abs(meet(d/2) - meet(-d/2))
}

// throughRing is two leaves whose near edge lies at ring angle theta (radians) and
// radius r at mid-kerf; r and d in mm.
func throughRing(r, theta, d float64) match.Input {
	in := twoLeaves(0)
	in.Kerf = quantity.Length(d) * onemm
	in.Rings = match.RingPosition{Pith: &resaw.Point{
		X: quantity.Length(-r*math.Sin(theta)) * onemm, Z: in.Leaf + in.Kerf/2 + quantity.Length(r*math.Cos(theta))*onemm,
	}}
	return in
}

// The shift of plane rings against that of true circles.
func TestPlaneRingsAgainstCircularRings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		theta := rapid.Float64Range(20, 88).Draw(t, "theta") * math.Pi / 180
		r := rapid.Float64Range(50, 400).Draw(t, "r")
		d := float64(rapid.IntRange(500, 5000).Draw(t, "d")) / 1000 // in whole micrometres
		turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
		p := layoutOf(t, matched(t, throughRing(r, theta, d)).Pairs[0], resaw.Bookmatch).Places[0]
		// The third derivative of sqrt(r^2 - z^2) bounds the error of the tangent:
		// d^3/24 * 3 z r^2 / x^5 at the worst end of the interval.
		x := r*math.Sin(theta) - d
		z := r*math.Cos(theta) + d
		bound := 0.0
		if x > 0 {
			x = math.Sqrt(max(r*r-z*z, 1e-9))
			bound = d * d * d / 24 * 3 * z * r * r / math.Pow(x, 5)
		}
		assert.InDelta(t, acrossTrueRings(r, theta, d, turn), p.Plane.Millimetres(), bound+1e-9)
	})
}

func TestRingAnglesOfLeaves(t *testing.T) {
	// 59 degrees at 50 mm from the pith to 83 at 250, leaf plane 30 off.
	const mm = quantity.Millimetre
	angles := matched(t, match.Input{
		Width: 200 * mm, Count: 3, Leaf: 4 * mm, Kerf: 1 * mm, Rings: match.RingPosition{Pith: &resaw.Point{X: -50 * mm, Z: 32 * mm}},
	}).Leaves
	require.Len(t, angles, 3)
	assert.InDelta(t, 59, angles[0].Near.Degrees(), 0.5)
	assert.InDelta(t, 83, angles[0].Far.Degrees(), 0.5)
}
