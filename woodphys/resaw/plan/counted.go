package plan

import (
	"cmp"
	"errors"
	"slices"

	"latewood/woodphys/resaw/plan/guillotine"
)

// Counts that can be had. Where limits bind, which sets come from a billet matters and
// not only their worth. Of every piece of an exact grid the counts are listed that can be
// part of a better plan: those whose worth at the shadow prices, with the best that the
// rest of the wood can be worth, comes within the gap. Over the normal places the list is
// complete, and the best of it is proven.

// counted is one way to cut a piece: its counts, and the parts it is made of.
type counted struct {
	label
	cut       guillotine.Cut
	low, high int32 // labels of the parts; low is -1 for a blank, -2 for nothing
	size      int   // of a blank; -1 on its side
	slices    int
	turned    int
}

// counter lists the counts of one billet.
type counter struct {
	c     *cutter
	l     *lister
	grid  *guillotine.Grid
	least int64 // of the whole, at the prices
	beam  int   // labels kept of a piece; 0: all
	known map[guillotine.Piece][]counted
	lost  bool // a label was dropped that might matter
}

// deepenLimited lists the counts of every billet within the gap and merges them: with
// less of the gap first, which is faster and may close it.
func (o *order) deepenLimited(p *prices, upper map[*cutter]int64) error {
	o.lim.setPrices(p)
	for _, share := range []int64{64, 16, 4, 1} {
		if err := o.countAll(p, upper, share, 30); err != nil || o.value >= o.bound {
			return err
		}
	}
	return o.countAll(p, upper, 1, 0)
}

// countAll lists all billets within a share of the gap and merges the lists. A beam of 0
// lists everything; the best of it is proven where all places are normal ones.
func (o *order) countAll(p *prices, upper map[*cutter]int64, share int64, beam int) error {
	lists := o.spent.held.lists
	o.grid, o.spent.grid = guillotine.Grid{}, 0 // each billet has one of its own here
	defer func() { o.release(memory{boards: o.spent.held.boards, lists: lists}) }()
	value, worth := o.valuesAt(p), make([]int64, len(o.kinds))
	for k := range worth {
		worth[k] = o.kinds[k].worth
	}
	sum, complete := o.constant(p), beam == 0
	for _, c := range o.cutters {
		sum += upper[c]
	}
	gap := sum - (o.value+o.step)*scale
	if gap < 0 {
		return nil
	}
	cols := slices.Clone(o.cols)
	for i, c := range o.cutters {
		k, err := c.counter(&o.lim, value, worth, gap/share, upper[c], beam)
		if err != nil {
			return err
		}
		all, err := k.all()
		if err != nil {
			return err
		}
		complete = complete && !k.lost
		if err := o.spent.list(len(all), columnBytes); err != nil {
			return err
		}
		for at := range all {
			x := all[at]
			cols = append(cols, &column{billet: i, n: x.n, worth: x.worth, plan: func() *way { return k.way(&x, k.grid.Whole()) }})
		}
	}
	exact, err := o.merge(cols, p, 2000)
	if err == nil && complete && exact && share == 1 {
		o.bound = o.value
	}
	return err
}

// normalPlaces along an axis are so few that all counts over them may be listed.
const normalPlaces = 40

// counter makes the lists of a billet, over its normal places where they are few.
func (c *cutter) counter(lim *limits, value, worth []int64, gap, upper int64, beam int) (*counter, error) {
	if err := c.price(value, false); err != nil {
		return nil, err
	}
	for i := range c.in { // limits may ask for any size
		c.in[i] = true
	}
	p, whole := c.normalPlaces(normalPlaces)
	whole = whole && !c.b.w.conflictX && !c.b.w.conflictY
	if !whole {
		p = c.firstPlaces()
	}
	grid := &guillotine.Grid{}
	shared := c.grid
	c.grid = grid
	defer func() { c.grid = shared }()
	c.lay(p, false)
	if err := c.corners(); err != nil {
		return nil, err
	}
	if err := grid.Outside(c.spent.spend); err != nil {
		return nil, err
	}
	_, bytes := guillotine.Steps(len(grid.X.At), len(grid.Y.At))
	if err := c.spent.list(1, 2*bytes); err != nil { // values, and what the rest is worth
		return nil, err
	}
	c.spent.grid = 0
	k := &counter{c: c, l: newLister(c.b, lim, value, worth, gap), beam: beam, lost: !whole,
		known: map[guillotine.Piece][]counted{}}
	k.l.beam = beam
	k.grid = grid
	k.least = upper - gap
	return k, nil
}

// all lists the whole billet.
func (k *counter) all() ([]counted, error) {
	if len(k.grid.X.At) < 2 || len(k.grid.Y.At) < 2 {
		return nil, nil
	}
	return k.list(k.grid.Whole())
}

// list lists a piece.
func (k *counter) list(p guillotine.Piece) ([]counted, error) {
	if got, ok := k.known[p]; ok {
		return got, nil
	}
	k.known[p] = nil
	floor := k.least - k.grid.Rest(p)
	m := &merger{k: k, floor: floor, index: map[counts]int32{}}
	if floor <= 0 {
		m.put(counted{low: -2, size: -1})
	}
	if err := k.blanks(p, m); err != nil {
		return nil, err
	}
	err := k.grid.Within(p, floor, func(cut guillotine.Cut, low, high guillotine.Piece) error {
		a, err := k.list(low)
		if err != nil {
			return err
		}
		b, err := k.list(high)
		if err != nil {
			return err
		}
		return m.pairs(cut, a, b)
	})
	if err != nil {
		return nil, err
	}
	out, err := k.settle(m.all)
	out = slices.Clone(out) // and not with the room of all
	k.known[p] = out
	k.c.spent.held.lists -= m.reckoned
	return out, errors.Join(err, k.c.spent.list(len(out)+1, labelBytes))
}

// blanks adds a piece as one blank, of every size.
func (k *counter) blanks(p guillotine.Piece, m *merger) error {
	c, g := k.c, k.grid
	s := placeAt(g.X.At[p.I], g.Y.At[p.A])
	length, width := g.Rooms(p)
	for i, size := range c.sizes {
		if size.l > length || size.w > width {
			continue
		}
		at, ok := c.b.w.within(s, size.l, size.w)
		if !ok {
			continue
		}
		id, err := c.b.stackAt(at, size.l, size.w)
		if err != nil {
			return err
		}
		if id < 0 {
			continue
		}
		sub, err := k.l.stack(id)
		if err != nil {
			return err
		}
		for at := range sub.end {
			x := counted{label: sub.end[at], low: -1, high: int32(at), size: i}
			if x.priced < m.floor {
				break
			}
			m.put(x)
		}
	}
	for i := range c.turned {
		t := &c.turned[i]
		if c.b.r.kinds[t.part].l > length {
			continue
		}
		one := k.l.single[t.part].end[0]
		sum := label{}
		most := c.b.slices(t, s, width)
		for n := 1; n <= most; n++ {
			sum = k.l.join(&sum, &one)
			if n >= t.least && sum.priced >= m.floor {
				m.put(counted{label: sum, low: -1, size: -1, slices: n, turned: i})
			}
		}
	}
	return errors.Join(c.spent.spend(int64(len(c.sizes))), m.grown())
}

// settle sorts labels and drops those that another serves as well as.
func (k *counter) settle(list []counted) ([]counted, error) {
	slices.SortStableFunc(list, func(a, b counted) int {
		return cmp.Or(cmp.Compare(b.priced, a.priced), cmp.Compare(b.worth, a.worth))
	})
	kept := list[:0]
	looks := 0
next:
	for _, x := range list {
		if k.beam > 0 && len(kept) == k.beam {
			k.lost = true
			break
		}
		for i := range kept {
			if looks++; k.l.lim.serves(&kept[i].n, kept[i].worth, &x.n, x.worth) {
				continue next
			}
		}
		kept = append(kept, x)
	}
	return kept, k.c.spent.spend(int64(looks/8 + 1))
}

// merger gathers the labels of a piece, the best of each counts.
type merger struct {
	k     *counter
	floor int64
	all   []counted
	index map[counts]int32
	// reckoned is what was counted as held of both.
	reckoned int64
	entries  int
}

// grown counts what was added.
func (m *merger) grown() error {
	added := len(m.all) - m.entries
	m.entries = len(m.all)
	m.reckoned += int64(added) * (2*labelBytes + indexBytes)
	return m.k.c.spent.list(added, 2*labelBytes+indexBytes)
}

func (m *merger) put(x counted) {
	if i, ok := m.index[x.n]; ok {
		if old := &m.all[i]; old.worth < x.worth || old.worth == x.worth && old.priced < x.priced {
			*old = x
		}
		return
	}
	m.index[x.n] = int32(len(m.all))
	m.all = append(m.all, x)
}

// pairs adds all pairs of ways to cut two parts.
func (m *merger) pairs(cut guillotine.Cut, a, b []counted) error {
	looked := 1
	for i := range a {
		for j := range b {
			if a[i].priced+b[j].priced < m.floor {
				break
			}
			looked++
			x := m.k.l.join(&a[i].label, &b[j].label)
			if x.priced >= m.floor {
				m.put(counted{label: x, cut: cut, low: int32(i), high: int32(j)})
			}
		}
	}
	return errors.Join(m.k.c.spent.spend(int64(4*looked)), m.grown())
}

// way returns how a piece is cut for one of its labels.
func (k *counter) way(x *counted, p guillotine.Piece) *way {
	c, g := k.c, k.grid
	switch x.low {
	case -2:
		return nil
	case -1:
		s := placeAt(g.X.At[p.I], g.Y.At[p.A])
		if x.size < 0 {
			return &way{blank: c.sliced(&c.turned[x.turned], s, x.slices)}
		}
		size := c.sizes[x.size]
		at, _ := c.b.w.within(s, size.l, size.w)
		id, _ := c.b.stackAt(at, size.l, size.w)
		stack := k.l.stacks[id]
		b := blankPlan{x: s.x0, length: size.l, y: s.y0, width: size.w}
		graph := c.b.graphs[c.b.variants[id].graph]
		for _, q := range stack.legs(&graph.dag, stack.end[x.high]) {
			b.sets = append(b.sets, graph.placed(q.arc))
		}
		return &way{blank: b}
	}
	low, high := p.Parts(x.cut)
	return parted(x.cut.AlongY, k.way(&k.known[low][x.low], low), k.way(&k.known[high][x.high], high))
}
