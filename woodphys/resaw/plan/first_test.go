package plan_test

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw/plan"
)

// firstRequests are requests of one billet and 6 kinds of part without limits.
func firstRequests(n int) []plan.Request {
	r := rand.New(rand.NewPCG(10, 1))
	var out []plan.Request
	for range n {
		out = append(out, plan.Request{Billets: []plan.Billet{randomBillet(r)}, Parts: randomParts(r, 6), Saws: []plan.Saw{bandsaw}})
	}
	return out
}

// atMost plans with so many steps and returns the plan with its share lost against a worth, and
// the gap to its bound, in parts of a hundred.
func atMost(t *testing.T, q plan.Request, steps, best int64) (p plan.Plan, lost, gap float64) {
	t.Helper()
	q.Work = steps
	p, err := plan.Make(context.Background(), q)
	require.NoError(t, err)
	checkPlan(t, q, p)
	if best > 0 {
		lost = 100 * (1 - float64(p.Worth)/float64(best))
	}
	return p, lost, 100 * float64(p.Bound-p.Worth) / float64(max(1, p.Bound))
}

// How good the plans of little work are: what they lose against those of the usual work, how wide
// their gap is, and how much processor time they take.
func TestTimesOfFirstPlans(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") == "" {
		t.Skip("set LATEWOOD_SWEEP=1 for the plans of little work of 300 requests")
	}
	list := firstRequests(300)
	best := make([]int64, len(list))
	for i, q := range list {
		p, _, _ := atMost(t, q, usualWork, 0)
		best[i] = p.Worth
	}
	at := func(v []float64, share float64) float64 { return v[int(share*float64(len(v)-1))] }
	t.Logf("%8s %28s %20s %24s %5s %6s", "steps", "ms: median, 90, 99 %", "loss %: median", "90, 99 %, most", "none", "gap %: median, 90 %")
	for _, steps := range []int64{10_000, 20_000, 50_000, 100_000, 200_000, 400_000, 1_000_000} {
		var times, losses, gaps []float64
		none := 0
		for i, q := range list {
			start := processor()
			p, lost, gap := atMost(t, q, steps, best[i])
			times = append(times, 1000*(processor()-start).Seconds())
			require.GreaterOrEqual(t, p.Bound, best[i])
			losses, gaps = append(losses, lost), append(gaps, gap)
			if p.Worth == 0 && best[i] > 0 {
				none++
			}
		}
		slices.Sort(times)
		slices.Sort(losses)
		slices.Sort(gaps)
		t.Logf("%8d %8.1f %8.1f %8.1f  %8.2f %8.2f %8.2f %8.2f  %4d  %6.1f %6.1f", steps, at(times, 0.5), at(times, 0.9), at(times, 0.99),
			at(losses, 0.5), at(losses, 0.9), at(losses, 0.99), losses[len(losses)-1], none, at(gaps, 0.5), at(gaps, 0.9))
	}
}

// Little work has a plan, and not a bad one. Steps are the same on every machine.
func TestLittleWorkHasAPlan(t *testing.T) {
	sum := 0.0
	for i, q := range firstRequests(100) {
		best, _, _ := atMost(t, q, 1_000_000, 0)
		require.Positive(t, best.Worth)
		for steps, most := range map[int64]float64{50_000: 25, 100_000: 20} {
			p, lost, _ := atMost(t, q, steps, best.Worth)
			require.LessOrEqual(t, lost, most, "request %d in %d steps", i, steps)
			require.GreaterOrEqual(t, p.Bound, best.Worth)
			require.Less(t, float64(p.Work), 1.3*float64(steps))
			if steps == 100_000 {
				sum += lost
			}
		}
	}
	require.LessOrEqual(t, sum/100, 2.0, "lost in the mean at 100 000 steps")
	t.Logf("%.2f %% lost in the mean at 100 000 steps", sum/100)
}
