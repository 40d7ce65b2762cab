package drying

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFactorFor(t *testing.T) {
	f, err := FactorFor("maple-sugar", math.NaN(), "")
	require.NoError(t, err)
	assert.Equal(t, Fitted, f.How)
	// the prototype, an independent program, found 0.5 to 0.6 for this span
	assert.InDelta(t, 0.5, f.Median, 0.1)
	assert.GreaterOrEqual(t, f.SpreadLog, math.Log(1.4))
	assert.Empty(t, f.Notes.Warnings, "its span was read")

	oak, err := FactorFor("oak-white", 0.6, "hardwood")
	require.NoError(t, err)
	assert.Equal(t, Fitted, oak.How)
	assert.Contains(t, oak.Note, "oak-northern-white")
	assert.NotEmpty(t, oak.Notes.Warnings, "its span is recalled")

	guess, err := FactorFor("some-other-wood", 0.6, "hardwood")
	require.NoError(t, err)
	assert.Equal(t, Regressed, guess.How)
	assert.Greater(t, guess.SpreadLog, f.SpreadLog)
	assert.InDelta(t, 0.29, guess.Median, 0.08, "among the hardwoods of that density")
	imported, err := FactorFor("some-other-wood", 0.6, "imported")
	require.NoError(t, err)
	assert.InDelta(t, guess.Median, imported.Median, 1e-12)
	assert.NotEmpty(t, imported.Notes.Warnings)
	soft, err := FactorFor("some-other-wood", 0.6, "softwood")
	require.NoError(t, err)
	assert.Greater(t, soft.Median, guess.Median)
	for _, g := range []float64{math.NaN(), 0, 2} {
		_, err = FactorFor("some-other-wood", g, "hardwood")
		_, in := input(t, err)
		assert.Equal(t, "specific_gravity", in)
	}
	assert.True(t, slices.IsSortedFunc(factorTable(), func(a, b fittedFactor) int {
		if a.wood < b.wood {
			return -1
		}
		return 1
	}))
}

func TestDirectionFactor(t *testing.T) {
	assert.InDelta(t, 1, DirectionFactor(math.Pi/4), 1e-12)
	assert.InDelta(t, 1.2, DirectionFactor(0)/DirectionFactor(math.Pi/2), 1e-12)
	assert.InDelta(t, DirectionFactor(0.3), DirectionFactor(-0.3), 1e-12)
}
