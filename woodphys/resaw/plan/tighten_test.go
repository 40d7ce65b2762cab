package plan_test

import (
	"encoding/json"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw/plan"
)

// manyOf asks for so many times as much from so many times the wood, all of it with limits. With
// kinds that fit nowhere beside the others the kinds are many too, so that stacks are on a
// lattice.
func manyOf(q plan.Request, times int, manyKinds bool) plan.Request {
	out := plan.Request{Saws: q.Saws, Work: 6_000_000}
	for range times {
		out.Billets = append(out.Billets, q.Billets...)
	}
	out.Parts = slices.Clone(q.Parts)
	for p := range out.Parts {
		most := 1000
		if q.Parts[p].Most != nil {
			most = times * *q.Parts[p].Most
		}
		out.Parts[p].Most, out.Parts[p].Least = &most, times*q.Parts[p].Least
	}
	for manyKinds && len(out.Parts) < 8 {
		big := out.Parts[0]
		big.Length, big.Least = 10*mm*1000, 0
		out.Parts = append(out.Parts, big)
	}
	return out
}

// holdsMany checks that the bound of much wood is no less than what the parts of it, each cut for
// itself, are worth.
func holdsMany(t *testing.T, q plan.Request, worth int64, times int) (gap float64) {
	t.Helper()
	for _, manyKinds := range []bool{false, true} {
		p := makePlan(t, manyOf(q, times, manyKinds))
		assert.GreaterOrEqual(t, p.Bound, int64(times)*worth, "many kinds %v", manyKinds)
		if p.Optimal {
			assert.GreaterOrEqual(t, p.Worth, int64(times)*worth)
		}
		gap = float64(p.Bound)/float64(max(1, int64(times)*worth)) - 1
	}
	return gap
}

// The bound of many billets is never below what is known to be had from them: of small billets
// with zones and pith, cut in every way by a program of its own.
func TestBoundOfManyBilletsHolds(t *testing.T) {
	data, err := os.ReadFile("../../../testdata/planner/exact.json")
	require.NoError(t, err)
	var all []exactInstance
	require.NoError(t, json.Unmarshal(data, &all))
	each := 15
	if os.Getenv("LATEWOOD_SWEEP") != "" {
		each = 1
	}
	held, gaps := 0, 0.0
	for i := range all {
		if in := &all[i]; in.ID%each == 0 && in.Short == 0 && in.Worth > 0 {
			gaps += holdsMany(t, in.request(), in.Worth, 6)
			held++
		}
	}
	t.Logf("%d lists, bound %.1f %% over six times one of them in the mean", held, 100*gaps/float64(held))
	require.Greater(t, held, 200/each)
}
