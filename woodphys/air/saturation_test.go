package air

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// sink keeps the compiler from dropping what a benchmark computes.
var sink float64

// murphyKoop is the vapour pressure over liquid water, also supercooled, in Pa
// for T in K: Murphy and Koop 2005, eq. 10 (from memory), 123 to 332 K. An
// independent formula, fitted to other data than Hyland and Wexler's.
func murphyKoop(k float64) float64 {
	return math.Exp(54.842763 - 6763.22/k - 4.210*math.Log(k) + 0.000367*k +
		math.Tanh(0.0415*(k-218.8))*(53.878-1331.22/k-9.44523*math.Log(k)+0.014025*k))
}

func TestSaturationAgainstMurphyKoop(t *testing.T) {
	// The stated departures of the package comment, in percent.
	for _, c := range []struct{ celsius, percent float64 }{
		{50, 0.06}, {25, 0.06}, {0, 0.001}, {-5, 0.02}, {-20, 0.10}, {-30, 0.25}, {-40, 0.73}, {-45, 1.3}, {-50, 2.1},
	} {
		p := SaturationPressureOverWater(quantity.Celsius(c.celsius)).Pascals()
		departure := 100 * math.Abs(p/murphyKoop(c.celsius+273.15)-1)
		assert.LessOrEqual(t, departure, c.percent+0.005, "%g degC", c.celsius)
	}
}

func TestMagnusDepartsMoreDownToMinus35(t *testing.T) {
	// Why the water equation is continued rather than changed at 0 degC.
	for c := -35.0; c <= -1; c++ {
		truth := murphyKoop(c + 273.15)
		ours := math.Abs(SaturationPressureOverWater(quantity.Celsius(c)).Pascals()/truth - 1)
		magnus := math.Abs(611.2*math.Exp(17.62*c/(243.12+c))/truth - 1) // WMO-No. 8 (from memory)
		assert.Less(t, ours, magnus, "%g degC", c)
	}
}

func TestNoSeamAtFreezing(t *testing.T) {
	const step = 1e-6
	below := SaturationPressureOverWater(quantity.Celsius(-step))
	above := SaturationPressureOverWater(quantity.Celsius(step))
	assert.InDelta(t, 611.2, above.Pascals(), 0.1)
	// The slope at 0 degC is 44.4 Pa/K, so the two differ by 8.9e-5 Pa.
	assert.InDelta(t, 2*step*44.4, float64(above-below), 1e-6)
	// Over ice and over water the pressures meet at the triple point.
	assert.InEpsilon(t, SaturationPressureOverWater(quantity.Kelvin(triplePoint)).Pascals(),
		SaturationPressureOverIce(quantity.Kelvin(triplePoint)).Pascals(), 5e-5)
}

func TestIceBelowSupercooledWater(t *testing.T) {
	for c := -60.0; c < 0; c++ {
		assert.Less(t, SaturationPressureOverIce(quantity.Celsius(c)), SaturationPressureOverWater(quantity.Celsius(c)), "%g degC", c)
	}
}

func TestSlopes(t *testing.T) {
	for k := 175.0; k <= 470; k += 5 {
		const h = 1e-3
		assert.InEpsilon(t, (logWater(k+h)-logWater(k-h))/(2*h), slopeWater(k), 1e-6)
		if k < triplePoint {
			assert.InEpsilon(t, (logIce(k+h)-logIce(k-h))/(2*h), slopeIce(k), 1e-6)
		}
	}
}

func TestDewAndFrostPointInvert(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		k := rapid.Float64Range(lowestPoint, highestPoint).Draw(r, "water")
		assert.InDelta(r, k, DewPointOf(SaturationPressureOverWater(quantity.Kelvin(k))).Kelvin(), 1e-8)
		k = rapid.Float64Range(lowestPoint, triplePoint).Draw(r, "ice")
		assert.InDelta(r, k, FrostPointOf(SaturationPressureOverIce(quantity.Kelvin(k))).Kelvin(), 1e-8)
	})
}

func TestDewPointOfTheImpossible(t *testing.T) {
	assert.True(t, math.IsNaN(DewPointOf(quantity.Pressure(math.NaN())).Kelvin()))
	assert.InDelta(t, -100, DewPointOf(0).Celsius(), 1e-9)
	assert.InDelta(t, -100, DewPointOf(-5).Celsius(), 1e-9)
	assert.InDelta(t, 200, DewPointOf(quantity.Pressure(math.Inf(1))).Celsius(), 1e-9)
}

func TestStandardPressureRefuses(t *testing.T) {
	for _, m := range []float64{-501, 9001, math.NaN()} {
		_, err := StandardPressure(quantity.Length(m))
		expect.Code(t, err, method.OutOfRange, "altitude")
	}
}

func TestRowsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range Methods() {
		assert.False(t, seen[m.ID], m.ID)
		seen[m.ID] = true
		assert.Equal(t, "air", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
		for _, in := range m.Inputs {
			assert.True(t, in.Limit.Holds(in.Fitted.Low) && in.Limit.Holds(in.Fitted.High), "%s %s", m.ID, in.Name)
		}
	}
}

func BenchmarkSaturationPressureOverWater(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		sink += float64(SaturationPressureOverWater(quantity.Kelvin(273 + float64(i%40))))
	}
}

func BenchmarkDewPointOf(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		sink += DewPointOf(quantity.Pressure(300 + float64(i%2000))).Kelvin()
	}
}
