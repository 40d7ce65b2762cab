package plan

import (
	"cmp"
	"slices"
)

// label is one way to come to a node or to fill an item: its counts, its worth,
// and its priced worth, which decides whether it can be part of a better plan.
type label struct {
	n      counts
	priced int64
	worth  int64
	from   int32 // index of the label at the node before; -1 at the start
	arc    int32 // index of the arc taken, or of the option of a strip
	sub    int32 // index of the label of the item
}

// lister lists the ways to cut a billet whose priced worth is within slack of
// the best, less those that another serves as well as (limits.serves).
type lister struct {
	b       *board
	lim     *limits
	value   []int64 // priced
	worth   []int64
	slack   int64
	stacks  map[int32]*listed // by variant
	strips  map[int32]*listed
	parts   map[int32]*listed // sections
	single  []listed          // one set of each kind
	tooDear func(*label) bool // labels that cannot be of use; nil: none
	// beam is how many labels of a node are kept, the best priced; 0: all. With a beam
	// nothing is built or tied for the list's sake: it is a choice of good ways.
	beam int
}

// listed is the labels of an item, best priced first, with the labels of the
// nodes that they were made from.
type listed struct {
	end   []label // arc is the node they ended at, sub the index there
	nodes [][]label
}

func newLister(b *board, lim *limits, value, worth []int64, slack int64) *lister {
	l := &lister{
		b: b, lim: lim, value: value, worth: worth, slack: slack,
		stacks: map[int32]*listed{}, strips: map[int32]*listed{}, parts: map[int32]*listed{},
	}
	for p := range b.r.kinds {
		l.single = append(l.single, l.several(p, 1))
	}
	return l
}

// several lists so many sets of a kind at a time.
func (l *lister) several(p int, times int64) listed {
	one := label{priced: times * l.value[p], worth: times * l.worth[p]}
	if l.lim.tracked[p] {
		one.n[p] = uint16(times)
	}
	one = l.join(&label{}, &one)
	one.from = -1
	return listed{end: []label{one}}
}

// join puts one label behind another.
func (l *lister) join(x, y *label) label {
	n, worth, priced := l.lim.add(&x.n, &y.n)
	return label{n: n, priced: x.priced + y.priced - priced, worth: x.worth + y.worth - worth}
}

// walk lists the labels of all paths of d. ends gives for every node the value of
// ending there, nothing if a path cannot.
func (l *lister) walk(d *dag, value, ends []int64, item func(int32) (*listed, error)) (*listed, error) {
	cut := l.b.cut
	rest := d.toEnd(value, ends, cut)
	best := rest[0]
	out := &listed{nodes: make([][]label, len(d.at))}
	if best == nothing {
		return out, nil
	}
	index := make([]map[counts]int32, len(d.at))
	put := func(node int32, x label) error {
		if index[node] == nil {
			index[node] = map[counts]int32{}
		}
		if i, ok := index[node][x.n]; ok {
			if old := &out.nodes[node][i]; old.worth < x.worth || old.worth == x.worth && old.priced < x.priced {
				*old = x
			}
			return nil
		}
		index[node][x.n] = int32(len(out.nodes[node]))
		out.nodes[node] = append(out.nodes[node], x)
		if err := l.b.spent.list(1, labelBytes+indexBytes); err != nil {
			return err
		}
		return l.b.spent.spend(24)
	}
	if l.tooDear != nil {
		free := put
		put = func(node int32, x label) error {
			if l.tooDear(&x) {
				return nil
			}
			return free(node, x)
		}
	}
	// A node is settled when no more labels come to it: before the arcs from it.
	settled := 0
	settle := func(upTo int) error {
		for ; settled < upTo; settled++ {
			index[settled] = nil
			l.b.spent.held.lists -= int64(len(out.nodes[settled])) * indexBytes
			list, err := l.settle(out.nodes[settled])
			if err != nil {
				return err
			}
			out.nodes[settled] = list
		}
		return nil
	}
	if err := put(0, label{from: -1}); err != nil {
		return nil, err
	}
	for i := range d.arcs {
		a := &d.arcs[i]
		if rest[a.to] == nothing || len(out.nodes[a.from]) == 0 {
			continue
		}
		if err := settle(int(a.from) + 1); err != nil {
			return nil, err
		}
		cost := int64(a.cost) * cut
		floor := best - l.slack - rest[a.to]
		if a.item < 0 {
			for f, x := range out.nodes[a.from] {
				x.priced, x.worth = x.priced-cost, x.worth-cost
				if x.priced < floor {
					continue
				}
				x.from, x.arc, x.sub = int32(f), int32(i), -1
				if err := put(a.to, x); err != nil {
					return nil, err
				}
			}
			continue
		}
		if value[a.item] == nothing {
			continue
		}
		var sub *listed
		for f := range out.nodes[a.from] {
			x := &out.nodes[a.from][f]
			if x.priced+value[a.item]-cost < floor {
				continue
			}
			if sub == nil {
				var err error
				if sub, err = item(a.item); err != nil {
					return nil, err
				}
			}
			if err := l.b.spent.spend(int64(len(sub.end)/4 + 1)); err != nil {
				return nil, err
			}
			for s := range sub.end {
				y := &sub.end[s]
				if x.priced+y.priced-cost < floor {
					break
				}
				at := l.join(x, y)
				at.priced, at.worth = at.priced-cost, at.worth-cost
				if at.priced < floor {
					continue
				}
				at.from, at.arc, at.sub = int32(f), int32(i), int32(s)
				if err := put(a.to, at); err != nil {
					return nil, err
				}
			}
		}
	}
	if err := settle(len(out.nodes)); err != nil {
		return nil, err
	}
	for node, v := range ends {
		if v == nothing {
			continue
		}
		for s, x := range out.nodes[node] {
			if v > 0 && (x.from < 0 || d.arcs[x.arc].item < 0) {
				continue // only a last leaf that is kept thick saves a cut
			}
			x.priced, x.worth = x.priced+v, x.worth+v
			if x.priced >= best-l.slack {
				x.arc, x.sub = int32(node), int32(s)
				out.end = append(out.end, x)
			}
		}
	}
	if err := l.b.spent.list(len(out.end), labelBytes); err != nil {
		return nil, err
	}
	var err error
	out.end, err = l.settle(out.end)
	return out, err
}

// settle sorts labels by priced worth, best first, and drops those that another
// serves as well as. The one that serves is priced no lower.
func (l *lister) settle(list []label) ([]label, error) {
	slices.SortStableFunc(list, func(a, b label) int {
		return cmp.Or(cmp.Compare(b.priced, a.priced), cmp.Compare(b.worth, a.worth))
	})
	kept := list[:0]
	looks := 0
next:
	for _, x := range list {
		if l.beam > 0 && len(kept) == l.beam {
			break
		}
		for i := range kept {
			if looks++; l.lim.serves(&kept[i].n, kept[i].worth, &x.n, x.worth) {
				continue next
			}
		}
		kept = append(kept, x)
	}
	return kept, l.b.spent.spend(int64(looks / 4))
}

func (l *lister) stack(id int32) (*listed, error) {
	if got, ok := l.stacks[id]; ok {
		return got, nil
	}
	v := l.b.variants[id]
	g := l.b.graphs[v.graph]
	single := l.single
	if g.times != nil {
		single = make([]listed, len(l.single))
		for p := range single {
			single[p] = l.several(p, g.times[p])
		}
	}
	value := make([]int64, len(l.value)) // what counts of so many at a time
	for p := range value {
		value[p] = single[p].end[0].priced
	}
	got, err := l.walk(&g.dag, value, stackEnds(len(g.at), v.ends, l.b.cut),
		func(p int32) (*listed, error) { return &single[p], nil })
	if err != nil {
		return nil, err
	}
	l.stacks[id] = got
	return got, nil
}

// stackEnds lets a stack end anywhere before last but at its start: a blank
// without a leaf is no blank. From kept on the last leaf saves its cut.
func stackEnds(n int, e ends, cut int64) []int64 {
	out := make([]int64, n)
	out[0] = nothing
	for i := max(1, e.kept); i < min(n, e.last); i++ {
		out[i] = cut
	}
	for i := e.last; i < n; i++ {
		out[i] = nothing
	}
	return out
}

func (l *lister) strip(id int32) (*listed, error) {
	if got, ok := l.strips[id]; ok {
		return got, nil
	}
	got := &listed{}
	best := l.b.stripWorth[id]
	for i, o := range l.b.strips[id].options {
		trims := int64(o.trims) * l.b.cut
		if l.b.variantWorth[o.use]-trims < best-l.slack || l.beam > 0 && l.b.variants[o.use].tie != nil {
			continue
		}
		sub, err := l.stack(o.use)
		if err != nil {
			return nil, err
		}
		for s, x := range sub.end {
			if x.priced, x.worth = x.priced-trims, x.worth-trims; x.priced < best-l.slack {
				break
			}
			x.arc, x.sub = int32(i), int32(s)
			got.end = append(got.end, x)
		}
	}
	if err := l.b.spent.list(len(got.end), labelBytes); err != nil {
		return nil, err
	}
	var err error
	got.end, err = l.settle(got.end)
	l.strips[id] = got
	return got, err
}

func (l *lister) section(id int32) (*listed, error) {
	if got, ok := l.parts[id]; ok {
		return got, nil
	}
	p := &l.b.sections[id]
	d := p.dag
	if l.beam > 0 {
		if !p.built || d == nil {
			return &listed{}, nil
		}
	} else if err := l.b.settleWithin(d, l.slack); err != nil {
		return nil, err
	}
	got, err := l.walk(d, l.b.stripWorth, endValues(d, l.b.cut), l.strip)
	if err != nil {
		return nil, err
	}
	l.parts[id] = got
	return got, nil
}

// all lists the ways to cut the billet. The board must have been priced with the
// same values; what it values cuts at is taken off priced worth and worth.
func (l *lister) all() (*listed, error) {
	if l.beam == 0 {
		if err := l.b.buildWithin(l.slack); err != nil {
			return nil, err
		}
	}
	return l.walk(&l.b.top, l.b.sectionWorth, endValues(&l.b.top, l.b.cut), l.section)
}

// leg is one arc of a path of labels, with the label of its item.
type leg struct {
	arc arc
	sub int32
}

// legs returns the path that led to end label x.
func (ls *listed) legs(d *dag, x label) []leg {
	var out []leg
	node, at := x.arc, x.sub
	for {
		y := ls.nodes[node][at]
		if y.from < 0 {
			slices.Reverse(out)
			return out
		}
		a := d.arcs[y.arc]
		out = append(out, leg{a, y.sub})
		node, at = a.from, y.from
	}
}

// trace returns how the billet is cut for one label of all.
func (l *lister) trace(all *listed, x label) []sectionPlan {
	b := l.b
	var out []sectionPlan
	for _, s := range all.legs(&b.top, x) {
		if s.arc.item < 0 {
			continue
		}
		p := sectionPlan{from: s.arc.pos, to: s.arc.pos + b.sections[s.arc.item].length()}
		section := l.parts[s.arc.item]
		for _, t := range section.legs(b.sections[s.arc.item].dag, section.end[s.sub]) {
			if t.arc.item < 0 {
				continue
			}
			st := b.strips[t.arc.item]
			y := l.strips[t.arc.item].end[t.sub]
			o := st.options[y.arc]
			plan := blankPlan{y: t.arc.pos, width: st.width, x: s.arc.pos + o.offset, length: o.length}
			stack := l.stacks[o.use]
			graph := b.graphs[b.variants[o.use].graph]
			for _, q := range stack.legs(&graph.dag, stack.end[y.sub]) {
				plan.sets = append(plan.sets, graph.placed(q.arc))
			}
			p.strips = append(p.strips, plan)
		}
		out = append(out, p)
	}
	return out
}
