package drying

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// Diffusion alone gives 4 for twice the thickness; the factor takes some of it off. The
// whole solver is held against published ratios in outside_test.go.
func TestForThickness(t *testing.T) {
	base := Factor{Median: 0.95, SpreadLog: 0.35}
	for _, mm := range []float64{1, 10, 25.4} {
		one, err := ForThickness(base, quantity.Length(mm)*quantity.Millimetre)
		require.NoError(t, err)
		assert.InDelta(t, base.Median, one.Median, 1e-12, "thin parts are not slowed")
		assert.InDelta(t, base.SpreadLog, one.SpreadLog, 1e-12)
	}
	two, err := ForThickness(base, 50.8*quantity.Millimetre)
	require.NoError(t, err)
	assert.InDelta(t, math.Pow(2, 0.55), two.Median/base.Median, 1e-12)
	assert.Greater(t, two.SpreadLog, base.SpreadLog)
}

func TestForThicknessThickerNeverFaster(t *testing.T) {
	base := Factor{Median: 0.3, SpreadLog: 0.3}
	last := 0.0
	for mm := 5.0; mm <= 300; mm += 5 {
		f, err := ForThickness(base, quantity.Length(mm)*quantity.Millimetre)
		require.NoError(t, err)
		time := mm * mm / f.Median
		assert.Greater(t, time, last)
		last = time
	}
	_, err := ForThickness(base, 0)
	require.Error(t, err)
}
