package plan

import "errors"

// A plan at once. Exact depths take some hundred thousand steps before the first plan is there,
// and whoever grants less would get none. So a plan comes first that takes some ten thousand for
// every billet: stacks on a coarse lattice (coarse.go), tables half as fine as usual, grids of few
// places and a few drawn about the best way. Its tables bound as all tables do. The search goes on from
// it, and where work is short it stays with stacks on a lattice, which lose little, and leaves the
// staged search out.

// The first plan, and what is short of work. Own choices, by what was measured: see
// testdata/planner.
const (
	firstCells  = 256
	firstPlaces = 12
	firstFiner  = 0.5
	firstDrawn  = 2
	shortWork   = 200_000 // steps for every billet that differs
	fewDepths   = 60      // at which leaves may begin
)

// short reports whether there is little work for every billet, and leaves may lie at so many depths
// that exact ones would take most of it.
func (o *order) short() bool {
	if o.plain || o.given/int64(o.kindsOfBillet()) >= shortWork {
		return false
	}
	if o.deep == nil {
		var heights []nm
		for i := range o.kinds {
			heights = append(heights, o.kinds[i].height)
		}
		_, few := reached([]nm{0}, sorted(heights), 0, o.rig.deepest, fewDepths)
		deep := !few
		o.deep = &deep
	}
	return *o.deep
}

// firstly plans every billet in turn, fast and a little coarse, and bounds it; nil where billets are
// many and there is work enough to plan them better at once.
func (o *order) firstly() (*order, error) {
	if len(o.woods) > fewBillets && !o.short() {
		return nil, nil //nolint:nilnil // no plan is needed yet
	}
	f := newOrder(o.rig, o.woods, o.parts, o.spent)
	f.alike, f.suits, f.turns = o.alike, o.suits, o.turns
	worth := f.prepare()
	f.cuttersOn(o.rig.newLattice(firstCells), firstPlaces, firstFiner)
	turn, bounded := make([]int, len(f.woods)), make([]bool, len(f.woods))
	for i, c := range f.cutters {
		turn[i], c.freely = i, f.volumeBound(i, worth)
	}
	err := f.sweep(turn, func(billet int, value []int64) (*way, int64, error) {
		c, first := f.cutters[billet], f.alike[billet]
		if !bounded[first] {
			if err := c.price(worth, false); err != nil {
				return nil, 0, err
			}
			bounded[first], c.freely = true, min(c.freely, c.upper)
		}
		if len(f.lim.kinds) > 0 {
			if err := c.price(value, false); err != nil {
				return nil, 0, err
			}
		}
		return c.sketched(firstDrawn)
	})
	sum := int64(0)
	for _, c := range f.cutters {
		sum += c.freely
	}
	f.freeBound = min(f.freeBound, sum)
	f.release(memory{})
	if err != nil && !errors.Is(err, errBudget) {
		return nil, err
	}
	return f, nil
}

// sketched cuts the billet as it is priced, over the places of the table's sketch and so many times
// over places drawn about the best way.
func (c *cutter) sketched(times int) (*way, int64, error) {
	if c.sketch == nil {
		return nil, 0, nil
	}
	s := &search1{c: c, upper: c.upper}
	plan, worth, err := c.best(c.firstPlaces())
	if err != nil {
		return nil, 0, err
	}
	for s.take(plan, worth); times > 0 && s.plan != nil && s.worth < s.upper; times-- {
		if err := s.draw(); err != nil {
			if errors.Is(err, errBudget) { // what was found is a plan
				break
			}
			return nil, 0, err
		}
	}
	return s.plan, s.worth, nil
}

// takeOver takes over the first plan, where it is better than what the staged search found, and its
// bound.
func (o *order) takeOver(first *order) {
	if first == nil {
		return
	}
	o.known = &first.freeBound
	if o.judge(first.best) <= o.value {
		return
	}
	choice := make([]*column, len(first.best))
	for i, c := range first.best {
		if c != nil {
			choice[i] = o.column(i, c.plan())
		}
	}
	o.offer(choice)
}
