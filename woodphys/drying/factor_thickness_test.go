package drying

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// Wengert (trade column, read): 8/4 stock takes 2.5 times as long as 4/4. With the
// factor of the thickness the model gives 2^1.66 = 3.16 in the middle, and 2.5 lies
// inside its 90 % band.
func TestForThicknessAgainstEightQuarter(t *testing.T) {
	base := Factor{Median: 0.255, SpreadLog: math.Log(1.4)} // northern red oak
	one, err := ForThickness(base, 25.4*quantity.Millimetre)
	require.NoError(t, err)
	assert.InDelta(t, base.Median, one.Median, 1e-12)
	assert.InDelta(t, base.SpreadLog, one.SpreadLog, 1e-12)
	two, err := ForThickness(base, 50.8*quantity.Millimetre)
	require.NoError(t, err)
	slower := 4 * base.Median / two.Median // time goes with L^2/k
	assert.InDelta(t, 3.16, slower, 0.01)
	// the band of the exponent alone reaches from the published 2.5 to diffusion's 4
	spread := math.Exp(quantity.Z90 * thicknessSD * math.Ln2)
	assert.InDelta(t, 2.5, slower/spread, 0.01)
	assert.InDelta(t, 4.0, slower*spread, 0.01)
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
