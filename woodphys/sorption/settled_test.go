package sorption

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// The air found keeps the wood where it was wanted, and the spread of fibre saturation is
// the wood's at every temperature.
func TestSettledBothWays(t *testing.T) {
	w := wood.Wood{FibreSaturation: 0.24, FibreSaturationSpread: 0.03, LowerEMC: true}
	kept, err := KeepAt(quantity.Celsius(30), 0.08, Desorption, w)
	require.NoError(t, err)
	require.NotNil(t, kept.RH)
	assert.InDelta(t, 0.08, float64(kept.EMC.Value), 1e-8)
	assert.InDelta(t, kept.RH.Value, kept.Air.RelativeHumidity, 1e-9)
	assert.InDelta(t, 0.232, float64(kept.Saturation.Value), 1e-12, "0.08 points a kelvin lower than at 20 C, 24/30 of 0.1")
	assert.InDelta(t, 0.06, float64(kept.Saturation.High-kept.Saturation.Low), 1e-12)

	again, err := SettleIn(kept.Air, Desorption, w)
	require.NoError(t, err)
	assert.Nil(t, again.RH)
	assert.Equal(t, kept.EMC, again.EMC)
	assert.Contains(t, again.Notes.Basis, "fsp.temperature")
	assert.Contains(t, again.Notes.Basis, "emc.wood")
}

// Air at 5 C and 80 % RH, heated to 20 C: points that do not exist are left out, and the
// errors of the heated air say so.
func TestAirIn(t *testing.T) {
	s, err := air.FromRelativeHumidity(quantity.Celsius(5), 0.80, air.SeaLevelPressure)
	require.NoError(t, err)
	warm := quantity.Celsius(20)
	both, err := AirIn(s, &warm)
	require.NoError(t, err)
	require.NotNil(t, both.Heated)
	assert.InDelta(t, 0.80*872.6/2339, both.Heated.RelativeHumidity, 0.002, "vapour kept: e over the saturation pressure at 20 C")
	assert.Less(t, both.Heated.EMC.Value, both.Air.EMC.Value)
	assert.InDelta(t, both.Air.DewPoint.Celsius(), both.Heated.DewPoint.Celsius(), 1e-9, "the same vapour")
	assert.Nil(t, both.Air.FrostPoint, "above freezing")

	dry, err := air.FromRelativeHumidity(quantity.Celsius(20), 0, air.SeaLevelPressure)
	require.NoError(t, err)
	alone, err := AirIn(dry, nil)
	require.NoError(t, err)
	assert.Nil(t, alone.Air.DewPoint)
	assert.Nil(t, alone.Heated)

	hot := quantity.Celsius(130)
	_, err = AirIn(s, &hot)
	var e *method.Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, "heated/temperature", e.Input)
}
