package moisture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// metersOf makes what a meter says of a place, in %MC.
func metersOf(t *testing.T) func(Place, float64) Estimate {
	return func(place Place, mc float64) Estimate {
		e, err := FromPinlessMeter(0.12, true)
		require.NoError(t, err)
		e.Place = place
		e.set(quantity.Moisture(mc)*quantity.PercentMC, e.SD)
		return e
	}
}

func TestGather(t *testing.T) {
	of := metersOf(t)
	nothing, err := Gather(nil)
	require.NoError(t, err)
	assert.Nil(t, nothing.Mean)
	assert.Nil(t, nothing.Gradient)

	both, err := Gather([]Estimate{of(Shell, 10), of(Mean, 12), of(Core, 14), of(Spot, 12.5)})
	require.NoError(t, err)
	require.NotNil(t, both.Mean)
	together, err := Combine([]Estimate{of(Mean, 12), of(Spot, 12.5)})
	require.NoError(t, err)
	assert.Equal(t, together.MC, both.Mean.MC)
	require.NotNil(t, both.Gradient)
	assert.InDelta(t, 4, both.Gradient.CoreMinusShell.Value.Percent(), 1e-9)

	half, err := Gather([]Estimate{of(Shell, 10)})
	require.NoError(t, err)
	assert.Nil(t, half.Mean, "a shell does not speak for the section")
	assert.Nil(t, half.Gradient)

	// the odd one out is counted in the list given
	sure := of(Mean, 12)
	sure.SD = 0.001
	odd := of(Mean, 30)
	odd.SD = 0.002
	_, err = Gather([]Estimate{of(Shell, 10), sure, of(Core, 14), sure, odd})
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, method.Contradictory, domain.Code)
	assert.Equal(t, "estimates/4", domain.Input)
}

// Shell and core speak for the mean where nothing else does, or only the weight and the size of the
// piece: it lies between them, of a parabola where its mean is, and is no surer than the meter.
func TestShellAndCoreSpeakForTheMean(t *testing.T) {
	of := metersOf(t)
	coarse := Estimate{How: densityRow.ID, Place: Mean}
	coarse.set(0, 0.29)
	for _, mc := range []float64{6, 9, 12, 20} {
		even, err := GatherWhole([]Estimate{coarse, of(Shell, mc), of(Core, mc)})
		require.NoError(t, err)
		assert.InDelta(t, mc, even.Mean.MC.Value.Percent(), 0.2)
		assert.Greater(t, even.Mean.SD, 0.85*of(Core, mc).SD, "one meter")
	}
	// (1 - x^2) over the outer tenth at both faces, the middle fifth and the whole
	over := func(from, to float64) float64 { return 1 - (to*to*to-from*from*from)/(3*(to-from)) }
	shell, core, mean := over(0.8, 1), over(0, 0.2), over(0, 1)
	assert.InDelta(t, meanBetween, (mean-shell)/(core-shell), 0.002)
	steep, err := GatherWhole([]Estimate{of(Shell, 10+10*shell), of(Core, 10+10*core)})
	require.NoError(t, err)
	assert.InDelta(t, 10+10*mean, steep.Mean.MC.Value.Percent(), 0.02)
	fineOne, err := GatherWhole([]Estimate{of(Shell, 10), of(Core, 14), of(Mean, 11)})
	require.NoError(t, err)
	assert.InDelta(t, 11, fineOne.Mean.MC.Value.Percent(), 1e-9, "a reading of the mean is one")
	for _, mc := range []float64{9, 40} {
		alone, err := GatherWhole([]Estimate{coarse, of(Core, mc)})
		require.NoError(t, err)
		assert.Greater(t, alone.Mean.MC.High.Percent(), mc, "all of it, in wood at rest")
		assert.Less(t, alone.Mean.MC.Low.Percent(), 2*mc/3)
		assert.Nil(t, alone.Gradient)
	}
}
