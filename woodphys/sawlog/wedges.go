package sawlog

import "math"

// Least and most sectors that are tried.
const (
	leastSectors = 5
	mostSectors  = 96
)

// wedges parts the bolt into equal sectors about the pith, as many as give the most
// wedges that are thick enough; of as many the thicker. A split parts a piece into equal
// halves, or it runs off: then only powers of two are tried.
func (s *sawing) wedges() cutUp {
	var best cutUp
	for n := leastSectors; n <= mostSectors; n++ {
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
	out := cutUp{sectors: n}
	angle := 2 * math.Pi / float64(n)
	centre := s.pith.middle(direction(s.turn))
	for i := range n {
		far := direction(s.turn + float64(i+1)*angle)
		if c, fits := s.wedge(centre, direction(s.turn+float64(i)*angle), far, angle); fits {
			out.shapes = append(out.shapes, c)
		}
		if _, to, there := s.wood.chord(centre, far); there && to > 0 {
			out.cuts = append(out.cuts, cutBetween(centre, centre.plus(far, to)))
		}
	}
	return out
}

// tooWide reports whether a wedge is wider than wanted once it is dry.
func (s *sawing) tooWide(c *shape) bool {
	return s.maxWidth > 0 && c.width > 0 && c.width*s.shrink.across(s.middleAngle(c)) > s.maxWidth
}

// wedge is the wedge between two rays from the pith. Face 1 lies along the second, half a
// kerf off it, its near edge to the bark; the wedge is cut square to face 1 at both edges, and to the greatest width wanted on the side
// of the pith.
//
// With a along the second ray and the angle v between both rays, face 2 lies half a kerf
// off the first ray: thickness at a = a tan v - k/(2 cos v) - k/2.
func (s *sawing) wedge(centre, first, second vec, angle float64) (shape, bool) {
	into := vec{}.minus(second).turned() // from face 1 to the first ray
	half := s.kerf / 2
	tan, cos := math.Tan(angle), math.Cos(angle)
	lost := half + half/cos
	f1, t1, one := s.wood.chord(centre.plus(into, half), second)
	f2, t2, two := s.wood.chord(centre.plus(first.turned(), half), first)
	if !one || !two {
		return shape{}, false
	}
	along := func(t float64) float64 { return t*cos + half*math.Sin(angle) } // of face 2, seen along face 1
	in := math.Max(0, math.Max(f1, along(f2)))
	in = math.Max(in, (s.thin+lost)/tan)
	if s.clearance >= 0 {
		in = math.Max(in, s.clearance+s.pith.farthest(centre))
	}
	out := math.Min(t1, along(t2))
	c := shape{lying: lying{centre.plus(second, out).plus(into, half), vec{}.minus(second)}, width: out - in,
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
