package plan_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// BenchmarkPlanGrowth tells how the planner grows with one measure of a request
// while the others stay: thickness of one billet, kinds of part, and billets with
// limits on the counts. steps/op is the work, the same on every machine, and ends at
// what one request may use; gap/op is by how many parts in a thousand the plan
// might be beaten. testdata/planner/growth.py draws it.
func BenchmarkPlanGrowth(b *testing.B) {
	plank := func() plan.Billet {
		z0, z1 := 20*mm, 35*mm
		return plan.Billet{
			Length: 1800 * mm, Width: 320 * mm, Thickness: 60 * mm, TrimStart: 25 * mm, TrimEnd: 25 * mm,
			Zones: []plan.Zone{{Kind: "knot", X0: 700 * mm, X1: 760 * mm, Y0: 90 * mm, Y1: 140 * mm, Z0: &z0, Z1: &z1}},
		}
	}
	kinds := func(n int) []plan.PartKind { return randomParts(rand.New(rand.NewPCG(31, 7)), n) }
	measure := func(name string, q plan.Request) {
		b.Run(name, func(b *testing.B) {
			q.Work = 20_000_000
			var p plan.Plan
			for b.Loop() {
				var err error
				p, err = plan.Make(context.Background(), q)
				require.NoError(b, err)
			}
			b.ReportMetric(float64(p.Work), "steps/op")
			b.ReportMetric(1000*float64(p.Bound-p.Worth)/float64(max(1, p.Bound)), "gap/op")
		})
	}
	for _, thick := range []quantity.Length{25, 50, 100, 200, 400} {
		one := plank()
		one.Thickness = thick * mm
		if thick < 40 {
			one.Zones = nil
		}
		measure(fmt.Sprintf("thickness=%gmm", float64(thick)), plan.Request{Billets: []plan.Billet{one}, Parts: kinds(4), Saws: []plan.Saw{bandsaw}})
	}
	for _, n := range []int{1, 2, 4, 6, 8, 12, 16, 20} {
		measure(fmt.Sprintf("parts=%d", n), plan.Request{Billets: []plan.Billet{plank()}, Parts: kinds(n), Saws: []plan.Saw{bandsaw}})
	}
	for _, n := range []int{1, 5, 10, 20, 30, 40, 50} {
		measure(fmt.Sprintf("billets=%d", n), orderList(rand.New(rand.NewPCG(5, 6)), n, 6))
	}
}

// The times of the staged search on the small integer programs, which know the same cuts,
// for testdata/planner/compare.py, which times a general-purpose solver on the same ones: id
// and nanoseconds, the best of five, written to the file LATEWOOD_TIMES names.
func TestTimesOfPrograms(t *testing.T) {
	file := os.Getenv("LATEWOOD_TIMES")
	if file == "" {
		t.Skip("set LATEWOOD_TIMES to a file; testdata/planner/compare.py does")
	}
	var out strings.Builder
	for _, in := range programInstances(t) {
		q := in.request()
		best := time.Hour
		for range 5 {
			start := time.Now()
			worth, _, done := plan.Staged(q)
			best = min(best, time.Since(start))
			require.True(t, done)
			require.Equal(t, in.Worth, worth)
		}
		fmt.Fprintln(&out, in.ID, best.Nanoseconds())
	}
	require.NoError(t, os.WriteFile(file, []byte(out.String()), 0o600))
}
