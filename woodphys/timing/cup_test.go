package timing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// The cup of the outer leaf of a parabola, by kappa = 12/h^3 integral(strain y dy) and
// kappa W^2/8, summed finely here with the movement of a point at 10 %.
func TestCupOfTheOuterLeaf(t *testing.T) {
	q := asked(t)
	q.Moisture = Moisture{Mean: 0.13, CoreOverShell: over(3.2)}
	a := weighed(t, q)
	c := a.SawNow.Cut
	require.NotNil(t, c.Cup)
	require.Equal(t, 1, c.Cup.Leaf)
	h, width, billet := float64(c.Leaf), float64(c.Width), float64(q.Billet.Thickness)
	curve := 0.032 / ((1-0.512)/0.6 - 0.008/0.6)
	point, err := movement.OnePoint(quantity.Metre, movement.Radial(), 0.10, q.Wood)
	require.NoError(t, err)
	assert.InEpsilon(t, q.Wood.CoefficientRadial.Value, point.Strain.Value, 0.05, "maple's coefficient was made with 30 %, its isotherm ends at 32.5")
	moment, n := 0.0, 20000
	for i := range n {
		y := (float64(i) + 0.5) / float64(n) * h
		u := 1 - 2*(float64(q.Saw.Facing)/2+y)/billet
		dries := 0.13 + curve/3 - curve*u*u - float64(q.Rest.Moisture.Value)
		moment += -point.Strain.Value * 100 * dries * (y - h/2) * h / float64(n)
	}
	want := math.Abs(12 / (h * h * h) * moment * width * width / 8)
	assert.InEpsilon(t, want, float64(c.Cup.Cup.Value), 0.03, "nine levels against a fine sum, and the movement of a point at 10 %")
	assert.Equal(t, TowardsCore, c.Cup.Hollow, "the wet inner side dries more and becomes hollow")
	assert.LessOrEqual(t, c.Cup.Cup.Low, c.Cup.Cup.Value)
	assert.LessOrEqual(t, c.Cup.Cup.Value, c.Cup.Cup.High)
	assert.Equal(t, q.Leaf.Flat+c.Extra, c.Cup.Room)
	assert.Equal(t, c.Cup.Cup.Value > c.Cup.Room, c.Cup.Exceeds)

	// wetter outside it becomes hollow there
	q.Moisture.CoreOverShell = over(-3.2)
	assert.Equal(t, TowardsShell, weighed(t, q).SawNow.Cut.Cup.Hollow)
	// an even billet gives leaves that stay flat
	q.Moisture.CoreOverShell = over(0)
	flat := weighed(t, q).SawNow.Cut.Cup
	assert.InDelta(t, 0, float64(flat.Cup.Value), 1e-9)
	assert.Equal(t, Neither, flat.Hollow)
	assert.False(t, flat.Exceeds)
	// no leaf, no cup
	q.Part.Width = q.Billet.Width * 2
	assert.Nil(t, weighed(t, q).SawNow.Cut.Cup)
}
