package drying

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

func billet(tb testing.TB) RectangleJob {
	tb.Helper()
	job := RectangleJob{Job: seasonJob(tb), Width: 75 * quantity.Millimetre, RingAngle: 45 * quantity.Degree}
	job.Thickness = 50 * quantity.Millimetre
	return job
}

// The product rule (Newman 1931): with constant coefficients the share left in a
// rectangle is the product of the shares left in two slabs. Allowed: 0.002, the
// space error of 24 nodes of second order.
func TestRectangleLinearMeetsProductRule(t *testing.T) {
	const d, film = 1e-10, 3e-8
	worst := 0.0
	for _, ringAngle := range []float64{0, 45, 90} {
		for _, days := range []float64{5, 20, 60} {
			var r Rectangle
			r.line.linear = &linearLaw{d: d, coefficient: film}
			job := billet(t)
			job.Initial, job.History, job.RingAngle = 1, NoHysteresis, quantity.Angle(ringAngle)*quantity.Degree
			job.Phases[0].Length, job.Phases[0].Climate = quantity.Duration(days)*quantity.Day, mustConstant(t, 20, 0.5)
			job.Times = []quantity.Duration{job.Phases[0].Length}
			c, err := r.Run(context.Background(), &job)
			require.NoError(t, err)
			assert.Less(t, c.Imbalance, 1e-10)
			want, wantCore := 1.0, 1.0
			sin2 := math.Pow(job.RingAngle.Sin(), 2)
			for axis, size := range []quantity.Length{job.Thickness, job.Width} {
				share := sin2
				if axis == 1 {
					share = 1 - sin2
				}
				da := d * (1.2*(1-share) + share) / 1.1
				half := float64(size) / 2
				mean := seriesMean(film*half/da, da*days*day/(half*half))
				core := seriesLocal(film*half/da, da*days*day/(half*half), 0)
				want, wantCore = want*mean, wantCore*core
			}
			assert.InDelta(t, want, float64(c.Mean[0]), 2e-3, "%g degrees, %g days", ringAngle, days)
			assert.InDelta(t, wantCore, float64(c.Core[0]), 2e-3, "%g degrees, %g days", ringAngle, days)
			worst = math.Max(worst, math.Max(math.Abs(want-float64(c.Mean[0])), math.Abs(wantCore-float64(c.Core[0]))))
		}
	}
	t.Logf("largest difference from the product of series %.1e", worst)
}

// A rectangle much wider than thick dries like the slab.
func TestWideRectangleIsASlab(t *testing.T) {
	job := billet(t)
	job.Thickness, job.Width, job.RingAngle = 25*quantity.Millimetre, 600*quantity.Millimetre, 45*quantity.Degree
	job.History = NoHysteresis // which the rectangle leaves out
	var r Rectangle
	c, err := r.Run(context.Background(), &job)
	require.NoError(t, err)
	var s Solver
	slab, err := s.Run(context.Background(), &job.Job)
	require.NoError(t, err)
	worst := 0.0
	for i := range slab.Mean {
		worst = math.Max(worst, math.Abs(float64(slab.Mean[i]-c.Mean[i])))
	}
	t.Logf("largest difference %.2f %%MC; %d steps (+%d)", 100*worst, c.Steps, c.Rejected)
	// the edges dry about one thickness inward: 4 % of the section, 2 %MC while green
	assert.Less(t, worst, 0.025)
}

func TestRectangleErrorAndBalance(t *testing.T) {
	if testing.Short() {
		t.Skip("many steps of a fine grid")
	}
	job := billet(t)
	var r Rectangle
	c, err := r.Run(context.Background(), &job)
	require.NoError(t, err)
	mean := append([]quantity.Moisture(nil), c.Mean...)
	assert.Less(t, c.Imbalance, 1e-10)
	job.Tolerance = 1e-7
	job.MaxSteps = 500_000
	fine, err := r.Run(context.Background(), &job)
	require.NoError(t, err)
	worst := 0.0
	for i := range mean {
		worst = math.Max(worst, math.Abs(float64(mean[i]-fine.Mean[i])))
	}
	t.Logf("three years: %d steps (+%d), time error of the mean %.3f %%MC, imbalance %.0e", c.Steps, c.Rejected, 100*worst, c.Imbalance)
	assert.Less(t, worst, 1e-3)
	for i := range mean {
		assert.LessOrEqual(t, float64(fine.Arris[i]), float64(fine.Core[i])+0.03)
	}
}

func TestRectangleRefusals(t *testing.T) {
	nan := math.NaN()
	for in, change := range map[string]func(*RectangleJob){
		"width":          func(j *RectangleJob) { j.Width = quantity.Length(nan) },
		"ring_angle_deg": func(j *RectangleJob) { j.RingAngle = quantity.Angle(nan) },
		"thickness":      func(j *RectangleJob) { j.Thickness = 0 },
		"max_steps":      func(j *RectangleJob) { j.MaxSteps = 10 },
	} {
		job := billet(t)
		change(&job)
		var r Rectangle
		_, err := r.Run(context.Background(), &job)
		_, got := input(t, err)
		assert.Equal(t, in, got)
	}
}

func BenchmarkRectangleThreeYears(b *testing.B) {
	job := billet(b)
	var r Rectangle
	for b.Loop() {
		if _, err := r.Run(context.Background(), &job); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(r.course.Steps), "steps")
}
