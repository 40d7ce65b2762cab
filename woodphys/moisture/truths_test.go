package moisture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// What is counted from another day has the same rate and the same span.
func TestTrendHangsOnNoFirstDay(t *testing.T) {
	first, err := moisture.TrendOf(weights(0.1, 0, 1000, 1, 990, 2, 985, 3, 971), 800*quantity.Gram)
	require.NoError(t, err)
	later, err := moisture.TrendOf(weights(0.1, 40, 1000, 41, 990, 42, 985, 43, 971), 800*quantity.Gram)
	require.NoError(t, err)
	assert.InDelta(t, first.Span.Days(), later.Span.Days(), 1e-9)
	assert.InDelta(t, first.MassPerDay.Value, later.MassPerDay.Value, 1e-12)
	for _, b := range []moisture.Trend{first, later} {
		assert.InDelta(t, b.MassPerDay.High-b.MassPerDay.Value, b.MassPerDay.Value-b.MassPerDay.Low, 1e-12)
		assert.InDelta(t, float64(b.MCPerDay.High-b.MCPerDay.Value), float64(b.MCPerDay.Value-b.MCPerDay.Low), 1e-12)
	}
}

// Masses add up.
func TestTogetherAddsMasses(t *testing.T) {
	a, b := quantity.NormalBand[quantity.Mass](8, 0.5), quantity.NormalBand[quantity.Mass](5, 0.25)
	sum := moisture.Together(a, b)
	assert.InDelta(t, 13, float64(sum.Value), 1e-12)
	assert.InDelta(t, float64(a.Low+b.Low), float64(sum.Low), 1e-12)
}

// No piece becomes lighter than its ovendry mass, but for a thousandth where the scale did
// not tell its step.
func TestNothingIsLighterThanOvendry(t *testing.T) {
	weighed := func(g float64) error {
		_, err := moisture.FromRunningWeight(moisture.Known{Weighing: grams(110, 0), MC: about(10, 0)}, grams(g, 0))
		return err
	}
	require.NoError(t, weighed(100))
	require.NoError(t, weighed(99.95))
	require.Error(t, weighed(99.8))
	require.Error(t, weighed(80))
}

// Methods err on their own: means of unlike ones are as sure as independent errors let them
// be. The one that no other agrees with is named wherever it stands.
func TestUnlikeMethodsAreIndependent(t *testing.T) {
	meter, err := moisture.FromPinMeter(pin(12, 20))
	require.NoError(t, err)
	other, err := moisture.FromPinlessMeter(0.12, true)
	require.NoError(t, err)
	both, err := moisture.Combine([]moisture.Estimate{meter, other})
	require.NoError(t, err)
	assert.InEpsilon(t, 1/math.Sqrt(1/float64(meter.SD*meter.SD)+1/float64(other.SD*other.SD)), float64(both.SD), 1e-9)
	for i := range 3 {
		all := []moisture.Estimate{stated(t, 12, 0.5), stated(t, 12.3, 0.5), stated(t, 12.1, 0.5)}
		all[i] = stated(t, 30, 0.5)
		_, err = moisture.Combine(all)
		e := expect.Code(t, err, method.Contradictory, []string{"estimates/0", "estimates/1", "estimates/2"}[i])
		assert.Contains(t, e.Detail, "which give 12.")
	}
}

// Shell and core that say they are the other are told of, each by itself.
func TestExchangedDepths(t *testing.T) {
	at := func(place moisture.Place, percent float64) moisture.Estimate {
		e := stated(t, percent, 0.5)
		e.Place = place
		return e
	}
	for _, c := range []struct {
		shell, core moisture.Place
		exchanged   bool
	}{
		{moisture.Shell, moisture.Core, false}, {moisture.Mean, moisture.Mean, false},
		{moisture.Core, moisture.Mean, true}, {moisture.Mean, moisture.Shell, true}, {moisture.Core, moisture.Shell, true},
	} {
		g, err := moisture.GradientOf(at(c.shell, 10), at(c.core, 14))
		require.NoError(t, err)
		assert.Equal(t, c.exchanged, expect.Warned(g.Notes, method.Assumption))
		assert.Equal(t, moisture.CoreWetter, g.Sense)
		g, err = moisture.GradientOf(at(c.shell, 14), at(c.core, 10))
		require.NoError(t, err)
		assert.Equal(t, moisture.ShellWetter, g.Sense)
	}
}
