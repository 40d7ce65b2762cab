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
	maple := wood.Wood{Listing: wood.ListedHardwood, Pace: wood.Pace{Factor: 0.65, Misfit: 0.055, Place: "sault-ste-marie-mi", Fastest: 40 * quantity.Day, Slowest: 205 * quantity.Day}}
	f, err := FactorFor(&maple)
	require.NoError(t, err, "its specific gravity is not asked for")
	assert.Equal(t, Grouped, f.How)
	assert.InDelta(t, 0.95, f.Median, 0)
	assert.InDelta(t, 0.30, f.SpreadLog, 0)
	assert.Equal(t, Fitted, f.Wet.How)
	assert.Equal(t, maple.Pace, f.Wet.Pace)
	assert.InDelta(t, 0.65, f.Wet.Median, 0)
	assert.InDelta(t, 0.40, f.Wet.SpreadLog, 1e-12, "pile, place and piece differ by more than the misfit")
	assert.Empty(t, f.Notes.Warnings, "its span was read")

	larch := wood.Wood{Listing: wood.ListedSoftwood, Pace: wood.Pace{Factor: 0.256, Misfit: 0.472, Recalled: true}}
	f, err = FactorFor(&larch)
	require.NoError(t, err)
	assert.InDelta(t, 1.20, f.Median, 0)
	assert.InDelta(t, 0.472, f.Wet.SpreadLog, 0)
	require.Len(t, f.Notes.Warnings, 1)
	assert.Equal(t, method.Recalled, f.Notes.Warnings[0].Code)
}

// The prototype, an independent program, found 0.65 for sugar maple in Upper Michigan,
// from 68 % on; the stem starts at 57.
func TestPaceOfSugarMaple(t *testing.T) {
	assert.InDelta(t, 0.65*57/68, committedPaces(t)["maple-sugar"].Factor, 0.05)
}

func TestFactorOfAWoodWithoutAPace(t *testing.T) {
	other := func(gravity float64, g wood.Listing) wood.Wood {
		return wood.Wood{SpecificGravity: wood.Published(gravity), Listing: g}
	}
	hard := other(0.6, wood.ListedHardwood)
	guess, err := FactorFor(&hard)
	require.NoError(t, err)
	assert.Equal(t, Regressed, guess.Wet.How)
	assert.GreaterOrEqual(t, guess.Wet.SpreadLog, 0.5)
	assert.InDelta(t, 0.38, guess.Wet.Median, 0.08, "the middle of the hardwoods")
	assert.Empty(t, guess.Notes.Warnings)
	for _, g := range []wood.Listing{wood.ListedImported, ""} {
		w := other(0.6, g)
		imported, err := FactorFor(&w)
		require.NoError(t, err)
		assert.InDelta(t, guess.Wet.Median, imported.Wet.Median, 1e-12)
		assert.Greater(t, imported.SpreadLog, guess.SpreadLog)
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

// The pace of a wood is that of a wide pile; a small stack is quicker, but not quicker
// than moving air, which slows no wood.
func TestPaceOfAnExposure(t *testing.T) {
	open, shed, room, kiln := OpenStack(), Shed(), ClosedRoom(), Kiln()
	assert.InDelta(t, 0.3, open.WetPace(0.3), 0)
	assert.InDelta(t, 0.42, shed.WetPace(0.3), 1e-12)
	assert.InDelta(t, 0.42, room.WetPace(0.3), 1e-12)
	assert.InDelta(t, 1, shed.WetPace(0.9), 0)
	assert.InDelta(t, 1.1, shed.WetPace(1.1), 0)
	assert.InDelta(t, 1, kiln.WetPace(0.3), 0)
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
		assert.InDelta(t, 0.4, given.Wet.Median, 0, "which says nothing of the wet stage")
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
