package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

func warp(t *testing.T, b section.Board) section.Warped {
	t.Helper()
	w, err := section.Warp(b)
	require.NoError(t, err)
	return w
}

// Hollow and round follow the pith, whichever side it is on, and swelling turns them over.
func TestSensesFollowThePith(t *testing.T) {
	for _, c := range []struct {
		depth        quantity.Length
		from, to     float64
		sense        section.Sense
		lower, upper bool // round
	}{
		{100 * mm, 14, 8, section.HollowToBark, true, false},
		{-130 * mm, 14, 8, section.HollowToBark, false, true},
		{100 * mm, 8, 14, section.HollowToPith, false, true},
	} {
		w := warp(t, section.Board{Wood: plain(0.04, 0.08), Section: section.FromPith(200*mm, 30*mm, 100*mm, 30*mm+c.depth), From: exact(c.from), To: exact(c.to)})
		require.NotNil(t, w.Free)
		lower, upper := w.Free.Sides[0], w.Free.Sides[1]
		assert.Equal(t, []section.Sense{c.sense, c.sense}, []section.Sense{lower.Sense, upper.Sense})
		assert.Equal(t, []bool{c.lower, c.upper}, []bool{lower.Round, upper.Round})
	}
	wet := warp(t, section.Board{Wood: plain(0.04, 0.08), Section: section.FromPith(200*mm, 30*mm, 100*mm, 130*mm), From: exact(35), To: exact(60)})
	assert.Equal(t, section.StaysFlat, wet.Free.Sides[0].Sense, "nothing moves above fibre saturation")
}

// A pith on a face bends it as one just outside does, whatever floating point makes of the sizes.
func TestAPithOnAFaceIsOutside(t *testing.T) {
	for _, thickness := range []quantity.Length{27 * mm, 30 * mm, 33.3 * mm, 52 * mm, 25.4 * mm} {
		for _, depth := range []quantity.Length{-mm, 0, thickness, thickness + mm} {
			w := warp(t, section.Board{Wood: plain(0.04, 0.08), Section: section.FromPith(200*mm, thickness, 100*mm, depth), From: exact(14), To: exact(8)})
			require.NotNil(t, w.Free)
			below := depth >= thickness
			assert.Equal(t, []bool{below, !below}, []bool{w.Free.Sides[0].Round, w.Free.Sides[1].Round}, "pith at %v of %v", depth, thickness)
			assert.Equal(t, section.HollowToBark, w.Free.Sides[0].Sense)
		}
	}
}

// The pith is where it was put; a half has the pith where the whole has.
func TestPithDepthAndHalves(t *testing.T) {
	s := section.FromPith(200*mm, 30*mm, 110*mm, 70*mm)
	y, z := s.Pith()
	assert.InDelta(t, 0.110, float64(y), 1e-15)
	assert.InDelta(t, 0.070, float64(z), 1e-15)
	w := warp(t, section.Board{Wood: plain(0.04, 0.08), Section: s, From: exact(14), To: exact(8)})
	left, err := section.Change(section.Section{Width: 100 * mm, Thickness: 30 * mm, PithX: 60 * mm, PithY: s.PithY}, exact(14), exact(8), plain(0.04, 0.08))
	require.NoError(t, err)
	require.Len(t, w.Free.Halves, 2)
	assert.InDelta(t, float64(left.Shape.Cup.Lower.Value), float64(w.Free.Halves[0].Cup.Lower.Value), 1e-15)
	assert.Len(t, w.Free.Outline.After, 4*section.PointsPerSide)
}

// The mean of a profile weighs each level by what it stands for, with nothing above fibre
// saturation counted; the bend of the gradient goes into faces, outline and what is left
// of the thickness.
func TestProfile(t *testing.T) {
	b := section.Board{Wood: plain(0.03, 0.06), Section: section.FromPith(100*mm, 10*mm, 50*mm, 70*mm), Profile: []section.ProfilePoint{
		{Depth: 0, From: 0.60, To: 0.10}, {Depth: 0.5, From: 0.90, To: 0.60}, {Depth: 1, From: 0.60, To: 0.10, SD: 0.04},
	}}
	w := warp(t, b)
	assert.InDelta(t, 30, w.From.Value.Percent(), 1e-9)
	assert.InDelta(t, 20, w.To.Value.Percent(), 1e-9, "10, 30 and 10 with the weights 1, 2 and 1")
	assert.InDelta(t, 1, w.To.SD().Percent(), 1e-9, "a quarter of 4")
	assert.Equal(t, section.NoFace, w.Hollow, "both faces alike")

	b.Profile = []section.ProfilePoint{{Depth: 0, From: 0.14, To: 0.08}, {Depth: 1, From: 0.08, To: 0.08}}
	w = warp(t, b)
	require.NotNil(t, w.Gradient)
	assert.Equal(t, section.UpperFace, w.Hollow)
	upper := w.Free.Sides[1]
	require.NotNil(t, upper.WithGradient)
	assert.InDelta(t, float64(upper.Cup.Value+w.Gradient.Cup.Value), float64(upper.WithGradient.Value), 1e-12, "the bark is above")
	assert.Less(t, w.Free.FlatWithGradient.Value, w.Free.Flat.Value)
	assert.Nil(t, w.Free.Sides[2].WithGradient)

	for depths, input := range map[[2]float64]string{{0.1, 1}: "levels/0/depth", {0, 0}: "levels/1/depth", {0, 0.9}: "levels/1/depth"} {
		b.Profile[0].Depth, b.Profile[1].Depth = depths[0], depths[1]
		_, err := section.Warp(b)
		expect.Code(t, err, method.Contradictory, input)
	}
	b.Profile[0].Depth, b.Profile[1].Depth = 0, 1
	b.Section = section.FromPith(100*mm, 10*mm, 50*mm, 5*mm)
	_, err := section.Warp(b)
	expect.Code(t, err, method.Unsupported, "levels")
}

// Twist, crook and bow are those of their own functions; a flat board 100 mm from the pith
// twists as at 116.6 mm, integral(r^2 dA)/integral(r dA) summed apart.
func TestAlong(t *testing.T) {
	spiral, sd, edges := 3*quantity.Degree, 1*quantity.Degree, -0.001
	b := section.Board{Wood: plain(0.04, 0.08), Section: section.FromPith(200*mm, 30*mm, 100*mm, 115*mm), From: exact(14), To: exact(8), Along: &section.Along{Length: 2, Spiral: &spiral, Edges: &edges}}
	w := warp(t, b)
	require.NotNil(t, w.Lengthwise.Twist)
	twisted, err := section.Twist(quantity.Band[float64]{Value: -w.Tangential.Value, Low: -w.Tangential.High, High: -w.Tangential.Low}, quantity.NormalBand(spiral, 0), 0.11675, 2)
	require.NoError(t, err)
	assert.InDelta(t, float64(twisted.Angle.Value), float64(w.Lengthwise.Twist.Value), 1e-4)
	assert.InDelta(t, -0.001*4/(8*0.2), float64(w.Lengthwise.Crook.Value), 1e-12)
	assert.Nil(t, w.Lengthwise.Bow)

	b.Along = &section.Along{Length: 2}
	_, err = section.Warp(b)
	expect.Code(t, err, method.Missing, "lengthwise")
	b.Along = &section.Along{Length: 2, Edges: &edges, SpiralSD: &sd}
	_, err = section.Warp(b)
	expect.Code(t, err, method.Contradictory, "lengthwise/spiral_sd_deg")
	b.Along = &section.Along{Length: quantity.Length(nan), Edges: &edges}
	_, err = section.Warp(b)
	expect.Code(t, err, method.OutOfRange, "lengthwise/length")
}

// The sagitta of an arc of curvature k over its chord l is exactly r - sqrt(r^2 - l^2/4):
// at the limit of a curl, a tenth of l, it is 0.1042 l where k l^2/8 says 0.1.
func TestCurlIsToldFrom4Percent(t *testing.T) {
	k := 8 * section.MostCurl // per unit of length
	assert.InDelta(t, 0.1042, 1/k-math.Sqrt(1/(k*k)-0.25), 0.0002)
	told := func(wet float64) bool {
		w := warp(t, section.Board{Wood: plain(0.03, 0.06), Section: section.FromPith(200*mm, 4*mm, 100*mm, 2+4*mm),
			Profile: []section.ProfilePoint{{Depth: 0, From: quantity.Moisture(wet), To: 0.08}, {Depth: 1, From: 0.08, To: 0.08}}})
		return expect.Warned(w.Notes, method.OutsideFitted)
	}
	// 20 mm of 200: kappa 4 per metre, strain 1.6 %, 8 points of 30 for 6 %
	assert.True(t, told(0.17))
	assert.False(t, told(0.14))
}

// A board on the quarter with straight rings shrinks radially across its width and
// tangentially through its thickness, and it and its halves stay flat, however wide.
func TestQuartersawnStaysFlat(t *testing.T) {
	for _, width := range []quantity.Length{20 * mm, 400 * mm, 100 * quantity.Metre} {
		s, err := section.FromRings(width, 20*mm, 90*quantity.Degree, section.StraightRings)
		require.NoError(t, err)
		w := warp(t, section.Board{Wood: plain(0.04, 0.08), Section: s, From: exact(14), To: exact(8)})
		assert.InEpsilon(t, 1+w.Radial.Value, float64(w.Free.Width.Middle.Value/width), 1e-4)
		assert.InEpsilon(t, 1+w.Tangential.Value, float64(w.Free.Thickness.Middle.Value/(20*mm)), 1e-4)
		for _, half := range w.Free.Halves {
			assert.InDelta(t, 0, float64(half.Cup.Lower.Value/width), 1e-5)
		}
	}
}
