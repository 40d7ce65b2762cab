package plan_test

import (
	"context"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// mostHeld is what a plan may hold of the heap whatever it is asked for, rubbish included: the
// search is let reckon with plan.UsualMemory of it.
const mostHeld = 96 << 20

// hostile are requests that are made to hold much: what a size may be at most, with all the zones
// that there may be, rings to be held, and sizes that have no common measure.
func hostile() map[string]plan.Request {
	r := rand.New(rand.NewPCG(96, 1))
	odd := func(from, to float64) quantity.Length { return quantity.Length(from+(to-from)*r.Float64()) * mm }
	zones := func(b *plan.Billet) {
		for range plan.MaxZones - 1 {
			x, y, z := odd(0, 0.9*b.Length.Millimetres()), odd(0, 0.9*b.Width.Millimetres()), odd(0, 0.9*b.Thickness.Millimetres())
			z1 := z + odd(1, 9)
			b.Zones = append(b.Zones, plan.Zone{Kind: "knot", X0: x, X1: x + odd(3, 30), Y0: y, Y1: y + odd(3, 30), Z0: &z, Z1: &z1})
		}
	}
	billet := func(long, wide, thick float64) plan.Billet {
		end, far, narrow := odd(0.8*thick, thick), odd(0.7*thick, thick), odd(0.8*wide, wide)
		b := plan.Billet{Length: odd(0.9*long, long), Width: odd(0.9*wide, wide), Thickness: odd(0.9*thick, thick), ThicknessEnd: &end,
			ThicknessFarEdge: &far, WidthEnd: &narrow, FacingFace1: mm, FacingFar: mm, Cup: odd(0, 3), Bow: odd(0, 5), Twist: odd(0, 3)}
		b.Pith = &resaw.Point{X: odd(0, wide), Z: odd(-200, 300)}
		zones(&b)
		return b
	}
	parts := func(n int, long, thin float64, ringed, limited bool) []plan.PartKind {
		var out []plan.PartKind
		for i := range n {
			p := plan.PartKind{Length: odd(0.2*long, long), Width: odd(20, 200), Final: odd(thin, 4*thin), Pieces: 1 + i%4, Match: plan.MatchBook,
				Worth: int64(1 + r.IntN(1000))}
			if ringed {
				p.LeastRingAngle = quantity.Angle(5+r.IntN(60)) * quantity.Degree
			}
			if limited {
				most := 5 + r.IntN(3000)
				p.Most, p.Least = &most, r.IntN(most)
			}
			out = append(out, p)
		}
		return out
	}
	many := func(n int, long, wide, thick float64) []plan.Billet {
		var out []plan.Billet
		for range n {
			out = append(out, billet(long, wide, thick))
		}
		return out
	}
	return map[string]plan.Request{
		"one trunk":               {Billets: many(1, 2400, 700, 500), Parts: parts(6, 900, 1.5, true, false)},
		"one trunk, limits":       {Billets: many(1, 3000, 900, 600), Parts: parts(6, 700, 1, true, true)},
		"one trunk, 20 kinds":     {Billets: many(1, 2400, 700, 500), Parts: parts(20, 900, 1.5, true, true)},
		"4 planks, limits":        {Billets: many(4, 2500, 500, 90), Parts: parts(5, 600, 1, true, true)},
		"50 planks, 20 kinds":     {Billets: many(50, 4000, 700, 120), Parts: parts(20, 700, 1, true, true)},
		"50 planks, 6 kinds":      {Billets: many(50, 4000, 700, 120), Parts: parts(6, 700, 1, true, true)},
		"50 planks without rings": {Billets: many(50, 4000, 700, 120), Parts: parts(20, 700, 1, false, true)},
	}
}

// Whatever is asked for, no more is held than a small machine has: measured every few
// milliseconds while the plan is made.
func TestPlansHoldWhatTheyMay(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	for name, q := range hostile() {
		if os.Getenv("LATEWOOD_SWEEP") == "" && name != "one trunk, limits" && name != "4 planks, limits" {
			continue // the dearest are tried every day
		}
		q.Saws = []plan.Saw{bandsaw}
		q.Work, q.Memory = usualWork, plan.UsualMemory
		stop := make(chan uint64)
		go watchHeap(stop)
		p, err := plan.Make(context.Background(), q)
		stop <- 0
		held := <-stop
		if !assert.NoError(t, err, name) {
			continue
		}
		t.Logf("%s: %d MiB, used %.2f, %d steps", name, held>>20, p.Used, p.Work)
		assert.Less(t, held, uint64(mostHeld), name)
	}
}
