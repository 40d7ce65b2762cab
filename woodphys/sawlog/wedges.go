package sawlog

import "math"

// Least and most sectors that are tried.
const (
	leastSectors = 6
	mostSectors  = 96
)

// wedges parts the bolt into equal sectors about the pith, as many as give the most
// wedges that are thick enough; of as many the thicker. The first cut goes through the whole
// log, so that both halves hold as many sectors: their number is even. A split parts a piece
// into equal halves, or it runs off: then only powers of two are tried.
func (s *sawing) wedges() cutUp {
	var best cutUp
	for n := leastSectors; n <= mostSectors; n += 2 {
		if s.kerf == 0 && n&(n-1) != 0 {
			continue
		}
		one := s.sectors(n)
		switch more := len(one.shapes) - len(best.shapes); {
		case more > 0, more == 0 && one.area() > best.area()+1e-12:
			best = one
		}
	}
	return best
}

// sectors are the wedges of n sectors.
func (s *sawing) sectors(n int) cutUp {
	centre, angle := s.centre(), 2*math.Pi/float64(n)
	along := func(i int) vec { return direction(s.turn + float64(i)*angle) }
	out := cutUp{sectors: n}
	gives := make([]bool, n)
	for i := range n {
		c, fits := s.wedge(centre, along(i), along(i+1), angle)
		fits = fits && s.inWood(centre, along(i)) && s.inWood(centre, along(i+1))
		if gives[i] = fits; fits {
			out.shapes = append(out.shapes, c)
		}
	}
	out.cuts = s.line(centre, along(0))
	for _, i := range s.order(n) {
		if s.kerf == 0 || gives[i-1] || gives[i] { // what is split is split to the end
			out.cuts = append(out.cuts, s.ray(centre, along(i))...)
		}
	}
	return out
}

// order is the one in which rays are cut once the first cut has parted n sectors into halves:
// one after another, of a split always in the middle of a piece.
func (s *sawing) order(n int) []int {
	var out []int
	if s.kerf > 0 {
		for i := 1; i < n; i++ {
			if i != n/2 {
				out = append(out, i)
			}
		}
		return out
	}
	for piece := n / 2; piece > 1; piece /= 2 {
		for i := piece / 2; i < n; i += piece {
			out = append(out, i)
		}
	}
	return out
}

// tooWide reports whether a wedge is wider than wanted once it is dry.
func (s *sawing) tooWide(c *shape) bool {
	return s.maxWidth > 0 && c.width > 0 && c.width*s.shrink.across(s.middleAngle(c)) > s.maxWidth
}

// wedge is the wedge between two rays from the pith. Face 1 lies along the second, half a
// kerf off it, its near edge to the bark; the wedge is cut square to face 1 at both edges, and
// to the greatest width wanted on the side of the pith.
//
// With a along the second ray, the angle v between both rays and face 2 off the first ray:
// thickness at a = a tan v - (loss at the first ray)/cos v - (loss at the second ray).
func (s *sawing) wedge(centre, first, second vec, angle float64) (shape, bool) {
	into := vec{}.minus(second).turned() // from face 1 to the first ray
	off1, off2 := s.beyond(centre, second), s.beyond(centre, first)
	tan, cos := math.Tan(angle), math.Cos(angle)
	lost := off1 + off2/cos
	f1, t1, one := s.wood.chord(centre.plus(into, off1), second)
	f2, t2, two := s.wood.chord(centre.plus(first.turned(), off2), first)
	if !one || !two {
		return shape{}, false
	}
	along := func(t float64) float64 { return t*cos + off2*math.Sin(angle) } // of face 2, seen along face 1
	in := math.Max(0, math.Max(f1, along(f2)))
	in = math.Max(in, (s.thin+lost)/tan)
	if s.clearance >= 0 {
		in = math.Max(in, s.clearance+s.pith.farthest(centre))
	}
	out := math.Min(t1, along(t2))
	c := shape{lying: lying{centre.plus(second, out).plus(into, off1), vec{}.minus(second)}, width: out - in,
		near: out*tan - lost, far: math.Max(0, in*tan-lost), edges: [2]Edge{Bark, Pith}}
	for s.tooWide(&c) {
		c.width = s.maxWidth / s.shrink.across(s.middleAngle(&c)) * (1 - 1e-9)
		c.far = math.Max(0, (out-c.width)*tan-lost)
	}
	if c.width <= 0 || c.near < s.thickness-1e-9 || !s.wideEnough(&c) {
		return c, false
	}
	least := math.Inf(1)
	for _, p := range s.pith {
		least = math.Min(least, c.leastAngle(p))
	}
	return c, math.Tan(least) >= s.steepest-1e-9
}
