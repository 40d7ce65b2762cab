package resaw_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw"
)

func missingSets(p *resaw.Plan) int {
	n := 0
	for _, short := range p.Short {
		n += short
	}
	return n
}

// A budget too small for the proof gives a plan that can be sawn, is no worse
// than the one MakePlan had by two thirds of it, and is held by a bound that the
// true best, found with a large budget, does not break.
func TestPlanInTime(t *testing.T) {
	better, proven := 0, 0
	for seed := range uint64(6) {
		q := orderList(rand.New(rand.NewPCG(seed, 77)), 1+int(seed%3)*2, 9)
		q.Work = 3_000_000
		best, err := resaw.MakePlan(context.Background(), q)
		require.NoError(t, err)
		for _, work := range []int64{3_000, 100_000, 600_000} {
			q.Work = work - work/3
			part, err := resaw.MakePlan(context.Background(), q)
			require.NoError(t, err)
			q.Work = work
			p, err := resaw.MakePlanInTime(context.Background(), q)
			require.NoError(t, err)
			checkPlan(t, q, p)
			assert.LessOrEqual(t, missingSets(&p), missingSets(&part))
			if missingSets(&p) == missingSets(&part) {
				assert.GreaterOrEqual(t, p.Worth, part.Worth)
			}
			if missingSets(&p) < missingSets(&part) || p.Worth > part.Worth {
				better++
			}
			if best.Optimal {
				proven++
				assert.GreaterOrEqual(t, p.Bound, best.Worth, "no plan is worth more than the bound")
				assert.GreaterOrEqual(t, missingSets(&p), missingSets(&best))
			}
			for i := range p.Saws {
				assert.Len(t, p.Saws[i].Sets, len(q.Parts))
			}
			assert.Equal(t, p.Worth, p.Saws[p.Saw].Worth)
			assert.Equal(t, p.Sets, p.Saws[p.Saw].Sets)
		}
		q.Work = 0
	}
	assert.Greater(t, better, 4)
	assert.Greater(t, proven, 5)
}

// With work enough it is the plan of MakePlan.
func TestPlanInTimeIsThePlan(t *testing.T) {
	for seed := range uint64(4) {
		q := orderList(rand.New(rand.NewPCG(seed, 3)), 2, 5)
		one, err := resaw.MakePlan(context.Background(), q)
		require.NoError(t, err)
		two, err := resaw.MakePlanInTime(context.Background(), q)
		require.NoError(t, err)
		require.True(t, one.Optimal)
		assert.Equal(t, one, two)
	}
}
