package plan

import (
	"cmp"
	"slices"
)

// Merging. Billet after billet, the counts reached so far are kept with the best
// worth for each. Counts go that others serve as well as, and counts that no plan
// better than the one known can come of: what the billets to come add is bounded
// at several sets of shadow prices (views), because prices that suit the counts of
// the best plan say little of counts that lie far from them. If no more than width
// counts are ever held, nothing else is dropped and the best plan over the patterns
// given is found; otherwise the least promising go, and it is only a good plan.

// merged is one count of sets from the billets up to a stage.
type merged struct {
	n     counts
	worth int64
	guess int64 // bound on the worth of any plan that comes of it, in price steps
	from  int32
	col   int32 // -1: billet not used
}

// stages are the billets in the order of merging, with what is left to come at
// each of them.
type stages struct {
	o     *order
	turn  []int
	by    [][]*column // by billet
	high  []counts    // the most sets of each kind that the billets from a stage on can add
	views []*view
}

// view is a set of shadow prices with the best priced worth of the billets from
// each stage on.
type view struct {
	p    *prices
	rest []int64
}

// Limits of the views of a merger.
const (
	mostViews = 24
	crowded   = 64 // counts held that call for another view
)

func (o *order) newStages(cols []*column) *stages {
	t := &stages{o: o, by: make([][]*column, len(o.boards))}
	for _, c := range cols {
		t.by[c.billet] = append(t.by[c.billet], c)
	}
	for i := range t.by {
		t.turn = append(t.turn, i)
	}
	slices.SortStableFunc(t.turn, func(a, b int) int { return cmp.Compare(len(t.by[a]), len(t.by[b])) })
	t.high = make([]counts, len(t.turn)+1)
	for s := len(t.turn) - 1; s >= 0; s-- {
		var most counts
		for _, c := range t.by[t.turn[s]] {
			for _, k := range o.lim.kinds {
				most[k] = max(most[k], c.n[k])
			}
		}
		t.high[s], _, _ = o.lim.add(&t.high[s+1], &most)
	}
	return t
}

func (t *stages) view(p *prices) *view {
	v := &view{p: p, rest: make([]int64, len(t.turn)+1)}
	for s := len(t.turn) - 1; s >= 0; s-- {
		best := int64(0) // unused
		for _, c := range t.by[t.turn[s]] {
			best = max(best, t.o.priced(c, p))
		}
		v.rest[s] = v.rest[s+1] + best
	}
	return v
}

// bound returns what a plan can be worth at most, fines taken off, in price steps,
// that comes of counts n worth so much before stage s.
//
// At prices a of the most and b of the least, the billets to come add at most
// their best priced worth, and a for every set that the most still leaves and they
// can make, less b for every set that the least still wants, less the fine for
// those that they cannot make.
func (t *stages) bound(v *view, s int, n *counts, worth int64) int64 {
	sum := worth*scale + v.rest[s]
	for i := range t.o.program.most {
		m := &t.o.program.most[i]
		sum += v.p.most[m.kind] * min(int64(m.limit)-int64(n[m.kind]), int64(t.high[s][m.kind]))
	}
	for i := range t.o.program.least {
		m := &t.o.program.least[i]
		want := int64(m.limit) - int64(n[m.kind])
		if want <= 0 {
			continue
		}
		b := v.p.least[m.kind]
		sum -= b * want
		if beyond := want - int64(t.high[s][m.kind]); beyond > 0 {
			sum -= (t.o.fine*scale - b) * beyond
		}
	}
	return sum
}

// merge searches the plans made of cols with at most width counts at a time and
// offers the best. It reports whether that is proven the best over cols among the
// plans better than the one known.
func (o *order) merge(cols []*column, p *prices, width int) (exact bool, err error) {
	o.lim.setPrices(p)
	t := o.newStages(cols)
	t.views = append(t.views, t.view(p))
	aim := (o.value + o.step) * scale // what a better plan is worth
	if t.bound(t.views[0], 0, &counts{}, 0) < aim {
		return true, nil
	}
	exact = true
	lists := o.spent.held.lists
	defer func() { o.spent.held.lists = lists }()
	held := make([][]merged, len(t.turn)+1)
	held[0] = []merged{{from: -1, col: -1, guess: t.bound(t.views[0], 0, &counts{}, 0)}}
	kept := int64(0)
	for s := range t.turn {
		next, err := t.step(s, held[s], aim)
		if err != nil {
			return false, err
		}
		next = t.bounded(s+1, next, aim)
		if len(next) > 8*width { // more than it pays to look at closely
			exact = false
			next = promising(next, 8*width)
		}
		if next, err = t.sift(s+1, next, aim); err != nil {
			return false, err
		}
		if len(next) > width {
			exact = false
			next = promising(next, width)
		}
		held[s+1] = next
		kept += int64(len(next)) * mergedBytes
		o.spent.held.lists = lists + kept
	}
	// At the last stage the bound is the worth less the fines.
	top, at := aim-1, -1
	for i := range held[len(t.turn)] {
		if m := &held[len(t.turn)][i]; m.guess > top {
			top, at = m.guess, i
		}
	}
	if at < 0 {
		return exact, nil
	}
	choice := make([]*column, len(t.by))
	for s := len(t.turn); s > 0; s-- {
		m := &held[s][at]
		if m.col >= 0 {
			choice[t.turn[s-1]] = t.by[t.turn[s-1]][m.col]
		}
		at = int(m.from)
	}
	o.offer(choice)
	return exact, nil
}

// step adds the billet of stage s to all counts held.
func (t *stages) step(s int, held []merged, aim int64) ([]merged, error) {
	o, first := t.o, t.views[0]
	list := t.by[t.turn[s]]
	// What each pattern is worth less than the best of the billet at the first
	// view is taken from the bound of what it is added to.
	best := first.rest[s] - first.rest[s+1]
	type choice struct {
		col  int32
		lost int64
	}
	choices := []choice{{-1, best}}
	for j, c := range list {
		choices = append(choices, choice{int32(j), best - o.priced(c, first.p)})
	}
	slices.SortStableFunc(choices, func(a, b choice) int { return cmp.Compare(a.lost, b.lost) })
	index := map[counts]int32{}
	var next []merged
	for f := range held {
		m := &held[f]
		room := t.bound(first, s, &m.n, m.worth) - aim
		looked := 0
		for _, c := range choices {
			if c.lost > room {
				break
			}
			looked++
			x := merged{n: m.n, worth: m.worth, from: int32(f), col: c.col}
			if c.col >= 0 {
				y := list[c.col]
				n, worth, _ := o.lim.add(&m.n, &y.n)
				x.n, x.worth = n, m.worth+y.worth-worth
			}
			if i, ok := index[x.n]; ok {
				if next[i].worth < x.worth {
					next[i] = x
				}
				continue
			}
			index[x.n] = int32(len(next))
			next = append(next, x)
			if err := o.spent.list(1, mergedBytes+indexBytes); err != nil {
				return nil, err
			}
		}
		if err := o.spent.spend(int64(15*looked + 8)); err != nil {
			return nil, err
		}
	}
	return next, nil
}

// promising returns the n counts of the highest bounds.
func promising(list []merged, n int) []merged {
	slices.SortStableFunc(list, func(a, b merged) int { return cmp.Compare(b.guess, a.guess) })
	return list[:n]
}

// bounded bounds the counts before stage s in every view and drops those that
// cannot reach the aim.
func (t *stages) bounded(s int, list []merged, aim int64) []merged {
	for i := range list {
		m := &list[i]
		m.guess = t.bound(t.views[0], s, &m.n, m.worth)
	}
	for _, v := range t.views[1:] {
		list = t.look(v, s, list, aim)
	}
	return slices.DeleteFunc(list, func(m merged) bool { return m.guess < aim })
}

// sift drops the counts before stage s that others serve as well as. While many are
// left it adds views, the prices of what the most promising would have to add, and
// drops those that cannot reach the aim in them.
func (t *stages) sift(s int, list []merged, aim int64) ([]merged, error) {
	var err error
	if list, err = t.settle(list); err != nil {
		return nil, err
	}
	for len(list) > crowded && len(t.views) < mostViews && s < len(t.turn) {
		before := len(list)
		v, err := t.viewFrom(s, list)
		if err != nil {
			return nil, err
		}
		t.views = append(t.views, v)
		if list = t.look(v, s, list, aim); len(list) > before*9/10 {
			break
		}
	}
	return list, t.o.spent.spend(int64(len(list) * len(t.views)))
}

// look bounds counts in one more view and drops those that cannot reach the aim.
func (t *stages) look(v *view, s int, list []merged, aim int64) []merged {
	kept := list[:0]
	for i := range list {
		m := list[i]
		if m.guess < aim {
			continue
		}
		if m.guess = min(m.guess, t.bound(v, s, &m.n, m.worth)); m.guess >= aim {
			kept = append(kept, m)
		}
	}
	return kept
}

// settle drops the counts that others serve as well as, looking at the best only.
func (t *stages) settle(list []merged) ([]merged, error) {
	const looked = 200
	p := t.views[0].p
	worth := make([]int64, len(list))
	rank := make([]int32, len(list))
	for i := range list {
		m := &list[i]
		rank[i] = int32(i)
		worth[i] = t.o.pricedCounts(&m.n, m.worth, p)
	}
	slices.SortStableFunc(rank, func(a, b int32) int {
		return cmp.Or(cmp.Compare(worth[b], worth[a]), cmp.Compare(list[b].worth, list[a].worth))
	})
	var kept []merged
	looks := 0
next:
	for _, r := range rank {
		x := &list[r]
		for i := range kept[:min(len(kept), looked)] {
			if looks++; t.o.lim.serves(&kept[i].n, kept[i].worth, &x.n, x.worth) {
				continue next
			}
		}
		kept = append(kept, *x)
	}
	return kept, t.o.spent.spend(int64(looks / 4))
}

// viewFrom returns the view of the linear program of the billets from stage s on,
// after the counts of the highest bound.
func (t *stages) viewFrom(s int, list []merged) (*view, error) {
	from := &list[0]
	for i := range list {
		if list[i].guess > from.guess {
			from = &list[i]
		}
	}
	left := t.o.program
	left.most, left.least = slices.Clone(left.most), slices.Clone(left.least)
	for i := range left.most {
		left.most[i].limit -= float64(from.n[left.most[i].kind])
	}
	for i := range left.least {
		left.least[i].limit = max(0, left.least[i].limit-float64(from.n[left.least[i].kind]))
	}
	var cols []*column
	for _, billet := range t.turn[s:] {
		cols = append(cols, t.by[billet]...)
	}
	x := newLinear(&left, cols)
	if err := x.solve(t.o.spent); err != nil {
		return nil, err
	}
	return t.view(t.o.wholePrices(x)), nil
}
