package plan

import "slices"

// Wood spared. A plan that is best in worth may hold sets beyond the most wanted,
// which a pattern had in it. They are left in the wood, and what lies behind them
// in their stack moves up, where zones and rings let it: that saves cuts, and a
// thicker piece is worth more to the maker than leaves that nothing was wanted of.

// spare returns the plans of all billets without sets beyond the most wanted, as
// far as the rest of their stack can move up, and without what is left empty then.
func (r *sawResult) spare(plans []*way, parts []want) []*way {
	over := make([]int, len(parts))
	for p := range parts {
		if over[p] = -1 << 40; parts[p].most != nil {
			over[p] = -*parts[p].most
		}
	}
	for _, plan := range plans {
		for p, n := range plan.totals(len(parts)) {
			over[p] += n
		}
	}
	out := make([]*way, len(plans))
	for i := len(plans) - 1; i >= 0; i-- {
		out[i] = plans[i].mapped(func(b blankPlan) (blankPlan, bool) {
			b.sets = r.spareStack(r.woods[i], b, over)
			return b, len(b.sets) > 0
		})
	}
	return out
}

// spareStack returns the sets of a stack without those beyond the most wanted that
// can go, and takes them off over.
func (r *sawResult) spareStack(w *offer, b blankPlan, over []int) []placed {
	sets := slices.Clone(b.sets)
	var spoiled []interval
	var rings []ring
	known := false
	for n := len(sets) - 1; n >= 0; n-- {
		p := sets[n].part
		if p < 0 || over[p] < sets[n].count() {
			continue
		}
		if b.turned || b.split { // all are of one kind, and the place is good for each
			sets = sets[:len(sets)-1]
			over[p]--
			continue
		}
		if !known {
			known = true
			spot := w.flat(b.x, b.length, b.y, b.width)
			zones, _ := w.touching(b.x, b.x+b.length, b.y, b.y+b.width)
			spoiled = w.spoiled(zones, spot.loss)
			if w.pith {
				rings = w.reach(r.r, spot.off, spot.face)
			}
		}
		if moved, ok := r.r.moveUp(sets, n, spoiled, rings); ok {
			over[p] -= sets[n].count()
			sets = moved
		}
	}
	for len(sets) > 0 && sets[len(sets)-1].part < 0 { // a slab that no set lies behind
		sets = sets[:len(sets)-1]
	}
	return sets
}

// moveUp takes out set n and moves those behind it into its place, up to the next
// slab that is left out.
func (r *rig) moveUp(sets []placed, n int, spoiled []interval, rings []ring) ([]placed, bool) {
	by := r.kinds[sets[n].part].height
	moved := slices.Delete(slices.Clone(sets), n, n+1)
	for i := n; i < len(moved); i++ {
		m := &moved[i]
		m.at -= by
		if m.part < 0 {
			break
		}
		if !r.kinds[m.part].fits(m.at, r, spoiled, rings, m.part) {
			return nil, false
		}
	}
	return moved, true
}
