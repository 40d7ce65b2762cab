package plan

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// stackWriter writes how one blank is flattened and resawn.
type stackWriter struct {
	*writer
	p      *blankPlan
	b      Blank
	lies   box // in the oriented wood
	piece  int // in hand
	pos    nm  // where it begins, in the direction of the leaves
	early  nm  // by how much sets begin before their planned places, so that slabs are whole steps
	end    nm  // where it ends
	fresh  bool
	across nm                   // of a leaf: its width, or the thickness of a blank on its side
	face   struct{ l, w, n nm } // of what a leaf is used for: so many pieces of that length and width
}

func (t *writer) blank(p *blankPlan, piece inHand) {
	w := t.w
	behind := exact.Cubic{}
	if !p.split {
		piece, behind = t.sawTaper(p, piece)
	}
	spot := w.flat(p.x, p.length, p.y, p.width)
	x0, _ := w.turnX(p.x, p.x+p.length)
	y0, _ := w.turnY(p.y, p.y+p.width)
	s := &stackWriter{writer: t, p: p, lies: box{p.x, p.x + p.length, p.y, p.y + p.width}, end: spot.usable,
		across: p.width}
	s.b = Blank{X: exact.Length(x0), Y: exact.Length(y0), Length: exact.Length(p.length), Width: exact.Length(p.width),
		Face1: exact.Length(spot.face), Usable: exact.Length(spot.usable), Turned: p.turned, Piece: piece.number}
	if p.split {
		s.wedge(piece)
		return
	}
	if p.turned {
		s.end, s.across = p.width, spot.usable
	}
	rough := t.volume(p.x, p.x+p.length, p.y, p.y+p.width)
	if left := exact.Box(p.length, p.width, spot.usable).Plus(behind); rough.Compare(left) > 0 {
		t.shave = t.shave.Plus(rough.Minus(left))
	}
	s.piece = s.newPart(0, s.end)
	t.add(Step{Action: FlattenBlank, Piece: piece.number, At: s.b.Face1, Kerf: s.b.Usable, Low: s.piece, High: -1})
	for i, q := range p.sets {
		last := i == len(p.sets)-1
		if q.part < 0 {
			end := s.end
			if !last {
				end = p.sets[i+1].at
			}
			s.slab(q.at, end)
			continue
		}
		s.set(q, last)
	}
	s.part()
	t.out.Blanks = append(t.out.Blanks, s.b)
}

// newPart numbers a part of the flat blank between two depths.
func (s *stackWriter) newPart(from, to nm) int {
	face := exact.Whole(s.b.Face1)
	if s.p.turned {
		n := s.place(s.lies, exact.LengthPtr(face), exact.LengthPtr(face+exact.Whole(s.b.Usable)))
		lies := &s.out.Places[n]
		lies.Y0, lies.Y1 = s.b.Y+exact.Length(from), s.b.Y+exact.Length(to)
		return n
	}
	return s.place(s.lies, exact.LengthPtr(face+from), exact.LengthPtr(face+to))
}

// volumeOf is that of a slice of the blank.
func (s *stackWriter) volumeOf(thick nm) exact.Cubic { return exact.Box(s.p.length, s.across, thick) }

// resaw takes a slice off the front of the wood in hand and returns its number.
func (s *stackWriter) resaw(to nm, more bool) int {
	s.reface()
	slice, rest := s.newPart(s.pos, to), -1
	if more {
		rest = s.newPart(to+s.r.resaw, s.end)
	}
	step := Step{Action: Resaw, Piece: s.piece, At: exact.Length(to), Kerf: exact.Length(s.r.resaw), Low: slice,
		High: rest, Against: Face1, Fence: exact.Length(to - s.pos)}
	if s.p.turned {
		step.Against = NearEdge
	}
	s.add(step)
	s.dust = s.dust.Plus(s.volumeOf(min(s.r.resaw, max(0, s.end-to))))
	s.piece, s.pos, s.fresh = rest, to+s.r.resaw, true
	return slice
}

// reface planes the sawn face of the wood in hand before the next cut.
func (s *stackWriter) reface() {
	if !s.fresh || s.r.reface == 0 {
		return
	}
	s.fresh = false
	s.plane(Reface, s.pos+s.r.reface)
}

// plane takes the wood in hand down to a depth.
func (s *stackWriter) plane(action Action, to nm) {
	rest := s.newPart(to, s.end)
	s.add(Step{Action: action, Piece: s.piece, At: exact.Length(s.pos), Kerf: exact.Length(to - s.pos), Low: -1,
		High: rest, Against: Face1})
	s.shave = s.shave.Plus(s.volumeOf(to - s.pos))
	s.piece, s.pos = rest, to
}

// slab takes off what no leaf is sawn from, down to a depth or in whole steps to a little before
// it.
func (s *stackWriter) slab(from, end nm) {
	s.reface()
	from -= s.early
	thick := downToSteps(end-s.r.reface-s.r.resaw-from, s.r.step)
	if thick <= 0 {
		off := downToSteps(end-from, s.r.step)
		s.early = end - from - off
		if off > 0 {
			s.plane(Plane, from+off)
		}
		s.fresh = false
		return
	}
	s.early = end - from - thick - s.r.resaw - s.r.reface
	s.leaf(RoleRejected, -1, 0, from, from+thick, s.resaw(from+thick, true))
}

// leaf notes a leaf.
func (s *stackWriter) leaf(role Role, part, set int, from, to nm, piece int) {
	s.b.Leaves = append(s.b.Leaves, Leaf{Number: len(s.b.Leaves) + 1, Role: role, Part: part, Set: set,
		From: exact.Length(from), To: exact.Length(to), Piece: piece})
	if part >= 0 {
		s.plate = s.plate.Plus(exact.Box(s.face.l, s.face.w, (to-from)*s.face.n))
	}
}

// count says what becomes of a further set of a kind, or piece of a pooled one, and of
// which set it is. A pooled set is worth what it is where its last piece comes from.
func (s *stackWriter) count(part int) (Role, int) {
	k := &s.parts[part]
	if k.most != nil && s.made[part] >= *k.most {
		return RoleUnpaired, 0
	}
	s.made[part]++
	if s.made[part]%k.pool == 0 {
		s.out.Worth += k.whole
	}
	return RoleSet, (s.made[part]-1)/k.pool + 1
}

// set saws the leaves of one set, or of several side by side.
func (s *stackWriter) set(q placed, last bool) {
	k := s.r.kinds[q.part]
	roles, sets := make([]Role, q.count()), make([]int, q.count())
	for i := range roles {
		roles[i], sets[i] = s.count(q.part)
	}
	role, set := roles[0], sets[0]
	s.face.l, s.face.w, s.face.n = s.p.length, s.across, 1
	if s.isParted(&k) {
		s.face.l, s.face.w, s.face.n = k.l, k.w, nm(len(roles))
	}
	from := q.at - s.early
	for n := range k.pieces {
		end := from + k.t
		left := s.end - end
		if last && n == k.pieces-1 {
			s.lastLeaf(role, q.part, set, from, end, left)
			s.strips(&k, roles, sets)
			return
		}
		s.leaf(role, q.part, set, from, end, s.resaw(end, true))
		s.strips(&k, roles, sets)
		from = end + s.r.resaw + s.r.reface
	}
}

// lastLeaf saws the last leaf of the blank, or keeps it as it is where so little is left
// that it is planed, or kept thick.
func (s *stackWriter) lastLeaf(role Role, part, set int, from, end, left nm) {
	s.reface()
	if s.r.far && left <= s.r.resaw {
		s.leaf(role, part, set, from, end, s.piece)
		s.shave = s.shave.Plus(s.volumeOf(left))
		return
	}
	s.leaf(role, part, set, from, end, s.resaw(end, left > s.r.resaw))
	s.b.Remainder = quantity.Length(max(0, float64(exact.Length(left-s.r.resaw))))
}
