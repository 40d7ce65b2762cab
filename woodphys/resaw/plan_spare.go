package resaw

// Wood spared. A plan that is best in worth may hold sets beyond the most wanted,
// which a pattern had in it. Those that end a stack are left in the wood: that
// saves their cuts, and a thicker piece is worth more to the maker than leaves
// that nothing was wanted of. A set within a stack stays, because the leaves
// behind it need the cuts.

// spare returns the plans of all billets without the sets that end a stack and lie
// beyond the most wanted, and without what is left empty then.
func spare(plans [][]sectionPlan, parts []PartKind) [][]sectionPlan {
	over := make([]int, len(parts))
	for p := range parts {
		if parts[p].Most != nil {
			over[p] = -*parts[p].Most
		} else {
			over[p] = -1 << 40
		}
	}
	for _, plan := range plans {
		for p, n := range totals(plan, len(parts)) {
			over[p] += n
		}
	}
	out := make([][]sectionPlan, len(plans))
	for i := len(plans) - 1; i >= 0; i-- {
		for s := len(plans[i]) - 1; s >= 0; s-- {
			if kept := spareSection(plans[i][s], over); len(kept.strips) > 0 {
				out[i] = append([]sectionPlan{kept}, out[i]...)
			}
		}
	}
	return out
}

func spareSection(s sectionPlan, over []int) sectionPlan {
	kept := sectionPlan{from: s.from, to: s.to}
	for t := len(s.strips) - 1; t >= 0; t-- {
		strip := s.strips[t]
		for n := len(strip.sets); n > 0; n-- {
			if p := strip.sets[n-1].part; p >= 0 {
				if over[p] <= 0 {
					break
				}
				over[p]--
			}
			strip.sets = strip.sets[:n-1]
		}
		if len(strip.sets) > 0 {
			kept.strips = append([]stripPlan{strip}, kept.strips...)
		}
	}
	return kept
}
