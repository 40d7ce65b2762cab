package cut

import (
	"cmp"
	"slices"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// lengthView is the blanks of one or several lengths of a billet that are cut
// alike.
type lengthView struct {
	from, to quantity.Length
	blanks   []int
	same     [][]string // letters of the blanks of each column
}

// lengthsOf groups the blanks by the lengths they lie in, from the start on.
func lengthsOf(made *plan.BilletPlan) []lengthView {
	var all []lengthView
	for i := range made.Blanks {
		b := &made.Blanks[i]
		if n := len(all); n > 0 && b.X < all[n-1].to && b.X+b.Length > all[n-1].from {
			s := &all[n-1]
			s.from, s.to = min(s.from, b.X), max(s.to, b.X+b.Length)
			s.blanks = append(s.blanks, i)
			continue
		}
		all = append(all, lengthView{from: b.X, to: b.X + b.Length, blanks: []int{i}})
	}
	slices.SortFunc(all, func(a, b lengthView) int { return cmp.Compare(a.from, b.from) })
	return all
}

// sectionsOf are the lengths of a billet, those that look alike together.
func sectionsOf(made *plan.BilletPlan) []lengthView {
	var out []lengthView
	for _, s := range lengthsOf(made) {
		merged := false
		for k := range out {
			if alikeSections(made, &out[k], &s) {
				for c, i := range s.blanks {
					out[k].same[c] = append(out[k].same[c], plan.Letters(i))
				}
				merged = true
				break
			}
		}
		if !merged {
			for _, i := range s.blanks {
				s.same = append(s.same, []string{plan.Letters(i)})
			}
			out = append(out, s)
		}
	}
	return out
}

func alikeSections(made *plan.BilletPlan, a, b *lengthView) bool {
	if len(a.blanks) != len(b.blanks) {
		return false
	}
	for c := range a.blanks {
		x, y := &made.Blanks[a.blanks[c]], &made.Blanks[b.blanks[c]]
		if x.Y != y.Y || x.Width != y.Width || x.Face1 != y.Face1 || len(x.Leaves) != len(y.Leaves) {
			return false
		}
		for n := range x.Leaves {
			if l, m := x.Leaves[n], y.Leaves[n]; l.From != m.From || l.To != m.To || l.Role != m.Role {
				return false
			}
		}
	}
	return true
}
