package drying

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// One budget counts every step of all solvers that share it, and ends them all.
func TestWorkIsSharedAndBounded(t *testing.T) {
	ctx := context.Background()
	work := &Work{}
	line, section := Solver{Work: work}, Rectangle{Work: work}
	season, square := seasonJob(t), billet(t)
	wanted := 0
	for range 2 {
		c, err := line.Run(ctx, &season)
		require.NoError(t, err)
		wanted += c.Steps + c.Rejected
		assert.Equal(t, wanted, work.Steps())
	}
	r, err := section.Run(ctx, &square)
	require.NoError(t, err)
	wanted += r.Steps + r.Rejected
	assert.Equal(t, wanted, work.Steps())
	short := season
	short.Times = nil
	_, err = line.EndZone(ctx, &short, quantity.Metre, SealedFresh, quantity.PercentMC)
	require.NoError(t, err)
	c, err := (&Solver{}).Run(ctx, &short)
	require.NoError(t, err)
	assert.Greater(t, work.Steps(), wanted+c.Steps+c.Rejected, "the run across, the run along and the coat all count")

	work.Most = work.Steps() + 10
	for range 2 {
		_, err = line.Run(ctx, &season)
		code, in := input(t, err)
		assert.Equal(t, method.TooMuchWork, code)
		assert.Equal(t, "max_steps", in)
		assert.Contains(t, err.Error(), "time steps")
		assert.Equal(t, work.Most, work.Steps(), "to the step")
	}
	_, err = section.Run(ctx, &square)
	require.Error(t, err, "the others are at the end too")

	free := Solver{}
	unbounded, err := free.Run(ctx, &season)
	require.NoError(t, err)
	counted, err := (&Solver{Work: &Work{Most: 1_000_000}}).Run(ctx, &season)
	require.NoError(t, err)
	assert.Equal(t, unbounded.Mean, counted.Mean, "counting changes no number")
	assert.Zero(t, (*Work)(nil).Steps())
}
