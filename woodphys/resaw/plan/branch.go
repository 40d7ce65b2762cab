package plan

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

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
	lists := o.spent.held.lists
	defer func() { o.spent.held.lists = lists }()
	open := [][]*column{cols}
	waiting := len(cols)
	for len(open) > 0 {
		if nodes--; nodes < 0 {
			return errNodes
		}
		at := open[len(open)-1]
		open[len(open)-1] = nil
		open = open[:len(open)-1]
		waiting -= len(at)
		o.spent.held.lists = lists
		if err := o.spent.list(waiting+5*len(at), pointerBytes); err != nil { // those of the program
			return err
		}
		s := newLinear(&o.program, at)
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
				waiting += len(child)
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
func (o *order) split(s *linear, cols []*column) (low, high []*column) {
	sum := make([]float64, len(o.boards)*MaxKinds)
	for _, u := range s.Used() {
		c := s.cols[u.Column]
		for p, on := range o.lim.tracked {
			if on {
				sum[c.billet*MaxKinds+p] += u.Share * float64(c.n[p])
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
func (o *order) halve(s *linear, cols []*column) (a, b []*column) {
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
	for _, u := range s.Used() { // rather one whose patterns are mixed
		if b := s.cols[u.Column].billet; u.Share < 1-1e-6 && count[b] > 1 {
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
