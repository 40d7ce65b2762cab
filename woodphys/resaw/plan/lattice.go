package plan

import "math/bits"

// Stacks where kinds and billets are many. There a graph of exact depths for every
// choice of kinds takes too long; a row of values on a lattice of depths does nearly as
// well. Of the stacks that end in one cell of the lattice the best is kept with the depth at
// which it ends (coarse.go); heights rounded down give a bound. There a kind whose ring angle is
// met at some depths only counts as if it were met at all; zones in the depth part the stack.

// How many cells the thickest wood has where plans are sought, and where they are bounded at
// last. Own choices, by what was measured.
const latticeCells, fineCells = 2048, 8192

// mostRows is how many bytes of rows are kept. Own choice.
const mostRows = 16 << 20

// lattice is the rows of the worths last priced.
type lattice struct {
	rig    *rig
	count  int // of cells
	cell   nm
	stamp  int64
	bounds map[latticeKey][]int64
	stacks map[latticeKey]*stackRow
}

type latticeKey struct {
	mask uint32
	gang int32
}

func (r *rig) newLattice(cells int) *lattice {
	most := r.deepest + r.betweenLeaves()
	cell := max(1, (most+nm(cells)-1)/nm(cells)) // rounded up, so that the deepest wood has no more cells
	return &lattice{rig: r, count: cells, cell: cell, bounds: map[latticeKey][]int64{}, stacks: map[latticeKey]*stackRow{}}
}

// fresh drops the rows of other worths, and all of them where they take too much.
func (t *lattice) fresh() {
	if t.stamp != t.rig.stamp || t.count*(8*len(t.bounds)+stackBytes*len(t.stacks)) > mostRows {
		t.stamp = t.rig.stamp
		clear(t.bounds)
		clear(t.stacks)
	}
}

// pays returns the sets of a mask that are worth something: which, and how much.
func (t *lattice) pays(mask uint32, gang int32, value []int64) (parts []int, worths []int64) {
	value = ganged(value, t.rig.timesOf(gang))
	for m := mask; m != 0; m &= m - 1 {
		if p := bits.TrailingZeros32(m); value[p] > 0 {
			parts, worths = append(parts, p), append(worths, value[p])
		}
	}
	return parts, worths
}

// bound returns by depth in cells what no stack of the sets of a mask is worth more than.
func (t *lattice) bound(mask uint32, gang int32, value []int64, w *work) []int64 {
	t.fresh()
	key := latticeKey{mask, gang}
	if row, ok := t.bounds[key]; ok {
		return row
	}
	row := make([]int64, t.count+3)
	parts, worths := t.pays(mask, gang, value)
	heights, shares := make([]int, len(parts)), 0
	for i, p := range parts {
		h := t.rig.kinds[p].height
		if heights[i] = int(h / t.cell); h < t.cell { // several to a cell, counted by their shares of it
			heights[i], worths[i], shares = 1, (worths[i]*t.cell+h-1)/h, 1
		}
	}
	for d := 1; d < len(row); d++ {
		best := row[d-1]
		for i, h := range heights {
			if h <= d {
				best = max(best, row[d-h]+worths[i])
			}
		}
		row[d] = best
	}
	w.done += int64(len(row) * (len(heights) + 1) / 20)
	t.bounds[key] = row[shares:] // shares may fill a cell more, in part
	return t.bounds[key]
}

// cells returns how many cells a depth has.
func (t *lattice) cells(depth nm) int { return max(0, min(t.count+1, int(depth/t.cell))) }

// bay is a stretch of depth that is clear.
type bay struct{ from, to nm }

// behind is how deep a stack may reach at a spot, the cut of its last leaf counted.
func (c *cutter) behind(at *spot) nm {
	if c.b.r.far {
		return at.usable + c.b.r.betweenLeaves()
	}
	return at.usable + c.b.r.reface
}

// bays returns the clear stretches of a blank, to behind the cut of the last leaf.
func (c *cutter) bays(at *spot) []bay {
	end := c.behind(at)
	if at.zones == 0 {
		return []bay{{0, end}}
	}
	var out []bay
	from := nm(0)
	for _, v := range c.b.w.spoiled(at.zones, at.loss) {
		if to := min(v.from+c.b.r.betweenLeaves(), end); v.from > from {
			out = append(out, bay{from, to})
		}
		from = max(from, v.to)
	}
	if from < end {
		out = append(out, bay{from, end})
	}
	return out
}

// boundAt bounds a blank of a size, by its number, at a spot that is the best of a stretch.
func (c *cutter) boundAt(i int, at *spot) int64 {
	p := &c.plain[i]
	mask := p.mask
	if p.ringed {
		mask, _ = c.b.within(mask, at.off, at.face, at.usable)
	}
	row := c.lattice.bound(mask, p.gang, c.value, c.spent)
	v := int64(0)
	for _, b := range c.bays(at) {
		v += row[c.lattice.cells(b.to-b.from)]
	}
	return v
}
