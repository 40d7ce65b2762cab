package plan

import (
	"errors"
	"slices"
)

// Cutting as it is done. The staged search (solve.go) is fast and knows one order of
// cuts: crosscut, rip, trim. What it finds is where the search over all cuts from edge to
// edge begins:
//
//  1. At the shadow prices of the limits a table without places bounds every billet, and
//     a grid over the places of that sketch gives a way to cut it (cutter.go). The ways
//     are patterns of the linear program, as those of the staged search are, and the sum
//     of what the tables give is a bound, as in order.go.
//  2. Where billets are few a relaxed grid is refined until what it promises is what its
//     way is worth (refine.go): a proof. Where limits bind as well, the counts that can be
//     had of every piece of an exact grid are listed (counted.go).

// Rounds of prices, at most. Own choices, by what was measured.
const (
	mostRounds = 40
	drawnTimes = 6 // grids drawn about a good way
)

// deepen improves the plan over all cuts from edge to edge and bounds it.
func (o *order) deepen() error {
	worth := make([]int64, len(o.kinds))
	for p := range o.kinds {
		worth[p] = o.kinds[p].worth
	}
	o.freeBound = 0
	for i := range o.woods {
		o.freeBound += o.volumeBound(i, worth)
	}
	if o.known != nil {
		o.freeBound = min(o.freeBound, *o.known)
	}
	o.bound, o.done = min(o.freeBound, o.allWanted()), false
	if o.bound <= o.value {
		o.done = true
		return nil
	}
	o.makeCutters(o.short() || o.many() && (len(o.woods) > fewBillets || len(o.kinds) > severalKinds))
	err := o.deepenPlan(worth)
	if errors.Is(err, errBudget) && o.vain() && !o.spent.over() { // exact depths take too much
		o.spent.held = memory{}
		o.makeCutters(true)
		err = o.deepenPlan(worth)
	}
	o.done = o.value >= o.bound
	if o.done {
		return nil
	}
	return err
}

// allWanted is what all sets are worth that count, where every part has a most.
func (o *order) allWanted() int64 {
	sum := int64(0)
	for p := range o.parts {
		if o.parts[p].most == nil {
			return o.freeBound
		}
		sum += int64(*o.parts[p].most) * o.parts[p].worth
	}
	return sum
}

// severalKinds are so many that exact depths take too long on one billet too.
const severalKinds = 10

// makeCutters makes the cutters of all billets, with stacks on a lattice or of exact depths.
func (o *order) makeCutters(coarse bool) {
	var rows *lattice
	if coarse {
		rows = o.rig.newLattice(latticeCells)
	}
	places := mostPlaces
	if len(o.woods) > fewBillets {
		places = manyPlaces
	}
	o.cuttersOn(rows, places, 1)
}

// cuttersOn makes the cutters of all billets, with grids of so many places and tables so many times
// as fine as usual; a lattice of nil stands for exact depths.
func (o *order) cuttersOn(rows *lattice, places int, finer float64) {
	o.cutters = make([]*cutter, len(o.woods))
	for i, first := range o.alike {
		if first < i {
			o.cutters[i] = o.cutters[first]
			continue
		}
		c := newCutter(o.woods[i], o.rig, o.suits[i], o.spent)
		c.grid, c.lattice, c.places, c.finer = &o.grid, rows, places, finer
		o.cutters[i] = c
	}
}

func (o *order) deepenPlan(worth []int64) error {
	if err := o.freely(worth); err != nil || o.value >= o.bound {
		return err
	}
	if len(o.lim.kinds) == 0 {
		return o.deepenFree(worth)
	}
	if err := o.sweeps(func(billet int, value []int64) (*way, int64, error) {
		return o.cutters[billet].cut(value, true)
	}); err != nil {
		return err
	}
	if len(o.woods) > fewBillets || o.cutters[0].lattice != nil {
		return o.deepenMany()
	}
	p, err := o.deepenPriced()
	if err != nil || o.value >= o.bound || p == nil {
		return err
	}
	upper, err := o.refinePriced(p)
	if err != nil || o.value >= o.bound {
		return err
	}
	return o.deepenLimited(p, upper)
}

// freely bounds the worth of all billets without limits.
func (o *order) freely(worth []int64) error {
	sum := int64(0)
	var ended error
	for i, c := range o.cutters {
		if o.alike[i] < i {
			sum += o.cutters[i].freely
			continue
		}
		c.freely = o.volumeBound(i, worth)
		if ended == nil {
			if ended = c.price(worth, false); ended == nil {
				c.freely = min(c.freely, c.upper)
			}
		}
		sum += c.freely
	}
	o.freeBound = min(o.freeBound, sum)
	o.bound = min(o.bound, o.freeBound)
	return ended
}

// deepenFree cuts every billet for itself: no limit is in the way.
func (o *order) deepenFree(worth []int64) error {
	choice := slices.Clone(o.best)
	upper := make([]int64, len(o.cutters))
	for i, c := range o.cutters {
		upper[i] = c.freely
	}
	left := o.kindsOfBillet()
	var ended error
	for i, c := range o.cutters {
		if o.alike[i] < i {
			continue
		}
		known := int64(0)
		var plan *way
		if choice[i] != nil {
			known, plan = choice[i].worth, choice[i].plan()
		}
		most := o.spent.most
		o.spent.most = o.spent.done + (most-o.spent.done)/int64(left)
		left--
		found, bound, err := c.improve(worth, known, plan, upper[i])
		o.spent.most = most
		if err != nil {
			ended = err
		}
		upper[i] = bound
		for j := i; j < len(o.cutters); j++ {
			if o.alike[j] == i {
				choice[j], upper[j] = o.column(j, found), bound
			}
		}
		if ended != nil && !errors.Is(ended, errBudget) {
			return ended
		}
	}
	o.offer(choice)
	sum := int64(0)
	for _, v := range upper {
		sum += v
	}
	o.freeBound = min(o.freeBound, sum)
	o.bound = min(o.bound, o.freeBound)
	return ended
}

// kindsOfBillet counts the billets that differ.
func (o *order) kindsOfBillet() int {
	n := 0
	for i, first := range o.alike {
		if first == i {
			n++
		}
	}
	return n
}

// deepenPriced prices and cuts all billets in rounds, and returns the prices of the best
// bound.
func (o *order) deepenPriced() (*prices, error) {
	s := newLinear(&o.program, o.cols)
	var best *prices
	for range mostRounds {
		s.take(o.cols)
		if err := s.solve(o.spent); err != nil {
			return best, err
		}
		o.round(s)
		p := o.wholePrices(s)
		sum, added, err := o.cutAll(s, p)
		if err != nil {
			return best, err
		}
		if bound := o.floorTo(sum); bound < o.bound || best == nil {
			o.bound, best = min(bound, o.bound), p
		}
		if o.value >= o.bound {
			return best, nil
		}
		if !added {
			break
		}
	}
	_, err := o.merge(o.cols, best, 300)
	return best, err
}

// cutAll cuts all billets at some prices, and returns the bound at them and whether a
// pattern was new.
func (o *order) cutAll(s *linear, p *prices) (sum int64, added bool, err error) {
	value := o.valuesAt(p)
	sum = o.constant(p)
	ways := map[*cutter]*way{}
	for i, c := range o.cutters {
		plan, known := ways[c]
		if !known {
			if plan, _, err = c.cut(value, false); err != nil {
				return 0, false, err
			}
			ways[c] = plan
		}
		sum += min(c.upper, o.volumeBound(i, value))
		if plan == nil {
			continue
		}
		n := len(o.cols)
		if col := o.column(i, plan); len(o.cols) > n {
			added = added || o.pays(s, i, o.priced(col, p))
		}
	}
	return sum, added, nil
}

// refinePriced bounds the billets at some prices by refinement, within a share of the
// work, and returns what each may be worth at most.
func (o *order) refinePriced(p *prices) (map[*cutter]int64, error) {
	value := o.valuesAt(p)
	upper := map[*cutter]int64{}
	most := o.spent.most
	left := o.kindsOfBillet()
	sum := o.constant(p)
	for i, c := range o.cutters {
		if _, known := upper[c]; !known {
			o.spent.most = o.spent.done + (most-o.spent.done)/int64(2*left+1)
			left--
			plan, bound, err := c.bounded(value)
			o.spent.most = most
			if err != nil && (!errors.Is(err, errBudget) || o.spent.over()) {
				return nil, err
			}
			upper[c] = min(bound, o.volumeBound(i, value))
			if plan != nil {
				o.column(i, plan)
			}
		}
		sum += upper[c]
	}
	o.bound = min(o.bound, o.floorTo(sum))
	_, err := o.merge(o.cols, p, 300)
	return upper, err
}
