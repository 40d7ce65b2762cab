package movement_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// What to cut so that a size is left ends at that size, and its high end so that the
// widest shrinkage of the band still leaves it.
func TestOfMeasuredAtTheEnd(t *testing.T) {
	d := movement.Dimension{Size: 0.1, AtEnd: true, Direction: movement.Tangential(), From: about(20, 1), To: about(8, 0.5)}
	m, err := movement.Of(d, redOak())
	require.NoError(t, err)
	assert.InDelta(t, 0.1, float64(m.Final.Value), 1e-12)
	assert.InDelta(t, 0.1/(1+m.Strain.Low), float64(m.Start.High), 1e-9)
	assert.Greater(t, m.Start.Low, d.Size)

	d.AtEnd = false
	plain, err := movement.Of(d, redOak())
	require.NoError(t, err)
	want, err := movement.Change(0.1, d.Direction, d.From, d.To, redOak())
	require.NoError(t, err)
	assert.Equal(t, want.Change, plain.Change)
	assert.Equal(t, quantity.NormalBand(d.Size, 0), plain.Start)
}

// The errors of one piece in two airs go together, so the band is narrower.
func TestOfOnePieceInTwoAirs(t *testing.T) {
	d := movement.Dimension{Size: 0.1, Direction: movement.Radial(), From: about(12, 1), To: about(8, 0.8)}
	apart, err := movement.Of(d, sitka())
	require.NoError(t, err)
	d.TwoAirs = true
	together, err := movement.Of(d, sitka())
	require.NoError(t, err)
	assert.InDelta(t, float64(apart.Change.Value), float64(together.Change.Value), 1e-15)
	assert.Less(t, together.Change.High-together.Change.Low, apart.Change.High-apart.Change.Low)
}

func TestInferredOnsetIsNoted(t *testing.T) {
	w := redOak()
	w.Name, w.CoefficientFibreSaturation = "cedar", 0.22
	notes := func() (n method.Notes) {
		movement.NoteOnset(&w, &n)
		return n
	}
	assert.Empty(t, notes().Warnings, "it was read")
	w.OnsetInferred = true
	require.Len(t, notes().Warnings, 1)
	assert.Contains(t, notes().Warnings[0].Detail, "shrinkage of cedar is taken to start at 22 %")
	w.CoefficientFibreSaturation = movement.UsualOnset
	assert.Empty(t, notes().Warnings, "the usual one")
	w.SaturationGeneral, w.FibreSaturation = true, movement.UsualOnset
	assert.Empty(t, notes().Warnings, "its coefficients were made with it")
	w.CoefficientRadial, w.CoefficientTangential = wood.Figure{}, wood.Figure{}
	require.Len(t, notes().Warnings, 1)
	assert.Contains(t, notes().Warnings[0].Detail, "woods in general")
}

// One point about the build is the printed coefficient, however wet the build, of a wood of
// which nothing else is known.
func TestPerPointIsTheCoefficient(t *testing.T) {
	for _, mc := range []quantity.Moisture{0, 0.08, 0.60} {
		oak := redOak()
		oak.Radial, oak.Tangential = wood.Figure{}, wood.Figure{}
		p, err := movement.PerPointOf(mc, oak)
		require.NoError(t, err)
		if mc == 0.08 {
			assert.InDelta(t, 0.00369, p.Tangential.Value, 1e-12)
			assert.InDelta(t, 0.00158, p.Radial.Value, 1e-12)
		}
		assert.InEpsilon(t, 0.00369, p.Tangential.Value, 0.25)
		assert.Less(t, p.Longitudinal.Value, p.Radial.Value)
	}
}
