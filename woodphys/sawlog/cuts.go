package sawlog

import (
	"math"

	"latewood/woodphys/quantity"
)

func cutBetween(a, b vec) Cut { return Cut{pointOf(a), pointOf(b)} }

func pointOf(p vec) Point { return Point{quantity.Length(p.y), quantity.Length(p.z)} }

// endOf is the wood of the start end of a bolt.
func endOf(l *Log) region {
	return region{discs: []disc{{0, l.radius(0)}}, half: l.Half}
}

// beside is the cut along u beside the face of a board that lies at a place along n, on the side
// that sign tells; none where no wood lies beyond the face.
func (s *sawing) beside(face, sign float64, u, n vec) []Cut {
	if s.end.support(vec{}.plus(n, sign)) < sign*face+dust {
		return nil
	}
	at := vec{}.plus(n, face+sign*s.kerf/2)
	from, to, there := s.end.chord(at, u)
	if !there { // the saw takes less wood there than half of its kerf: as long as the face
		if from, to, there = s.end.chord(vec{}.plus(n, face), u); !there {
			return nil
		}
	}
	return []Cut{cutBetween(at.plus(u, from), at.plus(u, to))}
}

// line is the cut through a place along a direction, from side to side; none along the flat face
// of a half log.
func (s *sawing) line(p, u vec) []Cut {
	from, to, there := s.end.chord(p, u)
	if !there || to-from < dust || s.flatFace(p, u) {
		return nil
	}
	return []Cut{cutBetween(p.plus(u, from), p.plus(u, to))}
}

// ray is the cut from the pith along a direction to the bark; none along the flat face, or where
// all its wood went with the first cut through the pith.
func (s *sawing) ray(p, u vec) []Cut {
	from, to, there := s.end.chord(p, u)
	if from = math.Max(0, from); !there || to-from < dust || s.flatFace(p, u) {
		return nil
	}
	first := direction(s.turn)
	if !s.flatFace(p, first) && to*math.Abs(u.dot(first.turned())) < s.kerf/2+dust && math.Abs(u.dot(first)) < 1-dust {
		return nil
	}
	return []Cut{cutBetween(p.plus(u, from), p.plus(u, to))}
}

// inWood reports whether there is wood along a ray, or the flat face: what else bounds a piece is
// not sawn.
func (s *sawing) inWood(p, u vec) bool { return s.flatFace(p, u) || len(s.ray(p, u)) > 0 }

// flatFace reports whether a line lies on the flat face of a half log.
func (s *sawing) flatFace(p, u vec) bool {
	return s.end.half && math.Abs(u.z) < flat && math.Abs(p.z) < dust
}

// beyond is how much of a kerf is lost beside a line through a place: half of it, and nothing on
// the flat face of a half log, which is there already.
func (s *sawing) beyond(p, u vec) float64 {
	if s.flatFace(p, u) {
		return 0
	}
	return s.kerf / 2
}

// centre is where cuts through the pith go: between its places, of a half log whose pith went
// with the other half on the flat face.
func (s *sawing) centre() vec {
	c := s.pith.middle(direction(s.turn))
	const fine = 1e-6 // m, below which no saw tells the pith from the flat face
	if s.end.half && c.z < fine {
		c.z = 0
	}
	return c
}

// support is how far a section reaches along a direction.
func (g *region) support(n vec) float64 {
	d := g.discs[0]
	if g.half && n.z < 0 {
		return d.y*n.y + d.r*math.Abs(n.y)
	}
	return d.y*n.y + d.r
}
