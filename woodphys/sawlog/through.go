package sawlog

import (
	"math"

	"latewood/woodphys/quantity"
)

// positions are how many positions of the first cut are tried over one board and kerf,
// besides a board and a kerf in the middle of the pith and a board from a flat face.
const positions = 48

// boards cuts the bolt through and through: parallel boards, a kerf apart. A board that
// would hold the pith where it is kept out gives what lies to either side of it.
func (s *sawing) boards() cutUp {
	u := direction(s.turn)
	n := u.turned()
	pitch := s.thickness + s.kerf
	at := s.pith.middle(u).dot(n)
	begins := []float64{at - s.thickness/2, at + s.kerf/2}
	if s.wood.half {
		begins = append(begins, 0) // from the flat face
	}
	for i := range positions {
		begins = append(begins, at+pitch*float64(i)/positions)
	}
	var best cutUp
	most := 0.0
	for _, first := range begins {
		one := s.boardsFrom(first, u, n)
		if area := one.area(); area > most+1e-12 {
			best, most = one, area
		}
	}
	return best
}

// boardsFrom are the boards of one position: one begins at first along n.
func (s *sawing) boardsFrom(first float64, u, n vec) cutUp {
	var out cutUp
	pitch := s.thickness + s.kerf
	low, high := s.wood.reach(n)
	for i := math.Ceil((low - first) / pitch); ; i++ {
		begin := first + i*pitch
		if begin+s.thickness > high {
			break
		}
		shapes := s.board(begin, u, n)
		if len(shapes) == 0 {
			continue
		}
		if len(out.shapes) == 0 {
			out.first = begin
			out.cuts = append(out.cuts, s.cutAt(begin-s.kerf/2, u, n))
		}
		out.shapes = append(out.shapes, shapes...)
		out.cuts = append(out.cuts, s.cutAt(begin+s.thickness+s.kerf/2, u, n))
	}
	return out
}

// board is what the board that begins at a place along n gives.
func (s *sawing) board(begin float64, u, n vec) []shape {
	end := begin + s.thickness
	f1, t1, one := s.wood.chord(vec{}.plus(n, begin), u)
	f2, t2, two := s.wood.chord(vec{}.plus(n, end), u)
	if !one || !two || math.Max(f1, f2) >= math.Min(t1, t2) {
		return nil
	}
	left := []interval{{math.Max(f1, f2), math.Min(t1, t2)}}
	across, deep := s.pith.span(u), s.pith.span(n)
	if c := s.clearance; c >= 0 && deep.from-c < end && deep.to+c > begin {
		left = without(left, interval{across.from - c, across.to + c})
	}
	if s.steepest > 0 { // the ring angle is too low within this of the pith
		reach := math.Max(s.kerf/2, s.steepest*math.Max(end-deep.from, deep.to-begin))
		left = without(left, interval{across.from - reach, across.to + reach})
	}
	var out []shape
	for _, one := range left {
		c := shape{lying: lying{vec{}.plus(n, begin).plus(u, one.from), u}, width: one.to - one.from, near: s.thickness,
			far: s.thickness, edges: [2]Edge{Bark, Bark}}
		switch {
		case one.from >= across.to:
			c.edges[0] = Pith
		case one.to <= across.from:
			c.edges[1] = Pith
		}
		if s.wideEnough(&c) {
			out = append(out, c)
		}
	}
	return out
}

// cutAt is the cut that lies at a place along n, as far as there is wood.
func (s *sawing) cutAt(at float64, u, n vec) Cut {
	p := vec{}.plus(n, at)
	from, to, there := s.wood.chord(p, u)
	if !there { // just outside: short, about its nearest board
		from, to = 0, 0
	}
	return cutBetween(p.plus(u, from), p.plus(u, to))
}

func cutBetween(a, b vec) Cut {
	return Cut{Point{quantity.Length(a.y), quantity.Length(a.z)}, Point{quantity.Length(b.y), quantity.Length(b.z)}}
}

// reach is how far a region may reach along a direction, at most.
func (g *region) reach(n vec) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	for _, d := range g.discs {
		low, high = math.Max(low, d.y*n.y-d.r), math.Min(high, d.y*n.y+d.r)
	}
	return low, high
}
