package moisture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func TestGather(t *testing.T) {
	of := func(place Place, mc float64) Estimate {
		e, err := FromPinlessMeter(0.12, true)
		require.NoError(t, err)
		e.Place = place
		e.set(quantity.Moisture(mc)*quantity.PercentMC, e.SD)
		return e
	}
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
