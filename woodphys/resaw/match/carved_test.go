package match_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

const millimetre = quantity.Millimetre

// carvedPair is two leaves of 25 mm, 204 mm wide, 2 mm apart after clean-up, joined 2 mm from
// their edges and carved to an arch.
func carvedPair(t *testing.T, rings match.RingPosition, opening resaw.Opening, arch float64) match.Layout {
	t.Helper()
	r, err := match.Halves(match.Input{Width: 204 * millimetre, Count: 2, Leaf: 25 * millimetre, Kerf: 1 * millimetre, CleanupShow: 0.5 * millimetre,
		SeamEdge: 2 * millimetre, Arch: quantity.Length(arch) * millimetre, Rings: rings, Openings: []resaw.Opening{opening}})
	require.NoError(t, err)
	return r.Pairs[0].Layouts[0]
}

func plane(degrees float64, lean match.LineLean) match.RingPosition {
	return match.RingPosition{Readings: []match.RingReading{{Angle: quantity.Angle(degrees) * quantity.Degree}}, Lean: lean}
}

// The arc by its three points, and halfway by hand: R = (200^2 + 15^2)/30 = 1340.833, and
// 100 mm from the seam 3.734 mm.
func TestCarvedDepth(t *testing.T) {
	depth := func(s float64) float64 {
		return match.CarvedDepth(15*millimetre, 200*millimetre, quantity.Length(s)*millimetre).Millimetres()
	}
	assert.InDelta(t, 0, depth(0), 1e-12)
	assert.InDelta(t, 15, depth(200), 1e-9)
	assert.InDelta(t, 1340.8333-math.Sqrt(1340.8333*1340.8333-100*100), depth(100), 1e-6)
	assert.InDelta(t, 3.734, depth(100), 0.0005)
	assert.Zero(t, match.CarvedDepth(0, 200*millimetre, 100*millimetre))
}

// Plane rings at 60 degrees in a bookmatch, by the crossing of a straight line with a circle.
// The seam is at x = 2, the show faces lie at 24.5 and 26.5, the first leaf is carved to
// smaller z and the second to larger: circles of radius R about (2, 24.5 - R) and (2, 26.5 + R).
func TestCarvedPlaneRings(t *testing.T) {
	const arch, half, seam = 15.0, 200.0, 2.0
	radius := (half*half + arch*arch) / (2 * arch)
	l := carvedPair(t, plane(60, match.LeansFar), resaw.Bookmatch, arch)
	require.Len(t, l.Seams[0].Carved, 3)
	cot := 1 / math.Tan(60*math.Pi/180)
	// cross is where the line x = x0 + cot (z - 25.5) meets the circle about (2, zc), near x0
	cross := func(x0, zc, side float64) float64 {
		// with u = z - 25.5: (x0 + cot u - 2)^2 + (25.5 + u - zc)^2 = R^2
		a, b := 1+cot*cot, 2*(cot*(x0-seam)+25.5-zc)
		c := (x0-seam)*(x0-seam) + (25.5-zc)*(25.5-zc) - radius*radius
		u := (-b + side*math.Sqrt(b*b-4*a*c)) / (2 * a)
		return x0 + cot*u
	}
	for i, x := range []float64{2, 102, 202} {
		p := l.Seams[0].Carved[i]
		assert.Equal(t, []match.Edge{match.NearEdge, match.MidWidth, match.FarEdge}[i], p.At)
		require.NotNil(t, p.Shift)
		want := cross(x, 26.5+radius, -1) - cross(x, 24.5-radius, 1)
		assert.InDelta(t, want, p.Shift.Millimetres(), 1e-6, "at %g", x)
		t.Logf("at %g mm, carved %.2f mm: shift %.3f mm", x, p.DepthA.Millimetres(), p.Shift.Millimetres())
	}
	carved := l.Seams[0].Carved
	assert.InDelta(t, 2*cot, carved[0].Shift.Millimetres(), 0.001, "at the seam that of the sawn faces, but for the arc half a millimetre off it")
	assert.Equal(t, *l.Places[0].Shift, *l.Seams[0].Shift, "and the seam itself is as without an arch")
	assert.InDelta(t, 32*cot, carved[2].Shift.Millimetres(), 1.5, "at the edge the outsides lie 2 + 2 x 15 apart")
	assert.InDelta(t, carved[2].Shift.Millimetres()-carved[0].Shift.Millimetres(), l.Seams[0].Cure.Residual.Millimetres(), 0.001)
	assert.InDelta(t, 60, carved[0].AngleA.Degrees(), 0.01, "level at the seam")
	// at the edge the outside is tilted by asin(200/R); the ring line leans with one outside and
	// against the other
	tilt := math.Asin(half/radius) * 180 / math.Pi
	assert.InDelta(t, 60+tilt, carved[2].AngleA.Degrees(), 0.01)
	assert.InDelta(t, 60-tilt, carved[2].AngleB.Degrees(), 0.01)
	flat := carvedPair(t, plane(60, match.LeansFar), resaw.Bookmatch, 0)
	assert.Nil(t, flat.Seams[0].Carved)
	assert.InDelta(t, 0, flat.Seams[0].Cure.Residual.Millimetres(), 1e-9)
	assert.Greater(t, l.Seams[0].Score, flat.Seams[0].Score, "what is out on the outside counts")
}

// Rings square to the face meet everywhere, however the pair is carved.
func TestCarvedOnQuarter(t *testing.T) {
	for _, opening := range []resaw.Opening{resaw.Bookmatch, resaw.SlipMatch, resaw.WrongWay} {
		for _, s := range carvedPair(t, plane(90, match.UnknownLean), opening, 15).Seams {
			for _, p := range s.Carved {
				require.NotNil(t, p.Shift)
				assert.InDelta(t, 0, p.Shift.Millimetres(), 1e-9)
			}
		}
	}
}

// Circular rings: where two circles cross, the ring about the pith and the arc of the outside.
func TestCarvedCircularRings(t *testing.T) {
	const arch, half, seam, xp, zp = 12.0, 200.0, 202.0, -60.0, 70.0
	radius := (half*half + arch*arch) / (2 * arch)
	l := carvedPair(t, match.RingPosition{Pith: &resaw.Point{X: xp * millimetre, Z: zp * millimetre}}, resaw.Bookmatch, arch)
	// cross of the circle r about the pith with the circle R about (seam, zc), the one near x0
	cross := func(r, zc, x0 float64) float64 {
		dx, dz := seam-xp, zc-zp
		d := math.Hypot(dx, dz)
		along := (r*r - radius*radius + d*d) / (2 * d)
		off := math.Sqrt(r*r - along*along)
		one, two := xp+(along*dx-off*dz)/d, xp+(along*dx+off*dz)/d
		if math.Abs(one-x0) < math.Abs(two-x0) {
			return one
		}
		return two
	}
	for i, x := range []float64{202, 102, 2} {
		p := l.Seams[1].Carved[i]
		require.NotNil(t, p.Shift)
		r := math.Hypot(x-xp, 25.5-zp) // both outsides lie alike about 25.5
		want := cross(r, 26.5+radius, x) - cross(r, 24.5-radius, x)
		assert.InDelta(t, want, p.Shift.Millimetres(), 1e-5, "at %g", x)
	}
	// pairs whose outer faces show come together by carving, those of a cut apart
	wrong := carvedPair(t, match.RingPosition{Pith: &resaw.Point{X: xp * millimetre, Z: zp * millimetre}}, resaw.WrongWay, arch)
	assert.Less(t, math.Abs(float64(*wrong.Seams[1].Carved[2].Shift)), math.Abs(float64(*wrong.Places[0].Shift)))
	assert.Greater(t, math.Abs(float64(*l.Seams[1].Carved[2].Shift)), math.Abs(float64(*l.Places[0].Shift)))
}

func TestArchRefusals(t *testing.T) {
	for name, row := range map[string]struct {
		arch, leaf, width float64
	}{"leaves nothing": {15, 15, 200}, "below nothing": {-1, 15, 200}, "higher than wide": {20, 40, 20}, "no number": {math.NaN(), 40, 200}} {
		_, err := match.Halves(match.Input{Width: quantity.Length(row.width) * millimetre, Count: 2, Leaf: quantity.Length(row.leaf) * millimetre, SeamEdge: 1 * millimetre,
			Arch: quantity.Length(row.arch) * millimetre, Rings: plane(60, match.LeansFar)})
		var domain *method.Error
		require.ErrorAs(t, err, &domain, name)
		assert.Equal(t, "arch_height", domain.Input, name)
	}
}
