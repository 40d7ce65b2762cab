package plan

import "latewood/woodphys/resaw/exact"

// Ripped after resawing. A blank is as large as some part needs; a leaf of it that is for a
// smaller part is crosscut and ripped into as many of that part as it holds side by side, all
// alike, also where that is one. In one stack a wide leaf may so lie before others that are parted.
// Pieces at one place of neighbouring leaves belong together as the leaves do. A leaf is clear of
// zones, and of rings that are too flat, over all of its blank, whatever it is parted into.

// gangKey is what the numbers of pieces follow from.
type gangKey struct {
	l, w nm
	mask uint32
}

// gang returns the number of the list that tells how many of each kind of a mask a leaf of a
// blank of this size holds; 0 where it is one of each.
func (r *rig) gang(l, width nm, mask uint32) int32 {
	key := gangKey{l, width, mask}
	if id, ok := r.gangOf[key]; ok {
		return id
	}
	times, several := make([]int64, len(r.kinds)), false
	text := make([]byte, 0, 2*len(r.kinds))
	for p := range r.kinds {
		if times[p] = 1; mask&(1<<p) != 0 {
			along, across := r.kinds[p].abreast(l, width, &r.cost)
			times[p] = along * across
		}
		several = several || times[p] > 1
		text = append(text, byte(times[p]), byte(times[p]>>8))
	}
	id, known := r.gangIDs[string(text)]
	switch {
	case !several:
		id = 0
	case !known:
		r.gangs = append(r.gangs, times)
		id = int32(len(r.gangs))
		r.gangIDs[string(text)] = id
	}
	r.gangOf[key] = id
	return id
}

// mostAbreast bounds the pieces of one leaf, so that counts stay small. Own choice.
const mostAbreast = 250

// abreast returns how many of a kind lie behind and beside each other on a leaf.
func (k *want) abreast(l, width nm, c *cost) (along, across int64) {
	along, across = (l+c.cross)/(k.l+c.cross), (width+c.rip)/(k.w+c.rip)
	along = min(along, mostAbreast)
	return along, max(1, min(across, mostAbreast/along))
}

// timesOf is the list of that number; nil for one of each.
func (r *rig) timesOf(gang int32) []int64 {
	if gang == 0 {
		return nil
	}
	return r.gangs[gang-1]
}

// ganged are worths of a leaf's set of each kind, of so many of them at a time.
func ganged(value, times []int64) []int64 {
	if times == nil {
		return value
	}
	out := make([]int64, len(value))
	for p := range value {
		out[p] = value[p] * times[p]
	}
	return out
}

// strips notes that a leaf that was just sawn, and is larger than its part, is parted into so many
// of it, and what becomes of each.
func (s *stackWriter) strips(k *want, roles []Role, sets []int) {
	if !s.isParted(k) {
		return
	}
	l := &s.b.Leaves[len(s.b.Leaves)-1]
	for i := range roles {
		l.Strips = append(l.Strips, Strip{Role: roles[i], Set: sets[i]})
	}
}

// isParted reports whether leaves of a kind are parted.
func (s *stackWriter) isParted(k *want) bool {
	return !s.p.turned && (k.l < s.p.length || k.w < s.p.width)
}

// part crosscuts and rips the leaves that are parted.
func (s *stackWriter) part() {
	for n := range s.b.Leaves {
		l := &s.b.Leaves[n]
		if l.Strips == nil {
			continue
		}
		k := &s.r.kinds[l.Part]
		_, across := k.abreast(s.p.length, s.p.width, &s.r.cost)
		rest := inHand{box: s.lies, number: l.Piece}
		var row inHand
		for i := range l.Strips {
			if i%int(across) == 0 {
				row, rest = s.splitOff(rest, false, k.l)
			}
			var strip inHand
			strip, row = s.splitOff(row, true, k.w)
			at := &s.out.Places[strip.number]
			one := &l.Strips[i]
			one.Piece, one.X, one.Y, one.Length, one.Width = strip.number, at.X0, at.Y0, exact.Length(k.l), exact.Length(k.w)
		}
	}
}

// splitOff takes a size off the front of a flat piece, across it by a rip or along it by a crosscut,
// and returns what came off and what is left.
func (s *stackWriter) splitOff(piece inHand, across bool, size nm) (off, rest inHand) {
	low, high := piece.box, piece.box
	step := Step{Action: Crosscut, Piece: piece.number, Against: Start}
	kerf, edge, end, whole := s.r.cross, piece.x0, piece.x1, s.w.l
	flip, long := s.w.flipX, piece.y1-piece.y0
	if across {
		step.Action, step.Against = Rip, NearEdge
		kerf, edge, end, whole = s.r.rip, piece.y0, piece.y1, s.w.ref
		flip, long = s.w.flipY, piece.x1-piece.x0
	}
	at := edge + size
	if at == end {
		return piece, inHand{number: -1}
	}
	if across {
		low.y1, high.y0 = at, at+kerf
	} else {
		low.x1, high.x0 = at, at+kerf
	}
	lies := s.out.Places[piece.number]
	thick := exact.Whole(*lies.Z1 - *lies.Z0)
	off, rest = inHand{low, s.place(low, lies.Z0, lies.Z1), true}, inHand{high, -1, true}
	if at+kerf < end {
		rest.number = s.place(high, lies.Z0, lies.Z1)
	}
	step.At, step.Kerf, step.Fence, step.Low, step.High = exact.Length(at), exact.Length(kerf), exact.Length(size), off.number, rest.number
	if flip {
		step = step.turned(whole, at+kerf)
	}
	s.add(step)
	s.dust = s.dust.Plus(exact.Box(min(kerf, end-at), long, thick))
	return off, rest
}
