package wood_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func TestOnset(t *testing.T) {
	for _, c := range []struct{ coefficient, own, want quantity.Moisture }{{0.22, 0.24, 0.24}, {0.22, 0, 0.22}, {0, 0.24, 0.24}, {0, 0, 0}} {
		w := wood.Wood{CoefficientFibreSaturation: c.coefficient, FibreSaturation: c.own}
		assert.InDelta(t, float64(c.want), float64(w.Onset()), 0)
	}
}

func TestExchanged(t *testing.T) {
	w := wood.Wood{Radial: wood.Published(0.08)}
	assert.False(t, w.Exchanged(), "one figure is not known")
	w.Tangential = wood.Published(0.04)
	assert.True(t, w.Exchanged())
	w.Tangential = wood.Published(0.08)
	assert.False(t, w.Exchanged())
}

// A figure that was read is taken without a word; one that was recalled is told.
func TestGravity(t *testing.T) {
	w := wood.Wood{Name: "ash", SpecificGravity: wood.Published(0.55)}
	var n method.Notes
	g, err := w.Gravity(&n)
	require.NoError(t, err)
	assert.InDelta(t, 0.55, g, 0)
	assert.InDelta(t, 0, w.VolumetricShrinkage(&n), 0)
	assert.Empty(t, n.Warnings)
	w.SpecificGravity.Recalled, w.SpecificGravity.How = true, "recalled from memory"
	_, err = w.Gravity(&n)
	require.NoError(t, err)
	require.Len(t, n.Warnings, 1)
	assert.Equal(t, "specific gravity of ash is recalled from memory", n.Warnings[0].Detail)
	w.SpecificGravity = wood.Figure{}
	_, err = w.Gravity(&n)
	var e *method.Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, method.MissingData, e.Code)
	assert.Contains(t, e.Detail, "ash")
}
