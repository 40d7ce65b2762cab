package air

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Each measure alone is the function of its own, and a wet bulb says what an error of
// half a kelvin is worth.
func TestFromMeasuredTakesOneMeasure(t *testing.T) {
	dry, wet, dew, rh := quantity.Celsius(20), quantity.Celsius(15), quantity.Celsius(10), 0.5
	up, low := 1600*quantity.Metre, 84e3*quantity.Pascal
	high, err := StandardPressure(up)
	require.NoError(t, err)
	for _, c := range []struct {
		measured Measured
		pressure quantity.Pressure
	}{
		{Measured{RH: &rh}, SeaLevelPressure}, {Measured{DewPoint: &dew, Altitude: &up}, high}, {Measured{WetBulb: &wet, Pressure: &low}, low},
	} {
		c.measured.DryBulb = dry
		s, err := FromMeasured(c.measured)
		require.NoError(t, err)
		assert.InDelta(t, float64(c.pressure), float64(s.Pressure), 1e-9)
		switch m := c.measured; {
		case m.RH != nil:
			assert.InDelta(t, rh, s.RelativeHumidity, 1e-12)
		case m.DewPoint != nil:
			got, err := s.DewPoint()
			require.NoError(t, err)
			assert.InDelta(t, 10, got.Celsius(), 1e-6)
		default:
			got, _, err := s.WetBulb()
			require.NoError(t, err)
			assert.InDelta(t, 15, got.Celsius(), 1e-6)
			require.Len(t, s.Notes.Warnings, 1)
			off, err := FromWetBulb(dry, quantity.Celsius(14.5), low, false)
			require.NoError(t, err)
			worth := " is worth " + quantity.FormatNumber(100*(s.RelativeHumidity-off.RelativeHumidity), 1) + " % RH"
			assert.Contains(t, s.Notes.Warnings[0].Detail, worth)
			said := s.Notes.Warnings[0].In(func(a method.Amount) (string, bool) { return "0.9 F", a.Unit == "K" && a.Value == 0.5 })
			assert.True(t, strings.HasPrefix(said, "0.9 F of error in the wet bulb"+worth), said)
		}
	}
}

func TestFromMeasuredRefuses(t *testing.T) {
	at, rh, up, p := quantity.Celsius(15), 0.5, quantity.Length(100), quantity.Pressure(1e5)
	for _, c := range []struct {
		measured Measured
		code     method.Code
		input    string
	}{
		{Measured{}, method.Missing, ""},
		{Measured{RH: &rh, DewPoint: &at}, method.Contradictory, ""},
		{Measured{RH: &rh, IceBulb: true}, method.Contradictory, "ice_bulb"},
		{Measured{RH: &rh, Altitude: &up, Pressure: &p}, method.Contradictory, "altitude"},
	} {
		c.measured.DryBulb = quantity.Celsius(20)
		_, err := FromMeasured(c.measured)
		var e *method.Error
		require.ErrorAs(t, err, &e)
		assert.Equal(t, c.code, e.Code)
		assert.Equal(t, c.input, e.Input)
	}
}

// What was not told is told: water on a wet bulb below freezing, and a room of 68 C.
func TestDoubtsAreTold(t *testing.T) {
	wet, rh := quantity.Celsius(-3), 0.4
	inputs := func(m Measured) (told []string) {
		s, err := FromMeasured(m)
		require.NoError(t, err)
		for _, w := range s.Notes.Warnings {
			told = append(told, w.Input)
		}
		return told
	}
	assert.Contains(t, inputs(Measured{DryBulb: quantity.Celsius(-1), WetBulb: &wet}), "ice_bulb")
	assert.NotContains(t, inputs(Measured{DryBulb: quantity.Celsius(-1), WetBulb: &wet, IceBulb: true}), "ice_bulb")
	assert.Contains(t, inputs(Measured{DryBulb: quantity.Celsius(68), RH: &rh}), "temperature")
	assert.Empty(t, inputs(Measured{DryBulb: quantity.Celsius(45), RH: &rh}))
	water, err := FromMeasured(Measured{DryBulb: quantity.Celsius(-1), WetBulb: &wet})
	require.NoError(t, err)
	ice, err := FromMeasured(Measured{DryBulb: quantity.Celsius(-1), WetBulb: &wet, IceBulb: true})
	require.NoError(t, err)
	t.Logf("water %.3f, ice %.3f", water.RelativeHumidity, ice.RelativeHumidity)
	assert.Greater(t, ice.RelativeHumidity, water.RelativeHumidity)
}
