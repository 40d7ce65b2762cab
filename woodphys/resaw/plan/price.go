package plan

// price values everything for given worths of a set and of a cut saved, and
// returns the worth of the best way to cut the billet. Sections are built until
// the best path has none that is only bounded. The stamp of the rig must be new
// whenever the worths are.
func (b *board) price(value []int64, cut int64) (int64, error) {
	if err := b.outline(value, cut); err != nil {
		return 0, err
	}
	for b.end >= 0 {
		path := b.top.back(b.best, b.sectionWorth, cut, b.end)
		done := true
		for _, a := range path {
			if a.item >= 0 && !b.sections[a.item].built {
				done = false
				if err := b.build(int(a.item)); err != nil {
					return 0, err
				}
			}
		}
		if err := b.revalue(); err != nil {
			return 0, err
		}
		before := b.version
		for _, a := range path {
			if a.item >= 0 {
				right, err := b.settle(a.item)
				if err != nil {
					return 0, err
				}
				done = done && right
			}
		}
		if done && b.version == before {
			break
		}
		if err := b.along(); err != nil {
			return 0, err
		}
	}
	return b.upper, nil
}

// way returns a best way to cut the billet for given worths of a set, and what it is
// worth; cuts cost nothing.
func (b *board) way(value []int64) (*way, int64, error) {
	worth, err := b.price(value, 0)
	if err != nil {
		return nil, 0, err
	}
	return wayOf(b.trace(value, 0)), worth, nil
}

// outline values what is built and bounds what is not: no way to cut the billet is
// worth more than upper then.
func (b *board) outline(value []int64, cut int64) error {
	b.version++
	b.value, b.cut = value, cut
	b.pricedGraphs, b.pricedVariants, b.pricedStrips = 0, 0, 0
	b.sectionWorth = b.sectionWorth[:0]
	if b.ceiling != nil {
		if err := b.ceiling.priceAll(value, cut); err != nil {
			return err
		}
	}
	if err := b.extend(); err != nil {
		return err
	}
	for i := range b.sections {
		b.sectionWorth = append(b.sectionWorth, b.sectionValue(i))
	}
	return b.along()
}

// along values the paths along the length.
func (b *board) along() error {
	b.top.longest(b.best, b.sectionWorth, b.cut)
	b.upper, b.end = b.top.ended(b.best, b.cut)
	b.upperStamp = b.r.stamp
	return b.spent.spend(int64(len(b.top.arcs)))
}

// revalue values what was built since.
func (b *board) revalue() error {
	if err := b.extend(); err != nil {
		return err
	}
	for i := range b.sections {
		if b.sections[i].built && b.sections[i].fresh {
			b.sectionWorth[i] = b.sectionValue(i)
		}
	}
	return nil
}

// priceAll values a ceiling.
func (b *board) priceAll(value []int64, cut int64) error {
	b.value, b.cut = value, cut
	b.pricedGraphs, b.pricedVariants, b.pricedStrips = 0, 0, 0
	b.sectionWorth = b.sectionWorth[:0]
	if err := b.extend(); err != nil {
		return err
	}
	for i := range b.sections {
		b.sectionWorth = append(b.sectionWorth, b.sectionValue(i))
		if i > 0 { // a longer section can do what a shorter one can
			b.sectionWorth[i] = max(b.sectionWorth[i], b.sectionWorth[i-1])
		}
	}
	return nil
}

// extend values the graphs, variants and strips that are not valued yet.
func (b *board) extend() error {
	steps := 0
	for ; b.pricedGraphs < len(b.graphs); b.pricedGraphs++ {
		g := b.graphs[b.pricedGraphs]
		if g.stamp != b.r.stamp {
			g.price(b.value, b.cut, b.r.stamp)
			steps += 2 * len(g.arcs)
		}
	}
	b.variantWorth = b.variantWorth[:b.pricedVariants]
	for ; b.pricedVariants < len(b.variants); b.pricedVariants++ {
		v := b.variants[b.pricedVariants]
		b.variantWorth = append(b.variantWorth, b.graphs[v.graph].worth(v.ends, b.cut))
		steps++
	}
	b.stripWorth = b.stripWorth[:b.pricedStrips]
	for ; b.pricedStrips < len(b.strips); b.pricedStrips++ {
		b.stripWorth = append(b.stripWorth, b.stripValue(int32(b.pricedStrips)))
		steps += len(b.strips[b.pricedStrips].options)
	}
	return b.spent.spend(int64(steps))
}

// sectionValue values one section, built or not.
func (b *board) sectionValue(id int) int64 {
	p := &b.sections[id]
	if !p.built {
		v := b.ceiling.sectionWorth[p.class]
		if v == nothing {
			return nothing
		}
		return v + b.cut
	}
	p.fresh = false
	if p.dag == nil {
		return nothing
	}
	if len(p.dag.at) > len(b.room) {
		b.room = make([]int64, 2*len(p.dag.at))
	}
	best := b.room[:len(p.dag.at)]
	p.dag.longest(best, b.stripWorth, b.cut)
	v, _ := p.dag.ended(best, b.cut)
	b.spent.done += int64(len(p.dag.arcs))
	return v
}

// buildWithin builds every section that a path within slack of the best may use.
func (b *board) buildWithin(slack int64) error {
	for b.unbuilt > 0 {
		b.top.longest(b.best, b.sectionWorth, b.cut)
		v, end := b.top.ended(b.best, b.cut)
		if end < 0 {
			return nil
		}
		rest := b.top.toEnd(b.sectionWorth, endValues(&b.top, b.cut), b.cut)
		found := false
		for i := range b.top.arcs {
			a := &b.top.arcs[i]
			if a.item < 0 || b.sections[a.item].built || b.best[a.from] == nothing || rest[a.to] == nothing ||
				b.sectionWorth[a.item] == nothing {
				continue
			}
			if b.best[a.from]+b.sectionWorth[a.item]-int64(a.cost)*b.cut+rest[a.to] < v-slack {
				continue
			}
			found = true
			if err := b.build(int(a.item)); err != nil {
				return err
			}
		}
		if !found {
			return nil
		}
		if err := b.revalue(); err != nil {
			return err
		}
	}
	return nil
}

// trace returns the best way to cut the billet for the worths last priced; of
// the best, the one that ends first along the length.
func (b *board) trace(value []int64, cut int64) []sectionPlan {
	_, end := b.top.ended(b.best, cut)
	if end < 0 {
		return nil
	}
	var out []sectionPlan
	for _, a := range b.top.back(b.best, b.sectionWorth, cut, end) {
		if a.item < 0 {
			continue
		}
		p := sectionPlan{from: a.pos, to: a.pos + b.sections[a.item].length()}
		for _, c := range b.pathOf(b.sections[a.item].dag) {
			if c.item < 0 {
				continue
			}
			s := b.strips[c.item]
			o := s.options[b.choice(c.item)]
			use := b.variants[o.use]
			p.strips = append(p.strips, blankPlan{x: a.pos + o.offset, length: o.length, y: c.pos, width: s.width,
				sets: b.graphs[use.graph].trace(use.ends, value, cut)})
		}
		out = append(out, p)
	}
	return out
}
