package plan

import (
	"cmp"
	"encoding/binary"
	"math/bits"
	"slices"
)

// across builds the graph of strips of one section.
func (b *board) across(s, e nm, zones uint64, starts, lengths []nm) (*dag, error) {
	w, r := b.w, b.r
	widths := b.useful(r.widths, func(k want) nm { return k.w })
	steps := make([]nm, len(widths))
	for i, width := range widths {
		steps[i] = width + r.rip
	}
	lows, highs := b.sides(e, zones, starts, lengths)
	if len(lows) == 0 {
		return nil, nil //nolint:nilnil // no blank is short enough
	}
	top := slices.Max(highs)
	at, next, err := closure(lows, steps, top+r.rip, b.spent)
	if err != nil {
		return nil, err
	}
	class := b.newClass(s, e, zones, starts, lengths)
	d := &dag{at: at, term: make([]int32, len(at))}
	reached := make([]bool, len(at))
	reached[0] = true
	found := false
	for i, y := range at {
		if !reached[i] {
			continue
		}
		for j, width := range widths {
			to := next[i*len(widths)+j]
			if to < 0 {
				continue
			}
			id, err := class.strip(y, width)
			if err != nil {
				return nil, err
			}
			if id < 0 {
				continue
			}
			found = true
			cost := int32(1)
			if w.farStraight() && y+width == top {
				cost = 0
			}
			reached[to] = true
			d.arcs = append(d.arcs, arc{from: int32(i), to: to, item: id, cost: cost, pos: y})
		}
		for _, a := range lows {
			if to, ok := slices.BinarySearch(at, a); ok && a > y {
				reached[to] = true
				gap := arc{from: int32(i), to: int32(to), item: -1, cost: 1, pos: y}
				if i == 0 && !w.nearStraight() {
					gap.cost = 0 // the first edge is ripped there
				}
				d.arcs = append(d.arcs, gap)
			}
		}
	}
	if !w.nearStraight() { // the first edge is ripped first
		for i := range d.term {
			d.term[i] = 1
		}
	}
	if w.both {
		beyond, err := b.beyond(d, class, highs, widths)
		if err != nil {
			return nil, err
		}
		found = found || beyond
	}
	if err := b.spent.build(len(d.arcs), arcBytes); err != nil {
		return nil, err
	}
	if !found {
		return nil, nil //nolint:nilnil // nothing can be had from it
	}
	return d, nil
}

// sides returns the places strips can be pushed against: from below the edges of
// the wood beside every possible blank and the far sides of zones, from above the
// far edges and the near sides of zones. The outermost edges are among them.
func (b *board) sides(e nm, zones uint64, starts, lengths []nm) (lows, highs []nm) {
	for _, x := range starts {
		for _, l := range lengths {
			if x+l <= e {
				low, high := b.w.edges(x, x+l)
				lows, highs = append(lows, low), append(highs, high)
			}
		}
	}
	if len(lows) == 0 {
		return nil, nil
	}
	bottom, top := slices.Min(lows), slices.Max(highs)
	for i, z := range b.w.zones {
		if zones&(1<<i) == 0 {
			continue
		}
		if z.y1 > bottom && z.y1 < top {
			lows = append(lows, z.y1)
		}
		if z.y0 > bottom && z.y0 < top {
			highs = append(highs, z.y0)
		}
	}
	return sorted(lows), sorted(highs)
}

// stripClass remembers the strips of one section by what tells them apart: their
// width and the zones beside them, where neither wedge, pith nor outline does.
type stripClass struct {
	b               *board
	s, e            nm
	zones           uint64
	starts, lengths []nm
	low, high       nm // strips between are inside the outline all along
	alike           bool
	known           map[stripPlace]int32
}

type stripPlace struct {
	width nm
	zones uint64
}

func (b *board) newClass(s, e nm, zones uint64, starts, lengths []nm) *stripClass {
	c := &stripClass{b: b, s: s, e: e, zones: zones, starts: starts, lengths: lengths, known: map[stripPlace]int32{}}
	low0, high0 := b.w.edges(s, s)
	low1, high1 := b.w.edges(e, e)
	c.low, c.high = max(low0, low1), min(high0, high1)
	c.alike = b.w.ty == b.w.t && (!b.w.pith || !b.anyRinged(b.mask))
	return c
}

func (c *stripClass) strip(y, width nm) (int32, error) {
	if !c.alike || y < c.low || y+width > c.high {
		return c.b.strip(c.s, c.e, y, width, c.starts, c.lengths)
	}
	at := stripPlace{width: width}
	for m := c.zones; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if z := &c.b.w.zones[i]; z.y0 < y+width && y < z.y1 {
			at.zones |= 1 << i
		}
	}
	if id, ok := c.known[at]; ok {
		return id, nil
	}
	id, err := c.b.strip(c.s, c.e, y, width, c.starts, c.lengths)
	if err == nil {
		c.known[at] = id
	}
	return id, err
}

// strip returns the options of the strip from y, of width, in the section from s
// to e; -1 if there are none.
func (b *board) strip(s, e, y, width nm, starts, lengths []nm) (int32, error) {
	var list []option
	for _, x := range starts {
		for _, l := range lengths {
			if x+l > e {
				break
			}
			id, err := b.blank(x, l, y, width)
			if err != nil {
				return -1, err
			}
			if id < 0 {
				continue
			}
			o := option{offset: x - s, length: l, use: id}
			if x > s {
				o.trims++
			}
			if x+l < e {
				o.trims++
			}
			list = append(list, o)
		}
	}
	if len(list) == 0 {
		return -1, nil
	}
	key := binary.BigEndian.AppendUint64(nil, uint64(width))
	for _, o := range list {
		key = binary.BigEndian.AppendUint64(key, uint64(o.offset))
		key = binary.BigEndian.AppendUint64(key, uint64(o.length))
		key = binary.BigEndian.AppendUint32(key, uint32(o.use))
		key = append(key, byte(o.trims))
	}
	if id, ok := b.stripKeys[string(key)]; ok {
		return id, nil
	}
	if err := b.spent.build(len(list)+1, optionBytes); err != nil {
		return -1, err
	}
	id := int32(len(b.strips))
	b.strips = append(b.strips, strip{width, list})
	for _, o := range list {
		if b.variants[o.use].tie != nil {
			b.usedBy[o.use] = append(b.usedBy[o.use], id)
		}
	}
	b.stripKeys[string(key)] = id
	return id, nil
}

// beyond adds the strips wholly beyond the pith, pushed towards the far edge, to
// a graph of strips pushed towards the near edge. A path runs through near nodes,
// leaps over the one gap, and goes on through far nodes. A far node is a place
// where the wood of the strips beyond begins after a kerf: the strip before it
// ends there.
func (b *board) beyond(d *dag, class *stripClass, highs, widths []nm) (bool, error) {
	rip := b.r.rip
	// The same closure, seen from the far edge.
	top := slices.Max(highs)
	anchors, steps := make([]nm, len(highs)), make([]nm, len(widths))
	for i, h := range highs {
		anchors[i] = top - h
	}
	for i, width := range widths {
		steps[i] = width + rip
	}
	slices.Sort(anchors)
	back, next, err := closure(anchors, steps, top-max(0, b.w.yp)+rip, b.spent)
	if err != nil {
		return false, err
	}
	near, n := len(d.at), len(back)
	slide := func(i int) int32 { return int32(near + n - 1 - i) }
	far := func(i int) int32 { return int32(near + n + n - 1 - i) }
	var arcs []arc
	found := false
	cheapest := int32(1)
	if b.w.farStraight() {
		cheapest = 0
	}
	for i := range back {
		high := top - back[i] // strips beyond may end here
		for j, width := range widths {
			to := next[i*len(widths)+j]
			y := high - width
			if to < 0 || y < b.w.yp || y < 0 {
				continue
			}
			id, err := class.strip(y, width)
			if err != nil {
				return false, err
			}
			if id < 0 {
				continue
			}
			found = true
			arcs = append(arcs, arc{from: far(int(to)), to: far(i), item: id, cost: 1, pos: y})
		}
		for _, a := range anchors {
			if to, ok := slices.BinarySearch(back, a); ok && a > back[i] {
				arcs = append(arcs, arc{from: far(to), to: far(i), item: -1, cost: 1, pos: top - a})
			}
		}
		if i > 0 {
			arcs = append(arcs, arc{from: slide(i), to: slide(i - 1), item: -1, pos: top - back[i]})
		}
		arcs = append(arcs, arc{from: slide(i), to: far(i), item: -1, pos: high})
	}
	if !found {
		return false, nil
	}
	// Leaps. The first strip beyond starts at high + rip of its far node.
	for i, y := range d.at {
		for k := n - 1; k >= 0; k-- {
			start := top - back[k] + rip
			if start < y || back[k] == 0 { // nothing fits beyond the far edge
				continue
			}
			if start == y {
				// One cut serves both sides, or none at the edge of the wood.
				arcs = append(arcs, arc{from: int32(i), to: far(k), item: -1, cost: -1, pos: y})
				continue
			}
			leap := arc{from: int32(i), to: slide(k), item: -1, pos: y}
			if i == 0 && !b.w.nearStraight() {
				leap.cost = -1 // the first edge is ripped there
			}
			arcs = append(arcs, leap)
			break
		}
	}
	for k := n - 1; k >= 0; k-- {
		d.at = append(d.at, top-back[k])
		d.term = append(d.term, -1)
	}
	for k := n - 1; k >= 0; k-- {
		d.at = append(d.at, top-back[k])
		term := int32(-1)
		if _, ok := slices.BinarySearch(anchors, back[k]); ok {
			term = 1
			if back[k] == 0 {
				term = cheapest
			}
			if !b.w.nearStraight() {
				term++
			}
		}
		d.term = append(d.term, term)
	}
	d.arcs = append(d.arcs, arcs...)
	slices.SortStableFunc(d.arcs, func(x, y arc) int { return cmp.Compare(x.from, y.from) })
	return true, nil
}
