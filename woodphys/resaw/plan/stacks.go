package plan

// Stacks by place. A blank that begins somewhere within a stretch of the wood is worth at
// most what it is at the best place there: where the wood is thickest, with only those
// zones that it cannot clear, and as far from the pith as it can be. A stretch of no
// size is one place, and the blank is worth just that.

// stretch is where a blank may begin: from x0 to x1 and y0 to y1, both ends included. One that is
// to bound is worth no less than any blank there, however narrow it is.
type stretch struct {
	x0, x1, y0, y1 nm
	bounds         bool
}

func placeAt(x, y nm) stretch { return stretch{x0: x, x1: x, y0: y, y1: y} }

// within returns the best that the wood offers to a rectangle that begins within a
// stretch, and whether one can be had there at all.
func (w *offer) within(s stretch, l, width nm) (spot, bool) {
	low, high := w.edges(s.x0, s.x0+l)
	if low1, high1 := w.edges(s.x1, s.x1+l); s.x1 > s.x0 {
		low, high = min(low, low1), max(high, high1)
	}
	if s.y1 < low || max(s.y0, low)+width > high {
		return spot{}, false
	}
	out := spot{loss: w.loss(l, width), off: max(w.off(s.y0, s.y0+width), w.off(s.y1, s.y1+width))}
	for i, z := range w.zones {
		if z.x0 < s.x0+l && s.x1 < z.x1 && z.y0 < s.y0+width && s.y1 < z.y1 {
			if z.through {
				return spot{}, false
			}
			out.zones |= 1 << i
		}
	}
	out.face, _ = w.depthOfFace1(out.loss)
	thick := max(w.thinnest(s.x0, s.x0+l, s.y0, s.y0+width), w.thinnest(s.x1, s.x1+l, s.y1, s.y1+width))
	if s.x1 > s.x0 && s.y1 > s.y0 {
		thick = max(thick, w.thinnest(s.x0, s.x0+l, s.y1, s.y1+width), w.thinnest(s.x1, s.x1+l, s.y0, s.y0+width))
	}
	out.usable = w.leftFlat(thick, out.loss)
	return out, out.usable > 0
}

// stackAt returns the variant of the stack of a blank at a spot; -1 if it holds no part.
func (b *board) stackAt(at spot, l, width nm) (int32, error) {
	key := graphKey{mask: b.kindsFor(l, width, at.usable), zones: at.zones}
	if key.mask == 0 {
		return -1, nil
	}
	if b.w.pith && b.anyRinged(key.mask) {
		// Only kinds that fit at some depths and not at others tie the graph to
		// this place.
		kept, bound := b.within(key.mask, at.off, at.face, at.usable)
		if key.mask = b.needed(kept, l, width, at.usable); key.mask == 0 {
			return -1, nil
		}
		if bound {
			key.dist, key.loss = at.off+1, at.loss
		}
	}
	if at.zones != 0 {
		key.loss = at.loss
	}
	if b.exact { // the staged search parts no leaves
		key.gang = b.r.gang(l, width, key.mask)
	}
	if key.dist > 0 && !b.exact {
		return b.tiedVariant(key, at.usable)
	}
	graph, err := b.graphOf(key)
	if err != nil {
		return -1, err
	}
	vk := variantKey{graph, at.usable}
	if id, ok := b.variantKeys[vk]; ok {
		return id, nil
	}
	v := variant{graph: graph, usable: at.usable, ends: b.graphs[graph].endsAt(b.r, at.usable)}
	if b.generous && b.r.far {
		v.ends.kept = 0
	}
	id, err := b.newVariant(v)
	b.variantKeys[vk] = id
	return id, err
}

// sizeOf is a length and a width that a blank may have.
type sizeOf struct{ l, w nm }

// blankSizes returns the sizes of blanks that some kind needs all the length of and some
// kind all the width.
func (b *board) blankSizes(lengths, widths []nm) []sizeOf {
	var out []sizeOf
	for _, l := range lengths {
		for _, w := range widths {
			var mask uint32
			for p, k := range b.r.kinds {
				if b.mask&(1<<p) != 0 && k.l <= l && k.w <= w {
					mask |= 1 << p
				}
			}
			if b.needed(mask, l, w, 1<<62) != 0 {
				out = append(out, sizeOf{l, w})
			}
		}
	}
	return out
}

// turnable is a kind that may be sawn from a blank on its side, or as a pair from the middle
// of a wedge (wedge.go).
type turnable struct {
	part   int
	split  bool // from a wedge: one set across the face
	least  int  // sets of a blank, so that it stands on the saw
	height nm   // a set with all its cuts
	less   nm   // saved on the last
	high   nm   // usable thickness it takes
}

// stands is how much of its height a blank on its side must measure across, so that it
// does not fall over on the saw. Own choice.
const stands = 3

// turnables returns the kinds of mask that may lie on their side: those narrower than the
// wood is thick, where the rings suit it that way, and those that may be split from the
// wedge that the wood is. Runout is measured on the face, so that a kind that limits it is
// not turned.
func (b *board) turnables() []turnable {
	var out []turnable
	w := b.w
	for p := range b.r.kinds {
		k := &b.r.kinds[p]
		if w.barred&(1<<p) != 0 {
			continue
		}
		if k.thin > 0 && w.ty != w.t && k.w <= b.r.highest && w.runoutMet(k) && w.angleMetSplit(k) {
			out = append(out, turnable{part: p, split: true, least: 1, height: k.w})
		}
		if k.w > w.deepest() || k.w > b.r.highest || k.runout > 0 || !w.angleMetTurned(k) || k.height <= 0 {
			continue
		}
		t := turnable{part: p, height: upToSteps(k.height, b.r.step), high: k.w, less: b.r.betweenLeaves()}
		if !b.r.far {
			t.less = b.r.reface
		}
		if b.r.step > 0 { // so that the rip can be set to it
			t.less -= t.less % b.r.step
		}
		t.least = max(1, int((k.w/stands+t.less+t.height-1)/t.height))
		out = append(out, t)
	}
	return out
}

// angleMetTurned reports whether the ring angle that a kind asks for may be met by a
// blank on its side.
func (w *offer) angleMetTurned(k *want) bool {
	const tiny = 1e-9
	return !k.ringed || w.angle != nil && (90-w.angle.Degrees()) >= k.angle.Degrees()-tiny
}

// slices returns how many sets of a kind on its side there is room for at a place, 0 for
// fewer than stand: the wood thick enough and clear of zones over all of them. room is
// across the face. Within a stretch it is how many there may be.
func (b *board) slices(t *turnable, s stretch, room nm) int {
	w, k := b.w, &b.r.kinds[t.part]
	if t.split {
		if k.w > room || !w.wedgeAt(k, s, b.r.resaw) {
			return 0
		}
		return 1
	}
	least := nm(t.least)*t.height - t.less
	at, ok := w.within(s, k.l, least)
	if !ok || at.usable < t.high {
		return 0
	}
	if s.x0 != s.x1 || s.y0 != s.y1 {
		return int((min(room, w.ref-s.y0) + t.less) / t.height)
	}
	_, high := w.edges(s.x0, s.x0+k.l)
	room = min(room, high-s.y0)
	for i := range w.zones {
		if z := &w.zones[i]; z.x0 < s.x0+k.l && s.x0 < z.x1 && z.y1 > s.y0 {
			room = min(room, z.y0-s.y0)
		}
	}
	for n := int((room + t.less) / t.height); n >= t.least; n-- {
		if at := w.flat(s.x0, k.l, s.y0, nm(n)*t.height-t.less); at.usable >= t.high {
			return n
		}
	}
	return 0
}
