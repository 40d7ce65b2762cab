package readiness

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func weightOf(at, grams float64) Observation {
	return Observation{Kind: Weight, At: quantity.Duration(at) * quantity.Day, Weighing: moisture.Weighing{Mass: quantity.Mass(grams) * quantity.Gram, Resolution: quantity.Gram}}
}

// series is weights of a piece of ovendry mass od (g) that follows the forecast of
// parameters x.
func series(t testing.TB, s Setup, x point, od float64, days ...float64) []Observation {
	t.Helper()
	full, err := s.complete(new(method.Notes))
	require.NoError(t, err)
	times := make([]quantity.Duration, len(days))
	for i, d := range days {
		times[i] = quantity.Duration(d) * quantity.Day
	}
	c, err := newSlab(&full).run(context.Background(), x, times, nil)
	require.NoError(t, err)
	var list []Observation
	for i, d := range days {
		list = append(list, weightOf(d, od*(1+float64(c.Mean[i]))))
	}
	return list
}

func TestSmoke(t *testing.T) {
	s := billet(t)
	truth := point{0.05, math.Log(0.62), 0.72}
	obs := series(t, s, truth, 4000, 0, 30, 60, 120, 200, 300, 400, 500)
	p, err := Learn(context.Background(), s, obs)
	require.NoError(t, err)
	t.Logf("%s, size %.0f of %d, %d runs; k %.3f, M0 %.3f, emc %.3f, od %.4f; %v", p.Method, p.EffectiveSize, p.Members, p.Runs, p.Factor, p.StartMC, p.EMCScale, p.Ovendry, p.Notes)
	now := 500 * quantity.Day
	c, err := p.Now(now)
	require.NoError(t, err)
	t.Logf("%+v", c)
	for _, step := range Steps() {
		limits := LimitsFor(step, s.Thickness)
		v, _, err := p.Judge(step, limits, room(), now)
		require.NoError(t, err)
		d, err := p.ReadyDate(limits, room(), now, 0)
		require.NoError(t, err)
		t.Logf("%+v", v)
		t.Logf("%.0f %.0f %.0f never %.2f", d.Low.At.Days(), d.Median.At.Days(), d.High.At.Days(), d.Never)
		a, err := p.NextReading(limits, room(), now)
		require.NoError(t, err)
		t.Logf("%s: %s", a.By, a.Detail)
		for _, o := range a.Options {
			t.Logf("   %s after %.0f: gain %.2f spread %.1f->%.1f d entropy %.2f->%.2f; %s | %s", o.Kind, o.After.Days(), o.Gain, o.Spread.Days(), o.SpreadAfter.Days(), o.Entropy, o.EntropyAfter, o.IfAbove.Detail, o.IfBelow.Detail)
		}
	}
	assert.Empty(t, p.Contradictions)
}

func BenchmarkLearn(b *testing.B) {
	s := billet(b)
	var days []float64
	for i := range 20 {
		days = append(days, float64(i)*25)
	}
	obs := series(b, s, point{0.05, math.Log(0.62), 0.72}, 4000, days...)
	b.ReportAllocs()
	for b.Loop() {
		p, err := Learn(context.Background(), s, obs)
		require.NoError(b, err)
		limits := LimitsFor(Glue, s.Thickness)
		_, _, err = p.Judge(Glue, limits, room(), 500*quantity.Day)
		require.NoError(b, err)
		_, err = p.ReadyDate(limits, room(), 500*quantity.Day, 0)
		require.NoError(b, err)
		_, err = p.NextReading(limits, room(), 500*quantity.Day)
		require.NoError(b, err)
		if b.N == 1 {
			b.Logf("%d runs %s %.0f", p.Runs, p.Method, p.EffectiveSize)
		}
	}
}
