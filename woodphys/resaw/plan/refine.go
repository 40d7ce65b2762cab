package plan

import (
	"errors"
	"math"
	"slices"

	"latewood/woodphys/resaw/plan/guillotine"
)

// A proof by refinement. A relaxed grid bounds every way to cut the billet, and shows a
// way by which its bound would be reached. That way is laid into the wood: where its
// pieces come to begin at no place of the grid, or a blank is worth less than the best
// within its stretch, the grid gets a place more, and is valued again, until the bound
// is no more than the best way known.

// improve cuts the billet at given worths better than a way that is known, as far as the
// work allows, and returns the best way and a bound.
func (c *cutter) improve(value []int64, known int64, plan *way, upper int64) (*way, int64, error) {
	if err := c.price(value, false); err != nil {
		return plan, upper, err
	}
	upper = min(upper, max(c.upper, known))
	if c.sketch == nil || known >= upper {
		return plan, upper, nil
	}
	c.keep(plan)
	s := &search1{c: c, plan: plan, worth: known, upper: upper}
	err := s.first()
	if err == nil && s.worth < s.upper {
		if err = s.refine(); errors.Is(err, errTooFine) {
			err = s.drawOn()
		}
	}
	return s.plan, max(s.worth, s.upper), err
}

// bounded cuts the billet at given worths and bounds it by refinement, as far as the work allows:
// the bound holds also where it ends.
func (c *cutter) bounded(value []int64) (*way, int64, error) {
	if err := c.price(value, false); err != nil {
		return nil, math.MaxInt64, err // not priced, so that nothing is known
	}
	if c.sketch == nil {
		return nil, 0, nil
	}
	s := &search1{c: c, upper: c.upper}
	err := s.first()
	if err == nil && s.worth < s.upper {
		err = s.refine()
	}
	if errors.Is(err, errTooFine) {
		err = nil
	}
	return s.plan, max(s.worth, s.upper), err
}

// search1 is the search for the best way to cut one billet.
type search1 struct {
	c            *cutter
	plan         *way
	worth, upper int64
}

// take takes over a better way.
func (s *search1) take(plan *way, worth int64) {
	if worth > s.worth {
		s.plan, s.worth = plan, worth
		s.c.keep(plan)
	}
}

// first cuts over the places of the sketch, and a few times over places drawn about the
// best way.
func (s *search1) first() error {
	if done, err := s.exactly(); done || err != nil {
		return err
	}
	plan, worth, err := s.c.best(s.c.firstPlaces())
	if err != nil {
		return err
	}
	s.take(plan, worth)
	for range drawnTimes {
		if s.worth >= s.upper {
			return nil
		}
		if err := s.draw(); err != nil {
			return err
		}
	}
	return nil
}

// drawOn draws places until that was in vain for long.
func (s *search1) drawOn() error {
	for vain := 0; vain < mostDrawn && s.worth < s.upper; vain++ {
		was := s.worth
		if err := s.draw(); err != nil {
			return err
		}
		if s.worth > was {
			vain = 0
		}
	}
	return nil
}

// exactly cuts over the normal places where they are few, which proves the way.
func (s *search1) exactly() (bool, error) {
	c := s.c
	p, few := c.normalPlaces(normalPlaces)
	steps, bytes := guillotine.Steps(len(p.x)+2, len(p.y)+2)
	if !few || c.lattice != nil || steps > (c.spent.most-c.spent.done)/gridShare || !c.spent.holds(bytes) {
		return false, nil
	}
	for i := range c.in { // a smaller size is not as good at every place
		c.in[i] = true
	}
	plan, worth, err := c.best(p)
	if err != nil {
		return false, err
	}
	s.take(plan, worth)
	s.upper = s.worth
	return true, nil
}

// mostDrawn is how many grids are drawn in vain before a search ends. Own choice.
const mostDrawn = 60

// draw cuts over places drawn about the best way.
func (s *search1) draw() error {
	if s.plan == nil {
		return errBudget
	}
	plan, worth, err := s.c.best(s.c.drawn(s.plan.used(), s.c.places))
	if err != nil {
		return err
	}
	s.take(plan, worth)
	return nil
}

// errTooFine says that a grid would take too much room or steps.
var errTooFine = errors.New("grid too fine")

// Limits of refinement. Own choices.
const (
	mostRefined = 400
	gridShare   = 4 // of the steps left for one grid
)

// refine bounds the billet until the bound is reached.
func (s *search1) refine() error {
	c := s.c
	p := s.firstStretches()
	for range mostRefined {
		c.lay(p, true)
		steps, bytes := guillotine.Steps(len(c.grid.X.At), len(c.grid.Y.At))
		if steps > (c.spent.most-c.spent.done)/gridShare || !c.spent.holds(bytes) {
			return errTooFine
		}
		if l, w := c.least(); !c.grid.Narrow(l, w) {
			return errTooFine
		}
		if err := c.corners(); err != nil {
			return err
		}
		root := c.grid.Best()
		if root == nil {
			s.upper = s.worth
			return nil
		}
		s.upper = max(s.worth, min(s.upper, root.Worth))
		if s.worth >= s.upper {
			return nil
		}
		l := &layer{c: c}
		plan, _, _ := l.lay(root, c.b.w.trim0, 0)
		if plan != nil {
			s.take(plan, c.worthOf(plan))
		}
		if s.worth >= s.upper {
			return nil
		}
		if !l.split() {
			return errTooFine
		}
		p.x, p.y = sorted(append(p.x, l.more.x...)), sorted(append(p.y, l.more.y...))
	}
	return errTooFine
}

// firstStretches are the places of a relaxed grid to begin with: those of the best way,
// the ends of zones, and others between, so that no blank fits within a stretch.
func (s *search1) firstStretches() points {
	c, w := s.c, s.c.b.w
	g := &gather{most: 2 * c.places}
	g.addX(w.trim0)
	g.addY(0)
	if s.plan != nil {
		g.all(s.plan.used())
	}
	for i := range w.zones {
		g.addX(w.zones[i].x1)
		g.addY(w.zones[i].y1)
	}
	l, wide := c.least()
	return points{narrowed(g.x, w.trim0, w.l-w.trim1+c.axes.KerfX, l+c.axes.KerfX),
		narrowed(g.y, 0, w.ref+c.axes.KerfY, wide+c.axes.KerfY)}
}

// narrowed adds places so that no two from low to high are farther apart than so much.
func narrowed(at []nm, low, high, most nm) []nm {
	at = placesIn(at, low, high)
	var out []nm
	for i, v := range at {
		out = append(out, v)
		if i+1 == len(at) {
			break
		}
		gap := at[i+1] - v
		for n, k := (gap+most-1)/most, nm(1); k < n; k++ {
			out = append(out, v+gap*k/n)
		}
	}
	return out
}

// layer lays a way of a relaxed grid into the wood.
type layer struct {
	c    *cutter
	more points
	lost []*guillotine.Node // blanks that are worth less where they come to lie
}

// lay lays a piece that begins at x and y, or further on where the grid has it begin, and
// returns it and where it ends.
func (l *layer) lay(n *guillotine.Node, x, y nm) (plan *way, endX, endY nm) {
	if n == nil {
		return nil, x, y
	}
	g := l.c.grid
	l.begin(&x, &l.more.x, g.X.At, n.I)
	l.begin(&y, &l.more.y, g.Y.At, n.A)
	if n.Leaf() {
		return l.leaf(n, x, y)
	}
	low, atX, atY := l.lay(n.Low, x, y)
	var high *way
	if n.AlongY {
		toX := atX
		if n.Low != nil {
			atY += l.c.axes.KerfY
		}
		high, endX, endY = l.lay(n.High, x, atY)
		return parted(true, low, high), max(toX, endX), endY
	}
	toY := atY
	if n.Low != nil {
		atX += l.c.axes.KerfX
	}
	high, endX, endY = l.lay(n.High, atX, y)
	return parted(false, low, high), endX, max(toY, endY)
}

// begin moves a start to the place of its stretch, or notes a place that is missing.
func (l *layer) begin(v *nm, more *[]nm, at []nm, i int) {
	switch {
	case *v < at[i]:
		*v = at[i]
	case *v > at[i] && *v < at[len(at)-1]:
		if _, is := slices.BinarySearch(at, *v); !is {
			*more = append(*more, *v)
		}
	}
}

// leaf lays a blank.
func (l *layer) leaf(n *guillotine.Node, x, y nm) (plan *way, endX, endY nm) {
	g := l.c.grid
	promised, _ := l.c.blankOf(l.c.stretchAt(n.I, n.A), n)
	endX, endY = x+promised.length, y+promised.width
	if endX > l.c.b.w.l-l.c.b.w.trim1 || endY > l.c.b.w.ref {
		return nil, endX, endY
	}
	at := *n
	at.Length, at.Width = promised.length, promised.width
	b, worth := l.c.blankOf(placeAt(x, y), &at)
	if worth < n.Worth && x == g.X.At[n.I] && y == g.Y.At[n.A] {
		l.lost = append(l.lost, n)
	}
	if worth <= 0 {
		return nil, endX, endY
	}
	return &way{blank: b}, endX, endY
}

// split notes places within the stretches of blanks that promise more than they are worth
// at their first place, where nothing else is missing: at the end of a zone there, or in
// the middle. It reports whether a place was found.
func (l *layer) split() bool {
	if len(l.more.x)+len(l.more.y) > 0 {
		return true
	}
	g, w := l.c.grid, l.c.b.w
	for _, n := range l.lost {
		x0, x1, y0, y1 := g.X.At[n.I], g.X.At[n.I+1], g.Y.At[n.A], g.Y.At[n.A+1]
		found := false
		for i := range w.zones {
			if v := w.zones[i].x1; v > x0 && v < x1 {
				l.more.x, found = append(l.more.x, v), true
			}
			if v := w.zones[i].y1; v > y0 && v < y1 {
				l.more.y, found = append(l.more.y, v), true
			}
		}
		if found {
			continue
		}
		if x1-x0 > 1 {
			l.more.x = append(l.more.x, x0+(x1-x0)/2)
		}
		if y1-y0 > 1 {
			l.more.y = append(l.more.y, y0+(y1-y0)/2)
		}
	}
	return len(l.more.x)+len(l.more.y) > 0
}
