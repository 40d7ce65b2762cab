package resaw

import (
	"cmp"
	"slices"
)

// Merging. Billet after billet, the counts reached so far are kept with the best
// worth for each; what a pattern loses against the best of its billet at the
// prices adds up, and counts that have lost more than the gap are dropped. If no
// more than width counts are ever held, nothing else is dropped and the best plan
// over the patterns given is found; otherwise the least promising go, and it is
// only a good plan.

// heap of one stage: labels of merged billets.
type merged struct {
	n     counts // clipped at the most, or at the least where there is no most
	lost  int64  // in price steps
	guess int64  // lost, and what is sure to be lost by the end
	worth int64
	from  int32
	col   int32 // -1: billet not used
}

// spread is the least and the most of each kind that the billets still to come
// can add.
type spread struct{ low, high [MaxKinds]int }

// merge searches the plans made of cols with at most width counts at a time and
// offers the best. It reports whether that is proven the best over cols among the
// plans better than the one known.
func (o *order) merge(cols []*column, p *prices, width int) (exact bool, err error) {
	o.lim.setPrices(p)
	by := make([][]*column, len(o.boards))
	for _, c := range cols {
		by[c.billet] = append(by[c.billet], c)
	}
	turn := make([]int, len(by))
	for i := range turn {
		turn[i] = i
	}
	slices.SortStableFunc(turn, func(a, b int) int { return cmp.Compare(len(by[a]), len(by[b])) })
	best := make([]int64, len(by))
	sum := o.constant(p)
	for i, list := range by {
		for _, c := range list {
			best[i] = max(best[i], o.priced(c, p))
		}
		sum += best[i]
	}
	slack := sum - (o.value+o.step)*scale
	if slack < 0 {
		return true, nil
	}
	coming := make([]spread, len(turn)+1)
	for s := len(turn) - 1; s >= 0; s-- {
		coming[s] = coming[s+1]
		var low, high counts
		for j, c := range by[turn[s]] {
			for k := range o.kinds {
				if j == 0 {
					low[k] = c.n[k]
				}
				low[k], high[k] = min(low[k], c.n[k]), max(high[k], c.n[k])
			}
		}
		for k := range o.kinds {
			coming[s].high[k] += int(high[k])
			if best[turn[s]] <= slack { // the billet may stay unused
				low[k] = 0
			}
			coming[s].low[k] += int(low[k])
		}
	}
	exact = true
	stages := make([][]merged, len(turn)+1)
	stages[0] = []merged{{from: -1, col: -1}}
	for s, billet := range turn {
		index := map[counts]int32{}
		var next []merged
		put := func(m merged) {
			m.guess = m.lost + o.sure(&m.n, p, &coming[s+1])
			if m.guess > slack {
				return
			}
			if i, ok := index[m.n]; ok {
				if next[i].worth < m.worth {
					next[i] = m
				}
				return
			}
			index[m.n] = int32(len(next))
			next = append(next, m)
		}
		for f := range stages[s] {
			m := &stages[s][f]
			if err := o.spent.spend(int64(8*len(by[billet]) + 8)); err != nil {
				return false, err
			}
			if m.lost+best[billet] <= slack {
				put(merged{n: m.n, lost: m.lost + best[billet], worth: m.worth, from: int32(f), col: -1})
			}
			for j, c := range by[billet] {
				lost := m.lost + best[billet] - o.priced(c, p)
				if lost > slack {
					continue
				}
				n, worth, priced := o.lim.add(&m.n, &c.n)
				put(merged{n: n, lost: lost + priced, worth: m.worth + c.worth - worth, from: int32(f), col: int32(j)})
			}
		}
		if len(next) > width {
			exact = false
			slices.SortStableFunc(next, func(a, b merged) int { return cmp.Compare(a.guess, b.guess) })
			next = next[:width]
		}
		stages[s+1] = next
	}
	top, at := o.value, -1
	for i := range stages[len(turn)] {
		m := &stages[len(turn)][i]
		v := m.worth
		for _, l := range o.program.least {
			v -= int64(max(0, int(l.limit)-int(m.n[l.kind]))) * o.fine
		}
		if v > top {
			top, at = v, i
		}
	}
	if at < 0 {
		return exact, nil
	}
	choice := make([]*column, len(by))
	for s := len(turn); s > 0; s-- {
		m := &stages[s][at]
		if m.col >= 0 {
			choice[turn[s-1]] = by[turn[s-1]][m.col]
		}
		at = int(m.from)
	}
	o.offer(choice)
	return exact, nil
}

// sure returns what is certain to be lost with counts n by the end, when the
// billets to come add between low and high.
func (o *order) sure(n *counts, p *prices, to *spread) int64 {
	v := int64(0)
	for _, m := range o.program.most {
		k := m.kind
		if d := int(m.limit) - int(n[k]) - to.high[k]; d > 0 {
			v += int64(d) * p.most[k]
		}
	}
	for _, m := range o.program.least {
		k := m.kind
		if d := int(m.limit) - int(n[k]) - to.high[k]; d > 0 {
			v += int64(d) * (o.fine*scale - p.least[k])
		}
		// Sets beyond the least were paid for in vain, except that those beyond the
		// most are given back with them.
		if o.lim.bounded[k] && n[k] > uint16(m.limit) {
			v += int64(int(n[k])-int(m.limit)) * p.least[k]
		}
	}
	return v
}
