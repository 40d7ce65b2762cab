package wood_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// The band of any of several woods holds the figure of each, with its own doubt.
func TestAnyOfHoldsEach(t *testing.T) {
	doubtful := wood.Published(0.10)
	doubtful.SD = 0.01
	of := []wood.Wood{
		{Tangential: wood.Published(0.06), SpecificGravity: wood.Published(0.5), FibreSaturation: 0.28, Green: 0.6, Ease: wood.Easy,
			Pace: wood.Pace{Factor: 0.2, Misfit: 0.1, Fastest: 20 * quantity.Day, Slowest: 90 * quantity.Day}, LowerEMC: true},
		{Tangential: doubtful, SpecificGravity: wood.Published(0.6), FibreSaturation: 0.32, Green: 1, Ease: wood.Refractory,
			Pace: wood.Pace{Factor: 0.5, Misfit: 0.2, Fastest: 30 * quantity.Day, Slowest: 120 * quantity.Day}},
		{Radial: wood.Published(0.04), SpecificGravity: wood.Published(0.7), FibreSaturation: 0.30, SafeDailyLoss: 0.05,
			Pace: wood.Pace{Factor: 0.4, Misfit: 0.2, Fastest: 30 * quantity.Day, Slowest: 120 * quantity.Day}},
	}
	all := wood.AnyOf("any such", of)
	holds := func(f wood.Figure, v float64) {
		t.Helper()
		half := quantity.Z90*f.SD + 1e-12
		assert.True(t, f.Value-half <= v && v <= f.Value+half, "%v is not within %v of %v", v, half, f.Value)
	}
	holds(all.Tangential, 0.06)
	holds(all.Tangential, 0.10+quantity.Z90*0.01)
	holds(all.SpecificGravity, 0.5)
	holds(all.SpecificGravity, 0.7)
	assert.InDelta(t, 0.6, all.SpecificGravity.Value, 1e-12)
	assert.InDelta(t, 0.04, all.Radial.Value, 1e-12, "known of one only")
	assert.True(t, all.Tangential.Estimated)
	assert.Contains(t, all.Tangential.How, "any such")
	assert.InDelta(t, 0.30, float64(all.FibreSaturation), 1e-12)
	assert.InDelta(t, 0.02, float64(all.FibreSaturationSpread), 1e-12)
	assert.InDelta(t, 0.8, float64(all.Green), 1e-12)
	assert.Equal(t, wood.Refractory, all.Ease)
	assert.False(t, all.LowerEMC)
	assert.InDelta(t, 0.05, float64(all.SafeDailyLoss), 0)
	assert.Equal(t, 20*quantity.Day, all.Pace.Fastest)
	assert.Greater(t, all.Pace.Misfit, 0.3)
	of[1].Pace = wood.Pace{}
	without := wood.AnyOf("any such", of)
	assert.False(t, without.Pace.Known(), "one of them has none")
}

// The printed example of eq. 4-13 and the ends of the other relations.
func TestRelations(t *testing.T) {
	assert.InDelta(t, 0.605, wood.GravityAt12(0.55), 0.0025, "white ash, FPL-GTR-282 p. 4-12, as 678 kg/m3 over 1.12")
	assert.InDelta(t, 0.55, wood.BasicGravity(wood.GravityAt12(0.55)), 1e-12)
	assert.InDelta(t, 2.67, float64(wood.MostMoisture(0.30)), 0.02, "FPL-GTR-282 p. 4-3: about 267 %")
	assert.InDelta(t, 0.44, float64(wood.MostMoisture(0.90)), 0.03, "and 44 %")
	assert.InDelta(t, 0.1325, wood.VolumetricOf(0.5), 1e-12)
	assert.InDelta(t, 0.10, wood.TotalShrinkage(0.06, 0.12, 0.30), 1e-12)
	assert.InDelta(t, 0.06, wood.ShrinkageOfSwelling(0.002, 0.30), 1e-12)
	assert.Greater(t, wood.BendingModulusOf(0.6, wood.Softwood), wood.BendingModulusOf(0.6, wood.Hardwood))
}
