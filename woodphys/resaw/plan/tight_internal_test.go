package plan

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// pithBillet is a random billet with a pith and kinds of part that ask for a ring
// angle.
func pithBillet(r *rand.Rand) (Billet, Saw, []PartKind) {
	const mm = quantity.Millimetre
	size := func(low, high int) quantity.Length { return quantity.Length(low+r.IntN(high-low+1)) * mm }
	b := Billet{Length: size(400, 900), Width: size(90, 220), Thickness: size(20, 60), Cup: size(0, 3)}
	b.Pith = &resaw.Point{X: size(0, 300) - 60*mm, Z: size(0, 140) - 40*mm}
	x, y := size(0, 600), size(0, 150)
	b.Zones = []Zone{{X0: x, X1: x + size(5, 40), Y0: y, Y1: y + size(5, 40)}}
	saw := Saw{Resaw: size(1, 2), Crosscut: size(1, 3), Rip: size(1, 3), FarFaceFinished: r.IntN(2) == 0}
	var parts []PartKind
	for i := range 4 {
		p := PartKind{Length: size(80, 400), Width: size(25, 120), Final: size(2, 8), Pieces: 1 + r.IntN(2), Worth: int64(1 + r.IntN(90))}
		if i%2 == 0 {
			p.LeastRingAngle = quantity.Angle(30+r.IntN(50)) * quantity.Degree
		}
		parts = append(parts, p)
	}
	return b, saw, parts
}

// Stacks valued loosely until a best path uses them give what the same stacks give
// when each has its own graph from the start, to the last cut, and the trace of
// them uses none that is loose.
func TestStacksTiedLateLoseNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	loose, tied := 0, 0
	for range 300 {
		b, saw, parts := pithBillet(r)
		value := make([]int64, len(parts))
		for p := range parts {
			value[p] = parts[p].Worth * unitOfWorth
		}
		price := func(all bool) (int64, []sectionPlan) {
			rig := newRig(&saw, parts)
			w := newOffer(&b, &rig.cost, true)
			rig.deepest = w.deepest()
			board, err := newBoard(w, rig, rig.suited(w), &work{ctx: context.Background(), most: 1e9})
			require.NoError(t, err)
			rig.stamp++
			require.NoError(t, board.outline(value, 1))
			if all {
				for i := range board.sections {
					if !board.sections[i].built {
						require.NoError(t, board.build(i))
					}
				}
				require.NoError(t, board.revalue())
				for i := range board.variants {
					if board.variants[i].tie != nil {
						tied++
					}
					require.NoError(t, board.tighten(int32(i)))
				}
			}
			rig.stamp++
			v, err := board.price(value, 1)
			require.NoError(t, err)
			for i := range board.variants {
				if board.variants[i].tie != nil {
					loose++
				}
			}
			return v, board.trace(value, 1)
		}
		want, wantPlan := price(true)
		got, plan := price(false)
		require.Equal(t, want, got)
		require.Equal(t, wayOf(wantPlan).totals(4), wayOf(plan).totals(4))
	}
	require.Greater(t, tied, 1000, "stacks that the pith ties")
	require.Greater(t, loose, tied/4, "some never mattered")
}

// Counts that serve as well as others do so whatever is added to both and however
// the limits cut the sum.
func TestCountsThatServe(t *testing.T) {
	r := rand.New(rand.NewPCG(63, 64))
	served := 0
	for range 200_000 {
		parts := make([]want, 3)
		for p := range parts {
			parts[p].worth = int64(r.IntN(6))
			if most := r.IntN(6); r.IntN(4) > 0 {
				parts[p].most = &most
				parts[p].least = r.IntN(most + 1)
			} else {
				parts[p].least = r.IntN(4)
			}
		}
		lim := newLimits(parts)
		random := func() (c counts) {
			for _, p := range lim.kinds {
				c[p] = uint16(r.IntN(5))
			}
			return c
		}
		a, b, more := random(), random(), random()
		v, w := int64(r.IntN(30)), int64(r.IntN(30))
		if !lim.serves(&a, v, &b, w) {
			continue
		}
		served++
		// What a plan with these counts is worth, sets beyond the most given away,
		// and how many of the least it misses.
		judge := func(c *counts, worth int64) (int64, int) {
			missing := 0
			for p := range parts {
				if !lim.tracked[p] {
					continue
				}
				n := int(c[p]) + int(more[p])
				if parts[p].most != nil {
					worth -= int64(max(0, n-*parts[p].most)) * parts[p].worth
				}
				missing += max(0, parts[p].least-n)
			}
			return worth, missing
		}
		va, ma := judge(&a, v)
		vb, mb := judge(&b, w)
		require.GreaterOrEqual(t, va, vb, "%v %v %v", a, b, more)
		require.LessOrEqual(t, ma, mb)
		// The sum as the search holds it is the same plan.
		n, lost, _ := lim.add(&a, &more)
		clipped := v - lost
		for p := range parts {
			if lim.tracked[p] && parts[p].most != nil {
				require.LessOrEqual(t, int(n[p]), *parts[p].most)
			}
		}
		require.Equal(t, va, clipped)
	}
	require.Greater(t, served, 10_000)
}
