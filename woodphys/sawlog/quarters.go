package sawlog

import "math"

// quarters cuts the bolt twice through the pith, and takes boards off both sawn faces of
// each quarter in turns, so that the rings stand steep in all of them.
func (s *sawing) quarters() cutUp {
	var out cutUp
	centre := s.pith.middle(direction(s.turn))
	for i := range 4 {
		a := direction(s.turn + float64(i)*math.Pi/2)
		q := quarter{s: s, centre: centre, a: a, b: a.turned()}
		if _, to, there := s.wood.chord(centre, a); there && to > 0 {
			out.cuts = append(out.cuts, cutBetween(centre, centre.plus(a, to)))
		}
		one, other := q.boards(true), q.boards(false)
		if other.area() > one.area()+1e-12 {
			one = other
		}
		out.shapes, out.cuts = append(out.shapes, one.shapes...), append(out.cuts, one.cuts...)
	}
	return out
}

// quarter is one quarter: what lies on the sides of a and b from the pith.
type quarter struct {
	s      *sawing
	centre vec
	a, b   vec
}

// boards takes boards in turns, the first along a or along b.
func (q *quarter) boards(alongA bool) cutUp {
	var out cutUp
	s := q.s
	taken := [2]float64{s.kerf / 2, s.kerf / 2} // from the sawn faces, square to b and to a
	done := [2]bool{}
	for turn := 0; !done[0] || !done[1]; turn++ {
		side := turn % 2
		if !alongA {
			side = 1 - side
		}
		if done[side] {
			continue
		}
		u, n := q.a, q.b // along the board, and through it
		if side == 1 {
			u, n = q.b, q.a
		}
		c, end, fits := q.board(u, n, taken[1-side], taken[side], side == 0)
		if !fits {
			done[side] = true
			continue
		}
		out.shapes = append(out.shapes, c)
		taken[side] = end + s.kerf
		p := q.centre.plus(n, end+s.kerf/2)
		if _, to, there := s.wood.chord(p, u); there {
			out.cuts = append(out.cuts, cutBetween(p.plus(u, taken[1-side]), p.plus(u, math.Max(to, taken[1-side]))))
		}
	}
	return out
}

// board is the board along u that begins at a depth along n, and begins along u at least
// where the boards of the other face end. Its near edge is the one to the bark.
func (q *quarter) board(u, n vec, inner, begin float64, alongA bool) (shape, float64, bool) {
	s := q.s
	end := begin + s.thickness
	f1, t1, one := s.wood.chord(q.centre.plus(n, begin), u)
	f2, t2, two := s.wood.chord(q.centre.plus(n, end), u)
	if !one || !two {
		return shape{}, end, false
	}
	along, deep := s.pith.span(u), s.pith.span(n)
	half, thick := along.to-q.centre.dot(u), deep.to-q.centre.dot(n) // of the pith about the centre
	in := math.Max(inner, math.Max(f1, f2))
	if c := s.clearance; c >= 0 && begin < c+thick {
		in = math.Max(in, c+half)
	}
	if s.steepest > 0 {
		in = math.Max(in, half+s.steepest*(end+thick))
	}
	out := math.Min(t1, t2)
	if out <= in {
		return shape{}, end, false
	}
	face := begin // face 1 lies so that the frame is right-handed
	if alongA {
		face = end
	}
	c := shape{lying: lying{q.centre.plus(u, out).plus(n, face), vec{}.minus(u)}, width: out - in, near: s.thickness,
		far: s.thickness, edges: [2]Edge{Bark, Pith}}
	return c, end, s.wideEnough(&c)
}
