package readiness

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Whatever a piece of a wood holds, from nothing to every void full, and however dense it is
// within two and a half standard deviations, it weighs what is possible; ten times of that, or a
// tenth, it does not.
func TestPossibleMassHoldsEveryPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(0.25, 0.85).Draw(t, "gravity")
		w := wood.Wood{SpecificGravity: wood.Published(g), Volumetric: wood.Published(rapid.Float64Range(0.06, 0.2).Draw(t, "shrinkage"))}
		const green = 0.01 // m3
		piece := g * (1 + 0.1*rapid.Float64Range(-2.5, 2.5).Draw(t, "denser by"))
		mc := quantity.Moisture(rapid.Float64Range(0, 1).Draw(t, "filled")) * wood.MostMoisture(piece)
		measured := quantity.Moisture(rapid.Float64Range(0, 0.3).Draw(t, "moisture when it was measured"))
		volume := quantity.Volume(green * (1 - w.Volumetric.Value*(1-float64(measured)/0.3)))
		mass := quantity.Mass(green * piece * 1000 * (1 + float64(mc)))
		can, err := PossibleMass(volume, &w, &method.Notes{})
		require.NoError(t, err)
		require.True(t, can.holds(mass), "%v of %v at %v", mass, can, mc)
		require.False(t, can.holds(100*mass) || can.holds(mass/100), "%v of %v", mass, can)
	})
	_, err := PossibleMass(0.01, &wood.Wood{}, &method.Notes{})
	in, code := inputOf(t, err)
	assert.Equal(t, "specific_gravity", in)
	assert.Equal(t, method.MissingData, code)
	_, err = PossibleMass(-1, &wood.Wood{SpecificGravity: wood.Published(0.5)}, &method.Notes{})
	in, _ = inputOf(t, err)
	assert.Equal(t, "volume", in)
}

// A weight that cannot be is set aside while others are left; all that cannot be are refused at
// once where none is.
func TestImpossibleWeights(t *testing.T) {
	w := wood.Wood{SpecificGravity: wood.Published(0.56), Volumetric: wood.Published(0.14)}
	const volume = 0.002
	ask := func(masses ...quantity.Mass) ([]Impossible, error) {
		var list []Scaled
		for i, mass := range masses {
			list = append(list, Scaled{Index: 3 + i, Mass: mass})
		}
		return ImpossibleOf(list, volume, &w, &method.Notes{})
	}
	out, err := ask(1.3, 13, 1.25, 0.13)
	require.NoError(t, err)
	require.Len(t, out, 2)
	assert.Equal(t, []int{4, 6}, []int{out[0].Index, out[1].Index})
	assert.InDelta(t, 13, float64(out[0].Given), 0)
	out, err = ask(13, 0.13)
	assert.Empty(t, out)
	assert.ErrorContains(t, err, "void full of water")
	assert.ErrorContains(t, err, "without any water")
	in, code := inputOf(t, err)
	assert.Equal(t, "weights/3/mass", in)
	assert.Equal(t, method.Contradictory, code)
	out, err = ask()
	assert.Empty(t, out)
	require.NoError(t, err)
}

// Of a number that is hardly known nothing is said against the wood; where it lies on one side
// of its limits it is.
func TestNotReadyNeedsASide(t *testing.T) {
	state := func(mc, sd float64) State {
		return State{MC: Uncertain{mc, sd, true}, Target: Uncertain{0.085, 0.005, true}, Gradient: Uncertain{0, 0.002, true}, Rate: Uncertain{0, 1e-5, true}}
	}
	for _, c := range []struct {
		mc, sd float64
		is     Outcome
	}{
		{0.085, 0.003, Ready}, {0.266, 0.31, CannotSay}, {0.45, 0.31, CannotSay}, {0.20, 0.03, NotReady}, {0.02, 0.01, NotReady},
		{0.085, 0.20, CannotSay}, {0.70, 0.20, NotReady}, {0.13, 0.01, CannotSay},
	} {
		v, _, err := Judge(Resaw, DefaultLimits(Resaw), state(c.mc, c.sd))
		require.NoError(t, err)
		assert.Equal(t, c.is, v.Outcome, "%v: %s", c, v.Detail)
	}
	apart := levelOf(0, 0.005, 0.01, -0.01)
	assert.Equal(t, NotReady, apart.outcome(), "a wedge whose places lie further apart than the limits")
}
