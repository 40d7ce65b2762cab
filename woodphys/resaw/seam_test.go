package resaw_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
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

func TestRingShiftAgainstCircularRings(t *testing.T) {
	const mm = quantity.Millimetre
	// The three cases of the stated accuracy, and the large one.
	for _, turn := range []float64{0, 0.4, 2.1, -1.3} {
		for _, c := range []struct{ r, deg, d, within float64 }{
			{69, 60, 2.3, 0.0005}, {103, 75, 2.3, 0.0003}, {153, 85, 2.3, 0.0003}, {89, 26.565, 5, 0.11},
		} {
			s, err := resaw.RingShift(quantity.Length(c.d)*mm, quantity.Angle(c.deg)*quantity.Degree)
			require.NoError(t, err)
			truth := acrossTrueRings(c.r, c.deg*math.Pi/180, c.d, turn)
			assert.InDelta(t, truth, s.Millimetres(), c.within, "%+v", c)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		theta := rapid.Float64Range(20, 88).Draw(t, "theta") * math.Pi / 180
		r := rapid.Float64Range(50, 400).Draw(t, "r")
		d := rapid.Float64Range(0.5, 5).Draw(t, "d")
		turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
		s, err := resaw.RingShift(quantity.Length(d)*mm, quantity.Angle(theta))
		require.NoError(t, err)
		// The third derivative of sqrt(r^2 - z^2) bounds the error of the tangent:
		// d^3/24 * 3 z r^2 / x^5 at the worst end of the interval.
		x := r*math.Sin(theta) - d
		z := r*math.Cos(theta) + d
		bound := 0.0
		if x > 0 {
			x = math.Sqrt(max(r*r-z*z, 1e-9))
			bound = d * d * d / 24 * 3 * z * r * r / math.Pow(x, 5)
		}
		assert.InDelta(t, acrossTrueRings(r, theta, d, turn), s.Millimetres(), bound+1e-9)
	})
}

func TestSeamInverses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := quantity.Angle(rapid.Float64Range(1, 89.9).Draw(t, "angle")) * quantity.Degree
		d := quantity.Length(rapid.Float64Range(1e-4, 0.05).Draw(t, "d"))
		s, err := resaw.RingShift(d, a)
		require.NoError(t, err)
		back, err := resaw.LargestDistance(s, a)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(d), float64(back), 1e-9)
		angle, err := resaw.LeastRingAngle(s, d)
		require.NoError(t, err)
		assert.InDelta(t, a.Degrees(), angle.Degrees(), 1e-9)
		// With one angle zero the skew shift reduces to the other.
		k, err := resaw.SkewShift(d, a, 0)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(s), float64(k.Square), 1e-9)
		assert.Nil(t, k.Along)
		k, err = resaw.SkewShift(d, 0, a)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(s), float64(k.Square), 1e-9)
		assert.Nil(t, k.Across)
	})
}

func TestFaceDistances(t *testing.T) {
	const mm = quantity.Millimetre
	p := resaw.Pair{Leaf: 4.5 * mm, Kerf: 1.3 * mm, Reface: 0.5 * mm, CleanupA: 0.5 * mm, CleanupB: 0.4 * mm, Arch: 15 * mm}
	for opening, want := range map[resaw.Opening]float64{
		resaw.Bookmatch: 2.7, resaw.SlipMatch: 6.3, resaw.WrongWay: 9.9, resaw.CarvedPair: 31.8, resaw.NeighbourTo: 12.6,
	} {
		p.Opening = opening
		d, _, err := resaw.FaceDistance(p)
		require.NoError(t, err)
		assert.InDelta(t, want, d.Millimetres(), 1e-9, opening)
	}
	p.Opening = "mirror"
	_, _, err := resaw.FaceDistance(p)
	assertError(t, err, method.Unknown, "opening")
	_, _, err = resaw.FaceDistance(resaw.Pair{Opening: resaw.WrongWay, Leaf: mm, CleanupA: 3 * mm})
	assertError(t, err, method.Contradictory, "cleanup_a")
}

func TestPithFoundFromItsOwnAngles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pith := resaw.Point{X: quantity.Length(rapid.Float64Range(-0.3, 0.6).Draw(t, "xp")), Z: quantity.Length(rapid.Float64Range(0.01, 0.3).Draw(t, "zp"))}
		side := quantity.Length(rapid.SampledFrom([]float64{-1, 1}).Draw(t, "side"))
		x1 := pith.X + side*quantity.Length(rapid.Float64Range(0.005, 0.1).Draw(t, "near"))
		x2 := pith.X + side*quantity.Length(rapid.Float64Range(0.12, 0.4).Draw(t, "far"))
		a1, r1, err := resaw.RingAngle(resaw.Point{X: x1}, pith)
		require.NoError(t, err)
		a2, _, err := resaw.RingAngle(resaw.Point{X: x2}, pith)
		require.NoError(t, err)
		assert.InDelta(t, math.Abs(float64(x1-pith.X)), float64(r1)*a1.Sin(), 1e-12)
		f, err := resaw.PithFromAngles(x1, a1, x2, a2)
		require.NoError(t, err)
		if f.OnQuarter {
			return
		}
		assert.InDelta(t, float64(pith.Z), float64(f.Depth), 1e-6)
		assert.InDelta(t, float64(pith.X), float64(f.X), 1e-6)
		// One ring's chord and sagitta give its radius.
		chord := 2 * float64(r1) * math.Sin(0.3)
		r, err := resaw.ArcRadius(quantity.Length(chord), r1*quantity.Length(1-math.Cos(0.3)))
		require.NoError(t, err)
		assert.InEpsilon(t, float64(r1), float64(r), 1e-9)
	})
	f, err := resaw.PithFromAngles(0, 90*quantity.Degree, 0.2, 89.8*quantity.Degree)
	require.NoError(t, err)
	assert.True(t, f.OnQuarter)
	_, err = resaw.PithFromAngles(0, quantity.Degree, 0.2, quantity.Degree)
	assertError(t, err, method.Contradictory, "ring_angle_2")
	_, _, err = resaw.RingAngle(resaw.Point{}, resaw.Point{})
	assertError(t, err, method.OutOfRange, "x")
}

func TestRingAnglesOfLeaves(t *testing.T) {
	// 59 degrees at 50 mm from the pith to 83 at 250, leaf plane 30 off.
	const mm = quantity.Millimetre
	angles, err := resaw.RingAnglesOfLeaves(200*mm, 3, 0, 4*mm, 1*mm, resaw.Point{X: -50 * mm, Z: 32 * mm})
	require.NoError(t, err)
	require.Len(t, angles, 3)
	assert.InDelta(t, 59, angles[0].Near.Degrees(), 0.5)
	assert.InDelta(t, 83, angles[0].Far.Degrees(), 0.5)
	_, err = resaw.RingAnglesOfLeaves(200*mm, 200_000, 0, 4*mm, 1*mm, resaw.Point{})
	assertError(t, err, method.TooMuchWork, "leaf")
}

func TestPlaneBandKeepsTheAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := quantity.Length(rapid.Float64Range(0.01, 0.3).Draw(t, "from"))
		least := quantity.Angle(rapid.Float64Range(1, 89).Draw(t, "least")) * quantity.Degree
		h, err := resaw.PlaneBand(from, least)
		require.NoError(t, err)
		a, _, err := resaw.RingAngle(resaw.Point{X: from, Z: h}, resaw.Point{})
		require.NoError(t, err)
		assert.InDelta(t, least.Degrees(), a.Degrees(), 1e-9)
	})
}

func TestSeamRefusesNonsense(t *testing.T) {
	nan := quantity.Angle(math.NaN())
	_, err := resaw.RingShift(0.001, nan)
	assertError(t, err, method.OutOfRange, "ring_angle")
	_, err = resaw.RingShift(quantity.Length(math.NaN()), 1)
	assertError(t, err, method.OutOfRange, "d")
	_, err = resaw.RingShift(0.001, 0)
	assertError(t, err, method.OutOfRange, "ring_angle")
	_, err = resaw.RayShift(0.001, math.Pi/2)
	assertError(t, err, method.OutOfRange, "ring_angle")
	_, err = resaw.TipShift(0.001, math.Inf(1))
	assertError(t, err, method.OutOfRange, "one_in")
	_, err = resaw.SkewShift(0.001, 0, 0)
	assertError(t, err, method.OutOfRange, "end_angle")
	_, err = resaw.LeastRingAngle(0, 0)
	assertError(t, err, method.OutOfRange, "shift")
	_, err = resaw.ArcRadius(0.1, 0.06)
	assertError(t, err, method.Contradictory, "sagitta")
}

func TestMethodsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range resaw.Methods() {
		assert.False(t, seen[m.ID], "%s stands twice", m.ID)
		seen[m.ID] = true
		assert.Equal(t, "resaw", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
	}
	assert.GreaterOrEqual(t, len(seen), 21)
}

func ExampleRingShift() {
	const mm = quantity.Millimetre
	d, _, _ := resaw.FaceDistance(resaw.Pair{Opening: resaw.Bookmatch, Kerf: 1.3 * mm, CleanupA: 0.5 * mm, CleanupB: 0.5 * mm})
	s, _ := resaw.RingShift(d, 75*quantity.Degree)
	fmt.Printf("%.1f mm between the show faces, ring lines miss by %.2f mm\n", d.Millimetres(), s.Millimetres())
	// Output: 2.3 mm between the show faces, ring lines miss by 0.62 mm
}

func ExampleLeaves() {
	const mm = quantity.Millimetre
	y, _ := resaw.Leaves(resaw.Cut{Thickness: 60 * mm, Facing: 2 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm, FarFaceFinished: true})
	fmt.Printf("%d leaves, %d cuts, %.1f mm left: %s, offcut %.1f mm\n", y.Leaves, y.Cuts, y.LeftOver.Millimetres(), y.Remainder, y.Offcut.Millimetres())
	fmt.Printf("one more leaf needs %.1f mm more, or a kerf of at most %.2f mm\n", y.OneMore.ShortBy.Millimetres(), y.OneMore.KerfAtMost.Millimetres())
	// Output:
	// 9 leaves, 8 cuts, 5.5 mm left: one_more_cut, offcut 4.0 mm
	// one more leaf needs 0.5 mm more, or a kerf of at most 1.44 mm
}
