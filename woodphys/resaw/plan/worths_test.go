package plan_test

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"os"
	"strconv"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw/plan"
)

// worthOf is what one request of the comparison came to.
type worthOf struct {
	Name         string
	Worth, Bound int64
	Missing      int
	Optimal      bool
	Seconds      float64
}

// processor is the processor time that this process has had.
func processor() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// What plans are worth, for testdata/planner/versions.py, which holds the plans of two
// versions against each other: written to the file that LATEWOOD_WORTHS names.
func TestWorthsOfPlans(t *testing.T) {
	file := os.Getenv("LATEWOOD_WORTHS")
	if file == "" {
		t.Skip("set LATEWOOD_WORTHS to a file; testdata/planner/versions.py does")
	}
	var all []worthOf
	only := os.Getenv("LATEWOOD_ONLY") // of the names below
	ask := func(name string, q plan.Request) {
		if only != "" && only != name {
			return
		}
		if steps, err := strconv.ParseInt(os.Getenv("LATEWOOD_STEPS"), 10, 64); err == nil {
			q.Work = steps
		}
		start := processor()
		p, err := plan.Make(context.Background(), q)
		require.NoError(t, err)
		took := processor() - start
		checkPlan(t, q, p)
		all = append(all, worthOf{name, p.Worth, p.Bound, missingSets(&p), p.Optimal, took.Seconds()})
	}
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		q := plan.Request{Billets: []plan.Billet{randomBillet(r)}, Parts: randomParts(r, 6), Saws: []plan.Saw{bandsaw}, Work: plan.UsualWork}
		limited := r.IntN(3) == 0
		if limited {
			limit(r, &q)
			ask("one limited", q)
			continue
		}
		ask("one", q)
	}
	for _, kinds := range []int{6, 10, 20} {
		r := rand.New(rand.NewPCG(5, uint64(kinds)))
		n := 20
		if kinds < 20 {
			n = 6
		}
		for range n {
			q := orderList(r, 40, kinds)
			q.Work = plan.UsualWork
			ask(map[int]string{6: "40 of 6", 10: "40 of 10", 20: "40 of 20"}[kinds], q)
		}
	}
	data, err := json.Marshal(all)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, data, 0o600))
}
