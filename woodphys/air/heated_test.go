package air

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func TestHeatedOutdoorAir(t *testing.T) {
	// 5 degC, 80 % RH heated to 20 degC becomes 29.8 % RH, computed apart from
	// this code from the same equation.
	outdoor, err := FromRelativeHumidity(quantity.Celsius(5), 0.80, SeaLevelPressure)
	require.NoError(t, err)
	indoor, err := Heated(outdoor, quantity.Celsius(20))
	require.NoError(t, err)
	assert.InDelta(t, 0.298, indoor.RelativeHumidity, 0.0005)
	assert.InEpsilon(t, outdoor.HumidityRatio, indoor.HumidityRatio, 1e-12)
	assert.Contains(t, indoor.Notes.Basis, "air.heated")
	assert.Empty(t, indoor.Notes.Warnings)
}

func TestCooledAir(t *testing.T) {
	room, err := FromRelativeHumidity(quantity.Celsius(20), 0.5, SeaLevelPressure) // dew point 9.27 degC
	require.NoError(t, err)
	cellar, err := Heated(room, quantity.Celsius(5))
	require.NoError(t, err)
	assert.InDelta(t, 1, cellar.RelativeHumidity, 0)
	assert.Less(t, cellar.HumidityRatio, room.HumidityRatio)
	require.Len(t, cellar.Notes.Warnings, 1)
	assert.Equal(t, method.Assumption, cellar.Notes.Warnings[0].Code)
	assert.Contains(t, cellar.Notes.Warnings[0].Detail, "water condenses")
	assert.Contains(t, cellar.Notes.Warnings[0].Detail, "9.3 C")
	assert.Empty(t, room.Notes.Warnings, "the given state must not change")

	above, err := Heated(room, quantity.Celsius(9.4))
	require.NoError(t, err)
	assert.Less(t, above.RelativeHumidity, 1.0)
	assert.Empty(t, above.Notes.Warnings)

	winter, err := FromRelativeHumidity(quantity.Celsius(-5), 0.9, SeaLevelPressure)
	require.NoError(t, err)
	night, err := Heated(winter, quantity.Celsius(-6))
	require.NoError(t, err)
	require.Len(t, night.Notes.Warnings, 1)
	assert.Contains(t, night.Notes.Warnings[0].Detail, "frost")
	assert.InEpsilon(t, float64(winter.VapourPressure), float64(night.VapourPressure), 1e-12)

	_, err = Heated(room, quantity.Celsius(121))
	expect.Code(t, err, method.OutOfRange, "temperature")
	_, err = Heated(State{}, quantity.Celsius(20))
	expect.Code(t, err, method.OutOfRange, "pressure")
}

func TestHeatingDries(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawAir(r)
		warmer := quantity.Celsius(rapid.Float64Range(s.DryBulb.Celsius(), 120).Draw(r, "warmer"))
		h, err := Heated(s, warmer)
		require.NoError(r, err)
		assert.LessOrEqual(r, h.RelativeHumidity, s.RelativeHumidity+1e-12)
		assert.InDelta(r, float64(s.VapourPressure), float64(h.VapourPressure), 1e-12*(1+float64(s.VapourPressure)))
	})
}

// Winter air brought into a heated shop.
func ExampleHeated() {
	outdoor, _ := FromRelativeHumidity(quantity.Celsius(5), 0.80, SeaLevelPressure)
	indoor, _ := Heated(outdoor, quantity.Celsius(20))
	fmt.Printf("%.0f %% RH becomes %.0f %% RH\n", 100*outdoor.RelativeHumidity, 100*indoor.RelativeHumidity)
	// Output: 80 % RH becomes 30 % RH
}
