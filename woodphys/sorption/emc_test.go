package sorption

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func TestRulesOfThumb(t *testing.T) {
	// 30 % RH is 6, 50 % is 9, 65 % is 12 and 80 % is 16 %MC near room
	// temperature (Wengert); a rule in whole points, so 0.5.
	for rh, want := range map[float64]float64{0.30: 6, 0.50: 9, 0.65: 12, 0.80: 16} {
		assert.InDelta(t, want, NewIsotherm(quantity.Celsius(21)).At(rh).Percent(), 0.5)
	}
}

func TestInversePrinted(t *testing.T) {
	rh := NewIsotherm(quantity.Celsius(60)).Inverse(8.4 * quantity.PercentMC)
	assert.InDelta(t, 0.55, rh, 0.003, "140 degF, 55 % RH gives 8.4 %MC, a printed worked value to 0.05 %MC")

	curve := NewIsotherm(quantity.Celsius(20))
	highest := curve.At(1)
	assert.InDelta(t, 28.8, highest.Percent(), 0.05)
	assert.InDelta(t, 1, curve.Inverse(highest), 1e-12)
}

func TestRefuses(t *testing.T) {
	for _, c := range []float64{-40.1, 120.1, math.NaN(), math.Inf(1)} {
		_, err := EquilibriumBand(quantity.Celsius(c), 0.5, Middle, Curves{})
		expect.Code(t, err, method.OutOfRange, "temperature")
		_, err = FibreSaturation(quantity.Celsius(c), 0.3)
		expect.Code(t, err, method.OutOfRange, "temperature")
	}
	for _, v := range []float64{-0.01, 1.01, math.NaN(), math.Inf(-1)} {
		_, err := EquilibriumBand(quantity.Celsius(20), v, Middle, Curves{})
		expect.Code(t, err, method.OutOfRange, "rh_pct")
		_, err = FibreSaturation(quantity.Celsius(20), quantity.Moisture(v))
		expect.Code(t, err, method.OutOfRange, "fibre_saturation_pct")
	}
	_, err := EquilibriumBand(quantity.Celsius(20), 0.5, Branch(7), Curves{})
	expect.Code(t, err, method.Unknown, "branch")
}

func TestFibreSaturation(t *testing.T) {
	for c, want := range map[float64]float64{20: 30, 30: 29, 0: 32, -1: 32.1, 100: 22, 110: 22} {
		m, err := FibreSaturation(quantity.Celsius(c), NominalFibreSaturation)
		require.NoError(t, err)
		assert.InDelta(t, want, m.Percent(), 1e-9, "%g degC", c)
	}
}

func TestRowsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range Methods() {
		assert.False(t, seen[m.ID], m.ID)
		seen[m.ID] = true
		assert.Equal(t, "sorption", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
		for _, in := range m.Inputs {
			assert.True(t, in.Limit.Holds(in.Fitted.Low) && in.Limit.Holds(in.Fitted.High), "%s %s", m.ID, in.Name)
		}
	}
}

func ExampleIsotherm_At() {
	m := NewIsotherm(quantity.Celsius(21.1)).At(0.50)
	fmt.Printf("%.1f %%MC\n", m.Percent())
	// Output: 9.2 %MC
}
