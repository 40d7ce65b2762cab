package plan

import "math/bits"

// Stacks where kinds and billets are many. There a graph of exact depths for every
// choice of kinds takes too long; a row of values on a lattice of depths does nearly as
// well. Heights rounded up give stacks that can be sawn, rounded down a bound. A kind
// whose ring angle is met at some depths only is left out of what is sawn, and counted
// as if it were met at all in what bounds; zones in the depth part the stack.

// How many cells the thickest wood has where plans are sought, and where they are bounded at
// last. Own choices, by what was measured.
const latticeCells, fineCells = 2048, 8192

// mostRows is how many bytes of rows are kept. Own choice.
const mostRows = 16 << 20

// lattice is the rows of the worths last priced.
type lattice struct {
	rig   *rig
	count int // of cells
	cell  nm
	stamp int64
	rows  map[latticeKey][]int64
}

type latticeKey struct {
	mask uint32
	gang int32
	down bool
}

func (r *rig) newLattice(cells int) *lattice {
	most := r.deepest + r.betweenLeaves()
	cell := max(1, (most+nm(cells)-1)/nm(cells)) // rounded up, so that the deepest wood has no more cells
	return &lattice{rig: r, count: cells, cell: cell, rows: map[latticeKey][]int64{}}
}

// row returns the best worth by depth in cells of the sets of a mask.
func (t *lattice) row(mask uint32, gang int32, down bool, value []int64, w *work) []int64 {
	if t.stamp != t.rig.stamp {
		t.stamp = t.rig.stamp
		clear(t.rows)
	}
	key := latticeKey{mask, gang, down}
	if row, ok := t.rows[key]; ok {
		return row
	}
	if 8*len(t.rows)*t.count > mostRows {
		clear(t.rows)
	}
	value = ganged(value, t.rig.timesOf(gang))
	row := make([]int64, t.count+2)
	var heights []int
	var worths []int64
	for m := mask; m != 0; m &= m - 1 {
		p := bits.TrailingZeros32(m)
		if value[p] > 0 {
			heights, worths = append(heights, t.height(p, down)), append(worths, value[p])
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
	t.rows[key] = row
	return row
}

// height is that of a set in cells.
func (t *lattice) height(p int, down bool) int {
	if down {
		return max(1, int(t.rig.kinds[p].height/t.cell))
	}
	return int((t.rig.kinds[p].height + t.cell - 1) / t.cell)
}

// cells returns how many cells a depth has.
func (t *lattice) cells(depth nm) int { return max(0, min(t.count+1, int(depth/t.cell))) }

// bay is a stretch of depth that is clear.
type bay struct{ from, to nm }

// bays returns the clear stretches of a blank, to behind the cut of the last leaf.
func (c *cutter) bays(at *spot) []bay {
	r := c.b.r
	end := at.usable + r.reface
	if r.far {
		end += r.resaw
	}
	if at.zones == 0 {
		return []bay{{0, end}}
	}
	var out []bay
	from := nm(0)
	for _, v := range c.b.w.spoiled(at.zones, at.loss) {
		if to := min(v.from+r.betweenLeaves(), end); v.from > from {
			out = append(out, bay{from, to})
		}
		from = max(from, v.to)
	}
	if from < end {
		out = append(out, bay{from, end})
	}
	return out
}

// coarseMask returns the kinds that a blank of a size may hold at a spot: of those that
// the rings tie to a depth none where it is to be sawn, all where it is to bound.
func (c *cutter) coarseMask(i int, at *spot, sawn bool) uint32 {
	p := &c.plain[i]
	mask := p.mask
	if !p.ringed {
		return mask
	}
	kept, bound := c.b.within(mask, at.off, at.face, at.usable)
	if !bound || !sawn {
		return kept
	}
	for m := kept; m != 0; m &= m - 1 {
		part := bits.TrailingZeros32(m)
		if _, some := c.b.within(1<<part, at.off, at.face, at.usable); some {
			kept &^= 1 << part
		}
	}
	return kept
}

// coarseWorth values a blank of a size within a stretch on the lattice.
func (c *cutter) coarseWorth(s stretch, i int, at *spot) int64 {
	row := c.lattice.row(c.coarseMask(i, at, !s.bounds), c.plain[i].gang, s.bounds, c.value, c.spent)
	v := int64(0)
	for _, b := range c.bays(at) {
		v += row[c.lattice.cells(b.to-b.from)]
	}
	return v
}

// coarseSets returns the stack of a blank at a place on the lattice.
func (c *cutter) coarseSets(i int, at *spot) []placed {
	t := c.lattice
	mask := c.coarseMask(i, at, true)
	gang := c.plain[i].gang
	row, times := t.row(mask, gang, false, c.value, c.spent), t.rig.timesOf(gang)
	value := ganged(c.value, times)
	var out []placed
	end := nm(0)
	for _, b := range c.bays(at) {
		if b.from > end { // the slab between holds a zone
			out = append(out, placed{part: -1, at: end})
		}
		pos := max(end, b.from)
		for d := t.cells(b.to - b.from); d > 0; {
			part := t.last(row, d, mask, value)
			if part < 0 {
				d--
				continue
			}
			one := placed{part: part, at: pos, times: 1}
			if times != nil {
				one.times = int(times[part])
			}
			out = append(out, one)
			pos += c.b.r.kinds[part].height
			d -= t.height(part, false)
		}
		end = pos
	}
	for len(out) > 0 && out[len(out)-1].part < 0 {
		out = out[:len(out)-1]
	}
	return out
}

// last returns the kind that a row ends in at a depth; -1 where it does not.
func (t *lattice) last(row []int64, d int, mask uint32, value []int64) int {
	if row[d] == row[d-1] {
		return -1
	}
	for m := mask; m != 0; m &= m - 1 {
		p := bits.TrailingZeros32(m)
		if h := t.height(p, false); value[p] > 0 && h <= d && row[d-h]+value[p] == row[d] {
			return p
		}
	}
	return -1
}
