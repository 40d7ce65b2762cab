package plan

import "slices"

// Where pieces may begin. The places of a grid are few, and a good way to cut the wood
// has to be among those that they allow: places come from the sketch of the table laid
// into the wood in two ways, from the ends of zones, and from the best ways found before.

// gather collects places up to a number, those first that are added first.
type gather struct {
	points
	most int
}

func (g *gather) addX(v nm) { g.x = g.add(g.x, v) }
func (g *gather) addY(v nm) { g.y = g.add(g.y, v) }

func (g *gather) add(list []nm, v nm) []nm {
	if len(list) >= g.most || slices.Contains(list, v) {
		return list
	}
	return append(list, v)
}

func (g *gather) all(p points) {
	for _, v := range p.x {
		g.addX(v)
	}
	for _, v := range p.y {
		g.addY(v)
	}
}

// firstPlaces are those to begin with at the present worths.
func (c *cutter) firstPlaces() points {
	w := c.b.w
	g := &gather{most: c.places}
	g.all(c.kept)
	c.table.Starts(c.sketch, w.trim0, 0, false, g.addX, g.addY)
	c.table.Starts(c.sketch, w.trim0, 0, true, g.addX, g.addY)
	for i := range w.zones {
		g.addX(w.zones[i].x1)
		g.addY(w.zones[i].y1)
	}
	for i := range w.zones {
		c.table.Starts(c.sketch, w.zones[i].x1, w.zones[i].y1, false, g.addX, g.addY)
	}
	return g.points
}

// normalPlaces returns the places at which pieces begin in the ways that are pushed
// towards the start and the near edge as far as they go, and whether there are at most so
// many of them along each axis: then no way to cut the wood is better than the best
// over them (offer.go), as long as the orientations agree.
func (c *cutter) normalPlaces(most int) (points, bool) {
	w := c.b.w
	var fromX, fromY, stepX, stepY []nm
	fromX, fromY = append(fromX, w.trim0), append(fromY, 0)
	for i := range w.zones {
		fromX, fromY = append(fromX, w.zones[i].x1), append(fromY, w.zones[i].y1)
	}
	for _, s := range c.sizes {
		stepX, stepY = append(stepX, s.l+c.axes.KerfX), append(stepY, s.w+c.axes.KerfY)
	}
	for i := range c.turned {
		t := &c.turned[i]
		stepX = append(stepX, c.b.r.kinds[t.part].l+c.axes.KerfX)
		for n := t.least; nm(n)*t.height-t.less <= w.ref && (n == t.least || !t.split); n++ {
			stepY = append(stepY, nm(n)*t.height-t.less+c.axes.KerfY)
		}
	}
	if len(stepX) == 0 {
		return points{}, false
	}
	least, _ := c.least()
	x, ok := reached(fromX, sorted(stepX), w.trim0, w.l-w.trim1-least, most)
	if !ok || w.both || !w.nearStraight() || w.conflictX || w.conflictY {
		return points{}, false
	}
	_, least = c.least()
	y, ok := reached(fromY, sorted(stepY), 0, w.ref-least, most)
	return points{x, y}, ok
}

// reached returns the places from low to high that are reached from some by steps, and
// whether they are at most so many.
func reached(from, steps []nm, low, high nm, most int) ([]nm, bool) {
	seen := map[nm]bool{}
	var open []nm
	for _, v := range from {
		if v >= low && v <= high && !seen[v] {
			seen[v] = true
			open = append(open, v)
		}
	}
	for len(open) > 0 {
		if len(seen) > most {
			return nil, false
		}
		v := open[len(open)-1]
		open = open[:len(open)-1]
		for _, s := range steps {
			if to := v + s; to <= high && !seen[to] {
				seen[to] = true
				open = append(open, to)
			}
		}
	}
	var out []nm
	for v := range seen {
		out = append(out, v)
	}
	slices.Sort(out)
	return out, len(out) <= most
}

// used are the places at which the pieces of a way begin.
func (p *way) used() points {
	var out points
	p.each(func(b *blankPlan) {
		out.x, out.y = append(out.x, b.x), append(out.y, b.y)
	})
	return points{sorted(out.x), sorted(out.y)}
}

// drawn are the places of a way with others drawn about them: behind a place by a size,
// behind a zone, before a zone by a size.
func (c *cutter) drawn(p points, most int) points {
	w := c.b.w
	g := &gather{most: most}
	g.all(p)
	r := &dice{c.seed}
	c.seed++
	if len(c.sizes) == 0 { // of blanks on their side alone
		return g.points
	}
	for range 6 * most {
		size := c.sizes[r.upTo(len(c.sizes))]
		g.addX(c.near(r, p.x, size.l, c.axes.KerfX, w.trim0, func(z *zone) (nm, nm) { return z.x0, z.x1 }))
		size = c.sizes[r.upTo(len(c.sizes))]
		g.addY(c.near(r, p.y, size.w, c.axes.KerfY, 0, func(z *zone) (nm, nm) { return z.y0, z.y1 }))
	}
	return g.points
}

// near draws one place.
func (c *cutter) near(r *dice, at []nm, size, kerf, low nm, sides func(*zone) (nm, nm)) nm {
	zones := c.b.w.zones
	if len(zones) > 0 && r.upTo(2) == 0 {
		z0, z1 := sides(&zones[r.upTo(len(zones))])
		switch r.upTo(3) {
		case 0:
			return z1
		case 1:
			return z1 + size + kerf
		}
		return max(low, z0-size)
	}
	if len(at) == 0 {
		return low
	}
	v := at[r.upTo(len(at))]
	if r.upTo(3) == 0 {
		return max(low, v-size-kerf)
	}
	return v + size + kerf
}

// dice are numbers that look drawn and are the same each time: splitmix64 (Steele, Lea and
// Flood 2014, from memory).
type dice struct{ state uint64 }

// upTo returns a number from 0 to below n.
func (d *dice) upTo(n int) int {
	d.state += 0x9e3779b97f4a7c15
	z := d.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return int((z ^ z>>31) % uint64(n))
}
