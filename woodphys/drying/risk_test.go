package drying

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// 8/4 stands 0.4 of 4/4, 6/4 about 0.6 (Wengert, read; memory).
func TestSafeDailyLossThickness(t *testing.T) {
	for mm, want := range map[float64]float64{25: 1, 50: 0.4, 37.5: 0.6} {
		got, err := SafeDailyLoss(0.038, quantity.Length(mm)*quantity.Millimetre)
		require.NoError(t, err)
		assert.InDelta(t, want, float64(got)/0.038, 0.02)
	}
	_, err := SafeDailyLoss(quantity.Moisture(math.NaN()), 0.025)
	assert.Error(t, err)
}

func TestSurfaceCheckRisk(t *testing.T) {
	line := Course{}
	for i := range 50 { // a course by hand: 0.5 %MC a day, on day 20 1.5 %
		m := 0.6 - 0.005*float64(i)
		if i > 20 {
			m -= 0.01
		}
		line.Times, line.Mean = append(line.Times, quantity.Duration(i)*quantity.Day), append(line.Mean, quantity.Moisture(m))
	}
	r, err := SurfaceCheckRisk(line, 0.025, 0.02)
	require.NoError(t, err)
	assert.InDelta(t, (0.005+0.005+0.015)/3, float64(r.Fastest), 1e-12)
	assert.InDelta(t, 18, r.When.Days(), 1e-9)
	assert.InDelta(t, 0.025/3/0.02, r.Ratio, 1e-9)
	assert.Equal(t, RiskLow, r.Severity)

	// a fast piece makes it moderate, and no more
	high := r
	high.Ratio, high.Severity = 1.2, RiskHigh
	assert.Equal(t, RiskModerate, r.Beside(high).Severity)
	assert.Equal(t, RiskHigh, high.Beside(r).Severity)
	assert.InDelta(t, 1.2, r.Beside(high).Fast, 1e-12)

	// red oak stacked in July dries faster than stacked in November
	job := seasonJob(t)
	job.Factor = 0.3
	ratio := map[float64]float64{}
	for _, start := range []float64{195, 320} {
		job.Phases[0].Climate, err = Station(madison(), start)
		require.NoError(t, err)
		job.Phases[0].Length, job.Times = 60*quantity.Day, nil
		for h := 0; h <= 60*4; h++ {
			job.Times = append(job.Times, quantity.Duration(h)*quantity.Day/4)
		}
		var s Solver
		c, err := s.Run(context.Background(), &job)
		require.NoError(t, err)
		r, err := SurfaceCheckRisk(c, job.Thickness, 0.038)
		require.NoError(t, err)
		ratio[start] = r.Ratio
	}
	t.Logf("red oak 25 mm, July %.2f, November %.2f of the safe loss", ratio[195], ratio[320])
	assert.Greater(t, ratio[195], ratio[320])

	line.Times = line.Times[:10]
	_, err = SurfaceCheckRisk(line, 0.025, 0.02)
	assert.Error(t, err)
	_, err = SurfaceCheckRisk(Course{Times: []quantity.Duration{0, 2 * quantity.Day}, Mean: []quantity.Moisture{0.5, 0.4}}, 0.025, 0.02)
	_, in := input(t, err)
	assert.Equal(t, "times", in)
}
