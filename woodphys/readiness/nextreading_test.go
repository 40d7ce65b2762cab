package readiness

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// On the day on which the verdict is most open, the entropy of the verdict is what
// counts; a better reading tells more, none makes it worse on average, and a wetter
// reading makes ready less likely.
func TestOpenVerdictIsSettledByAReading(t *testing.T) {
	s := billet(t)
	s.Phases = season(t, "madison", 100, 730*quantity.Day, 700*quantity.Day)
	p, err := Learn(context.Background(), s, series(t, s, point{-0.05, math.Log(0.6), 0.7}, 1800, 0, 100, 300, 700, 800))
	require.NoError(t, err)
	limits := LimitsFor(Thickness, s.Thickness)
	at, open := quantity.Duration(0), 1.0
	for d := 740.0; d < 1400; d += 20 {
		v, _, err := p.Judge(Thickness, limits, room(), quantity.Duration(d)*quantity.Day)
		require.NoError(t, err)
		if off := math.Abs(v.Probability - 0.5); off < open {
			at, open = quantity.Duration(d)*quantity.Day, off
		}
	}
	require.Less(t, open, 0.2, "the verdict is open on some day")
	v, _, err := p.Judge(Thickness, limits, room(), at)
	require.NoError(t, err)
	assert.Equal(t, CannotSay, v.Outcome)
	assert.Equal(t, 0, v.Failed)

	coarse, fine := Candidate{Kind: Sample, SD: 0.02}, Candidate{Kind: Sample, SD: 0.003}
	pin := Candidate{Kind: Pin, Meter: -1, SD: 0.009, BiasSD: 0.015, Part: moisture.Core}
	a, err := p.NextReading(limits, room(), at, coarse, fine, pin, Candidate{Kind: Weight, After: 7 * quantity.Day})
	require.NoError(t, err)
	assert.Equal(t, ByVerdict, a.By)
	assert.Equal(t, 1, a.Best)
	assert.Equal(t, Sample, a.Options[a.Best].Kind)
	assert.Equal(t, at, a.Options[a.Best].At, "now")
	assert.False(t, a.Little)
	assert.Greater(t, a.Options[1].Gain, 0.1)
	assert.Greater(t, a.Options[1].Gain, a.Options[0].Gain)
	for _, o := range a.Options {
		t.Logf("%s: entropy %.2f to %.2f; ready %.2f if above, %.2f if below", o.Kind, o.Entropy, o.EntropyAfter, o.IfAbove.Ready, o.IfBelow.Ready)
		assert.LessOrEqual(t, o.EntropyAfter, 1.05*o.Entropy)
	}
	assert.Less(t, a.Options[1].IfAbove.Ready, a.Options[1].IfBelow.Ready)
	assert.Greater(t, a.Options[1].IfAbove.Median.At, a.Options[1].IfBelow.Median.At)
}

// Without a reading the whole spread is open: an ovendry sample tells more of the
// date than a meter, and a weight of an unknown ovendry mass is not offered.
func TestSampleTellsMoreThanMeter(t *testing.T) {
	s := billet(t)
	p, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	a, err := p.NextReading(LimitsFor(Resaw, s.Thickness), room(), 150*quantity.Day, p.UsualCandidates()...)
	require.NoError(t, err)
	require.Len(t, a.Options, 2)
	assert.Equal(t, ByDate, a.By)
	assert.Equal(t, Sample, a.Options[a.Best].Kind)
	assert.Less(t, a.Options[0].SpreadAfter, a.Options[0].Spread)
	assert.Greater(t, a.Options[0].Gain, a.Options[1].Gain)
	assert.Equal(t, 150*quantity.Day, a.Options[0].At)
}

// No reading is advised that would say nothing: a pin meter only says "wet" of a core above 30 %,
// and is among the usual readings once the core is drier, as long as it dries.
func TestNoMeterIsAdvisedForWetWood(t *testing.T) {
	s := billet(t)
	s.Members = 64
	p, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	left, offered := 0, 0
	for _, days := range []float64{5, 40, 80, 120, 200, 300, 500, 700, 900} {
		from := quantity.Duration(days) * quantity.Day
		now, err := p.Now(from)
		require.NoError(t, err)
		a, err := p.NextReading(LimitsFor(Resaw, s.Thickness), room(), from)
		require.NoError(t, err)
		require.NotEmpty(t, a.Options)
		pin := slices.ContainsFunc(a.Options, func(o Option) bool { return o.Kind == Pin })
		switch core := now.Core.Value; {
		case core > 35*quantity.PercentMC:
			left++
			assert.False(t, pin, "day %g, core %.1f %%", days, core.Percent())
		case core < 25*quantity.PercentMC:
			offered++
			assert.True(t, pin, "day %g, core %.1f %%", days, core.Percent())
		}
	}
	assert.Greater(t, left, 1)
	assert.Greater(t, offered, 1)
}

// A slice costs wood: one that would settle little is advised only where nothing else is at hand,
// and the soonest of what tells nearly as much goes before what comes later.
func TestSliceThatSettlesLittleIsNotCut(t *testing.T) {
	const day = quantity.Day
	weight := func(at quantity.Duration, gain float64) Option {
		return Option{Candidate: Candidate{Kind: Weight}, At: at, Gain: gain}
	}
	slice := func(gain float64) Option { return Option{Candidate: Candidate{Kind: Sample}, Gain: gain} }
	for name, c := range map[string]struct {
		options []Option
		best    int
	}{
		"it settles much":             {[]Option{weight(7*day, 0.05), slice(0.4)}, 1},
		"it settles little":           {[]Option{weight(7*day, 0.05), slice(0.08)}, 0},
		"nothing else is at hand":     {[]Option{slice(0.08)}, 0},
		"nothing else tells much":     {[]Option{weight(7*day, 0.02), slice(0.08)}, 1},
		"nothing else tells anything": {[]Option{weight(7*day, 0), slice(0.01)}, 1},
		"the sooner of two alike":     {[]Option{weight(30*day, 0.30), weight(7*day, 0.28), slice(0.08)}, 1},
		"the better where it is more": {[]Option{weight(30*day, 0.30), weight(7*day, 0.20), slice(0.08)}, 0},
	} {
		assert.Equal(t, c.best, bestOf(c.options), name)
	}
}
