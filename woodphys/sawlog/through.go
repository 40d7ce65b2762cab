package sawlog

import "math"

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

// boardsFrom are the boards of one position: one begins at first along n. All between the first
// and the last that gives a billet are sawn, so that every board has a cut on both faces.
func (s *sawing) boardsFrom(first float64, u, n vec) cutUp {
	var out cutUp
	pitch := s.thickness + s.kerf
	low, high := s.wood.reach(n)
	empty := 0 // boards without a billet since the last that gave one
	for i := math.Ceil((low - first) / pitch); ; i++ {
		begin := first + i*pitch
		if begin+s.thickness > high {
			break
		}
		shapes := s.board(begin, u, n)
		switch {
		case len(shapes) > 0 && len(out.shapes) == 0:
			out.first = begin
			out.cuts = append(out.cuts, s.beside(begin, -1, u, n)...)
		case len(shapes) > 0:
			out.empty += empty
			for j := empty; j >= 0; j-- {
				out.cuts = append(out.cuts, s.beside(begin-float64(j)*pitch-s.kerf, 1, u, n)...)
			}
		case len(out.shapes) > 0:
			empty++
			continue
		default:
			continue
		}
		empty = 0
		out.shapes = append(out.shapes, shapes...)
	}
	if len(out.shapes) > 0 {
		last := &out.shapes[len(out.shapes)-1]
		out.cuts = append(out.cuts, s.beside(last.corner.dot(n)+s.thickness, 1, u, n)...)
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

// reach is how far a region may reach along a direction, at most.
func (g *region) reach(n vec) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	for _, d := range g.discs {
		low, high = math.Max(low, d.y*n.y-d.r), math.Min(high, d.y*n.y+d.r)
	}
	return low, high
}
