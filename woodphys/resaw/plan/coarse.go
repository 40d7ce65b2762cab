package plan

import "math/bits"

// stackRow is the best stacks of some kinds by the cell of the lattice in which they end. Heights
// are whole nanometres, so that nothing is lost by rounding but the stacks that end in the same cell.
type stackRow struct {
	worth []int64 // of the stack that ends in a cell; below 0 for none
	end   []nm    // where it does, behind the cut of its last leaf
	last  []int8  // its last set
	upTo  []int32 // the cell, up to this one, of the best stack
}

// stackBytes is what a cell takes.
const stackBytes = 8 + 8 + 1 + 4

// stacked returns the best stacks of the sets of a mask.
func (t *lattice) stacked(mask uint32, gang int32, value []int64, w *work) *stackRow {
	t.fresh()
	key := latticeKey{mask, gang}
	if row, ok := t.stacks[key]; ok {
		return row
	}
	n := t.count + 2
	row := &stackRow{worth: make([]int64, n), end: make([]nm, n), last: make([]int8, n), upTo: make([]int32, n)}
	for d := 1; d < n; d++ {
		row.worth[d] = -1
	}
	parts, worths := t.pays(mask, gang, value)
	best := int32(0)
	for d := range n {
		if row.worth[d] > row.worth[best] {
			best = int32(d)
		}
		row.upTo[d] = best
		if row.worth[d] < 0 {
			continue
		}
		for i, p := range parts {
			end := row.end[d] + t.rig.kinds[p].height
			to, v := int(end/t.cell), row.worth[d]+worths[i]
			if to >= n || to <= d || v < row.worth[to] || v == row.worth[to] && end >= row.end[to] {
				continue
			}
			row.worth[to], row.end[to], row.last[to] = v, end, int8(p)
		}
	}
	w.done += int64(n * (len(parts) + 1) / 12)
	t.stacks[key] = row
	return row
}

// within returns the cell of the best stack that ends within a depth.
func (r *stackRow) within(t *lattice, depth nm) int32 {
	d := t.cells(depth)
	if r.end[d] <= depth || d == 0 {
		return r.upTo[d]
	}
	return r.upTo[d-1]
}

// layerOf is a depth of a blank in which the sets of a mask may lie.
type layerOf struct {
	bay
	mask uint32
}

// filled fills the layers of a blank one after the other and returns what that is worth; put is
// told the rows with the cells of their stacks, and where these begin.
func (c *cutter) filled(layers []layerOf, gang int32, put func(row *stackRow, cell int32, at nm)) int64 {
	worth, end := int64(0), nm(0)
	for i := range layers {
		l := &layers[i]
		from := max(l.from, end)
		if from >= l.to {
			continue
		}
		row := c.lattice.stacked(l.mask, gang, c.value, c.spent)
		cell := row.within(c.lattice, l.to-from)
		if row.worth[cell] <= 0 {
			continue
		}
		put(row, cell, from)
		worth, end = worth+row.worth[cell], from+row.end[cell]
	}
	return worth
}

// coarseWorth values a blank of a size, by its number, at a spot.
func (c *cutter) coarseWorth(i int, at *spot) int64 {
	p := &c.plain[i]
	if at.zones != 0 || p.ringed {
		_, v := c.layered(i, at)
		return v
	}
	row := c.lattice.stacked(p.mask, p.gang, c.value, c.spent)
	return row.worth[row.within(c.lattice, c.behind(at))]
}

// layered returns the layers in which a blank of a size is filled best, and what it is worth:
// those kinds that the rings tie to a depth are left out, or one of them parts the blank into the
// depth where it may lie and those before and behind.
func (c *cutter) layered(i int, at *spot) ([]layerOf, int64) {
	p := &c.plain[i]
	free, tied := p.mask, uint32(0)
	if p.ringed {
		free, tied = c.tiedAt(p.mask, at)
	}
	bays := c.bays(at)
	plain := make([]layerOf, len(bays))
	for n, b := range bays {
		plain[n] = layerOf{bay: b, mask: free}
	}
	none := func(*stackRow, int32, nm) {}
	best, most := plain, c.filled(plain, p.gang, none)
	for m := tied; m != 0; m &= m - 1 {
		window, inside := c.window(bits.TrailingZeros32(m), at), free
		for o := tied; o != 0; o &= o - 1 {
			p := bits.TrailingZeros32(o)
			if other := c.window(p, at); other.from <= window.from && other.to >= window.to {
				inside |= 1 << p
			}
		}
		layers := parts3(bays, window, free, inside)
		if v := c.filled(layers, p.gang, none); v > most {
			best, most = layers, v
		}
	}
	return best, most
}

// tiedAt parts the kinds of a mask into those that may lie at any depth of a spot and those that
// the rings tie to some.
func (c *cutter) tiedAt(mask uint32, at *spot) (free, tied uint32) {
	kept, bound := c.b.within(mask, at.off, at.face, at.usable)
	if !bound {
		return kept, 0
	}
	for m := kept; m != 0; m &= m - 1 {
		part := uint32(1) << bits.TrailingZeros32(m)
		if _, some := c.b.within(part, at.off, at.face, at.usable); some {
			tied |= part
		}
	}
	return kept &^ tied, tied
}

// window is the depth in which the sets of a kind may lie at a spot, to behind the cut of the last
// leaf.
func (c *cutter) window(part int, at *spot) bay {
	k := &c.b.r.kinds[part]
	reach := c.b.w.reachOf(k, at.off, at.face)
	return bay{max(0, reach.low-k.skin), reach.high + k.skin + c.b.r.betweenLeaves()}
}

// parts3 parts bays into what lies before a window, in it and behind it.
func parts3(bays []bay, window bay, free, inside uint32) []layerOf {
	var out []layerOf
	for _, b := range bays {
		from, to := max(b.from, window.from), min(b.to, window.to)
		if from >= to {
			out = append(out, layerOf{bay: b, mask: free})
			continue
		}
		if from > b.from {
			out = append(out, layerOf{bay: bay{b.from, from}, mask: free})
		}
		out = append(out, layerOf{bay: bay{from, to}, mask: inside})
		if to < b.to {
			out = append(out, layerOf{bay: bay{b.from, b.to}, mask: free})
		}
	}
	return out
}

// coarseSets returns the stack of a blank at a place on the lattice.
func (c *cutter) coarseSets(i int, at *spot) []placed {
	gang := c.plain[i].gang
	times := c.b.r.timesOf(gang)
	layers, _ := c.layered(i, at)
	var out []placed
	end := nm(0)
	c.filled(layers, gang, func(row *stackRow, cell int32, from nm) {
		if from > end { // the slab between holds a zone
			out = append(out, placed{part: -1, at: end})
		}
		sets := row.sets(c.lattice, cell)
		for _, part := range sets {
			one := placed{part: part, at: from, times: 1}
			if times != nil {
				one.times = int(times[part])
			}
			out = append(out, one)
			from += c.b.r.kinds[part].height
		}
		end = from
	})
	return out
}

// sets are those of the stack that ends in a cell, from its last one.
func (r *stackRow) sets(t *lattice, cell int32) []int {
	var out []int
	for cell > 0 {
		p := int(r.last[cell])
		out = append(out, p)
		cell = int32((r.end[cell] - t.rig.kinds[p].height) / t.cell)
	}
	return out
}
