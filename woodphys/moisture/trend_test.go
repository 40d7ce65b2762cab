package moisture_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
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
	expect.Code(t, err, method.Missing, "weights")
	_, err = moisture.TrendOf(make([]moisture.Dated, 10001), 0)
	expect.Code(t, err, method.TooMuchWork, "weights")
	_, err = moisture.TrendOf(weights(1, 0, 1000, 1, 990, 1, 980), 0)
	expect.Code(t, err, method.OutOfRange, "weights/2/at_days")
	_, err = moisture.TrendOf(weights(1, 0, 1000, math.NaN(), 990, 2, 980), 0)
	expect.Code(t, err, method.OutOfRange, "weights/1/at_days")
	_, err = moisture.TrendOf(weights(1, 0, 1000, 1, 990, 2, -1), 0)
	expect.Code(t, err, method.OutOfRange, "weights/2/mass")
	_, err = moisture.TrendOf(weights(1, 0, 1000, 1, 990, 2, 980), quantity.Mass(math.NaN()))
	expect.Code(t, err, method.OutOfRange, "ovendry_mass")
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
