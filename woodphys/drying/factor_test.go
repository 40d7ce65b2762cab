package drying

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func TestFactorOfAWoodWithAPace(t *testing.T) {
	maple := wood.Wood{Pace: wood.Pace{Factor: 0.479, Misfit: 0.055, Place: "sault-ste-marie-mi", Fastest: 40 * quantity.Day, Slowest: 205 * quantity.Day}}
	f, err := FactorFor(&maple)
	require.NoError(t, err, "its specific gravity is not asked for")
	assert.Equal(t, Fitted, f.How)
	assert.Equal(t, maple.Pace, f.Pace)
	assert.InDelta(t, 0.479, f.Median, 0)
	assert.InDelta(t, math.Log(1.4), f.SpreadLog, 1e-12, "pile, place and piece differ by more than the misfit")
	assert.Empty(t, f.Notes.Warnings, "its span was read")

	larch := wood.Wood{Pace: wood.Pace{Factor: 0.256, Misfit: 0.372, Recalled: true}}
	f, err = FactorFor(&larch)
	require.NoError(t, err)
	assert.InDelta(t, 0.372, f.SpreadLog, 0)
	require.Len(t, f.Notes.Warnings, 1)
	assert.Equal(t, method.Recalled, f.Notes.Warnings[0].Code)
}

// The prototype, an independent program, found 0.5 to 0.6 for sugar maple in Upper
// Michigan.
func TestFactorOfSugarMaple(t *testing.T) {
	assert.InDelta(t, 0.5, committedPaces(t)["maple-sugar"].Factor, 0.1)
}

func TestFactorOfAWoodWithoutAPace(t *testing.T) {
	other := func(gravity float64, g wood.Listing) wood.Wood {
		return wood.Wood{SpecificGravity: wood.Published(gravity), Listing: g}
	}
	hard := other(0.6, wood.ListedHardwood)
	guess, err := FactorFor(&hard)
	require.NoError(t, err)
	assert.Equal(t, Regressed, guess.How)
	assert.InDelta(t, 0.6, guess.SpecificGravity, 0)
	assert.Greater(t, guess.SpreadLog, math.Log(1.4))
	assert.InDelta(t, 0.29, guess.Median, 0.08, "among the hardwoods of that density")
	assert.Empty(t, guess.Notes.Warnings)
	for _, g := range []wood.Listing{wood.ListedImported, ""} {
		w := other(0.6, g)
		imported, err := FactorFor(&w)
		require.NoError(t, err)
		assert.InDelta(t, guess.Median, imported.Median, 1e-12)
		assert.NotEmpty(t, imported.Notes.Warnings)
	}
	w := other(0.6, wood.ListedSoftwood)
	soft, err := FactorFor(&w)
	require.NoError(t, err)
	assert.Greater(t, soft.Median, guess.Median)
	for _, g := range []float64{math.NaN(), 0, 2} {
		w = other(g, wood.ListedHardwood)
		_, err = FactorFor(&w)
		_, in := input(t, err)
		assert.Equal(t, "specific_gravity", in)
	}
}

// The factor of a piece is that of its wood, for its thickness and its rings; one that
// is given for the piece has only its rings to be told.
func TestFactorOfAPiece(t *testing.T) {
	w := wood.Wood{Pace: wood.Pace{Factor: 0.4, Misfit: 0.1}}
	own, err := FactorFor(&w)
	require.NoError(t, err)
	for _, mm := range []float64{5, 25.4, 60} {
		thickness := quantity.Length(mm) * quantity.Millimetre
		f, err := FactorOf(&w, thickness, UsualRingAngle, Factor{})
		require.NoError(t, err)
		ruled, err := ForThickness(own, thickness)
		require.NoError(t, err)
		assert.InEpsilon(t, ruled.Median, f.Median, 1e-12)
		quartered, err := FactorOf(&w, thickness, 90*quantity.Degree, Factor{})
		require.NoError(t, err)
		assert.InEpsilon(t, f.Median*DirectionFactor(math.Pi/2), quartered.Median, 1e-12)
		there, err := f.AtThickness(thickness, 2*thickness)
		require.NoError(t, err)
		double, err := FactorOf(&w, 2*thickness, UsualRingAngle, Factor{})
		require.NoError(t, err)
		assert.InEpsilon(t, double.Median, there, 1e-12)

		given, err := FactorOf(&w, thickness, 0, Factor{Median: 0.7, SpreadLog: 0.2})
		require.NoError(t, err)
		assert.Equal(t, Given, given.How)
		assert.InEpsilon(t, 0.7*DirectionFactor(0), given.Median, 1e-12)
		there, err = given.AtThickness(thickness, 2*thickness)
		require.NoError(t, err)
		assert.InDelta(t, given.Median, there, 0)
		b := given.Band()
		assert.InEpsilon(t, math.Exp(2*quantity.Z90*0.2), b.High/b.Low, 1e-12)
	}
	_, err = FactorOf(&w, 0, 0, Factor{})
	_, in := input(t, err)
	assert.Equal(t, "thickness", in)
}

func TestDirectionFactor(t *testing.T) {
	assert.InDelta(t, 1, DirectionFactor(math.Pi/4), 1e-12)
	assert.InDelta(t, 1.2, DirectionFactor(0)/DirectionFactor(math.Pi/2), 1e-12)
	assert.InDelta(t, DirectionFactor(0.3), DirectionFactor(-0.3), 1e-12)
}
