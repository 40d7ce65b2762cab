package plan

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Stacks on a lattice are stacks that can be sawn, and its rows that bound are worth no less than
// any, also where a part is thinner than a cell.
func TestStacksOnALatticeLieBetween(t *testing.T) {
	const mm = quantity.Millimetre
	r := rand.New(rand.NewPCG(41, 7))
	thin, tied, lost, all := 0, 0, 0.0, 0.0
	for range 400 {
		size := func(low, high int) quantity.Length { return quantity.Length(low+r.IntN(high-low+1)) * mm / 10 }
		saw := Saw{Resaw: size(8, 20), Crosscut: 2 * mm, Rip: 2 * mm, FarFaceFinished: r.IntN(2) == 0}
		var parts []PartKind
		for range 1 + r.IntN(4) {
			p := PartKind{Length: 300 * mm, Width: 60 * mm, Final: size(5, 90), Pieces: 1 + r.IntN(2), Match: MatchSlip, Worth: int64(1 + r.IntN(40))}
			if r.IntN(2) == 0 {
				p.LeastRingAngle = quantity.Angle(30+r.IntN(50)) * quantity.Degree
			}
			parts = append(parts, p)
		}
		b := Billet{Length: 300 * mm, Width: 60 * mm, Thickness: size(200, 800)}
		if r.IntN(2) == 0 {
			b.Pith = &resaw.Point{X: -size(10, 500), Z: size(-100, 700)}
		}
		if r.IntN(2) == 0 {
			z0 := size(20, 400)
			z1 := z0 + size(10, 100)
			b.Zones = []Zone{{Kind: "knot", X0: 10 * mm, X1: 30 * mm, Y0: 10 * mm, Y1: 30 * mm, Z0: &z0, Z1: &z1}}
		}
		rig := newRig(&saw, parts)
		w := newOffer(&b, &rig.cost, true)
		if rig.deepest = w.deepest(); rig.suited(w) == 0 {
			continue
		}
		spent := &work{ctx: context.Background(), most: DefaultWork}
		value := make([]int64, len(parts))
		for p := range parts {
			value[p] = parts[p].Worth
		}
		at := func(rows *lattice, bounds bool) (int64, *cutter) {
			c := newCutter(w, rig, rig.suited(w), spent)
			c.lattice = rows
			require.NoError(t, c.price(value, false))
			require.Len(t, c.sizes, 1)
			s := placeAt(0, 0)
			s.bounds = bounds
			v, err := c.stackWorth(s, 0)
			require.NoError(t, err)
			return v, c
		}
		best, _ := at(nil, false)
		cells := []int{16, 64, 256}[r.IntN(3)]
		rows := rig.newLattice(cells)
		bound, c := at(rows, true)
		require.GreaterOrEqual(t, bound, best)
		sawn, c1 := at(rig.newLattice(cells), false)
		require.LessOrEqual(t, sawn, best)
		spot, ok := w.at(0, 300_000_000, 0, 60_000_000)
		require.True(t, ok)
		held, end := int64(0), nm(0)
		spoiled, rings := w.spoiled(spot.zones, spot.loss), w.reach(rig, spot.off, spot.face)
		if !w.pith {
			rings = nil
		}
		for _, q := range c1.setsOf(placeAt(0, 0), 0) {
			require.GreaterOrEqual(t, q.at, end)
			if q.part < 0 {
				continue
			}
			k := &rig.kinds[q.part]
			require.True(t, k.fits(q.at, rig, spoiled, rings, q.part))
			held, end = held+value[q.part], q.at+k.height
		}
		require.LessOrEqual(t, end, c.behind(&spot))
		assert.Equal(t, sawn, held)
		for p := range rig.kinds {
			if rig.kinds[p].height < rows.cell {
				thin++
			}
		}
		if _, some := c.tiedAt(c.plain[0].mask, &spot); some != 0 {
			tied++
		}
		if cells == 256 {
			lost, all = lost+float64(best-sawn), all+float64(best)
		}
	}
	require.Greater(t, thin, 20)
	require.Greater(t, tied, 20)
	assert.Less(t, lost, 0.02*all)
	t.Logf("%d parts thinner than a cell, %d blanks with kinds tied to a depth, %.2f %% lost on 256 cells", thin, tied, 100*lost/all)
}
