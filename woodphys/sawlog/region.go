package sawlog

import (
	"math"
	"slices"
)

// vec is a place or a direction across the log, m: Y right, Z down.
type vec struct{ y, z float64 }

func (a vec) plus(b vec, times float64) vec { return vec{a.y + times*b.y, a.z + times*b.z} }
func (a vec) minus(b vec) vec               { return vec{a.y - b.y, a.z - b.z} }
func (a vec) dot(b vec) float64             { return a.y*b.y + a.z*b.z }

// turned is the direction a quarter turn on, from right to down.
func (a vec) turned() vec { return vec{-a.z, a.y} }

func direction(angle float64) vec { return vec{math.Cos(angle), math.Sin(angle)} }

// dust is a nanometre, within which two places are the same.
const dust = 1e-9

// disc is one section of the wood.
type disc struct {
	y, r float64 // its middle lies at z = 0
}

// sections are how many sections stand for a log with sweep.
const sections = 65

// region is what all sections of a log have in common: only there a straight piece of its
// whole length lies in the wood.
type region struct {
	discs []disc
	half  bool // only z >= 0
}

// regionOf is the common wood, of which a ring is taken off.
//
// A point that lies in two neighbouring sections lies in those between them too, as far as
// the middles of these lie on a straight line: distance less radius is a convex function
// of both. A parabola of sweep s strays from its chord by s/(n-1)^2 at most, which is
// taken off the radius.
func regionOf(l *Log, ring float64) region {
	n, sweep := 2, float64(l.Sweep)
	if sweep != 0 {
		n = sections
	}
	out := region{half: l.Half}
	sag := 0.0
	if n > 2 {
		sag = math.Abs(sweep) / float64((n-1)*(n-1))
	}
	for i := range n {
		t := float64(i) / float64(n-1)
		out.discs = append(out.discs, disc{4 * sweep * t * (1 - t), l.radius(t) - ring - sag})
	}
	out.discs = needed(out.discs)
	return out
}

// needed leaves out sections that hold a smaller one whole, which say nothing.
func needed(all []disc) []disc {
	var kept []disc
	for i, d := range all {
		if !slices.ContainsFunc(all[:i], func(o disc) bool { return math.Abs(o.y-d.y)+o.r <= d.r }) &&
			!slices.ContainsFunc(all[i+1:], func(o disc) bool { return math.Abs(o.y-d.y)+o.r < d.r }) {
			kept = append(kept, d)
		}
	}
	return kept
}

// chord is what of the line through p along the unit direction u lies in the region, from
// and to along u; false where nothing does.
func (g *region) chord(p, u vec) (from, to float64, there bool) {
	from, to = math.Inf(-1), math.Inf(1)
	for _, d := range g.discs {
		if d.r <= 0 {
			return 0, 0, false
		}
		off := p.minus(vec{d.y, 0})
		along, across := off.dot(u), off.dot(u.turned())
		q := d.r*d.r - across*across
		if q < 0 {
			return 0, 0, false
		}
		root := math.Sqrt(q)
		from, to = math.Max(from, -along-root), math.Min(to, -along+root)
	}
	if g.half {
		switch at := -p.z; {
		case u.z > flat:
			from = math.Max(from, at/u.z)
		case u.z < -flat:
			to = math.Min(to, at/u.z)
		case p.z < -1e-12:
			return 0, 0, false
		}
	}
	return from, to, from < to
}

// flat is the slope below which a line counts as lying along the flat face.
const flat = 1e-12

// interval is a stretch of a board.
type interval struct{ from, to float64 }

// without takes a stretch out: what is left are none, one or two.
func without(all []interval, out interval) []interval {
	var left []interval
	for _, one := range all {
		if out.to <= one.from || out.from >= one.to {
			left = append(left, one)
			continue
		}
		if out.from > one.from {
			left = append(left, interval{one.from, out.from})
		}
		if out.to < one.to {
			left = append(left, interval{out.to, one.to})
		}
	}
	return left
}
