package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// Linear profile: kappa = difference of strain of the faces over h (PHYSICS of
// the bending beam). Mean by the ring-angle formula.
func TestLinearGradient(t *testing.T) {
	levels := []section.Level{{Depth: 0, From: exact(10), To: exact(8)}, {Depth: 1, From: exact(10), To: exact(10)}}
	b, err := section.Gradient(5*mm, 200*mm, 0, levels, plain(0.04, 0.08))
	require.NoError(t, err)
	shrink := 1 - (1-0.08*(1-8.0/30))/(1-0.08*(1-10.0/30))
	assert.InDelta(t, shrink/0.005, b.Curvature.Value, 1e-9, "the upper face dries and is hollow")
	assert.InDelta(t, shrink/0.005*0.04/8, float64(b.Cup.Value), 1e-12)
	assert.InDelta(t, -shrink/2, b.Mean.Value, 1e-12)
	line := math.Hypot(0.21, 5/30.0/quantity.Z90)
	assert.InDelta(t, math.Hypot(0.15, line)*quantity.Z90, b.Curvature.High/b.Curvature.Value-1, 0.12, "15 % of S and the error of the line, a ratio")
}

// A step in the middle is the strip of two equal layers: 1.5 de/h (Timoshenko 1925).
func TestStepIsTimoshenko(t *testing.T) {
	levels := []section.Level{
		{Depth: 0, From: exact(10), To: exact(8)}, {Depth: 0.5 - 1e-9, From: exact(10), To: exact(8)},
		{Depth: 0.5 + 1e-9, From: exact(10), To: exact(10)}, {Depth: 1, From: exact(10), To: exact(10)},
	}
	b, err := section.Gradient(10*mm, 200*mm, 0, levels, plain(0.04, 0.08))
	require.NoError(t, err)
	shrink := 1 - (1-0.08*(1-8.0/30))/(1-0.08*(1-10.0/30))
	assert.InDelta(t, 1.5*shrink/0.010, b.Curvature.Value, 1e-6)
}

// Adding levels on straight parts of a profile changes nothing; a profile turned
// upside down bends the other way.
func TestGradientProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mc := rapid.Float64Range(5, 25)
		a, b, c := mc.Draw(t, "a"), mc.Draw(t, "b"), mc.Draw(t, "c")
		angle := quantity.Angle(rapid.Float64Range(0, math.Pi/2).Draw(t, "angle"))
		w := plain(0.04, 0.08)
		bend := func(levels ...section.Level) section.Bent {
			r, err := section.Gradient(5*mm, 200*mm, angle, levels, w)
			require.NoError(t, err)
			return r
		}
		// from a common dry state the strain is linear in MC
		at := func(depth, mc float64) section.Level {
			return section.Level{Depth: depth, From: exact(5), To: exact(mc)}
		}
		three := bend(at(0, a), at(0.5, b), at(1, c))
		five := bend(at(0, a), at(0.25, (a+b)/2), at(0.5, b), at(0.9, b+0.8*(c-b)), at(1, c))
		require.InDelta(t, three.Curvature.Value, five.Curvature.Value, 1e-10)
		require.InDelta(t, three.Mean.Value, five.Mean.Value, 1e-12)
		turned := bend(at(0, c), at(0.5, b), at(1, a))
		require.InDelta(t, -three.Curvature.Value, turned.Curvature.Value, 1e-10)
	})
}

func TestGradientRefused(t *testing.T) {
	w := plain(0.04, 0.08)
	good := section.Level{From: exact(10), To: exact(8)}
	end := section.Level{Depth: 1, From: exact(10), To: exact(8)}
	for _, levels := range [][]section.Level{nil, {good}, {good, good}, {end, good}, {good, {Depth: 0.5, From: exact(9), To: exact(8)}}} {
		_, err := section.Gradient(5*mm, 200*mm, 0, levels, w)
		expect.Code(t, err, method.Contradictory, "levels")
	}
	_, err := section.Gradient(5*mm, 200*mm, 0, []section.Level{good, {Depth: nan, From: exact(9), To: exact(8)}}, w)
	expect.Code(t, err, method.OutOfRange, "levels/1/depth")
	_, err = section.Gradient(5*mm, 200*mm, 0, []section.Level{good, {Depth: 1, From: exact(nan), To: exact(8)}}, w)
	expect.Code(t, err, method.OutOfRange, "levels/1/from_mc_pct")
	_, err = section.Gradient(5*mm, 200*mm, 0, make([]section.Level, 1001), w)
	expect.Code(t, err, method.TooMuchWork, "levels")
}

// Stevens and Johnston by hand: s 4 %, spiral 3 degrees, 60 mm from the pith.
func TestTwist(t *testing.T) {
	s := quantity.NormalBand(0.04, 0.006)
	g := quantity.NormalBand(3*quantity.Degree, 0.5*quantity.Degree)
	r, err := section.Twist(s, g, 60*mm, 2*quantity.Metre)
	require.NoError(t, err)
	assert.InDelta(t, 2*0.04*3*math.Pi/180/(1.04*0.060), r.PerLength.Value, 1e-12)
	assert.InDelta(t, 7.6923, r.Angle.Value.Degrees(), 1e-4)
	assert.InDelta(t, 0.37, r.PerLength.SD()/r.PerLength.Value, 0.01, "30 % scatter, 15 % shrinkage, 17 % spiral")
	for _, bad := range []quantity.Band[float64]{{Value: nan}, {Value: inf}, {Value: 0.5}} {
		_, err = section.Twist(bad, g, 60*mm, 2)
		expect.Code(t, err, method.OutOfRange, "tangential_pct")
	}
	_, err = section.Twist(s, quantity.Band[quantity.Angle]{Value: 0.1, Low: 0.2, High: 0.3}, 60*mm, 2)
	expect.Code(t, err, method.Contradictory, "spiral_deg")
}

func TestCrook(t *testing.T) {
	r, err := section.Crook(100*mm, 2*quantity.Metre, quantity.Band[float64]{Value: 0.002, Low: 0.001, High: 0.003})
	require.NoError(t, err)
	assert.InDelta(t, 0.02, r.Curvature.Value, 1e-12)
	assert.InDelta(t, 10, r.Sagitta.Value.Millimetres(), 1e-9)
	assert.InDelta(t, 15, r.Sagitta.High.Millimetres(), 1e-9)
	_, err = section.Crook(100*mm, 2, quantity.Band[float64]{Value: nan, Low: nan, High: nan})
	expect.Code(t, err, method.OutOfRange, "difference_pct")
	_, err = section.Crook(0, 2, quantity.Band[float64]{})
	expect.Code(t, err, method.OutOfRange, "depth")
}
