package plan_test

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/resaw/plan"
)

// What more than the usual work brings on large order lists: by how much the plan of the
// usual steps is worth less than that of a minute, and how wide the gap is then.
func TestUsualPlansAgainstAMinute(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") == "" {
		t.Skip("set LATEWOOD_SWEEP=1 for 20 order lists of 40 billets, planned for a second and for up to a minute")
	}
	r := rand.New(rand.NewPCG(5, 20))
	var lost, gaps, later []float64
	for i := range 20 {
		q := orderList(r, 40, 20)
		q.Work, q.Memory = usualWork, plan.UsualMemory
		first := makePlan(t, q)
		q.Work = plan.MaxWork
		ctx, stop := context.WithTimeoutCause(context.Background(), time.Minute, method.ErrUsedUp)
		start := time.Now()
		best, err := plan.Make(ctx, q)
		stop()
		require.NoError(t, err)
		lost = append(lost, 100*(1-float64(first.Worth)/float64(best.Worth)))
		gaps = append(gaps, 100*float64(first.Bound-first.Worth)/float64(first.Bound))
		later = append(later, 100*float64(best.Bound-best.Worth)/float64(best.Bound))
		t.Logf("list %d: lost %.2f %%, gap %.1f %%, %.1f %% after %v", i, lost[len(lost)-1], gaps[len(gaps)-1],
			later[len(later)-1], time.Since(start).Round(time.Millisecond))
	}
	require.NotEmpty(t, lost)
	for _, one := range [][]float64{lost, gaps, later} {
		slices.Sort(one)
	}
	half, last := len(lost)/2, len(lost)-1
	t.Logf("%d lists: the usual plan is worth %.2f %% less in the median, %.2f %% at most; gap %.1f %% and %.1f %% after a minute in the median",
		len(lost), lost[half], lost[last], gaps[half], later[half])
}
