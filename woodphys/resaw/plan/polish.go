package plan

import (
	"errors"
	"slices"
)

// Polishing. Where parts have limits on their counts the search settles which sets
// come from which billet, and not by which cuts: its patterns differ in worth. Each
// billet is planned once more for just its sets and the fewest cuts, all ways to
// make them listed with what they cut, as long as these are few.

// Limits of polishing.
const (
	polishCounts = 500     // ways to have some of the sets of a billet
	polishWork   = 500_000 // steps for one billet
	polishShare  = 12      // the part of the work that is kept for all billets
)

// polish returns the plans of all billets, each with as few cuts as were found for
// the same sets, and of those the longest piece left whole. What the work or the
// limits of polishing do not allow stays as it is.
func (r *sawResult) polish(plans []*way, spent *work) ([]*way, error) {
	if !limited(r.r.kinds) { // fewest cuts were sought all along
		return plans, nil
	}
	out := slices.Clone(plans)
	for i := range plans {
		first := r.order.alike[i]
		if first < i && samePlan(plans[i], plans[first]) {
			out[i] = out[first]
			continue
		}
		most, held := spent.most, spent.held
		spent.most = min(most, spent.done+polishWork)
		better, err := r.polishOne(i, plans[i], spent)
		spent.most, spent.held = most, held
		if errors.Is(err, errBudget) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if better != nil && r.cheaper(i, better, plans[i]) {
			out[i] = better
		}
	}
	return out, nil
}

// limited reports whether a part has a limit on its count.
func limited(parts []want) bool {
	return slices.ContainsFunc(parts, func(k want) bool { return k.most != nil || k.least > 0 })
}

func samePlan(a, b *way) bool {
	if a == nil || b == nil || (a.low == nil) != (b.low == nil) {
		return a == b
	}
	if a.low != nil {
		return a.across == b.across && samePlan(a.low, b.low) && samePlan(a.high, b.high)
	}
	x, y := &a.blank, &b.blank
	return x.y == y.y && x.x == y.x && x.width == y.width && x.length == y.length && x.turned == y.turned && x.split == y.split &&
		slices.Equal(x.sets, y.sets)
}

// polishOne returns a plan of the sets of a billet with the fewest cuts listed; nil
// where it has none or too many to list.
func (r *sawResult) polishOne(billet int, plan *way, spent *work) (*way, error) {
	if plan.aside() { // the staged search turns and splits nothing
		return nil, nil
	}
	sets := plan.totals(len(r.r.kinds))
	parts := slices.Clone(r.r.kinds)
	value := make([]int64, len(parts))
	mask, ways, all := uint32(0), 1, 0
	for p := range parts {
		parts[p].least, parts[p].most, parts[p].worth = 0, &sets[p], unitOfWorth
		if sets[p] > 0 {
			mask, value[p] = mask|1<<p, unitOfWorth
			all += sets[p]
			if ways *= sets[p] + 1; ways > polishCounts {
				return nil, nil
			}
		}
	}
	if mask == 0 {
		return nil, nil
	}
	w := *r.woods[billet]
	b, err := newBoard(&w, r.r, mask, spent)
	if err != nil {
		return nil, err
	}
	r.r.stamp++
	if _, err := b.price(value, 1); err != nil {
		return nil, err
	}
	lim := newLimits(parts)
	lim.priced = lim.worth
	known := int64(r.written(billet, plan).Cuts)
	// Everything listed may be of use that has fewer cuts than are known, or as
	// many; cuts that serve two sides are taken off later (dag of strips).
	l := newLister(b, &lim, value, value, 1<<60)
	l.tooDear = func(x *label) bool {
		n := int64(0)
		for _, p := range lim.kinds {
			n += int64(x.n[p])
		}
		return n*unitOfWorth-x.worth > known+2
	}
	listed, err := l.all()
	if err != nil {
		return nil, err
	}
	at := -1
	for i := range listed.end {
		x := &listed.end[i]
		if x.worth > int64(all-1)*unitOfWorth && (at < 0 || x.worth > listed.end[at].worth) {
			at = i
		}
	}
	if at < 0 {
		return nil, nil
	}
	over := &sawResult{r: r.r, woods: []*offer{r.woods[billet]}}
	return over.spare([]*way{wayOf(l.trace(listed, listed.end[at]))}, parts)[0], nil
}

// written writes a plan of one billet by itself.
func (r *sawResult) written(billet int, plan *way) BilletPlan {
	t := &writer{w: r.woods[billet], r: r.r, parts: r.r.kinds, made: make([]int, len(r.r.kinds))}
	return t.write(plan)
}

// cheaper reports whether a plan has the sets of another with fewer cuts, or with as
// many and a longer piece left whole.
func (r *sawResult) cheaper(billet int, a, b *way) bool {
	if !slices.Equal(a.totals(len(r.r.kinds)), b.totals(len(r.r.kinds))) {
		return false
	}
	x, y := r.written(billet, a), r.written(billet, b)
	return x.Cuts < y.Cuts || x.Cuts == y.Cuts && x.Remainder > y.Remainder
}
