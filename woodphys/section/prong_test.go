package section

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// A prong and a leaf cut out of stress that rises evenly are arcs of one circle: the tip of a
// prong of 100 mm on a radius of 1 m moves by 1000 (1 - cos 0.1) mm, and a leaf of 200 mm has
// twice a sagitta of half of that angle.
func TestProngAndLeafLieOnOneCircle(t *testing.T) {
	const mm = quantity.Millimetre
	cup, notes, err := ProngCup(4.9958*mm, 100*mm, 200*mm)
	require.NoError(t, err)
	assert.InDelta(t, 4.9958, cup.Value.Millimetres(), 0.01)
	assert.Contains(t, notes.Basis, "section.prong-test")
	assert.InDelta(t, 0.3, float64(cup.SD()/cup.Value), 1e-9)
	half, _, err := ProngCup(4.9958*mm, 100*mm, 100*mm)
	require.NoError(t, err)
	assert.InDelta(t, 4, float64(cup.Value/half.Value), 1e-9)
	still, _, err := ProngCup(0, 100*mm, 200*mm)
	require.NoError(t, err)
	assert.Zero(t, float64(still.Value))
	for input, one := range map[string][3]quantity.Length{
		"tip_travel": {60 * mm, 100 * mm, 200 * mm}, "prong_length": {1 * mm, 2 * mm, 200 * mm}, "width": {1 * mm, 100 * mm, 0},
	} {
		_, _, err := ProngCup(one[0], one[1], one[2])
		var domain *method.Error
		require.ErrorAs(t, err, &domain, input)
		assert.Equal(t, input, domain.Input)
	}
}
