package readiness

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// straight is a forecast that is linear in its parameters, so that the exact
// answer is known: M = start (1 - t/T) + 0.05 ln k t/T + 0.1 ln s.
type straight struct{ length float64 }

func (l straight) run(_ context.Context, x point, times []quantity.Duration, _ []float64) (drying.Course, error) {
	var c drying.Course
	for _, t := range times {
		u := t.Days() / l.length
		m := quantity.Moisture(x[iStart]*(1-u) + 0.05*x[iFactor]*u + 0.1*x[iEMC])
		c.Mean, c.Shell, c.Core, c.Surface = append(c.Mean, m), append(c.Shell, m-0.01), append(c.Core, m+0.01), append(c.Surface, m)
	}
	c.Times = times
	return c, nil
}

// filter is a Kalman filter in textbook form over the state (ln s, ln k, start,
// error of the meter, discrepancy): it takes the readings one after another in time.
type filter struct {
	x    [5]float64
	p    [5][5]float64
	last float64
}

func (f *filter) wait(day, tau, sd float64) {
	keep := math.Exp(-(day - f.last) / tau)
	for i := range 5 {
		f.p[i][4] *= keep
		f.p[4][i] *= keep
	}
	f.x[4] *= keep
	f.p[4][4] += sd * sd * (1 - keep*keep)
	f.last = day
}

func (f *filter) take(h [5]float64, y, r float64) {
	var ph [5]float64
	s, predicted := r*r, 0.0
	for i := range 5 {
		predicted += h[i] * f.x[i]
		for j := range 5 {
			ph[i] += f.p[i][j] * h[j]
		}
	}
	for i := range 5 {
		s += h[i] * ph[i]
	}
	for i := range 5 {
		f.x[i] += ph[i] / s * (y - predicted)
	}
	for i := range 5 {
		for j := range 5 {
			f.p[i][j] -= ph[i] * ph[j] / s
		}
	}
}

// With a linear forecast and readings of moisture content the posterior is normal
// and a Kalman filter gives it exactly. The ensemble of 2048 agrees within 0.06 of
// a standard deviation in the mean and 5 % in the standard deviation, its sampling
// error.
func TestLinearForecastAgainstKalmanFilter(t *testing.T) {
	const length, tau = 400.0, 30.0
	s := Setup{Factor: 1, FactorLogSD: 0.3, Thickness: 0.05, StartMC: 0.3, StartSD: 0.05, EMCLogSD: 0.1, Members: 2048,
		Wood: wood.Wood{SpecificGravity: wood.Published(0.5)}, normal: true, Discrepancy: Discrepancy{None: true, Strays: Strays{SD: 0.01, Share: -1, Time: tau * quantity.Day}},
		Meters: []Meter{{BiasSD: 0.02}}, Phases: season(t, "madison", 0, length*quantity.Day, 0)}
	days, values := []float64{10, 10, 40, 90, 91, 200, 320}, []float64{0.305, 0.28, 0.275, 0.222, 0.265, 0.16, 0.09}
	kinds := []Kind{Sample, Pin, Pin, Sample, Pin, Pin, Sample}
	var list []Observation
	f := filter{x: [5]float64{0, 0, 0.3, 0, 0}}
	for i, sd := range [5]float64{0.1, 0.3, 0.05, 0.02, 0.01} {
		f.p[i][i] = sd * sd
	}
	for i, d := range days {
		o := Observation{Kind: kinds[i], At: quantity.Duration(d) * quantity.Day, MC: quantity.Moisture(values[i]), SD: 0.012, Part: moisture.Mean}
		list = append(list, o)
		f.wait(d, tau, 0.01)
		h := [5]float64{0.1, 0.05 * d / length, 1 - d/length, 0, 1}
		if o.Kind == Pin {
			h[3] = 1
		}
		f.take(h, values[i], 0.012)
	}
	p := &Posterior{}
	full, err := s.complete(new(method.Notes))
	require.NoError(t, err)
	p.setup = full
	p, err = learn(context.Background(), p, straight{length}, list)
	require.NoError(t, err)
	require.Empty(t, p.Contradictions)
	assert.Equal(t, 1.0, p.Inflated)
	t.Logf("%s, %.0f of %d", p.Method, p.EffectiveSize, p.Members)

	check := func(name string, of func(m int) float64, mean, sd float64) {
		values := make([]sample, p.Members)
		for m := range values {
			values[m] = sample{of(m), p.e.weight[m]}
		}
		gotMean, gotSD := spread(values)
		t.Logf("%s: %.5f (exact %.5f, %+.3f sd), sd %.5f (%.5f, ratio %.3f)", name, gotMean, mean, (gotMean-mean)/sd, gotSD, sd, gotSD/sd)
		assert.InDelta(t, mean, gotMean, 0.06*sd, name)
		assert.InDelta(t, 1, gotSD/sd, 0.05, name)
	}
	for i, d := range [3]int{iEMC, iFactor, iStart} {
		check([]string{"ln s", "ln k", "start"}[i], func(m int) float64 { return p.e.x[m][d] }, f.x[i], math.Sqrt(f.p[i][i]))
	}
	q := p.common(0.02, func(r *reading) bool { return r.meter == 0 })
	check("meter", func(m int) float64 { return q.shift(p, m) + q.sd*p.e.stray[m] }, f.x[3], math.Sqrt(f.p[3][3]))
	v := p.view(320 * quantity.Day)
	h := [5]float64{0.1, 0.05 * 0.8, 0.2, 0, 1}
	mean, variance := 0.0, 0.0
	for i := range 5 {
		mean += h[i] * f.x[i]
		for j := range 5 {
			variance += h[i] * f.p[i][j] * h[j]
		}
	}
	check("now", v.meanOf, mean, math.Sqrt(variance))
}
