package readiness

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// The two cases of a lone sample add up as densities do, and what is drawn from it is the
// slope of the whole.
func TestLoneSampleIsOneOfTwoThings(t *testing.T) {
	const y, noise = 0.12, 0.006
	sample := &reading{kind: Sample, cut: true, part: moisture.Mean, depth: -1, body: -1, meter: -1, y: y, noise: noise, slope: 1, wide: 1}
	best := &peak{used: []*reading{sample}, c: []float64{noise}}
	f := &fit{setup: &Setup{inflate: 1, Discrepancy: Discrepancy{None: true, Strays: Strays{Time: quantity.Day}, Lasting: Strays{Time: quantity.Day}}}}
	by := f.weigher(best)
	require.Equal(t, 0, by.lone)
	likely := func(m, off float64) (log, alpha float64) {
		r := []float64{y - m + off}
		log = by.solve(&drying.Course{Mean: []quantity.Moisture{quantity.Moisture(m)}}, r)
		return log, r[0]
	}
	density := func(r, sd float64) float64 { return math.Exp(-0.5*r*r/(sd*sd)) / sd }
	wide := math.Hypot(noise, nearEndSpread*y)
	for _, m := range []float64{0.10, 0.12, 0.13, 0.14, 0.17} {
		want := (1-nearEnd)*density(y-m, noise) + nearEnd*density(y-(1-nearEndDrier)*m, wide)
		got, alpha := likely(m, 0)
		assert.InEpsilon(t, want*noise/(1-nearEnd), math.Exp(got), 1e-9, "at %g", m)
		const step = 1e-6
		above, _ := likely(m, step)
		below, _ := likely(m, -step)
		assert.InDelta(t, (below-above)/(2*step), alpha, 1e-3*math.Abs(alpha)+1e-3, "at %g", m)
	}
}

// A lone sample leaves room above it and hardly any below; of two there is no doubt of that
// kind, nor of a figure that was told.
func TestLoneSampleLeavesRoomAbove(t *testing.T) {
	s := billet(t)
	const at = 500 * quantity.Day
	s.Exact = []quantity.Duration{at}
	prior, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	middle, err := prior.Now(at)
	require.NoError(t, err)
	now := func(cut bool, times ...quantity.Duration) Condition {
		var list []Observation
		for _, when := range times {
			list = append(list, Observation{Kind: Sample, At: when, MC: middle.Mean.Value, SD: 0.005, Cut: cut})
		}
		p, err := Learn(context.Background(), s, list)
		require.NoError(t, err)
		c, err := p.Now(at)
		require.NoError(t, err)
		return c
	}
	told, cut := now(false, at), now(true, at)
	assert.Greater(t, cut.Mean.High-told.Mean.High, 0.15*quantity.PercentMC)
	assert.InDelta(t, float64(told.Mean.Low), float64(cut.Mean.Low), 0.001)
	assert.Equal(t, now(false, at-quantity.Day, at), now(true, at-quantity.Day, at))
}
