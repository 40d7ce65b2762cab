package plan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw/plan"
)

func missingSets(p *plan.Plan) int {
	n := 0
	for _, short := range p.Short {
		n += short
	}
	return n
}

// Order lists of the largest size are planned within the budget of one request:
// no wanted set is missed, the plan can be sawn, its bound holds, and the gap is
// told. How good such plans are is measured by TestTimesOfOrderLists.
func TestOrderListsOfManyKinds(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, kinds := range []int{8, 12, 20} {
		q := orderList(r, 40, kinds)
		q.Work = 20_000_000
		p := makePlan(t, q)
		checkPlan(t, q, p)
		assert.Zero(t, missingSets(&p), "%d kinds", kinds)
		assert.GreaterOrEqual(t, p.Bound, p.Worth)
		assert.Greater(t, float64(p.Worth), 0.8*float64(p.Bound))
		assert.Equal(t, p.Optimal, p.Bound == p.Worth)
		t.Logf("%d kinds: worth %d, at most %d, proven %v, %d steps", kinds, p.Worth, p.Bound, p.Optimal, p.Work)
	}
}

// An order list that asks for a little of everything from much wood is filled to
// the last set, which proves it.
func TestMuchWoodFillsTheList(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 6))
	full := 0
	for i := range 20 {
		q := plan.Request{Parts: randomParts(r, 4+i%6), Saws: []plan.Saw{bandsaw}}
		for range 6 {
			b := randomBillet(r)
			b.Length, b.Width, b.Thickness = 1300*mm, 420*mm, 60*mm
			b.ThicknessEnd, b.ThicknessFarEdge, b.WidthEnd, b.Zones = nil, nil, nil, nil
			q.Billets = append(q.Billets, b)
		}
		all := int64(0)
		for p := range q.Parts {
			most := 1 + r.IntN(3)
			q.Parts[p].Most, q.Parts[p].Least = &most, r.IntN(most+1)
			q.Parts[p].LeastRingAngle, q.Parts[p].MostRunoutOneIn = 0, 0
			all += int64(most) * q.Parts[p].Worth
		}
		p := makePlan(t, q)
		checkPlan(t, q, p)
		require.LessOrEqual(t, p.Worth, all)
		if p.Worth == all {
			assert.True(t, p.Optimal)
			full++
		}
	}
	assert.GreaterOrEqual(t, full, 18)
}

// More work never gives a worse bound on what the same wood can be worth, and a
// plan found with little work is held by the bound found with much.
func TestBoundsOfManyKindsHoldEachOther(t *testing.T) {
	r := rand.New(rand.NewPCG(73, 6))
	for i := range 5 {
		q := orderList(r, 1+i, 10)
		var best, low int64
		low = 1 << 62
		for _, work := range []int64{200_000, 1_000_000, 4_000_000} {
			q.Work = work
			p := makePlan(t, q)
			checkPlan(t, q, p)
			if missingSets(&p) == 0 {
				best, low = max(best, p.Worth), min(low, p.Bound)
			}
			if p.Optimal {
				break
			}
		}
		assert.GreaterOrEqual(t, low, best)
	}
}

// A saw that is only compared changes nothing of what another saw gives, also where
// a leaf is sawn thicker for the shrinkage still to come.
func TestComparedSawsDoNotTouchEachOther(t *testing.T) {
	rough := bandsaw
	rough.CleanupShow, rough.CleanupBack, rough.Wander = 6*mm, 6*mm, 3*mm
	q := plan.Request{
		Billets: []plan.Billet{{Length: 600 * mm, Width: 100 * mm, Thickness: 60 * mm}},
		Parts:   []plan.PartKind{{Length: 600 * mm, Width: 100 * mm, Final: 2 * mm, Shrinkage: 0.06, Pieces: 1, Match: plan.MatchNone, Worth: 1}},
		Saws:    []plan.Saw{bandsaw},
	}
	alone := makePlan(t, q)
	checkPlan(t, q, alone)
	q.Saws = append(q.Saws, rough)
	beside := makePlan(t, q)
	assert.Equal(t, alone.Saws[0], beside.Saws[0])
	assert.Equal(t, alone.Worth, beside.Worth)
	// 2 + 0.5 + 0.5 + 0.4 = 3.4 dry, 3.4/0.94 = 3.617021 sawn; with 1.3 of kerf
	// floor(61.3 / 4.917021) = 12.
	assert.Equal(t, int64(12), alone.Worth)
	assert.InDelta(t, 3.617021, q.Parts[0].On(&bandsaw).Sum().Millimetres(), 1e-6)
}
