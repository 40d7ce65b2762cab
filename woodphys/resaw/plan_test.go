package resaw_test

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw"
)

func TestTimesOfRandomBillets(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") == "" {
		t.Skip("set LATEWOOD_SWEEP=1 for the times of 1000 billets")
	}
	r := rand.New(rand.NewPCG(3, 4))
	var times []time.Duration
	var work []int64
	for range 1000 {
		q := resaw.Request{Billets: []resaw.Billet{randomBillet(r)}, Parts: randomParts(r, 6), Saws: []resaw.Saw{bandsaw}}
		if r.IntN(3) == 0 {
			most := 1 + r.IntN(4)
			q.Parts[0].Most = &most
			q.Parts[1].Least = r.IntN(4)
		}
		start := time.Now()
		p, err := resaw.MakePlan(context.Background(), q)
		times = append(times, time.Since(start))
		require.NoError(t, err)
		checkPlan(t, q, p)
		work = append(work, p.Work)
		if !p.Optimal {
			t.Log("not proven", p.Worth, p.Bound, p.Work)
		}
	}
	slices.Sort(times)
	slices.Sort(work)
	t.Logf("median %v p90 %v p99 %v most %v; work median %d most %d", times[500], times[900], times[990], times[999], work[500], work[999])
}

// orderList is a request of n billets and some kinds of part with limits.
func orderList(r *rand.Rand, n, kinds int) resaw.Request {
	q := resaw.Request{Parts: randomParts(r, kinds), Saws: []resaw.Saw{bandsaw}}
	for range n {
		q.Billets = append(q.Billets, randomBillet(r))
	}
	for i := range q.Parts {
		switch r.IntN(3) {
		case 0:
			q.Parts[i].Least = r.IntN(1 + n)
			most := q.Parts[i].Least + r.IntN(2*n)
			q.Parts[i].Most = &most
		case 1:
			most := r.IntN(3 * n)
			q.Parts[i].Most = &most
		}
	}
	return q
}

func TestTimesOfOrderLists(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") == "" {
		t.Skip("set LATEWOOD_SWEEP=1 for the times of 20 order lists")
	}
	r := rand.New(rand.NewPCG(5, 6))
	for i := range 15 {
		kinds := []int{6, 6, 10}[i%3]
		q := orderList(r, 40, kinds)
		start := time.Now()
		p, err := resaw.MakePlan(context.Background(), q)
		took := time.Since(start)
		require.NoError(t, err)
		checkPlan(t, q, p)
		t.Log(kinds, took, p.Work, p.Optimal, p.Worth, p.Bound, p.Short)
	}
}
