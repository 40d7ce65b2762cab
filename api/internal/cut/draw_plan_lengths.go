package cut

import (
	"cmp"
	"slices"

	"latewood/api/internal/wire"
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

// lengthsOf are the lengths at which the end grain shows every blank once at least: each
// where the first blank ends that no other length shows, with all blanks that reach there.
func lengthsOf(made *plan.BilletPlan) []lengthView {
	order := make([]int, len(made.Blanks))
	for i := range order {
		order[i] = i
	}
	end := func(i int) quantity.Length { return made.Blanks[i].X + made.Blanks[i].Length }
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(end(i), end(j)) })
	shown := map[int]bool{}
	var all []lengthView
	for _, i := range order {
		if shown[i] {
			continue
		}
		s := lengthView{to: end(i)}
		for j := range made.Blanks {
			if made.Blanks[j].X < s.to-wire.ANanometre && end(j) > s.to-wire.ANanometre {
				s.from = max(s.from, made.Blanks[j].X)
				s.blanks = append(s.blanks, j)
				shown[j] = true
			}
		}
		slices.SortStableFunc(s.blanks, func(i, j int) int { return cmp.Compare(made.Blanks[i].Y, made.Blanks[j].Y) })
		all = append(all, s)
	}
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
