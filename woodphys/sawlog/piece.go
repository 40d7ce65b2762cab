package sawlog

import (
	"math"

	"latewood/woodphys/quantity"
)

// Edge says what an edge of a billet faced in the tree.
type Edge string

// What an edge faces.
const (
	Bark Edge = "bark"
	Pith Edge = "pith"
)

// Billet is one billet of the plan, green, in the frame of a billet: y from its near edge
// across its face 1, z from face 1 into the wood.
type Billet struct {
	Bolt                    int             // index of the length of the log it comes from
	Length                  quantity.Length // of the bolt
	Width, Thickness        quantity.Length // thickness at the near edge
	FarThickness            quantity.Length // the same as Thickness but for a wedge
	DryWidth, DryThickness  quantity.Length // once it has dried; green sizes where no drying is told
	Pith                    Point           // at its start: Y from the near edge, Z from face 1
	PithFrom, PithTo        Point           // between these the pith lies over its whole length
	HoldsPith               bool
	Near, Far               Edge
	LeastAngle, MiddleAngle quantity.Angle // of the rings to face 1: the least, and that in the middle

	Corners [4]Point // near and far of face 1, far and near of face 2, in the frame of the log
	lying   lying
}

// lying is where a billet lies in the log.
type lying struct {
	corner vec // near edge of face 1
	along  vec // unit vector from the near edge to the far edge
}

// shape is a billet before anything is told of it, m.
type shape struct {
	lying
	width, near, far float64 // thickness at both edges
	edges            [2]Edge
}

// corners are those of the section, in the frame of the log.
func (s *shape) corners() [4]vec {
	deep := s.along.turned()
	end := s.corner.plus(s.along, s.width)
	return [4]vec{s.corner, end, end.plus(deep, s.far), s.corner.plus(deep, s.near)}
}

// in is a place of the log in the frame of the billet.
func (s *shape) in(p vec) vec {
	off := p.minus(s.corner)
	return vec{off.dot(s.along), off.dot(s.along.turned())}
}

// ringAngle is the angle of the rings about a pith to face 1, at a place; both in the frame
// of the billet. The ring line is square to the line from the pith.
func ringAngle(at, pith vec) float64 {
	off := at.minus(pith)
	return math.Atan2(math.Abs(off.y), math.Abs(off.z))
}

// leastAngle is the least ring angle of the section about a pith. Seen from the pith the
// angle is least where the line from it is steepest to the face: at a corner, or 0 where
// the section reaches over or under the pith.
func (s *shape) leastAngle(pith vec) float64 {
	p := s.in(pith)
	if p.y > dust && p.y < s.width-dust {
		return 0
	}
	least := math.Inf(1)
	for _, c := range s.corners() {
		at := s.in(c)
		if off := at.minus(p); math.Hypot(off.y, off.z) < dust {
			continue // the pith itself has no ring; those about it stand as steep as the other corners
		}
		least = math.Min(least, ringAngle(at, p))
	}
	return least
}

// holds reports whether the section holds a box between two places of its own frame, deeper
// than by a nanometre.
func (s *shape) holds(from, to vec) bool {
	if to.y <= dust || from.y >= s.width-dust || to.z <= dust {
		return false
	}
	at := math.Min(s.width, math.Max(0, from.y))
	if s.far > s.near {
		at = math.Min(s.width, math.Max(0, to.y))
	}
	return from.z < s.near+(s.far-s.near)*at/s.width-dust
}

// pithPath are places of the pith along a bolt, the first at its start.
type pithPath []vec

// pithOf takes the pith at both ends, or with sweep at as many places as the log has
// sections.
func pithOf(l *Log) pithPath {
	n := 2
	if l.Sweep != 0 {
		n = sections
	}
	out := make(pithPath, 0, n)
	for i := range n {
		p := l.pithAt(float64(i) / float64(n-1))
		out = append(out, vec{float64(p.Y), float64(p.Z)})
	}
	return out
}

// span is how far the path reaches along a unit direction; of a pith that bends, to 1/4096
// of the sweep.
func (p pithPath) span(u vec) interval {
	out := interval{math.Inf(1), math.Inf(-1)}
	for _, c := range p {
		out.from, out.to = math.Min(out.from, c.dot(u)), math.Max(out.to, c.dot(u))
	}
	return out
}

// middle is where cuts through the pith go: the middle between its places along a unit
// direction and square to it.
func (p pithPath) middle(u vec) vec {
	along, across := p.span(u), p.span(u.turned())
	return vec{}.plus(u, (along.from+along.to)/2).plus(u.turned(), (across.from+across.to)/2)
}

// farthest is how far the pith strays from a place.
func (p pithPath) farthest(from vec) float64 {
	far := 0.0
	for _, c := range p {
		off := c.minus(from)
		far = math.Max(far, math.Hypot(off.y, off.z))
	}
	return far
}
