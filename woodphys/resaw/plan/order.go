package plan

import (
	"math"
	"slices"

	"latewood/woodphys/resaw/plan/guillotine"
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
//     than the gap between bound and best plan found is in no better plan, and a
//     pattern that another serves as well as (limits.serves) is not needed. All the
//     others are listed (labels.go), and merging them billet after billet
//     (merge.go), or branch and bound over the list, ends with the best.
//
// First plans come from cutting billets in turn for what the list still lacks
// (sweep.go, fill.go), and where kinds are many from a few kinds for each
// billet (quick.go). They, and the order in which work is spent, are rules of
// thumb; bound and proof do not rest on them.

// order is the search for the best plan of several billets on one saw.
type order struct {
	rig     *rig
	woods   []*offer
	alike   []int    // of every billet the first that is cut alike
	suits   []uint32 // the kinds that each billet suits flat
	turns   []uint32 // and on its side
	boards  []*board // one per billet; alike billets share one; nil: not taken apart yet
	cutters []*cutter
	grid    guillotine.Grid // of the cutters in turn
	kinds   []want
	parts   []want // the same, with the numbers wanted of this list
	lim     limits
	program program
	fine    int64
	step    int64 // every worth is a multiple of it
	spent   *work
	plain   bool // no first plan is made, however many the kinds

	cols      []*column
	seen      map[patternKey]bool
	best      []*column // the best plan found, nil for an unused billet
	value     int64     // of it, fines taken off
	bound     int64     // rounded down, fines taken off
	freeBound int64     // on the worth with no limits
	known     *int64    // the same, of the first plan
	given     int64     // steps that there were for all of it
	deep      *bool     // leaves may begin at many depths; nil: not looked for yet
	done      bool      // proven
}

type patternKey struct {
	billet int
	n      counts
	worth  int64
}

func newOrder(r *rig, woods []*offer, parts []want, spent *work) *order {
	n := len(woods)
	o := &order{
		rig: r, woods: woods, alike: make([]int, n), suits: make([]uint32, n), turns: make([]uint32, n), boards: make([]*board, n),
		best:  make([]*column, n),
		kinds: r.kinds, parts: parts, lim: newLimits(parts), spent: spent, seen: map[patternKey]bool{},
		given: spent.most - spent.done,
	}
	for p := range parts {
		o.step = gcd(o.step, parts[p].worth)
	}
	o.step = max(o.step, 1)
	return o
}

// Where the search changes its way.
const (
	manyKinds  = 6 // more than these are many
	fewBillets = 4 // so few are also filled for more kinds each
)

// many reports whether the kinds of part are many.
func (o *order) many() bool { return len(o.kinds) > manyKinds && !o.plain }

// setRows makes the rows of the linear program. Missing a wanted set is fined more
// than all the wood can be worth.
func (o *order) setRows() {
	o.fine = o.freeBound + o.step - o.freeBound%o.step
	o.program = newProgram(len(o.boards), o.lim.kinds, o.parts, o.fine)
}

// stamp marks that the worths priced from here on are new.
func (o *order) stamp() { o.rig.stamp, o.rig.last = o.rig.stamp+1, nil }

// column makes a pattern of a plan.
func (o *order) column(billet int, plan *way) *column {
	c := &column{billet: billet, plan: func() *way { return plan }}
	for p, n := range plan.totals(len(o.kinds)) {
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

// release gives up the lists that were made since so much was held, but for the plan
// that came of them: it is written out, so that it does not hold them.
func (o *order) release(held memory) {
	for _, c := range o.best {
		if c != nil {
			plan := c.plan()
			c.plan = func() *way { return plan }
		}
	}
	o.spent.held = held
}

func (o *order) offer(choice []*column) {
	if v := o.judge(choice); v > o.value {
		o.value, o.best = v, slices.Clone(choice)
	}
}

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
func (o *order) priced(c *column, p *prices) int64 { return o.pricedCounts(&c.n, c.worth, p) }

// pricedCounts returns what counts of a given worth are worth at the prices.
func (o *order) pricedCounts(n *counts, worth int64, p *prices) int64 {
	v := worth * scale
	for _, k := range o.lim.kinds {
		v += (p.least[k] - p.most[k]) * int64(n[k])
	}
	return v
}

// wholePrices rounds the prices of a solved program and holds them in their
// bounds, within which any prices give a bound.
func (o *order) wholePrices(s *linear) *prices {
	p := &prices{}
	for _, m := range o.program.most {
		price, _ := s.Prices(m.row)
		p.most[m.kind] = hold(price*scale, 0, int64(m.cost)*scale)
	}
	for _, m := range o.program.least {
		_, price := s.Prices(m.row)
		p.least[m.kind] = hold(-price*scale, 0, o.fine*scale)
	}
	return p
}

func (o *order) valuesAt(p *prices) []int64 {
	value := make([]int64, len(o.kinds))
	for k := range o.kinds {
		value[k] = o.kinds[k].worth*scale - p.most[k] + p.least[k]
	}
	return value
}
