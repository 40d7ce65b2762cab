package moisture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func TestWeightOf(t *testing.T) {
	w := wood.Wood{SpecificGravity: wood.Published(0.5), Volumetric: wood.Published(0.12), FibreSaturation: 0.3}
	// Above fibre saturation the density is G_b (1 + M): 0.5 x 1.6 = 800 kg/m3.
	green, err := moisture.WeightOf(0.01, w, 0.6, 0)
	require.NoError(t, err)
	assert.InDelta(t, 8, float64(green.Mass.Value), 1e-12)
	assert.InDelta(t, quantity.Z90*0.8, float64(green.Mass.High-green.Mass.Value), 1e-9, "10 % of it")
	assert.Equal(t, []string{"mc.specific-gravity"}, green.Notes.Basis)
	// At 15 % it has shrunk by half: 0.5/0.94 x 1.15.
	dry, err := moisture.WeightOf(0.01, w, 0.15, 0.15)
	require.NoError(t, err)
	assert.InDelta(t, 10*0.5/0.94*1.15, float64(dry.Mass.Value), 1e-12)
	wetter := 0.5 * 1.3 / (0.5 / 0.94 * 1.15)
	assert.InDelta(t, quantity.Z90*math.Hypot(0.1, wetter-1)*float64(dry.Mass.Value), float64(dry.Mass.High-dry.Mass.Value), 1e-9)
	// A standard deviation that leads beyond 250 % is cut off there.
	_, err = moisture.WeightOf(0.01, w, 2.4, 0.5)
	require.NoError(t, err)
	_, err = moisture.WeightOf(0.01, wood.Wood{}, 0.5, 0)
	require.Error(t, err, "nothing is known of its density")

	both := moisture.Together(green.Mass, dry.Mass)
	assert.InDelta(t, float64(green.Mass.Low+dry.Mass.Low), float64(both.Low), 1e-12)
	assert.InDelta(t, float64(green.Mass.High+dry.Mass.High), float64(both.High), 1e-12)
}
