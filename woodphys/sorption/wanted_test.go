package sorption

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// The humidity found keeps the wood at the moisture content wanted, for ordinary
// woods and those rich in extractives.
func TestHumidityForInvertsEquilibrium(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temperature := quantity.Celsius(rapid.Float64Range(-10, 60).Draw(t, "c"))
		rh := rapid.Float64Range(0.02, 0.97).Draw(t, "rh")
		curves := Curves{Saturation: quantity.Moisture(rapid.SampledFrom([]float64{0, 0.18, 0.23, 0.29, 0.33}).Draw(t, "saturation")), SaturationSD: 0.02}
		branch := rapid.SampledFrom([]Branch{Middle, Desorption, Adsorption}).Draw(t, "branch")
		e, err := EquilibriumBand(temperature, rh, branch, curves)
		require.NoError(t, err)
		h, err := HumidityFor(temperature, e.Moisture.Value, branch, curves)
		require.NoError(t, err)
		assert.InDelta(t, rh, h.RH.Value, 1e-8)
		assert.LessOrEqual(t, h.RH.Low, h.RH.Value)
		assert.GreaterOrEqual(t, h.RH.High, h.RH.Value)
	})
}

// Wood Handbook table 4-2 at 21.1 degC: 8.5 % at 45 % RH, 9.2 % at 50 % (recalled).
func TestHumidityForPrintedTable(t *testing.T) {
	h, err := HumidityFor(quantity.Celsius(21.1), 9.2*quantity.PercentMC, Middle, Curves{})
	require.NoError(t, err)
	assert.InDelta(t, 0.50, h.RH.Value, 0.005)
}

func TestHumidityForRefuses(t *testing.T) {
	for _, mc := range []quantity.Moisture{0, -0.1, 0.4, quantity.Moisture(math.NaN())} {
		_, err := HumidityFor(quantity.Celsius(20), mc, Middle, Curves{})
		var domain *method.Error
		require.ErrorAs(t, err, &domain)
		assert.Equal(t, "mc_pct", domain.Input)
	}
}

// The difference of two independent draws from the narrowed bands has the
// spread of the difference of two correlated draws from the bands given.
func TestSamePieceKeepsTheSpreadOfTheDifference(t *testing.T) {
	a, b := quantity.NormalBand[quantity.Moisture](0.085, 0.006), quantity.NormalBand[quantity.Moisture](0.053, 0.004)
	first, second := SamePiece(a, b)
	assert.InDelta(t, 0.085, float64(first.Value), 1e-15)
	random := rand.New(rand.NewPCG(1, 2))
	sum := 0.0
	const n = 200_000
	for range n {
		x := random.NormFloat64()
		y := sharedError*x + math.Sqrt(1-sharedError*sharedError)*random.NormFloat64()
		d := 0.006*x - 0.004*y
		sum += d * d
	}
	got := math.Hypot(float64(first.SD()), float64(second.SD()))
	assert.InDelta(t, math.Sqrt(sum/n), got, 0.01*got)
	same, again := SamePiece(quantity.NormalBand[quantity.Moisture](0.08, 0), quantity.NormalBand[quantity.Moisture](0.06, 0))
	assert.Zero(t, same.SD()+again.SD())
}
