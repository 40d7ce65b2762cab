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
