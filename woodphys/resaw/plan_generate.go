package resaw

import (
	"errors"
	"math"
	"slices"
)

// generate solves the linear program over all patterns and returns the prices of
// the best bound.
func (o *order) generate() (*prices, error) {
	lowest := int64(math.MaxInt64)
	best := o.guide
	if o.guide == nil {
		if err := o.exactSweeps(); err != nil {
			return nil, err
		}
	} else {
		sum, err := o.outlines(o.valuesAt(o.guide))
		lowest = sum + o.constant(o.guide)
		o.bound = min(o.bound, o.floorTo(lowest))
		if err != nil || o.bound <= o.value {
			return best, err
		}
	}
	s := newSimplex(&o.program, o.cols)
	for range 400 {
		s.cols = o.cols
		if err := s.solve(o.spent); err != nil {
			return best, err
		}
		o.round(s)
		p := o.wholePrices(s)
		sum, added, err := o.priceAll(s, p)
		if sum < lowest {
			lowest, best = sum, p
			o.bound = min(o.bound, o.floorTo(sum))
		}
		if err != nil {
			return best, err
		}
		if o.bound <= o.value || !added {
			break
		}
	}
	// A gap this wide is rather the plan's than the bound's.
	if (o.bound-o.value)*50 > o.bound && len(o.boards) > 1 {
		if o.guide != nil {
			if err := o.exactSweeps(); err != nil {
				return best, err
			}
		}
		if err := o.fills(func(billet int, _ []int64) (*board, error) { return o.boards[billet], nil }); err != nil {
			return best, err
		}
	}
	if o.bound > o.value {
		if err := o.branch(o.cols, 40); err != nil && !errors.Is(err, errNodes) {
			return best, err
		}
		if _, err := o.merge(o.cols, best, 300); err != nil {
			return best, err
		}
	}
	return best, nil
}

// priceAll prices all billets, adds the patterns that are missing, and returns the
// bound at the prices. When the work ends it is still a bound.
func (o *order) priceAll(s *simplex, p *prices) (sum int64, added bool, err error) {
	value := o.valuesAt(p)
	plans := map[*board][]sectionPlan{}
	sum = o.constant(p)
	o.stamp()
	for i, b := range o.boards {
		plan, ok := plans[b]
		if !ok && err == nil {
			if _, err = b.price(value, 0); err == nil {
				plan, ok = b.trace(value, 0), true
				plans[b] = plan
			} else if !errors.Is(err, errBudget) {
				return math.MaxInt64, false, err
			}
		}
		sum += o.upper(i, value)
		if ok && o.pays(s, i, b.upper) {
			n := len(o.cols)
			o.column(i, plan)
			added = added || len(o.cols) > n
		}
	}
	return sum, added, err
}

// pays reports whether a pattern of a billet, worth so much at the prices of s, is
// worth more than those that the program has.
func (o *order) pays(s *simplex, billet int, worth int64) bool {
	return float64(worth)/scale > s.price[billet]+1e-6*(1+math.Abs(s.price[billet]))
}

// exactSweeps sweeps with all kinds.
func (o *order) exactSweeps() error {
	if len(o.boards) == 1 {
		return nil
	}
	return o.sweeps(func(billet int, value []int64) ([]sectionPlan, int64, error) {
		v, err := o.boards[billet].price(value, 0)
		if err != nil {
			return nil, 0, err
		}
		return o.boards[billet].trace(value, 0), v, nil
	})
}

// sweeps cuts all billets one after the other, forth and back, and makes a first
// plan of the patterns.
func (o *order) sweeps(cut pricer) error {
	return o.bothWays(func(turn []int) error { return o.sweep(turn, cut) })
}

// fills fills the order list forth and back.
func (o *order) fills(at func(billet int, value []int64) (*board, error)) error {
	return o.bothWays(func(turn []int) error { return o.fill(turn, at) })
}

func (o *order) bothWays(do func(turn []int) error) error {
	turn := make([]int, len(o.woods))
	for i := range turn {
		turn[i] = i
	}
	if err := do(turn); err != nil || len(turn) == 1 {
		return err
	}
	slices.Reverse(turn)
	return do(turn)
}

// sweep cuts one billet after the other for what the order list still lacks.
func (o *order) sweep(turn []int, cut pricer) error {
	made := make([]int, len(o.kinds))
	choice := slices.Clone(o.best)
	for _, i := range turn {
		value := o.lacking(made)
		o.stamp()
		plan, _, err := cut(i, value)
		if err != nil {
			o.improve(choice, o.cols)
			return err
		}
		choice[i] = o.column(i, plan)
		for p, n := range totals(plan, len(o.kinds)) {
			made[p] += n
		}
	}
	o.improve(choice, o.cols)
	return nil
}

// lacking returns worths for what the order list still lacks when so many sets are
// made: a kind that has its most is worth nothing, one that misses its least is
// worth a little more than the dearest wood.
func (o *order) lacking(made []int) []int64 {
	dear := 0.0 // worth of the dearest kind for its volume
	for p := range o.kinds {
		dear = max(dear, float64(o.kinds[p].worth)/o.kinds[p].volume())
	}
	value := make([]int64, len(o.kinds))
	for p := range o.kinds {
		k := &o.kinds[p]
		value[p] = k.worth * scale
		switch {
		case o.parts[p].Most != nil && made[p] >= *o.parts[p].Most:
			value[p] = 0
		case made[p] < o.parts[p].Least:
			value[p] = max(value[p], int64(1.3*dear*k.volume()*scale)) + 1
		}
	}
	return value
}

// round makes a plan of a solved program: of every billet the pattern used most,
// then one billet at a time the pattern that helps most, until none does.
func (o *order) round(s *simplex) {
	choice := make([]*column, len(o.boards))
	most := make([]float64, len(o.boards))
	for _, u := range s.used() {
		c := s.cols[u.col]
		if u.share > most[c.billet]+1e-9 {
			most[c.billet], choice[c.billet] = u.share, c
		}
	}
	o.improve(choice, s.cols)
}

// improve swaps one pattern at a time while that helps, and offers the result.
func (o *order) improve(choice []*column, cols []*column) {
	var total [MaxKinds]int
	shift := func(c *column, by int) {
		if c == nil {
			return
		}
		for _, m := range o.program.most {
			total[m.kind] += by * int(c.n[m.kind])
		}
		for _, m := range o.program.least {
			if !o.lim.bounded[m.kind] {
				total[m.kind] += by * int(c.n[m.kind])
			}
		}
	}
	penalty := func() int64 {
		v := int64(0)
		for _, m := range o.program.most {
			v += int64(max(0, total[m.kind]-int(m.limit))) * int64(m.cost)
		}
		for _, m := range o.program.least {
			v += int64(max(0, int(m.limit)-total[m.kind])) * o.fine
		}
		return v
	}
	worth := func(c *column) int64 {
		if c == nil {
			return 0
		}
		return c.worth
	}
	for _, c := range choice {
		shift(c, 1)
	}
	fines := penalty()
	for range 20 {
		better := false
		for _, c := range cols {
			old := choice[c.billet]
			if old == c {
				continue
			}
			shift(old, -1)
			shift(c, 1)
			if f := penalty(); c.worth-f > worth(old)-fines {
				choice[c.billet], fines, better = c, f, true
				continue
			}
			shift(c, -1)
			shift(old, 1)
		}
		o.spent.done += int64(len(cols))
		if !better {
			break
		}
	}
	o.offer(choice)
}

// complete lists every pattern that can be in a better plan and searches them.
func (o *order) complete(p *prices) error {
	o.lim.setPrices(p)
	value := o.valuesAt(p)
	worth := make([]int64, len(o.kinds))
	for k := range worth {
		worth[k] = o.kinds[k].worth
	}
	bestOf := map[*board]int64{}
	o.stamp()
	sum := o.constant(p)
	for _, b := range o.boards {
		v, ok := bestOf[b]
		if !ok {
			var err error
			if v, err = b.price(value, 0); err != nil {
				return err
			}
			bestOf[b] = v
		}
		sum += v
	}
	// A narrow list often holds a plan that shrinks the gap to less than the list
	// is wide: then it was wide enough.
	for wide := max((sum-o.value*scale)/64, scale); ; wide *= 4 {
		slack := sum - (o.value+o.step)*scale
		if slack < 0 {
			return nil
		}
		cols, err := o.list(value, worth, min(wide, slack))
		if err != nil {
			return err
		}
		exact, err := o.merge(cols, p, 1000)
		if err != nil {
			return err
		}
		if wide < slack {
			if err := o.branch(cols, 20); err != nil && !errors.Is(err, errNodes) {
				return err
			}
			continue
		}
		for width := 8000; !exact; width *= 8 {
			err := o.branch(cols, 100)
			if err == nil || !errors.Is(err, errNodes) {
				return err
			}
			if exact, err = o.merge(cols, p, width); err != nil {
				return err
			}
		}
		return nil
	}
}

// list lists the patterns of all billets within slack of the best of each.
func (o *order) list(value, worth []int64, slack int64) ([]*column, error) {
	type list struct {
		l   *lister
		all *listed
	}
	lists := map[*board]list{}
	var cols []*column
	for i, b := range o.boards {
		at, ok := lists[b]
		if !ok {
			if _, err := b.price(value, 0); err != nil {
				return nil, err
			}
			at.l = newLister(b, &o.lim, value, worth, slack)
			var err error
			if at.all, err = at.l.all(); err != nil {
				return nil, err
			}
			lists[b] = at
		}
		for _, x := range at.all.end {
			cols = append(cols, &column{billet: i, n: x.n, worth: x.worth, plan: func() []sectionPlan { return at.l.trace(at.all, x) }})
		}
	}
	return cols, nil
}
