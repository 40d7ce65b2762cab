package section

// slab finds the thickest slab with parallel faces between two opposite sides of
// the section after the change. The widest parting of two sets of points is the
// distance of their convex hulls: of the top face from the bottom face. A side
// that is hollow from outside is its own hull towards the other; of one that
// stands out, the chord is.
//
// lower runs left to right, upper right to left, as the outline does. bent says
// which way the sides bend. The thickness is a distance at fixed points of the
// wood that are optimal at m, so its derivatives hold as they stand (envelope
// theorem).
func slab(m, bent *polar, lower, upper *face) number {
	upperHollow, lowerHollow := upper.hollow(bent), lower.hollow(bent)
	switch {
	case upperHollow && !lowerHollow:
		return clearOf(m, bent, lower, upper)
	case lowerHollow && !upperHollow:
		return clearOf(m, bent, upper, lower)
	case upperHollow && lowerHollow:
		return neck(m, lower, upper)
	}
	return chords(m, lower, upper)
}

// clearOf is the slab that rests on the chord of base and touches the hollow of
// the other side.
func clearOf(m, bent *polar, base, other *face) number {
	start, end := base.at(m, 0), base.at(m, base.length)
	dx, dy := start.x-end.x, start.y-end.y // the sides run opposite ways
	if bent != m {
		b0, b1 := base.at(bent, 0), base.at(bent, base.length)
		dx, dy = b0.x-b1.x, b0.y-b1.y
	}
	u := other.parallel(bent, dx, dy)
	touch := other.at(m, u)
	n, beyond := toSegment(&touch, &start, &end)
	if beyond != nil { // the sides are skew: the end of the chord itself is nearest
		touch = other.at(m, other.nearest(m, [2]float64{beyond.x, beyond.y}, u))
		return distance(&touch, beyond)
	}
	return n
}

// chords is the slab between two sides that both stand out: the distance of two
// straight lines.
func chords(m *polar, lower, upper *face) number {
	l0, l1 := lower.at(m, 0), lower.at(m, lower.length)
	u0, u1 := upper.at(m, 0), upper.at(m, upper.length)
	best, _ := toSegment(&u0, &l0, &l1)
	for _, c := range [...]struct{ p, start, end *mapped }{{&u1, &l0, &l1}, {&l0, &u0, &u1}, {&l1, &u0, &u1}} {
		if n, _ := toSegment(c.p, c.start, c.end); n.v < best.v {
			best = n
		}
	}
	return best
}

// toSegment is the distance of p to the left of the straight line from start to
// end; beyond is the end that is nearest when p lies past it.
func toSegment(p, start, end *mapped) (n number, beyond *mapped) {
	x, y := end.x-start.x, end.y-start.y
	t := (p.x-start.x)*x + (p.y-start.y)*y
	switch square := x*x + y*y; {
	case t < 0:
		beyond = start
	case t > square:
		beyond = end
	default:
		return offset(p, start, end), nil
	}
	return distance(p, beyond), beyond
}

// neck is the shortest distance between two sides that are both hollow from
// outside. As a rule it is an end of both, because thickness grows or falls all
// along; going to and fro between the nearest points settles at once there.
func neck(m *polar, lower, upper *face) number {
	left := distanceAt(m, lower, upper, 0, upper.length)
	right := distanceAt(m, lower, upper, lower.length, 0)
	s, u := 0.0, upper.length
	if right.v < left.v {
		s, u = lower.length, 0
	}
	for range maxSteps {
		q, _ := m.tangent(lower.x+s*lower.dx, lower.y+s*lower.dy, 0, 0)
		u1 := upper.nearest(m, q, u)
		q, _ = m.tangent(upper.x+u1*upper.dx, upper.y+u1*upper.dy, 0, 0)
		s1 := lower.nearest(m, q, s)
		moved := (s1-s)*(s1-s) + (u1-u)*(u1-u)
		s, u = s1, u1
		if moved <= settled*settled*lower.length*lower.length { // in both
			break
		}
	}
	return distanceAt(m, lower, upper, s, u)
}

func distanceAt(m *polar, lower, upper *face, s, u float64) number {
	p, q := lower.at(m, s), upper.at(m, u)
	return distance(&p, &q)
}
