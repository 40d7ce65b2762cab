package readiness

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// A day that is told is one on which at least half of the cases are ready that very day:
// judged on it, the step is as likely ready as not, whatever season it was asked in. Where
// there is none, no day of the forecast is one.
func TestADateIsADayOnWhichHalfAreReady(t *testing.T) {
	s := billet(t)
	s.Phases = season(t, "madison", 100, 1500*quantity.Day, quantity.Day)[:1]
	s.Members = 64
	p, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	given, why := 0, map[Undated]int{}
	for _, mc := range []float64{0.05, 0.08, 0.09, 0.1, 0.11, 0.12, 0.14} {
		for _, step := range Steps() {
			for _, from := range []float64{0, 500, 600, 700, 800} {
				limits, target, asked := LimitsFor(step, s.Thickness), Target{Mean: quantity.Moisture(mc), SD: 0.004, WoodShare: 1}, quantity.Duration(from)*quantity.Day
				d, err := p.ReadyDate(limits, target, asked, 0)
				require.NoError(t, err)
				ready := func(at quantity.Duration) float64 {
					v, _, err := p.Judge(step, limits, target, at)
					require.NoError(t, err)
					return v.Probability
				}
				assert.InDelta(t, ready(asked), d.Already, 1e-5, "the share of today is the verdict")
				if d.Median.Within {
					given++
					assert.Empty(t, d.Undated())
					assert.Greater(t, ready(d.Median.At), 0.44, "%s for %g from day %g: between two times of the forecast", step, mc, from)
					assert.True(t, d.Already >= readyFrom || d.Holds())
					continue
				}
				why[d.Undated()]++
				require.NotEmpty(t, d.Undated())
				assert.False(t, d.High.Within)
				most := 0.0
				for at := asked; at <= p.Horizon(); at += 10 * quantity.Day {
					most = max(most, ready(at))
				}
				assert.InDelta(t, most, d.Likeliest.Share, 0.07, "%s for %g from day %g", step, mc, from)
				assert.True(t, most < 0.55 || !d.Holds())
			}
		}
	}
	t.Logf("%d days, none: %v", given, why)
	assert.Greater(t, given, 10)
	assert.Greater(t, len(why), 1)
}

// The late end of a date is one to plan by: judged on it, the step is ready without a reading. A thin
// piece that follows the seasons is ready now and then for sure, and on no day as sure as that.
func TestALateEndIsOneToPlanBy(t *testing.T) {
	s := billet(t)
	s.Thickness = 6 * quantity.Millimetre
	s.Phases = season(t, "madison", 100, 1500*quantity.Day, 0)
	s.Members = 64
	p, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	late, unsure := 0, 0
	for mc := 0.06; mc < 0.14; mc += 0.004 {
		limits, target := LimitsFor(Resaw, s.Thickness), Target{Mean: quantity.Moisture(mc), SD: 0.004, WoodShare: 1}
		d, err := p.ReadyDate(limits, target, 20*quantity.Day, 0)
		require.NoError(t, err)
		switch {
		case d.High.Within:
			late++
			v, _, err := p.Judge(Resaw, limits, target, d.High.At)
			require.NoError(t, err)
			assert.Greater(t, v.Probability, readyFrom-0.03, "%g", mc)
		case d.Median.Within && d.Never < 0.05:
			unsure++
			assert.Less(t, d.Likeliest.Share, readyFrom)
		}
	}
	t.Logf("%d late ends, %d dates without one", late, unsure)
	assert.Positive(t, late)
	assert.Positive(t, unsure)
}

// The same of when a course is down: on the day that is told half of the members are.
func TestACourseIsDownOnItsDay(t *testing.T) {
	s := billet(t)
	s.Phases = season(t, "madison", 100, 1500*quantity.Day, quantity.Day)[:1]
	s.Members = 64
	p, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	given, none := 0, 0
	for _, mc := range []float64{0.1, 0.11, 0.12, 0.13, 0.14, 0.16, 0.2} {
		r, err := p.Reaches(Target{Mean: quantity.Moisture(mc)}, 0, OfMean)
		require.NoError(t, err)
		down := func(at quantity.Duration) (share float64) {
			place := p.e.find(at)
			for m, w := range p.e.weight {
				if place.of(p.e.mean[m])+place.of(p.e.drift[m]) <= mc*(1+1e-9) {
					share += w
				}
			}
			return share
		}
		if math.IsInf(float64(r.Middle), 1) {
			none++
			assert.NotEmpty(t, r.Undated())
			for _, at := range p.e.times {
				assert.Less(t, down(at), 0.5)
			}
			continue
		}
		given++
		assert.GreaterOrEqual(t, down(r.Middle+quantity.Day/100), 0.45, mc)
		assert.True(t, r.Early <= r.Middle && r.Middle <= r.Late)
	}
	assert.Positive(t, given)
	assert.Positive(t, none)
}

// A step of fewer than half of the cases today that most are ready for tomorrow is not one that may
// be ready today: it has its day.
func TestWhatIsReadyTomorrowIsNotOpenToday(t *testing.T) {
	s := billet(t)
	s.Thickness = 4 * quantity.Millimetre
	s.Phases = season(t, "madison", 100, 300*quantity.Day, 300*quantity.Day)
	s.Members = 64
	p, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	limits, target := LimitsFor(Resaw, s.Thickness), room()
	soon := 0
	for at := 296.0; at < 303; at += 0.25 {
		today := quantity.Duration(at) * quantity.Day
		v, _, err := p.Judge(Resaw, limits, target, today)
		require.NoError(t, err)
		d, err := p.ReadyDate(limits, target, today, 0)
		require.NoError(t, err)
		near := d.Median.Within && d.Median.At < today+quantity.Day
		d.unlessToday(&v, today, p.Horizon())
		if v.Outcome != CannotSay {
			continue
		}
		assert.Equal(t, near && v.Probability >= 0.5, d.Perhaps, "day %g: %.2f", at, v.Probability)
		if near && v.Probability < 0.5 {
			soon++
			assert.Equal(t, today+quantity.Day, d.Median.At)
			assert.GreaterOrEqual(t, d.High.At, d.Median.At)
		}
	}
	assert.Positive(t, soon)
}
