package plan

import (
	"math/bits"
)

// blank returns the variant of the stack of a blank; -1 if it holds no part.
func (b *board) blank(x, l, y, width nm) (int32, error) {
	if err := b.spent.spend(2); err != nil {
		return -1, err
	}
	w := b.w
	spot, ok := w.at(x, l, y, width)
	if !ok {
		return -1, nil
	}
	return b.stackAt(spot, l, width)
}

// tiedVariant returns the variant of a stack that the pith ties to its place,
// valued on the graph of its kinds anywhere for now.
func (b *board) tiedVariant(key graphKey, usable nm) (int32, error) {
	vk := tiedKey{key, usable}
	if id, ok := b.tiedKeys[vk]; ok {
		return id, nil
	}
	loose := key
	if loose.dist = 0; loose.zones == 0 {
		loose.loss = 0
	}
	graph, err := b.graphOf(loose)
	if err != nil {
		return -1, err
	}
	id, err := b.newVariant(variant{graph: graph, usable: usable, ends: b.graphs[graph].endsAt(b.r, usable), tie: &key})
	b.tiedKeys[vk] = id
	return id, err
}

func (b *board) newVariant(v variant) (int32, error) {
	b.variants = append(b.variants, v)
	return int32(len(b.variants) - 1), b.spent.build(1, variantBytes)
}

// graphOf returns the number of the graph of a kind of stack.
func (b *board) graphOf(key graphKey) (int32, error) {
	if graph, ok := b.graphKeys[key]; ok {
		return graph, nil
	}
	g, err := b.graphFor(key)
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
func (b *board) graphFor(key graphKey) (*stackGraph, error) {
	if key.zones != 0 || key.dist > 0 {
		var rings []ring
		if key.dist > 0 {
			face, _ := b.w.depthOfFace1(key.loss)
			rings = b.w.reach(b.r, key.dist-1, face)
		}
		g, err := newStackGraph(b.r, key.mask, b.w.spoiled(key.zones, key.loss), rings, b.w.deepest(), b.spent)
		if err == nil {
			g.times = b.r.timesOf(key.gang)
		}
		return g, err
	}
	shared := sharedKey{key.mask, key.gang}
	if g, ok := b.r.shared[shared]; ok {
		return g, nil
	}
	if key.gang != 0 { // the same depths, and other worths
		one, err := b.graphFor(graphKey{mask: key.mask})
		if err != nil {
			return nil, err
		}
		n := len(one.at)
		g := &stackGraph{dag: one.dag, times: b.r.timesOf(key.gang), best: make([]int64, n), sawn: make([]int64, n),
			prefix: make([]int64, n)}
		b.r.shared[shared] = g
		return g, b.spent.build(n, nodeBytes)
	}
	g, err := newStackGraph(b.r, key.mask, nil, nil, b.r.deepest, b.spent)
	if err == nil {
		b.r.shared[shared] = g
	}
	return g, err
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
func (b *board) within(mask uint32, dist, face, usable nm) (kept uint32, bound bool) {
	for m := mask; m != 0; m &= m - 1 {
		p := bits.TrailingZeros32(m)
		k := &b.r.kinds[p]
		if !k.ringed {
			continue
		}
		reach := b.w.reachOf(k, dist, face)
		switch {
		case reach.high < k.t-k.skin || reach.low > usable-k.t+k.skin || reach.high-reach.low < k.t-2*k.skin:
			mask &^= 1 << p
		case reach.low > k.skin || reach.high < usable-k.skin:
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
