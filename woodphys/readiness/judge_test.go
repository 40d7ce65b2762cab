package readiness

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func known(value, sd float64) Uncertain { return Uncertain{Value: value, SD: sd, Known: true} }

// The probabilities are those of the standard normal distribution as printed
// in Abramowitz and Stegun 1964, table 26.1 (from memory): P(|Z| <= 1) = 0.6827,
// P(|Z| <= 2) = 0.9545, P(|Z| <= 3) = 0.9973.
func TestWithinAgainstNormalTable(t *testing.T) {
	for z, want := range map[float64]float64{1: 0.6827, 2: 0.9545, 3: 0.9973} {
		assert.InDelta(t, want, within(0.08, 0.01, 0.08-z*0.01, 0.08+z*0.01), 5e-5)
	}
	assert.Equal(t, 1.0, within(2, 0, 2, 2))
	assert.Equal(t, 0.0, within(3, 0, 1, 2))
}

func TestJudge(t *testing.T) {
	dry := State{MC: known(0.082, 0.003), Target: known(0.080, 0.003), Gradient: known(0.004, 0.004), Rate: known(1e-5, 1e-4)}
	tests := []struct {
		name  string
		step  Step
		state State
		want  Outcome
		by    string
	}{
		{"at the room and at rest", Glue, dry, Ready, "every criterion is met"},
		{"far above the room", Resaw, State{MC: known(0.19, 0.01), Target: known(0.08, 0.005)}, NotReady, "moisture content 19.0 %"},
		{"a little above: good enough to saw", Resaw, State{MC: known(0.10, 0.01), Target: known(0.08, 0.005), Gradient: known(0.01, 0.005)}, Ready, "every"},
		{"a little above: not to glue", Glue, State{MC: known(0.105, 0.004), Target: known(0.08, 0.004), Gradient: known(0.01, 0.004), Rate: known(0, 1e-4)}, NotReady, "+2.5 points"},
		{"no depth readings", Glue, State{MC: dry.MC, Target: dry.Target, Rate: dry.Rate}, CannotSay, "no readings at two depths"},
		{"no weights", Thickness, State{MC: dry.MC, Target: dry.Target, Gradient: dry.Gradient}, CannotSay, "fewer than three dated weights"},
		{"a vague meter alone", Glue, State{MC: known(0.08, 0.03), Target: known(0.08, 0.006)}, CannotSay, "moisture content 8.0 %"},
		{"wet core", Resaw, State{MC: known(0.10, 0.005), Target: known(0.08, 0.005), Gradient: known(0.06, 0.01)}, NotReady, "core minus shell is +6.0"},
		{"still losing", Thickness, State{MC: dry.MC, Target: dry.Target, Gradient: dry.Gradient, Rate: known(-0.003, 0.0002)}, NotReady, "-0.300 % a day"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			v, notes, err := Judge(test.step, DefaultLimits(test.step), test.state)
			require.NoError(t, err)
			assert.Equal(t, test.want, v.Outcome)
			assert.Contains(t, v.Detail, test.by)
			assert.Contains(t, notes.Basis, "readiness.criteria")
		})
	}
}

func TestJudgeRefuses(t *testing.T) {
	for name, state := range map[string]State{
		"mc_pct":     {MC: known(math.NaN(), 0.01), Target: known(0.08, 0.01)},
		"target_pct": {MC: known(0.1, 0.01), Target: known(0.5, 0.01)},
	} {
		_, _, err := Judge(Resaw, DefaultLimits(Resaw), state)
		var domain *method.Error
		require.ErrorAs(t, err, &domain)
		assert.Equal(t, name, domain.Input)
	}
	_, _, err := Judge(Resaw, DefaultLimits(Resaw), State{Target: known(0.08, 0)})
	require.Error(t, err)
	for name, limits := range map[string]Limits{
		"above_pct": {Above: quantity.Moisture(math.NaN())}, "below_pct": {Below: -0.01}, "gradient_pct": {Gradient: 2},
		"rate_pct_per_day": {Rate: -1}, "trend_pct": {Trend: quantity.Moisture(math.Inf(1))},
	} {
		_, _, err := Judge(Resaw, limits, State{MC: known(0.1, 0.01), Target: known(0.08, 0.01)})
		var domain *method.Error
		require.ErrorAs(t, err, &domain)
		assert.Equal(t, name, domain.Input)
	}
}

// A wetter piece is never more likely to be ready, once it is above the target.
func TestWetterIsNeverReadier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		target := rapid.Float64Range(0.05, 0.14).Draw(t, "target")
		above := rapid.Float64Range(0, 0.2).Draw(t, "above")
		more := rapid.Float64Range(0, 0.2).Draw(t, "more")
		sd := rapid.Float64Range(0.001, 0.04).Draw(t, "sd")
		step := rapid.SampledFrom(Steps()).Draw(t, "step")
		judge := func(mc float64) float64 {
			v, _, err := Judge(step, DefaultLimits(step), State{MC: known(mc, sd), Target: known(target, 0.004)})
			require.NoError(t, err)
			return v.Probability
		}
		assert.LessOrEqual(t, judge(target+above+more), judge(target+above)+1e-12)
	})
}

func TestLimitsTightenAlongTheWork(t *testing.T) {
	steps := Steps()
	for i := 1; i < len(steps); i++ {
		before, after := DefaultLimits(steps[i-1]), DefaultLimits(steps[i])
		assert.LessOrEqual(t, after.Above, before.Above)
		assert.LessOrEqual(t, after.Gradient, before.Gradient)
	}
	assert.Equal(t, Limits{}, DefaultLimits("varnish"))
}
