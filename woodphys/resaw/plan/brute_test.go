package plan_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// brute lists every count of sets that can be cut from a billet of whole
// millimetres, with cuts at every whole millimetre.
type brute struct {
	q     *plan.Request
	b     *plan.Billet
	s     *plan.Saw
	known map[[5]int]map[tally]bool
}

type tally [3]int

func millis(l quantity.Length) int { return int(nano(l) / 1e6) }

// both returns every sum of one of a and one of b.
func both(a, b map[tally]bool) map[tally]bool {
	out := map[tally]bool{}
	for x := range a {
		for y := range b {
			out[tally{x[0] + y[0], x[1] + y[1], x[2] + y[2]}] = true
		}
	}
	return out
}

func into(a, b map[tally]bool) {
	for x := range b {
		a[x] = true
	}
}

// once remembers what a place gives for a place.
func (r *brute) once(place [5]int, compute func() map[tally]bool) map[tally]bool {
	if got, ok := r.known[place]; ok {
		return got
	}
	got := compute()
	r.known[place] = got
	return got
}

// piece lists what a piece of the face can give: parted by any cut, or as one blank that
// lies flat or on its side.
func (r *brute) piece(x0, x1, y0, y1 int) map[tally]bool {
	if x1 <= x0 || y1 <= y0 {
		return map[tally]bool{{}: true}
	}
	return r.once([5]int{x0, x1, y0, y1, -1}, func() map[tally]bool {
		out := map[tally]bool{{}: true}
		into(out, r.piece(x0+1, x1, y0, y1)) // waste before what is wanted
		into(out, r.piece(x0, x1, y0+1, y1))
		for e := x0 + 1; e < x1; e++ {
			into(out, both(r.piece(x0, e, y0, y1), r.piece(e+millis(r.s.Crosscut), x1, y0, y1)))
		}
		for f := y0 + 1; f < y1; f++ {
			into(out, both(r.piece(x0, x1, y0, f), r.piece(x0, x1, f+millis(r.s.Rip), y1)))
		}
		into(out, r.depth(x0, x1, y0, y1, 0))
		into(out, r.onSide(x0, x1, y0, y1))
		return out
	})
}

// onSide lists what a blank on its side can give: sets of one part, side by side, so many
// that it stands.
func (r *brute) onSide(x0, x1, y0, y1 int) map[tally]bool {
	out := map[tally]bool{{}: true}
	l := millis(r.b.Length)
	for p, part := range r.q.Parts {
		if millis(part.Length) > x1-x0 {
			continue
		}
		thick, cut := millis(part.Final), millis(r.s.Resaw)+millis(r.s.Reface)
		for n := 1; ; n++ {
			slices := n * part.Pieces
			width := slices*thick + (slices-1)*cut
			if !r.s.FarFaceFinished {
				width += millis(r.s.Resaw)
			}
			if width > y1-y0 {
				break
			}
			usable := r.thinL(x0, x0+millis(part.Length)) - l*(millis(r.b.FacingFace1)+millis(r.b.FacingFar))
			if 3*width >= millis(part.Width) && usable >= l*millis(part.Width) &&
				r.clear(x0, x0+millis(part.Length), y0, y0+width, 0, 1<<30) {
				one := tally{}
				one[p] = n
				out[one] = true
			}
		}
	}
	return out
}

// thinL is the thickness at the thinner end of a length, times that of the billet.
func (r *brute) thinL(x0, x1 int) int {
	thick, l := millis(r.b.Thickness), millis(r.b.Length)
	if r.b.ThicknessEnd == nil {
		return thick * l
	}
	by := millis(*r.b.ThicknessEnd) - thick
	return min(thick*l+by*x0, thick*l+by*x1)
}

// depth lists what a blank can give from depth z on.
func (r *brute) depth(x0, x1, y0, y1, z int) map[tally]bool {
	facing := millis(r.b.FacingFace1) + millis(r.b.FacingFar)
	l := millis(r.b.Length)
	thin := r.thinL(x0, x1)
	out := map[tally]bool{{}: true}
	if (z+facing)*l >= thin {
		return out
	}
	into(out, r.depth(x0, x1, y0, y1, z+1))
	for p, part := range r.q.Parts {
		if millis(part.Length) > x1-x0 || millis(part.Width) > y1-y0 {
			continue
		}
		at, ok := z, true
		for range part.Pieces {
			end := at + millis(part.Final)
			need := end + facing
			if !r.s.FarFaceFinished {
				need += millis(r.s.Resaw)
			}
			ok = ok && need*l <= thin && r.clear(x0, x1, y0, y1, at+millis(r.b.FacingFace1), end+millis(r.b.FacingFace1))
			at = end + millis(r.s.Resaw) + millis(r.s.Reface)
		}
		if ok {
			one := tally{}
			one[p] = r.abreast(part, x1-x0, y1-y0)
			into(out, both(map[tally]bool{one: true}, r.depth(x0, x1, y0, y1, at)))
		}
	}
	return out
}

// abreast is how many of a part a leaf is parted into: as many as it holds, where the blank is
// as long as some part that goes into it and as wide as some other.
func (r *brute) abreast(part plan.PartKind, long, wide int) int {
	isLong, isWide := false, false
	for _, o := range r.q.Parts {
		if millis(o.Length) <= long && millis(o.Width) <= wide {
			isLong, isWide = isLong || millis(o.Length) == long, isWide || millis(o.Width) == wide
		}
	}
	if !isLong || !isWide {
		return 1
	}
	cross, rip := millis(r.s.Crosscut), millis(r.s.Rip)
	return ((long + cross) / (millis(part.Length) + cross)) * ((wide + rip) / (millis(part.Width) + rip))
}

func (r *brute) clear(x0, x1, y0, y1, z0, z1 int) bool {
	for _, z := range r.b.Zones {
		if millis(z.X0) < x1 && x0 < millis(z.X1) && millis(z.Y0) < y1 && y0 < millis(z.Y1) &&
			(z.Z0 == nil || millis(*z.Z0) < z1 && z0 < millis(*z.Z1)) {
			return false
		}
	}
	return true
}

func TestPlanAgainstEveryWayToCut(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	size := func(low, high int) quantity.Length { return quantity.Length(low+r.IntN(high-low+1)) * mm }
	met := 0
	for range 150 {
		q := plan.Request{Saws: []plan.Saw{{
			Resaw: size(0, 1), Crosscut: size(0, 1), Rip: size(0, 1), Reface: size(0, 1), FarFaceFinished: r.IntN(2) == 0,
		}}}
		for range 1 + r.IntN(2) {
			b := plan.Billet{Length: size(3, 5), Width: size(2, 4), Thickness: size(2, 6), FacingFace1: size(0, 1), TrimEnd: size(0, 1)}
			if r.IntN(3) == 0 {
				end := size(1, 6)
				b.ThicknessEnd = &end
			}
			if r.IntN(2) == 0 {
				x, y := size(0, 4), size(0, 3)
				z := plan.Zone{Kind: "knot", X0: x, X1: x + size(1, 2), Y0: y, Y1: y + size(1, 2)}
				if r.IntN(2) == 0 {
					low := size(0, 4)
					high := low + size(1, 2)
					z.Z0, z.Z1 = &low, &high
				}
				b.Zones = append(b.Zones, z)
			}
			q.Billets = append(q.Billets, b)
		}
		for range 3 {
			p := plan.PartKind{
				Length: size(1, 4), Width: size(1, 3), Final: size(1, 3), Pieces: 1 + r.IntN(2), Match: plan.MatchBook, Worth: int64(1 + r.IntN(20)),
			}
			if r.IntN(2) == 0 {
				p.Least = r.IntN(3)
			}
			if r.IntN(2) == 0 {
				most := p.Least + r.IntN(3)
				p.Most = &most
			}
			q.Parts = append(q.Parts, p)
		}
		all := map[tally]bool{{}: true}
		for i := range q.Billets {
			way := &brute{&q, &q.Billets[i], &q.Saws[0], map[[5]int]map[tally]bool{}}
			all = both(all, way.piece(millis(q.Billets[i].TrimStart), millis(q.Billets[i].Length)-millis(q.Billets[i].TrimEnd), 0, millis(q.Billets[i].Width)))
		}
		bestShort, bestWorth := 1<<30, int64(0)
		for n := range all {
			short, worth := 0, int64(0)
			for p, part := range q.Parts {
				short += max(0, part.Least-n[p])
				count := n[p]
				if part.Most != nil {
					count = min(count, *part.Most)
				}
				worth += int64(count) * part.Worth
			}
			if short < bestShort || short == bestShort && worth > bestWorth {
				bestShort, bestWorth = short, worth
			}
		}
		p, err := plan.Make(context.Background(), q)
		require.NoError(t, err)
		checkPlan(t, q, p)
		short := 0
		for _, n := range p.Short {
			short += n
		}
		require.Equal(t, bestShort, short)
		require.Equal(t, bestWorth, p.Worth)
		require.True(t, p.Optimal)
		if p.Worth > 0 {
			if bestShort == 0 && met%4 == 0 { // with zones and taper, much of it
				holdsMany(t, q, bestWorth, 5)
			}
			met++
		}
	}
	require.Greater(t, met, 75)
}
