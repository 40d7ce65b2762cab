package sawlog

import "math"

// quarters cuts the bolt twice through the pith, and takes boards off both sawn faces of
// each quarter in turns, so that the rings stand steep in all of them.
func (s *sawing) quarters() cutUp {
	var out cutUp
	centre := s.centre()
	a := func(i int) vec { return direction(s.turn + float64(i)*math.Pi/2) }
	var of [4]cutUp
	for i := range 4 {
		q := quarter{s: s, centre: centre, a: a(i), b: a(i).turned()}
		one, other := q.boards(true), q.boards(false)
		if other.area() > one.area()+1e-12 {
			one = other
		}
		of[i] = one
	}
	out.cuts = s.line(centre, a(0))
	for _, i := range []int{1, 3} { // where no quarter beside it gives a board nothing is parted
		if len(of[i-1].shapes)+len(of[i].shapes) > 0 {
			out.cuts = append(out.cuts, s.ray(centre, a(i))...)
		}
	}
	for i := range of {
		out.shapes, out.cuts = append(out.shapes, of[i].shapes...), append(out.cuts, of[i].cuts...)
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
	taken := [2]float64{s.beyond(q.centre, q.a), s.beyond(q.centre, q.b)} // from the cuts through the pith, along a and along b
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
		out.cuts = append(out.cuts, q.cut(u, n, taken[1-side], end)...)
	}
	return out
}

// cut is the cut along u beyond a depth along n, as far as there is wood in the quarter.
func (q *quarter) cut(u, n vec, inner, depth float64) []Cut {
	all := q.s.beside(q.centre.dot(n)+depth, 1, u, n)
	for i := range all {
		at := q.centre.plus(n, depth+q.s.kerf/2).plus(u, inner)
		if from := (vec{float64(all[i].From.Y), float64(all[i].From.Z)}); from.minus(at).dot(u) < 0 {
			all[i].From = pointOf(at)
		}
	}
	return all
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
	half, thick, before := along.to-q.centre.dot(u), deep.to-q.centre.dot(n), q.centre.dot(n)-deep.from // of the pith about the centre
	in := math.Max(inner, math.Max(f1, f2))
	if c := s.clearance; c >= 0 && begin < c+thick {
		in = math.Max(in, c+half)
	}
	if s.steepest > 0 {
		in = math.Max(in, half+s.steepest*math.Max(end+before, thick-begin))
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
