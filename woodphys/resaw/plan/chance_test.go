package plan_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// fewStacks is a plan of three billets with two kinds, one of them limited.
func fewStacks(t testing.TB) (plan.Request, plan.Plan) {
	t.Helper()
	most := 3
	saw := plan.Saw{Resaw: 1.5 * mm, Crosscut: 1.5 * mm, Rip: 1.5 * mm, Wander: 0.5 * mm, FarFaceFinished: true}
	knot0, knot1 := 20*mm, 24*mm
	q := plan.Request{
		Billets: []plan.Billet{
			{Length: 500 * mm, Width: 200 * mm, Thickness: 35 * mm},
			{Length: 500 * mm, Width: 200 * mm, Thickness: 41.3 * mm, Zones: []plan.Zone{{Kind: "knot", X0: 100 * mm, X1: 120 * mm, Y0: 50 * mm, Y1: 70 * mm, Z0: &knot0, Z1: &knot1}}},
			{Length: 400 * mm, Width: 150 * mm, Thickness: 16 * mm},
		},
		Parts: []plan.PartKind{
			{Name: "back", Length: 480 * mm, Width: 190 * mm, Final: 4 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 10, Most: &most},
			{Name: "head", Length: 380 * mm, Width: 140 * mm, Final: 3 * mm, Pieces: 1, Match: plan.MatchNone, Worth: 2},
		},
		Saws: []plan.Saw{saw},
	}
	p, err := plan.Make(context.Background(), q)
	require.NoError(t, err)
	return q, p
}

// setsLeft pairs the leaves that are left anew, run by run.
func setsLeft(p *plan.Plan, kind, pieces int, kept func(blank, leaf int) bool) int {
	sets, blank := 0, 0
	for i := range p.Billets {
		for _, b := range p.Billets[i].Blanks {
			run := 0
			for n, l := range b.Leaves {
				if l.Part != kind || !kept(blank, n) {
					run = 0
					continue
				}
				if run++; run%pieces == 0 {
					sets++
				}
			}
			blank++
		}
	}
	return min(sets, p.Sets[kind])
}

// Every outcome of the leaves of a small plan, kept or lost, weighed by its
// chance: 2 to the power of the leaves.
func TestChanceAgainstEveryOutcome(t *testing.T) {
	q, p := fewStacks(t)
	const hidden, sd = 0.13, 0.3 * mm
	lost := 1 - (1-hidden)*math.Erf(0.5/0.3/math.Sqrt2)
	var count []int
	total := 0
	for i := range p.Billets {
		for _, b := range p.Billets[i].Blanks {
			count = append(count, total)
			total += len(b.Leaves)
		}
	}
	require.Greater(t, total, 10)
	require.Less(t, total, 20)
	c, err := plan.ChanceOf(&q, &p, plan.Variation{WanderSD: sd, HiddenFault: hidden})
	require.NoError(t, err)
	assert.InDelta(t, lost, c.LeafLost, 1e-12)
	for kind := range q.Parts {
		require.Positive(t, p.Sets[kind])
		atLeast := make([]float64, p.Sets[kind]+1)
		for outcome := range 1 << total {
			chance := 1.0
			for n := range total {
				if outcome>>n&1 == 1 {
					chance *= lost
				} else {
					chance *= 1 - lost
				}
			}
			sets := setsLeft(&p, kind, q.Parts[kind].Pieces, func(blank, leaf int) bool { return outcome>>(count[blank]+leaf)&1 == 0 })
			for n := 1; n <= sets; n++ {
				atLeast[n] += chance
			}
		}
		require.Len(t, c.Parts[kind].AtLeast, p.Sets[kind])
		mean := 0.0
		for n, chance := range c.Parts[kind].AtLeast {
			assert.InDelta(t, atLeast[n+1], chance, 1e-10, "at least %d of kind %d", n+1, kind)
			mean += chance
		}
		assert.InDelta(t, mean, c.Parts[kind].Mean, 1e-12)
	}
}

// Sawing the same plan 40 000 times with a kerf, a wander and faults drawn at
// random: the share agrees within four standard errors.
func TestChanceAgainstSawingAtRandom(t *testing.T) {
	q, p := fewStacks(t)
	saw := &q.Saws[0]
	r := rand.New(rand.NewPCG(20, 26))
	v := plan.Variation{KerfSD: 0.25 * mm, WanderSD: 0.25 * mm, HiddenFault: 0.05}
	const times = 40_000
	got := make([][]int, len(q.Parts))
	for k := range got {
		got[k] = make([]int, p.Sets[k]+1)
	}
	for range times {
		kerf := -1.0
		for kerf < 0 {
			kerf = float64(saw.Resaw) + float64(v.KerfSD)*r.NormFloat64()
		}
		var kept [][]bool
		for i := range p.Billets {
			for _, b := range p.Billets[i].Blanks {
				var leaves []bool
				for n, l := range b.Leaves {
					end := float64(l.To) + float64(n)*(kerf-float64(saw.Resaw))
					wander := math.Abs(float64(v.WanderSD) * r.NormFloat64())
					leaves = append(leaves, end <= float64(b.Usable) && wander <= float64(saw.Wander) && r.Float64() >= v.HiddenFault)
				}
				kept = append(kept, leaves)
			}
		}
		for k := range q.Parts {
			for n := 1; n <= setsLeft(&p, k, q.Parts[k].Pieces, func(blank, leaf int) bool { return kept[blank][leaf] }); n++ {
				got[k][n]++
			}
		}
	}
	c, err := plan.ChanceOf(&q, &p, v)
	require.NoError(t, err)
	assert.Greater(t, c.Intervals, 5)
	for k := range q.Parts {
		for n, chance := range c.Parts[k].AtLeast {
			share := float64(got[k][n+1]) / times
			assert.InDelta(t, share, chance, 4*math.Sqrt(0.25/times), "at least %d of kind %d", n+1, k)
		}
	}
}

func TestChanceOfCertainty(t *testing.T) {
	q, p := fewStacks(t)
	c, err := plan.ChanceOf(&q, &p, plan.Variation{})
	require.NoError(t, err)
	for k := range q.Parts {
		assert.InDelta(t, float64(p.Sets[k]), c.Parts[k].Mean, 1e-12)
	}
	none, err := plan.ChanceOf(&q, &p, plan.Variation{HiddenFault: 1})
	require.NoError(t, err)
	for k := range q.Parts {
		assert.Zero(t, none.Parts[k].Mean)
	}
	before := math.Inf(1)
	for _, sd := range []quantity.Length{0.01 * mm, 0.1 * mm, 0.3 * mm, 1 * mm} {
		c, err := plan.ChanceOf(&q, &p, plan.Variation{KerfSD: sd})
		require.NoError(t, err)
		assert.LessOrEqual(t, c.Parts[0].Mean, before+1e-12, "a kerf less sure never helps a plan")
		before = c.Parts[0].Mean
	}
}

func TestChanceRefuses(t *testing.T) {
	q, p := fewStacks(t)
	for _, c := range []struct {
		input string
		v     plan.Variation
	}{
		{"kerf_sd", plan.Variation{KerfSD: -mm}}, {"kerf_sd", plan.Variation{KerfSD: quantity.Length(math.NaN())}},
		{"kerf_sd", plan.Variation{KerfSD: 11 * mm}}, {"wander_sd", plan.Variation{WanderSD: quantity.Length(math.Inf(1))}},
		{"hidden_fault", plan.Variation{HiddenFault: 1.01}}, {"hidden_fault", plan.Variation{HiddenFault: math.NaN()}},
	} {
		_, err := plan.ChanceOf(&q, &p, c.v)
		assertError(t, err, method.OutOfRange, c.input)
	}
}

// Many billets that are all unlike take the equally likely kerfs.
func TestChanceOfManyStacks(t *testing.T) {
	q := orderList(rand.New(rand.NewPCG(5, 6)), 30, 6)
	for k := range q.Parts {
		q.Parts[k].Least, q.Parts[k].Most = 0, nil
	}
	p, err := plan.Make(context.Background(), q)
	require.NoError(t, err)
	c, err := plan.ChanceOf(&q, &p, plan.Variation{KerfSD: 0.1 * mm, WanderSD: 0.2 * mm, HiddenFault: 0.1})
	require.NoError(t, err)
	assert.Equal(t, 128, c.Intervals)
	for k := range q.Parts {
		before := 1.0
		for _, chance := range c.Parts[k].AtLeast {
			assert.LessOrEqual(t, chance, before+1e-12)
			before = chance
		}
	}
}

// Further leaves of a blank of one kind need what Leaves says.
func TestMoreLeavesOfABlank(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	told := 0
	for range 300 {
		um := func(low, high int) quantity.Length { return quantity.Length(low+r.IntN(high-low)) / 1e6 }
		leaf, thickness := um(2000, 9000), um(12_000, 90_000)
		s := plan.Saw{Resaw: um(0, 3000), Reface: um(0, 700), FarFaceFinished: r.IntN(2) == 0}
		q := plan.Request{
			Billets: []plan.Billet{{Length: 300 * mm, Width: 100 * mm, Thickness: thickness}}, Saws: []plan.Saw{s},
			Parts: []plan.PartKind{{Length: 300 * mm, Width: 100 * mm, Final: leaf, Pieces: 1, Match: plan.MatchNone, Worth: 1}},
		}
		p, err := plan.Make(context.Background(), q)
		require.NoError(t, err)
		y, err := resaw.Leaves(resaw.Cut{Thickness: thickness, Leaf: leaf, Kerf: s.Resaw, Reface: s.Reface, FarFaceFinished: s.FarFaceFinished})
		require.NoError(t, err)
		if y.Leaves == 0 {
			continue
		}
		b := &p.Billets[0].Blanks[0]
		require.Len(t, b.Leaves, y.Leaves)
		more, err := b.More(1, leaf, &s)
		require.NoError(t, err)
		assert.InDelta(t, float64(y.OneMore.ShortBy), float64(more.ShortBy), 1e-12)
		require.Equal(t, y.OneMore.KerfAtMost == nil, more.KerfAtMost == nil)
		if more.KerfAtMost != nil {
			told++
			assert.InDelta(t, float64(*y.OneMore.KerfAtMost), float64(*more.KerfAtMost), 1e-12)
		}
		if more.ThinnerBy != nil {
			assert.InDelta(t, float64(*y.OneMore.ThinnerBy), float64(*more.ThinnerBy), 1e-12)
		}
	}
	assert.Greater(t, told, 30)
	_, err := (&plan.Blank{}).More(0, 3*mm, &plan.Saw{})
	assertError(t, err, method.OutOfRange, "leaves")
}
