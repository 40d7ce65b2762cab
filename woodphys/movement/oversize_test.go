package movement_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// What is made to the size before has the wanted size after.
func TestSizeBeforeComesToTheSize(t *testing.T) {
	w := wood.Wood{Radial: wood.Published(0.045), Tangential: wood.Published(0.086)}
	rapid.Check(t, func(t *rapid.T) {
		dry := quantity.Length(rapid.Float64Range(0.001, 2).Draw(t, "dry"))
		from, to := quantity.Moisture(rapid.Float64Range(0, 0.6).Draw(t, "from")), quantity.Moisture(rapid.Float64Range(0, 0.3).Draw(t, "to"))
		d := movement.WidthAt(quantity.Angle(rapid.Float64Range(0, 90).Draw(t, "angle"))*quantity.Degree, 0)
		before, notes, err := movement.SizeBefore(dry, d, from, to, w)
		require.NoError(t, err)
		assert.NotEmpty(t, notes.Basis)
		m, err := movement.Change(before, d, quantity.NormalBand(from, 0), quantity.NormalBand(to, 0), w)
		require.NoError(t, err)
		assert.InDelta(t, float64(dry), float64(m.Final.Value), 1e-12)
	})
	_, _, err := movement.SizeBefore(1, movement.Radial(), 0.2, 0.1, wood.Wood{})
	require.Error(t, err, "nothing is known of the wood")
}
