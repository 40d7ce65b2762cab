package resaw

import (
	"math/bits"
)

// blank returns the variant of the stack of a blank; -1 if it holds no part.
func (b *board) blank(x, l, y, width nm) (int32, error) {
	if err := b.spent.spend(3); err != nil {
		return -1, err
	}
	w := b.w
	low, high := w.edges(x, x+l)
	if y < low || y+width > high {
		return -1, nil
	}
	zones, free := w.touching(x, x+l, y, y+width)
	if !free {
		return -1, nil
	}
	usable, loss := b.usable(x, l, y, width)
	if usable <= 0 {
		return -1, nil
	}
	key := graphKey{mask: b.kindsFor(l, width, usable), zones: zones}
	if key.mask == 0 {
		return -1, nil
	}
	var rings []ring
	if w.pith && b.anyRinged(key.mask) {
		// Only kinds that fit at some depths and not at others tie the graph to
		// this place.
		face, _ := w.depthOfFace1(loss)
		dist := w.off(y, y+width)
		reach := w.reach(b.r, dist, face)
		kept, bound := b.within(key.mask, reach, usable)
		if key.mask = b.needed(kept, l, width, usable); key.mask == 0 {
			return -1, nil
		}
		if bound {
			rings, key.dist, key.loss = reach, dist+1, loss
		}
	}
	if zones != 0 {
		key.loss = loss
	}
	spoiled := w.spoiled(zones, loss)
	if rings != nil {
		return b.tiedVariant(tie{key, rings, spoiled}, usable)
	}
	graph, err := b.graphOf(key, nil, spoiled)
	if err != nil {
		return -1, err
	}
	vk := variantKey{graph: graph, usable: usable}
	if id, ok := b.variantKeys[vk]; ok {
		return id, nil
	}
	v := variant{graph: graph, usable: usable, ends: b.graphs[graph].endsAt(b.r, usable)}
	if b.generous && b.r.far {
		v.ends.kept = 0
	}
	return b.newVariant(vk, v), nil
}

// tiedVariant returns the variant of a stack that the pith ties to its place,
// valued on the graph of its kinds anywhere for now.
func (b *board) tiedVariant(t tie, usable nm) (int32, error) {
	vk := variantKey{usable: usable, tie: t.key}
	if id, ok := b.variantKeys[vk]; ok {
		return id, nil
	}
	loose := t.key
	if loose.dist = 0; loose.zones == 0 {
		loose.loss = 0
	}
	graph, err := b.graphOf(loose, nil, t.spoiled)
	if err != nil {
		return -1, err
	}
	return b.newVariant(vk, variant{graph: graph, usable: usable, ends: b.graphs[graph].endsAt(b.r, usable), tie: &t}), nil
}

func (b *board) newVariant(key variantKey, v variant) int32 {
	id := int32(len(b.variants))
	b.variants = append(b.variants, v)
	b.variantKeys[key] = id
	return id
}

// graphOf returns the number of the graph of a kind of stack.
func (b *board) graphOf(key graphKey, rings []ring, spoiled []interval) (int32, error) {
	if graph, ok := b.graphKeys[key]; ok {
		return graph, nil
	}
	g, err := b.graphFor(key, rings, spoiled)
	if err != nil {
		return -1, err
	}
	graph := int32(len(b.graphs))
	b.graphs = append(b.graphs, g)
	b.graphKeys[key] = graph
	return graph, nil
}

// graphFor returns the graph of a kind of stack. Those that neither zone nor
// ring angle ties to a place are shared by all billets on the saw.
func (b *board) graphFor(key graphKey, rings []ring, spoiled []interval) (*stackGraph, error) {
	if len(spoiled) > 0 || rings != nil {
		return newStackGraph(b.r, key.mask, spoiled, rings, b.w.deepest(), b.spent)
	}
	if g, ok := b.r.shared[key.mask]; ok {
		return g, nil
	}
	g, err := newStackGraph(b.r, key.mask, nil, nil, b.r.deepest, b.spent)
	if err == nil {
		b.r.shared[key.mask] = g
	}
	return g, err
}

func (b *board) usable(x, l, y, width nm) (usable, loss nm) {
	loss = b.w.loss(l, width)
	return b.w.thinnest(x, x+l, y, y+width) - b.w.f1 - b.w.f2 - loss, loss
}

// kindsFor returns the kinds that go into a blank of this size; none when no kind
// needs all its length or all its width, because then a smaller blank does as
// well, and none when every kind is thicker than the blank.
func (b *board) kindsFor(l, width, usable nm) uint32 {
	var mask uint32
	for p, k := range b.r.kinds {
		if b.mask&(1<<p) != 0 && k.l <= l && k.w <= width {
			mask |= 1 << p
		}
	}
	return b.needed(mask, l, width, usable)
}

// needed returns mask, or nothing as kindsFor says.
func (b *board) needed(mask uint32, l, width, usable nm) uint32 {
	long, wide, thin := false, false, false
	for m := mask; m != 0; m &= m - 1 {
		k := &b.r.kinds[bits.TrailingZeros32(m)]
		long, wide = long || k.l == l, wide || k.w == width
		thin = thin || k.t <= usable
	}
	if !long || !wide || !thin {
		return 0
	}
	return mask
}

// within drops the ringed kinds of mask whose ring angle is met at no depth, and
// reports whether one is left that is met at some depths only.
func (b *board) within(mask uint32, reach []ring, usable nm) (kept uint32, bound bool) {
	for m := mask; m != 0; m &= m - 1 {
		p := bits.TrailingZeros32(m)
		k := &b.r.kinds[p]
		if !k.ringed {
			continue
		}
		// Mid-planes of leaves, doubled, run from t to 2 usable - t.
		low, high := k.t, 2*usable-k.t
		switch {
		case reach[p].high2 < low || reach[p].low2 > high:
			mask &^= 1 << p
		case reach[p].low2 > low || reach[p].high2 < high:
			bound = true
		}
	}
	return mask, bound
}

func (b *board) anyRinged(mask uint32) bool {
	for m := mask; m != 0; m &= m - 1 {
		if b.r.kinds[bits.TrailingZeros32(m)].ringed {
			return true
		}
	}
	return false
}
