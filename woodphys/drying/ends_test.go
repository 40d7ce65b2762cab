package drying

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// End zones of a 50 mm plank after 20 to 300 days: bare deeper than sealed late
// deeper than sealed fresh. Published: about 1 to 2 thicknesses; allowed half to
// four, because the estimate is good to a factor of 2.
func TestEndZone(t *testing.T) {
	job := seasonJob(t)
	job.Thickness = 50 * quantity.Millimetre
	var s Solver
	for _, days := range []float64{20, 60, 150, 300} {
		job.Phases[0].Length = quantity.Duration(days) * quantity.Day
		depth := map[EndSeal]quantity.Length{}
		for _, seal := range []EndSeal{BareEnds, SealedLate, SealedFresh} {
			z, err := s.EndZone(context.Background(), &job, 2, seal, 0.01)
			require.NoError(t, err)
			t.Logf("%3.0f d %-12s: %3.0f mm ahead by 1 point, end %.1f, middle %.1f %%MC", days, seal, z.Depth.Millimetres(), z.AtEnd.Percent(), z.Middle.Percent())
			depth[seal] = z.Depth
			assert.Contains(t, z.Notes.Basis, "drying.ends")
		}
		assert.Greater(t, depth[BareEnds], depth[SealedLate])
		assert.GreaterOrEqual(t, depth[SealedLate], depth[SealedFresh])
		if days == 60 {
			assert.Greater(t, float64(depth[BareEnds]), 0.025)
			assert.Less(t, float64(depth[BareEnds]), 0.2)
		}
	}
}

// A fresh coat divides the first week's loss of a bare end by 10, a late one by
// 5; allowed 30 %, because the resistance is fitted to the mean flux.
func TestCoatDividesTheEndFlux(t *testing.T) {
	job := seasonJob(t)
	var err error
	job.Transport, err = newTransport(mediumAt(0.5), alongGrain)
	require.NoError(t, err)
	job.Thickness, job.Initial, job.History, job.Times = 1, 0.6, NoHysteresis, nil
	lost := map[EndSeal]float64{}
	for _, seal := range []EndSeal{BareEnds, SealedLate, SealedFresh} {
		r, err := endResistance(context.Background(), nil, &job, seal)
		require.NoError(t, err)
		e := OpenStack()
		e.CoatResistance = r
		job.Phases = []Phase{{Length: 7 * quantity.Day, Climate: mustConstant(t, 20, 0.65), Exposure: e}}
		var s Solver
		c, err := s.run(context.Background(), &job, s.course.Notes)
		require.NoError(t, err)
		lost[seal] = float64(c.Lost)
	}
	t.Logf("bare over late %.1f, over fresh %.1f", lost[BareEnds]/lost[SealedLate], lost[BareEnds]/lost[SealedFresh])
	assert.InEpsilon(t, 10, lost[BareEnds]/lost[SealedFresh], 0.3)
	assert.InEpsilon(t, 5, lost[BareEnds]/lost[SealedLate], 0.3)
}

func TestEndZoneRefusals(t *testing.T) {
	job := seasonJob(t)
	var s Solver
	for in, try := range map[string]func() error{
		"length": func() error {
			_, err := s.EndZone(context.Background(), &job, quantity.Length(math.NaN()), BareEnds, 0.01)
			return err
		},
		"ahead_pct": func() error { _, err := s.EndZone(context.Background(), &job, 1, BareEnds, 0); return err },
		"end_seal":  func() error { _, err := s.EndZone(context.Background(), &job, 1, "paint", 0.01); return err },
	} {
		_, got := input(t, try())
		assert.Equal(t, in, got)
	}
	for _, seal := range []EndSeal{SealedFresh, SealedLate, BareEnds} {
		r, err := UsualCheckReach(seal)
		require.NoError(t, err)
		assert.Less(t, r.Low, r.High)
	}
}

// A piece dries through open ends so much sooner that it is told from some seven thicknesses down.
func TestThroughEnds(t *testing.T) {
	share, short := ThroughEnds(80*quantity.Millimetre, 60*quantity.Millimetre)
	assert.True(t, short)
	assert.Less(t, share, 0.1)
	_, short = ThroughEnds(80*quantity.Millimetre, 540*quantity.Millimetre)
	assert.True(t, short)
	share, short = ThroughEnds(80*quantity.Millimetre, 600*quantity.Millimetre)
	assert.False(t, short)
	assert.Greater(t, share, 0.8)
}
