package moisture_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func weights(resolution float64, pairs ...float64) []moisture.Dated {
	var all []moisture.Dated
	for i := 0; i < len(pairs); i += 2 {
		all = append(all, moisture.Dated{At: quantity.Duration(pairs[i]) * quantity.Day, Weighing: grams(pairs[i+1], resolution)})
	}
	return all
}

// A line by hand: days 0, 1, 2, 3 and 1000, 990, 985, 971 g.
func TestTrend(t *testing.T) {
	trend, err := moisture.TrendOf(weights(0.1, 0, 1000, 1, 990, 2, 985, 3, 971), 800*quantity.Gram)
	require.NoError(t, err)
	// t' = 1.5, W' = 986.5; sum = -1.5*13.5 - 0.5*3.5 - 0.5*1.5 - 1.5*15.5 = -46; /5 = -9.2
	assert.InDelta(t, -9.2/986.5, trend.MassPerDay.Value, 1e-12)
	assert.InDelta(t, -9.2/800, float64(trend.MCPerDay.Value), 1e-12)
	// residuals -0.3, -1.1, 3.1, -1.7: sum of squares 13.8
	assert.InDelta(t, math.Sqrt(13.8/2), trend.Residual.Grams(), 1e-9)
	half := 2.919986 * math.Sqrt(13.8/2/5) / 986.5 // t(0.95, 2) = 2.920, printed tables
	assert.InDelta(t, trend.MassPerDay.Value+half, trend.MassPerDay.High, 1e-7)
	assert.True(t, trend.MCKnown)
	assert.InDelta(t, 3, trend.Span.Days(), 1e-12)
	// Equal readings on a coarse scale are not certain.
	flat, err := moisture.TrendOf(weights(5, 0, 1000, 7, 1000, 14, 1000), 0)
	require.NoError(t, err)
	assert.InDelta(t, 1.644854*5/math.Sqrt(12)/math.Sqrt(98)/1000, flat.MassPerDay.High, 1e-9)
	assert.False(t, flat.MCKnown)
}

func TestTrendRefuses(t *testing.T) {
	_, err := moisture.TrendOf(weights(1, 0, 1000, 1, 990), 0)
	requireCode(t, err, method.Missing, "weights")
	_, err = moisture.TrendOf(make([]moisture.Dated, 10001), 0)
	requireCode(t, err, method.TooMuchWork, "weights")
	_, err = moisture.TrendOf(weights(1, 0, 1000, 1, 990, 1, 980), 0)
	requireCode(t, err, method.OutOfRange, "weights/2/at_days")
	_, err = moisture.TrendOf(weights(1, 0, 1000, math.NaN(), 990, 2, 980), 0)
	requireCode(t, err, method.OutOfRange, "weights/1/at_days")
	_, err = moisture.TrendOf(weights(1, 0, 1000, 1, 990, 2, -1), 0)
	requireCode(t, err, method.OutOfRange, "weights/2/mass")
	_, err = moisture.TrendOf(weights(1, 0, 1000, 1, 990, 2, 980), quantity.Mass(math.NaN()))
	requireCode(t, err, method.OutOfRange, "ovendry_mass")
}

func TestConstantWeight(t *testing.T) {
	small := func(resolution float64, pairs ...float64) moisture.Rest {
		trend, err := moisture.TrendOf(weights(resolution, pairs...), 0)
		require.NoError(t, err)
		return moisture.ConstantSmall(trend).Rest
	}
	assert.Equal(t, moisture.Constant, small(0.1, 0, 100.0, 5, 100.0, 10, 99.9))
	assert.Equal(t, moisture.Drying, small(0.1, 0, 100.0, 1, 99.0, 2, 98.1))
	assert.Equal(t, moisture.Gaining, small(0.1, 0, 100.0, 1, 101.0, 2, 101.9))
	assert.Equal(t, moisture.CannotTell, small(0.1, 0, 100.0, 0.2, 100.1, 0.4, 100.0))
	assert.Equal(t, moisture.CannotTell, small(5, 0, 100.0, 1, 100, 2, 100), "three equal weights on a coarse scale")

	// drying by more than the limit in the middle, but the band reaches inside
	assert.Equal(t, moisture.CannotTell, small(0.1, 0, 100.0, 1, 99.6, 2, 99.7))
	assert.Equal(t, moisture.CannotTell, small(0.1, 0, 100.0, 1, 100.4, 2, 100.3))

	large := func(swing quantity.Moisture, pairs ...float64) (moisture.Verdict, error) {
		trend, err := moisture.TrendOf(weights(1, pairs...), 1000*quantity.Gram)
		require.NoError(t, err)
		return moisture.ConstantLarge(trend, swing)
	}
	v, err := large(0.02, 0, 1100, 7, 1099, 14, 1099, 21, 1098)
	require.NoError(t, err)
	assert.Equal(t, moisture.Constant, v.Rest)
	v, err = large(0.02, 0, 1150, 7, 1130, 14, 1110, 21, 1091)
	require.NoError(t, err)
	assert.Equal(t, moisture.Drying, v.Rest)
	_, err = large(0.02, 0, 1100, 7, 1099, 13, 1099)
	requireCode(t, err, method.Missing, "weights")
	_, err = large(quantity.Moisture(math.NaN()), 0, 1100, 7, 1099, 14, 1099)
	requireCode(t, err, method.OutOfRange, "swing_pct")
	trend, err := moisture.TrendOf(weights(1, 0, 1100, 7, 1099, 14, 1099), 0)
	require.NoError(t, err)
	_, err = moisture.ConstantLarge(trend, 0.02)
	requireCode(t, err, method.Missing, "ovendry_mass")
}

// The band of the slope holds the true slope in 90 of 100 series of five weights.
func TestTrendCoverage(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	const runs = 20000
	for _, n := range []int{3, 5, 9} {
		held := 0
		for range runs {
			var pairs []float64
			for i := range n {
				pairs = append(pairs, float64(i), 1000-2*float64(i)+rng.NormFloat64())
			}
			trend, err := moisture.TrendOf(weights(0.01, pairs...), 1000*quantity.Gram)
			require.NoError(t, err)
			if trend.MCPerDay.Low <= -0.002 && -0.002 <= trend.MCPerDay.High {
				held++
			}
		}
		assert.InDelta(t, 0.90, float64(held)/runs, 0.01, n)
	}
}
