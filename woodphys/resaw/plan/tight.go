package plan

// Stacks that the pith ties to their place. Where a ring angle is met at some
// depths only, every place across the billet has a graph of its own, and most of
// them are on no best path. Such a variant is first valued on the graph of the
// same kinds anywhere in the depth, which is worth no less: without its gaps a
// stack of the tied graph is one of that graph, and a gap saves no cut. It is tied,
// its own graph built, when a path that matters uses it.

// tighten gives a variant its own graph and values anew what uses it.
func (b *board) tighten(id int32) error {
	v := &b.variants[id]
	if v.tie == nil {
		return nil
	}
	graph, err := b.graphOf(*v.tie)
	if err != nil {
		return err
	}
	g := b.graphs[graph]
	if g.stamp != b.r.stamp {
		g.price(b.value, b.cut, b.r.stamp)
		b.spent.done += int64(2 * len(g.arcs))
	}
	v.graph, v.ends, v.tie = graph, g.endsAt(b.r, v.usable), nil
	b.variantWorth[id] = g.worth(v.ends, b.cut)
	for _, s := range b.usedBy[id] {
		b.stripWorth[s] = b.stripValue(s)
		b.spent.done += int64(len(b.strips[s].options))
	}
	delete(b.usedBy, id)
	b.version++
	return b.spent.spend(1)
}

// stripValue values one strip.
func (b *board) stripValue(id int32) int64 {
	best := int64(nothing)
	for _, o := range b.strips[id].options {
		if v := b.variantWorth[o.use]; v != nothing {
			best = max(best, v-int64(o.trims)*b.cut)
		}
	}
	return best
}

// choice returns the option that makes a strip worth what it is, rather one that is
// tied already; -1 where nothing can be had.
func (b *board) choice(id int32) int {
	loose := -1
	for i, o := range b.strips[id].options {
		v := b.variantWorth[o.use]
		if v == nothing || v-int64(o.trims)*b.cut != b.stripWorth[id] {
			continue
		}
		if b.variants[o.use].tie == nil {
			return i
		}
		if loose < 0 {
			loose = i
		}
	}
	return loose
}

// settle ties the variants on the best path of a section until that path has none
// that is only bounded, and values the section by it. It reports whether the value
// was right already.
func (b *board) settle(id int32) (bool, error) {
	p := &b.sections[id]
	if p.settled == b.version {
		return true, nil
	}
	was := b.sectionWorth[id]
	for {
		before := b.version
		b.sectionWorth[id] = b.sectionValue(int(id))
		if p.dag == nil || b.sectionWorth[id] == nothing {
			break
		}
		for _, a := range b.pathOf(p.dag) {
			for a.item >= 0 {
				at := b.choice(a.item)
				if at < 0 {
					break
				}
				use := b.strips[a.item].options[at].use
				if b.variants[use].tie == nil {
					break
				}
				if err := b.tighten(use); err != nil {
					return false, err
				}
			}
		}
		if b.version == before {
			break
		}
	}
	p.settled = b.version
	return b.sectionWorth[id] == was, b.spent.spend(1)
}

// pathOf returns the best path of strips through a section.
func (b *board) pathOf(d *dag) []arc {
	best := make([]int64, len(d.at))
	d.longest(best, b.stripWorth, b.cut)
	_, end := d.ended(best, b.cut)
	if end < 0 {
		return nil
	}
	return d.back(best, b.stripWorth, b.cut, end)
}

// settleWithin ties every variant of a section that a path within slack of its
// best may use.
func (b *board) settleWithin(d *dag, slack int64) error {
	best := make([]int64, len(d.at))
	for {
		before := b.version
		d.longest(best, b.stripWorth, b.cut)
		rest := d.toEnd(b.stripWorth, endValues(d, b.cut), b.cut)
		for i := range d.arcs {
			a := &d.arcs[i]
			if a.item < 0 || best[a.from] == nothing || rest[a.to] == nothing || b.stripWorth[a.item] == nothing ||
				best[a.from]+b.stripWorth[a.item]-int64(a.cost)*b.cut+rest[a.to] < rest[0]-slack {
				continue
			}
			if err := b.tightenWithin(a.item, slack); err != nil {
				return err
			}
		}
		if err := b.spent.spend(int64(3 * len(d.arcs))); err != nil || b.version == before {
			return err
		}
	}
}

// tightenWithin ties the variants of a strip within slack of its best.
func (b *board) tightenWithin(id int32, slack int64) error {
	for again := true; again; {
		again = false
		for _, o := range b.strips[id].options {
			if v := b.variantWorth[o.use]; v != nothing && v-int64(o.trims)*b.cut >= b.stripWorth[id]-slack &&
				b.variants[o.use].tie != nil {
				again = true
				if err := b.tighten(o.use); err != nil {
					return err
				}
			}
		}
	}
	return nil
}
