package plan

import (
	"context"
	"fmt"
	"os"
	"testing"
	"time"
	"math/rand/v2"
	"slices"
)

func TestTryMany(t *testing.T) {
	r := rand.New(rand.NewPCG(4711, 6))
	_ = r
	var times []time.Duration
	proven, gap := 0, 0.0
	n := 100
	for i := range n {
		q := dearRequest(rand.New(rand.NewPCG(uint64(i), 5)), i%4, 6)
		q.Work = 20_000_000
		if os.Getenv("W") != "" {
			fmt.Sscan(os.Getenv("W"), &q.Work)
		}
		start := time.Now()
		p, err := Make(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		times = append(times, time.Since(start))
		if p.Optimal {
			proven++
		}
		gap += float64(p.Bound-p.Worth) / float64(max(1, p.Bound))
		if i < 10 {
			fmt.Println(i, p.Worth, p.Bound, p.Optimal, p.Work, times[i])
		}
	}
	slices.Sort(times)
	fmt.Println("proven", proven, "gap", gap/float64(n), times[n/2], times[n-1])
}
