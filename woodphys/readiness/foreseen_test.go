package readiness

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// The weights to come are those that the advice foretells, up to the horizon.
func TestWeightsAreForeseen(t *testing.T) {
	s := billet(t)
	p, err := Learn(context.Background(), s, series(t, s, point{0, 0, 0.68}, 1800, 0, 100, 200, 300))
	require.NoError(t, err)
	today := 300 * quantity.Day
	all, err := p.Foresee(today)
	require.NoError(t, err)
	require.Len(t, all, len(aheadDays))
	a, err := p.NextReading(LimitsFor(Resaw, s.Thickness), room(), today)
	require.NoError(t, err)
	for i, days := range []int{7, 14, 30} {
		assert.InDelta(t, days, a.Options[i].After.Days(), 1e-9)
		assert.Equal(t, a.Options[i].Mass, all[i+1].Mass)
	}
	for i := range all {
		f := &all[i]
		assert.Less(t, f.Least, f.Mass.Low)
		assert.Greater(t, f.Most, f.Mass.High)
		assert.InEpsilon(t, float64(f.Mass.High/f.Mass.Value)*float64(f.Mass.High/f.Mass.Value), float64(f.Most/f.Mass.Value), 1e-9, "twice as wide")
	}
	assert.Less(t, all[0].Mass.High-all[0].Mass.Low, all[5].Mass.High-all[5].Mass.Low, "further ahead is less sure")

	between, told := ForeseenOn(all, today+10.5*quantity.Day)
	assert.True(t, told)
	assert.InEpsilon(t, float64(all[1].Mass.Value+all[2].Mass.Value)/2, float64(between.Mass.Value), 1e-9)
	on, told := ForeseenOn(all, all[3].At)
	assert.True(t, told)
	assert.Equal(t, all[3], on)
	for _, beyond := range []quantity.Duration{today - quantity.Day, today + 91*quantity.Day} {
		_, told = ForeseenOn(all, beyond)
		assert.False(t, told)
	}
	end, err := p.Foresee(p.Horizon() - 10*quantity.Day)
	require.NoError(t, err)
	assert.Len(t, end, 2)
}

// Of a piece whose ovendry mass is not known no weight is foreseen.
func TestNoWeightIsForeseenOfWhatWasNotWeighed(t *testing.T) {
	p, err := Learn(context.Background(), billet(t), nil)
	require.NoError(t, err)
	all, err := p.Foresee(0)
	require.NoError(t, err)
	assert.Empty(t, all)
}
