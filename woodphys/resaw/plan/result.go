package plan

import (
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// writer turns the plan of one billet into blanks, leaves and steps.
type writer struct {
	w     *offer
	r     *rig
	parts []want
	made  []int // sets of each kind so far, over all billets
	out   BilletPlan
	next  int // number of the next piece
	dust  exact.Cubic
	shave exact.Cubic
	plate exact.Cubic
}

func (t *writer) piece() int {
	t.next++
	return t.next
}

// step notes a cut between from and to in the oriented wood. low and high say
// whether anything is left there; the pieces are returned.
func (t *writer) step(action Action, piece int, from, to nm, flip nm, low, high bool) (lowPiece, highPiece int) {
	lowPiece, highPiece = -1, -1
	if low {
		lowPiece = t.piece()
	}
	if high {
		highPiece = t.piece()
	}
	s := Step{Action: action, Piece: piece, At: exact.Length(from), Kerf: exact.Length(to - from), Low: lowPiece,
		High: highPiece}
	if flip >= 0 {
		s.At, s.Low, s.High = exact.Length(flip-to), highPiece, lowPiece
	}
	t.out.Steps = append(t.out.Steps, s)
	t.out.Cuts++
	return lowPiece, highPiece
}

// write returns the plan of the billet for the sections of a plan.
func (t *writer) write(plan []sectionPlan) BilletPlan {
	w := t.w
	flip := nm(-1)
	if w.flipX {
		flip = w.l
	}
	rest, pos := 0, nm(0)
	for _, s := range plan {
		if rest < 0 {
			break // cannot be: a section has wood
		}
		if s.from > pos {
			from := s.from - t.r.cross
			_, rest = t.step(Crosscut, rest, from, s.from, flip, from > pos, true)
			t.dust = t.dust.Plus(t.volume(max(pos, from), s.from, 0, w.ref))
		}
		section := rest
		pos = s.to
		if s.to < w.l {
			section, rest = t.step(Crosscut, rest, s.to, s.to+t.r.cross, flip, true, s.to+t.r.cross < w.l)
			pos = min(w.l, s.to+t.r.cross)
			t.dust = t.dust.Plus(t.volume(s.to, pos, 0, w.ref))
		}
		t.section(s, section)
	}
	t.out.Remainder = exact.Length(w.l - pos)
	t.out.Shares = t.shares()
	return t.out
}

func (t *writer) section(s sectionPlan, piece int) {
	w := t.w
	flip := nm(-1)
	if w.flipY {
		flip = w.ref
	}
	low0, high0 := w.edges(s.from, s.from)
	low1, high1 := w.edges(s.to, s.to)
	pos, top := min(low0, low1), max(high0, high1)
	for i, p := range s.strips {
		if p.y > pos || i == 0 && !w.nearStraight() {
			from := p.y - t.r.rip
			_, piece = t.step(Rip, piece, from, p.y, flip, from > pos, true)
			t.dust = t.dust.Plus(t.volume(s.from, s.to, max(pos, from), p.y))
		}
		strip := piece
		pos = p.y + p.width
		if pos < top || !w.farStraight() {
			end := pos + t.r.rip
			strip, piece = t.step(Rip, piece, pos, end, flip, true, end < top)
			t.dust = t.dust.Plus(t.volume(s.from, s.to, pos, min(end, top)))
			pos = min(end, top)
		}
		t.strip(s, p, strip)
	}
}

func (t *writer) strip(s sectionPlan, p stripPlan, piece int) {
	w := t.w
	flip := nm(-1)
	if w.flipX {
		flip = w.l
	}
	if p.x > s.from {
		from := p.x - t.r.cross
		_, piece = t.step(Trim, piece, from, p.x, flip, from > s.from, true)
		t.dust = t.dust.Plus(t.volume(max(from, s.from), p.x, p.y, p.y+p.width))
	}
	if end := p.x + p.length; end < s.to {
		to := end + t.r.cross
		piece, _ = t.step(Trim, piece, end, to, flip, true, to < s.to)
		t.dust = t.dust.Plus(t.volume(end, min(to, s.to), p.y, p.y+p.width))
	}
	t.blank(p, piece)
}

func (t *writer) blank(p stripPlan, piece int) {
	w, r := t.w, t.r
	spot := w.flat(p.x, p.length, p.y, p.width)
	face, usable := spot.face, spot.usable
	x0, _ := w.turnX(p.x, p.x+p.length)
	y0, _ := w.turnY(p.y, p.y+p.width)
	b := Blank{
		X: exact.Length(x0), Y: exact.Length(y0), Length: exact.Length(p.length), Width: exact.Length(p.width),
		Face1: exact.Length(face), Usable: exact.Length(usable),
	}
	flat := t.piece()
	t.out.Steps = append(t.out.Steps, Step{Action: FlattenBlank, Piece: piece, At: b.Face1, Kerf: b.Usable, Low: flat,
		High: -1})
	area := func(thick nm) exact.Cubic { return exact.Box(p.length, p.width, thick) }
	rough := t.volume(p.x, p.x+p.length, p.y, p.y+p.width)
	if flatVolume := area(usable); rough.Compare(flatVolume) > 0 {
		t.shave = t.shave.Plus(rough.Minus(flatVolume))
	}
	piece = flat
	for i, q := range p.sets {
		last := i == len(p.sets)-1
		if q.part < 0 {
			end := usable
			if !last {
				end = p.sets[i+1].at
			}
			slab := end - r.reface - r.resaw
			if slab <= q.at {
				_, piece = t.step(Plane, piece, q.at, end, -1, false, true)
				t.shave = t.shave.Plus(area(end - q.at))
			} else {
				b.Leaves = append(b.Leaves, Leaf{len(b.Leaves) + 1, RoleRejected, -1, 0, exact.Length(q.at),
					exact.Length(slab)})
				_, piece = t.step(Resaw, piece, slab, slab+r.resaw, -1, true, true)
				t.dust = t.dust.Plus(area(r.resaw))
				t.shave = t.shave.Plus(area(r.reface))
			}
			continue
		}
		role, set := RoleUnpaired, 0
		if most := t.parts[q.part].most; most == nil || t.made[q.part] < *most {
			t.made[q.part]++
			role, set = RoleSet, t.made[q.part]
			t.out.Worth += t.parts[q.part].worth
		}
		k := r.kinds[q.part]
		pos := q.at // where the wood in hand begins
		for n := range k.pieces {
			end := pos + k.t
			b.Leaves = append(b.Leaves, Leaf{len(b.Leaves) + 1, role, q.part, set, exact.Length(pos),
				exact.Length(end)})
			t.plate = t.plate.Plus(area(k.t))
			left := usable - end
			if last && n == k.pieces-1 {
				if r.far && left <= r.resaw { // planed, or kept thick
					t.shave = t.shave.Plus(area(left))
					break
				}
				t.step(Resaw, piece, end, end+r.resaw, -1, true, left > r.resaw)
				t.dust = t.dust.Plus(area(r.resaw))
				b.Remainder = exact.Length(left - r.resaw)
				break
			}
			_, piece = t.step(Resaw, piece, end, end+r.resaw, -1, true, true)
			t.dust = t.dust.Plus(area(r.resaw))
			t.shave = t.shave.Plus(area(r.reface))
			pos = end + r.resaw + r.reface
		}
	}
	t.out.Blanks = append(t.out.Blanks, b)
}

// volume returns the volume of the rough wood over a rectangle: its area inside
// the outline at mid-length times the thickness at its centre, which is exact for
// a billet without taper in width, to the rounding of that thickness.
func (t *writer) volume(x0, x1, y0, y1 nm) exact.Cubic {
	w := t.w
	mid := x0 + (x1-x0)/2
	low, high := w.edges(mid, mid)
	y0, y1 = max(y0, low), min(y1, high)
	if y1 <= y0 {
		return exact.Cubic{}
	}
	at := y0 + (y1-y0)/2
	return exact.Box(x1-x0, y1-y0, max(0, w.thinnest(mid, mid, at, at)))
}

// shares adds up. The offcuts are what is left of the whole.
func (t *writer) shares() resaw.Shares {
	s := resaw.Shares{Whole: t.whole(), Plate: t.plate, Kerf: t.dust, Shavings: t.shave}
	used := s.Plate.Plus(s.Kerf).Plus(s.Shavings)
	if used.Compare(s.Whole) > 0 {
		s.Whole = used // by the rounding of a tapered billet used to the last
	}
	s.Offcut = s.Whole.Minus(used)
	return s
}

// whole returns the volume of the rough billet: exact for a box; for a tapered
// one Simpson's rule over its length, exact for the quadratic that the area of
// the section is, to floating point.
func (t *writer) whole() exact.Cubic {
	w := t.w
	if w.w0 == w.w1 && w.t == w.tx && w.t == w.ty {
		return exact.Box(w.l, w.w0, w.t)
	}
	area := func(share float64) float64 {
		width := float64(w.w0) + share*float64(w.w1-w.w0)
		thick := float64(w.t) + share*float64(w.tx-w.t)
		return width*thick + float64(w.ty-w.t)*width*width/(2*float64(w.w0))
	}
	return exact.CubicOf(float64(w.l) * (area(0) + 4*area(0.5) + area(1)) / 6)
}
