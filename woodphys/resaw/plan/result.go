package plan

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// writer turns the plan of one billet into blanks, leaves and steps.
type writer struct {
	w     *offer
	r     *rig
	parts []want
	made  []int // sets of each kind so far, over all billets; of pooled kinds pieces
	out   BilletPlan
	dust  exact.Cubic
	shave exact.Cubic
	plate exact.Cubic
}

// inHand is a piece of wood in hand, in the oriented wood.
type inHand struct {
	box
	number int
	ripped bool
}

// newPiece numbers a piece; one of no size is none.
func (t *writer) newPiece(b box, ripped bool) inHand {
	if b.x1 <= b.x0 || b.y1 <= b.y0 {
		return inHand{b, -1, ripped}
	}
	return inHand{b, t.place(b, nil, nil), ripped}
}

// place notes where a new piece lies and returns its number.
func (t *writer) place(b box, z0, z1 *quantity.Length) int {
	x0, x1 := t.w.turnX(b.x0, b.x1)
	y0, y1 := t.w.turnY(b.y0, b.y1)
	t.out.Places = append(t.out.Places, Place{X0: exact.Length(x0), X1: exact.Length(x1), Y0: exact.Length(y0),
		Y1: exact.Length(y1), Z0: z0, Z1: z1})
	return len(t.out.Places) - 1
}

// clip takes the air off a piece whose outline narrows.
func (t *writer) clip(b box) box {
	low0, high0 := t.w.edges(b.x0, b.x0)
	low1, high1 := t.w.edges(b.x1, b.x1)
	b.y0, b.y1 = max(b.y0, min(low0, low1)), min(b.y1, max(high0, high1))
	return b
}

// write returns the plan of the billet for a way to cut it.
func (t *writer) write(plan *way) BilletPlan {
	w := t.w
	whole := t.newPiece(box{0, w.l, 0, w.ref}, false)
	t.out.Remainder = exact.Length(w.l)
	if plan != nil {
		t.out.Remainder = exact.Length(max(0, w.l-plan.box().x1-t.r.cross))
		t.cut(plan, whole)
	}
	t.out.Shares = t.shares()
	return t.out
}

// cut cuts a piece as its way says: the waste before and behind what is wanted comes off
// where it is no more than one length or one strip.
func (t *writer) cut(p *way, piece inHand) {
	if p.low != nil && !p.across {
		low, high := t.crosscut(piece, p.low.box().x1, true)
		t.cut(p.low, low)
		t.cut(p.high, high)
		return
	}
	want := p.box()
	if p.low == nil && piece.ripped {
		piece = t.edges(piece, want)
	}
	piece = t.ends(piece, want)
	if p.low == nil {
		t.blank(&p.blank, t.edges(piece, want))
		return
	}
	low, high := t.rip(piece, p.low.box().y1, true)
	t.cut(p.low, low)
	t.cut(p.high, high)
}

// ends crosscuts a piece to the length that is wanted of it.
func (t *writer) ends(piece inHand, want box) inHand {
	if want.x0 > piece.x0 {
		_, piece = t.crosscut(piece, want.x0-t.r.cross, false)
	}
	if want.x1 < piece.x1 {
		piece, _ = t.crosscut(piece, want.x1, true)
	}
	return piece
}

// edges rips a piece to the width that is wanted of it: the far edge first, which is
// straight then for a sliver that is taken off the near one. Where the near edge slants, the
// far one is what lies against the fence: a sliver thinner than the kerf is taken off it
// last, from the near edge that is straight by then.
func (t *writer) edges(piece inHand, want box) inHand {
	if sliver := want.y1 < piece.y1 && want.y1+t.r.rip > piece.y1; sliver && t.slants(piece.box) {
		_, piece = t.rip(piece, want.y0-t.r.rip, false)
	}
	if want.y1 < piece.y1 {
		piece, _ = t.rip(piece, want.y1, true)
	}
	if want.y0 > piece.y0 {
		_, piece = t.rip(piece, want.y0-t.r.rip, false)
	}
	return piece
}

// crosscut parts a piece by a kerf that begins at a place along it. keepsLow says that
// the part before the kerf is the one wanted.
func (t *writer) crosscut(piece inHand, at nm, keepsLow bool) (low, high inHand) {
	to := at + t.r.cross
	a, b := piece.box, piece.box
	a.x1, b.x0 = at, to
	action := Crosscut
	if piece.ripped {
		action = Trim
	}
	t.dust = t.dust.Plus(t.volume(max(at, piece.x0), min(to, piece.x1), piece.y0, piece.y1))
	low, high = t.newPiece(t.clip(a), piece.ripped), t.newPiece(t.clip(b), piece.ripped)
	s := Step{Action: action, Piece: piece.number, At: exact.Length(at), Kerf: exact.Length(t.r.cross),
		Low: low.number, High: high.number}
	s.Against, s.Fence = against(at, to, piece.x0, piece.x1, keepsLow, Start, End)
	if t.w.flipX {
		s = s.turned(t.w.l, to)
	}
	t.add(s)
	return low, high
}

// rip parts a piece by a kerf that begins at a place across it.
func (t *writer) rip(piece inHand, at nm, keepsLow bool) (low, high inHand) {
	to := at + t.r.rip
	a, b := piece.box, piece.box
	a.y1, b.y0 = at, to
	t.dust = t.dust.Plus(t.volume(piece.x0, piece.x1, max(at, piece.y0), min(to, piece.y1)))
	low, high = t.newPiece(a, true), t.newPiece(b, true)
	s := Step{Action: Rip, Piece: piece.number, At: exact.Length(at), Kerf: exact.Length(t.r.rip), Low: low.number,
		High: high.number}
	slanting := t.slants(piece.box)
	s.Against, s.Fence = against(at, to, piece.y0, piece.y1, keepsLow && !slanting, NearEdge, FarEdge)
	if slanting {
		s.Against, s.Fence = FarEdge, exact.Length(piece.y1-to)
	}
	if t.w.flipY {
		s = s.turned(t.w.ref, to)
	}
	t.add(s)
	return low, high
}

// slants reports whether the near edge of a piece is a slanting edge of the wood.
func (t *writer) slants(b box) bool { return !t.w.nearStraight() && b.y0 < t.outermost(b) }

// outermost is where the near edge of a piece lies farthest in.
func (t *writer) outermost(b box) nm {
	low0, _ := t.w.edges(b.x0, b.x0)
	low1, _ := t.w.edges(b.x1, b.x1)
	return max(low0, low1)
}

// against tells which edge of a piece from p0 to p1 lies against the fence or stop for a
// kerf, and what the fence is set to: the part that is kept where that is before the kerf
// or where there is wood before it.
func against(at, to, p0, p1 nm, keepsLow bool, low, high Edge) (Edge, quantity.Length) {
	if keepsLow || at >= p0 {
		return low, exact.Length(at - p0)
	}
	return high, exact.Length(p1 - to)
}

// turned is the step in wood that lies the other way round, with the end of its kerf.
func (s Step) turned(size, to nm) Step {
	s.At, s.Low, s.High, s.Against = exact.Length(size-to), s.High, s.Low, s.Against.opposite()
	return s
}

func (t *writer) add(s Step) {
	t.out.Steps = append(t.out.Steps, s)
	if s.Action.cuts() {
		t.out.Cuts++
	}
}
