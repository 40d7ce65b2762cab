package resaw

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// The order list. Without limits on counts every billet is on its own and the
// best of each is found by longest paths alone. With limits:
//
//  1. Patterns (ways to cut one billet, told apart by their counts) are priced
//     with the shadow prices of the limits, and the linear program over the
//     patterns found is solved, until none is missing. In whole numbers, for any
//     prices a of the most and b of the least limits,
//
//     worth of any plan <= sum over billets of max over patterns of
//     (worth - a n + b n) + sum a most - sum b least,
//
//     because every plan has n <= most where a > 0 (sets beyond are worth nothing,
//     and a is held at or below the worth of a set) and n >= least less the sets
//     missing (each is fined more than all the wood is worth, and b is held at or
//     below the fine).
//
//  2. A pattern that is worse at these prices than the best of its billet by more
//     than the gap between bound and best plan found is in no better plan. All the
//     others are listed (plan_labels.go), and branch and bound over this list,
//     with the same bound, ends with the best.
//
// unitOfWorth outweighs all the cuts of a billet.
const unitOfWorth = 1 << 20

// scale is the number of price steps in one unit of worth.
const scale = 256

// order is the search for the best plan of several billets on one saw.
type order struct {
	boards  []*board // one per billet; equal billets share one
	kinds   []kind
	parts   []PartKind
	lim     limits
	program program
	fine    int64
	step    int64 // every worth is a multiple of it
	spent   *work
	woods   []*wood

	cols  []*column
	seen  map[patternKey]bool
	best  []*column // the best plan found, nil for an unused billet
	value int64     // of it, fines taken off
	bound int64     // rounded down, fines taken off
	done  bool      // proven
}

type patternKey struct {
	billet int
	n      counts
	worth  int64
}

// totals returns the sets of each kind in a plan.
func totals(plan []sectionPlan, kinds int) []int {
	out := make([]int, kinds)
	for _, s := range plan {
		for _, t := range s.strips {
			for _, q := range t.sets {
				if q.part >= 0 {
					out[q.part]++
				}
			}
		}
	}
	return out
}

func newOrder(boards []*board, kinds []kind, parts []PartKind, spent *work) *order {
	o := &order{boards: boards, kinds: kinds, parts: parts, spent: spent, seen: map[patternKey]bool{}}
	o.lim = limits{tracked: make([]bool, len(parts)), most: make([]int, len(parts))}
	for p := range parts {
		o.step = gcd(o.step, parts[p].Worth)
		o.lim.most[p] = -1
		o.lim.least16[p] = uint16(min(parts[p].Least, math.MaxUint16))
		if parts[p].Most != nil {
			o.lim.most[p] = *parts[p].Most
			o.lim.most16[p] = uint16(min(*parts[p].Most, math.MaxUint16))
		}
		o.lim.tracked[p] = parts[p].Most != nil || parts[p].Least > 0
	}
	o.step = max(o.step, 1)
	o.best = make([]*column, len(boards))
	return o
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// solve finds the best plan. It returns errBudget when the work is used up; the
// best plan and the bound found by then stand.
func (o *order) solve() error {
	free, err := o.unlimited()
	if err != nil {
		return err
	}
	if free {
		o.done = true
		return nil
	}
	prices, err := o.generate()
	if err != nil || o.bound <= o.value {
		o.done = err == nil
		return err
	}
	if err := o.complete(prices); err != nil {
		return err
	}
	o.done, o.bound = true, o.value
	return nil
}

// stamp marks that the worths priced from here on are new.
func (o *order) stamp() {
	if o.boards[0] != nil {
		o.boards[0].r.stamp++
	}
}

// unlimited cuts every billet for worth alone, then for fewer cuts, then for the
// shortest length used. It reports whether the plan meets all limits.
func (o *order) unlimited() (bool, error) {
	value := make([]int64, len(o.kinds))
	for p, k := range o.kinds {
		value[p] = k.worth * unitOfWorth
	}
	o.stamp()
	sum := int64(0)
	plans := map[*board][]sectionPlan{}
	var ended error
	for i, b := range o.boards {
		plan, ok := plans[b]
		if !ok {
			err := errBudget
			if b != nil && ended == nil {
				_, err = b.price(value, 1)
			}
			if errors.Is(err, errBudget) {
				ended = err
				sum += o.volumeBound(i)
				continue
			}
			if err != nil {
				return false, err
			}
			plan = b.trace(value, 1)
			plans[b] = plan
		}
		c := o.column(i, plan)
		for p, n := range totals(plan, len(o.kinds)) {
			sum += int64(n) * o.kinds[p].worth
		}
		o.best[i] = c
	}
	o.fine = sum + o.step - sum%o.step
	o.program.billets = len(o.boards)
	o.program.rows = len(o.boards)
	for p, on := range o.lim.tracked {
		if !on {
			continue
		}
		if o.parts[p].Most != nil {
			o.program.most = append(o.program.most, cap1{p, o.program.rows, float64(*o.parts[p].Most), float64(o.parts[p].Worth)})
			o.program.rows++
		}
		if o.parts[p].Least > 0 {
			o.program.least = append(o.program.least, cap1{p, o.program.rows, float64(o.parts[p].Least), float64(o.fine)})
			o.program.rows++
		}
	}
	o.bound = sum
	o.value = o.judge(o.best)
	return o.value == sum, ended
}

// column makes a pattern of a plan.
func (o *order) column(billet int, plan []sectionPlan) *column {
	c := &column{billet: billet, plan: func() []sectionPlan { return plan }}
	for p, n := range totals(plan, len(o.kinds)) {
		c.worth += int64(n) * o.kinds[p].worth
		if !o.lim.tracked[p] {
			continue
		}
		c.n[p] = uint16(min(n, math.MaxUint16))
	}
	key := patternKey{billet, c.n, c.worth}
	if !o.seen[key] {
		o.seen[key] = true
		o.cols = append(o.cols, c)
	}
	return c
}

// judge returns the value of a choice of one pattern for each billet.
func (o *order) judge(choice []*column) int64 {
	var total [MaxKinds]int
	v := int64(0)
	for _, c := range choice {
		if c == nil {
			continue
		}
		v += c.worth
		for p := range o.kinds {
			total[p] += int(c.n[p])
		}
	}
	for _, m := range o.program.most {
		v -= int64(max(0, total[m.kind]-int(m.limit))) * int64(m.cost)
	}
	for _, m := range o.program.least {
		v -= int64(max(0, int(m.limit)-total[m.kind])) * o.fine
	}
	return v
}

func (o *order) offer(choice []*column) {
	if v := o.judge(choice); v > o.value {
		o.value, o.best = v, slices.Clone(choice)
	}
}

// prices are whole shadow prices, scale to a unit of worth, of the limits.
type prices struct{ most, least [MaxKinds]int64 }

// constant is what the limits themselves are worth at the prices.
func (o *order) constant(p *prices) int64 {
	v := int64(0)
	for _, m := range o.program.most {
		v += p.most[m.kind] * int64(m.limit)
	}
	for _, m := range o.program.least {
		v -= p.least[m.kind] * int64(m.limit)
	}
	return v
}

// priced returns what a pattern is worth at the prices.
func (o *order) priced(c *column, p *prices) int64 {
	v := c.worth * scale
	for _, m := range o.program.most {
		v -= p.most[m.kind] * int64(c.n[m.kind])
	}
	for _, m := range o.program.least {
		v += p.least[m.kind] * int64(c.n[m.kind])
	}
	return v
}

// wholePrices rounds the prices of a solved program and holds them in their
// bounds, within which any prices give a bound.
func (o *order) wholePrices(s *simplex) *prices {
	p := &prices{}
	for _, m := range o.program.most {
		p.most[m.kind] = hold(s.price[m.row]*scale, 0, int64(m.cost)*scale)
	}
	for _, m := range o.program.least {
		p.least[m.kind] = hold(-s.price[m.row]*scale, 0, o.fine*scale)
	}
	return p
}

func hold(v float64, low, high int64) int64 {
	if !(v > float64(low)) {
		return low
	}
	if v >= float64(high) {
		return high
	}
	return int64(math.Round(v))
}

// floorTo rounds a bound in price steps down to a worth that can be.
func (o *order) floorTo(v int64) int64 {
	w := floorDiv(v, scale)
	return floorDiv(w, o.step) * o.step
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

func (o *order) valuesAt(p *prices) []int64 {
	value := make([]int64, len(o.kinds))
	for k := range o.kinds {
		value[k] = o.kinds[k].worth*scale - p.most[k] + p.least[k]
	}
	return value
}

// generate solves the linear program over all patterns and returns the prices of
// the best bound.
func (o *order) generate() (*prices, error) {
	var best *prices
	lowest := int64(math.MaxInt64)
	s := newSimplex(&o.program, o.cols)
	for range 400 {
		s.cols = o.cols
		if err := s.solve(o.spent); err != nil {
			return best, err
		}
		o.round(s)
		p := o.wholePrices(s)
		value := o.valuesAt(p)
		sum := o.constant(p)
		added := false
		type result struct {
			v    int64
			plan []sectionPlan
		}
		found := map[*board]result{}
		o.stamp()
		for i, b := range o.boards {
			r, ok := found[b]
			if !ok {
				v, err := b.price(value, 0)
				if err != nil {
					return best, err
				}
				r = result{v, b.trace(value, 0)}
				found[b] = r
			}
			sum += max(0, r.v)
			if float64(r.v)/scale > s.price[i]+1e-6*(1+math.Abs(s.price[i])) {
				n := len(o.cols)
				o.column(i, r.plan)
				added = added || len(o.cols) > n
			}
		}
		if sum < lowest {
			lowest, best = sum, p
			o.bound = min(o.bound, o.floorTo(sum))
		}
		if o.bound <= o.value || !added {
			break
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
			if o.lim.most[m.kind] < 0 {
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
	for wide := max((sum-o.value*scale)/8, scale); ; wide *= 4 {
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

// errNodes says that a search was cut short on purpose.
var errNodes = errors.New("node limit")

// branch searches all choices of the patterns given, with at most nodes nodes.
func (o *order) branch(cols []*column, nodes int) error {
	if len(o.boards) == 1 {
		for _, c := range cols {
			o.offer([]*column{c})
		}
		return o.spent.spend(int64(len(cols)))
	}
	open := [][]*column{cols}
	for len(open) > 0 {
		if nodes--; nodes < 0 {
			return errNodes
		}
		at := open[len(open)-1]
		open = open[:len(open)-1]
		s := newSimplex(&o.program, at)
		if err := s.solve(o.spent); err != nil {
			return err
		}
		o.round(s)
		at, alive := o.prune(at, o.wholePrices(s))
		if !alive {
			continue
		}
		left, right := o.split(s, at)
		if left == nil && right == nil {
			// Whole: the plan was offered by round. It may still be beaten inside
			// the rounding of the prices, so go on without one of its patterns.
			left, right = o.halve(s, at)
		}
		for _, child := range [][]*column{left, right} {
			if child != nil {
				open = append(open, child)
			}
		}
	}
	return nil
}

// prune bounds a node in whole numbers and drops the patterns that cannot be in a
// better plan; alive is false when none can.
func (o *order) prune(cols []*column, p *prices) (kept []*column, alive bool) {
	best := make([]int64, len(o.boards))
	priced := make([]int64, len(cols))
	for i, c := range cols {
		priced[i] = o.priced(c, p)
		best[c.billet] = max(best[c.billet], priced[i])
	}
	sum := o.constant(p)
	for _, v := range best {
		sum += v
	}
	o.spent.done += int64(len(cols))
	slack := sum - (o.value+o.step)*scale
	if slack < 0 {
		return nil, false
	}
	for i, c := range cols {
		if priced[i] >= best[c.billet]-slack {
			kept = append(kept, c)
		}
	}
	return kept, true
}

// split divides the patterns by the number of sets of one kind from one billet,
// where the program's solution has a broken number; nil, nil if it has none.
func (o *order) split(s *simplex, cols []*column) (low, high []*column) {
	sum := make([]float64, len(o.boards)*MaxKinds)
	for _, u := range s.used() {
		c := s.cols[u.col]
		for p, on := range o.lim.tracked {
			if on {
				sum[c.billet*MaxKinds+p] += u.share * float64(c.n[p])
			}
		}
	}
	most, far := -1, 1e-6
	for i, v := range sum {
		if d := math.Abs(v - math.Round(v)); d > far+1e-9 {
			most, far = i, d
		}
	}
	if most < 0 {
		return nil, nil
	}
	billet, kind := most/MaxKinds, most%MaxKinds
	cut := uint16(math.Floor(sum[most]))
	// Never nil, so that an empty side is told from no split.
	low, high = []*column{}, []*column{}
	for _, c := range cols {
		if c.billet != billet || c.n[kind] <= cut {
			low = append(low, c)
		}
		if c.billet != billet || c.n[kind] > cut {
			high = append(high, c)
		}
	}
	return low, high
}

// halve divides the patterns of the billet that has the most left into the best
// half and the rest.
func (o *order) halve(s *simplex, cols []*column) (a, b []*column) {
	count := make([]int, len(o.boards))
	for _, c := range cols {
		count[c.billet]++
	}
	billet := 0
	for i, n := range count {
		if n > count[billet] {
			billet = i
		}
	}
	for _, u := range s.used() { // rather one whose patterns are mixed
		if b := s.cols[u.col].billet; u.share < 1-1e-6 && count[b] > 1 {
			billet = b
			break
		}
	}
	if count[billet] < 2 {
		return o.lastChoices(cols)
	}
	p := o.wholePrices(s)
	var mine []*column
	for _, c := range cols {
		if c.billet == billet {
			mine = append(mine, c)
		} else {
			a, b = append(a, c), append(b, c)
		}
	}
	slices.SortStableFunc(mine, func(x, y *column) int { return cmp.Compare(o.priced(y, p), o.priced(x, p)) })
	half := len(mine) / 2
	return append(a, mine[:half]...), append(b, mine[half:]...)
}

// lastChoices tries all ways to take or leave the one pattern each billet has.
func (o *order) lastChoices(cols []*column) (a, b []*column) {
	choice := make([]*column, len(o.boards))
	for _, c := range cols {
		choice[c.billet] = c
	}
	o.offer(choice)
	return nil, nil
}
