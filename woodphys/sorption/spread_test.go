package sorption

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// A wood that holds a tenth less than ordinary wood holds a tenth less in every air, and
// that alone makes its band no wider.
func TestAScaledWoodHoldsItsShare(t *testing.T) {
	room := quantity.Celsius(20)
	plain, scaled := CurvesOf(&wood.Wood{}), CurvesOf(&wood.Wood{EMCFactor: 0.9})
	for _, b := range []Branch{Middle, Desorption, Adsorption} {
		for rh := 0.1; rh < 0.97; rh += 0.1 {
			assert.InEpsilon(t, 0.9*float64(plain.At(room, b).At(rh)), float64(scaled.At(room, b).At(rh)), 1e-12)
			of, err := EquilibriumBand(room, rh, b, plain)
			require.NoError(t, err)
			tenthLess, err := EquilibriumBand(room, rh, b, scaled)
			require.NoError(t, err)
			assert.LessOrEqual(t, float64(tenthLess.Moisture.SD()), float64(of.Moisture.SD())*(1+1e-9), "at %v", rh)
		}
	}
}

// A fibre saturation is known to its 90 % band; the isotherm of the wood moves with it.
func TestSaturationMovesTheIsotherm(t *testing.T) {
	c := CurvesOf(&wood.Wood{FibreSaturation: 0.25, FibreSaturationSpread: 0.03})
	assert.InEpsilon(t, 0.03/1.6448536, float64(c.SaturationSD), 1e-6)
	assert.Zero(t, CurvesOf(&wood.Wood{FibreSaturation: 0.30, FibreSaturationSpread: 0.05, SaturationGeneral: true}).SaturationSD)
	room := quantity.Celsius(20)
	for _, rh := range []float64{0.3, 0.6, 0.9} {
		with := func(saturation quantity.Moisture) float64 {
			return float64(Curves{Saturation: saturation}.At(room, Middle).At(rh))
		}
		i := Curves{Saturation: 0.25}.At(room, Middle)
		assert.InEpsilon(t, (with(0.26)-with(0.24))/0.02, i.perSaturation(rh), 1e-6)
	}
}

// The spread of one piece is the sum of the independent causes: the woods, a history that
// lies anywhere between the branches, the equations.
func TestSpreadIsTheSumOfItsCauses(t *testing.T) {
	for _, c := range []float64{-10, 5, 20, 40} {
		at := quantity.Celsius(c)
		for _, rh := range []float64{0.2, 0.5, 0.8} {
			e, err := EquilibriumBand(at, rh, Middle, Curves{})
			require.NoError(t, err)
			m := e.Moisture.Value
			woods := 1.0 / 1.6448536 * math.Min(m.Percent()/12, 1)
			branches := (NewBranchIsotherm(at, Desorption).At(rh) - NewBranchIsotherm(at, Adsorption).At(rh)).Percent()
			equations := spreadOfEquations(e.Forms, m).Percent()
			want := math.Sqrt(woods*woods + branches*branches/12 + equations*equations)
			assert.InEpsilon(t, want, e.Moisture.SD().Percent(), 1e-4, "%v C, %v", c, rh)
		}
	}
}

// Where the water of a wood is lost was seen in damp air only: in dry air its band reaches up
// to ordinary wood and little further, in damp air it rests on what was seen.
func TestShapeOfALowIsotherm(t *testing.T) {
	room := quantity.Celsius(20)
	low := Curves{Saturation: 0.20}
	for _, rh := range []float64{0.15, 0.3, 0.45, 0.6} {
		e, err := EquilibriumBand(room, rh, Desorption, low)
		require.NoError(t, err)
		ordinary := NewBranchIsotherm(room, Desorption).At(rh)
		assert.Greater(t, float64(e.Moisture.High), float64(ordinary), "at %v", rh)
		margin := quantity.Z90 * math.Hypot(float64(UncertaintySD(e.Moisture.Value, Desorption, room)), float64(spreadOfEquations(e.Forms, e.Moisture.Value)))
		assert.Less(t, float64(e.Moisture.High), float64(ordinary)+margin, "at %v", rh)
	}
	e, err := EquilibriumBand(room, 0.97, Desorption, low)
	require.NoError(t, err)
	assert.Less(t, float64(e.Moisture.High), float64(NewBranchIsotherm(room, Desorption).At(0.97)))
}
