package cut

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
	"latewood/woodphys/resaw/plan"
)

// matches tells how the planned pairs match, where the rings are known.
func (p *planner) matches(made *plan.Plan, r *ResawResult) error {
	unread := false
	for i := range made.Billets {
		b := &p.asked.Billets[i]
		for j := range made.Billets[i].Blanks {
			blank := &made.Billets[i].Blanks[j]
			if len(blank.Leaves) < 2 {
				continue
			}
			if b.Pith == nil && b.RingAngle == nil {
				unread = unread || p.hasPair(blank)
				continue
			}
			for _, opening := range []match.Opening{match.Bookmatch, match.SlipMatch} {
				if err := p.matchBlank(made, b, blank, letters(j), opening, r); err != nil {
					return err
				}
			}
		}
	}
	if unread {
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: "billets", Detail: "no rings were read of some billets, so the match of their pairs is not told"})
	}
	slices.SortStableFunc(r.Matches, func(a, b PlannedMatch) int { return cmp.Compare(a.Score, b.Score) })
	for i := range r.Matches {
		r.Matches[i].Rank = i + 1
	}
	return nil
}

func (p *planner) hasPair(b *plan.Blank) bool {
	for _, l := range b.Leaves {
		if l.Role == plan.RoleSet && p.asked.Parts[l.Part].Match != plan.MatchNone {
			return true
		}
	}
	return false
}

// matchBlank adds the pairs of a blank that are opened in one way: the first leaf
// of a set with the second, the third with the fourth.
func (p *planner) matchBlank(made *plan.Plan, b *plan.Billet, blank *plan.Blank, label string, opening match.Opening, r *ResawResult) error {
	saw := &p.asked.Saws[made.Saw]
	in := match.Input{Width: blank.Width, CleanupShow: saw.CleanupShow, CleanupBack: saw.CleanupBack, Openings: []match.Opening{opening}}
	pairs := map[int]*plan.Leaf{} // first leaf of each, by its place among those asked about
	for n := 0; n+1 < len(blank.Leaves); n++ {
		l, next := &blank.Leaves[n], &blank.Leaves[n+1]
		if l.Role != plan.RoleSet || next.Part != l.Part || next.Set != l.Set || string(p.asked.Parts[l.Part].Match) != string(opening) {
			continue
		}
		in.Leaves = append(in.Leaves, match.LeafFaces{Front: l.From, Back: l.To}, match.LeafFaces{Front: next.From, Back: next.To})
		pairs[len(in.Leaves)-1] = l
		n++ // a leaf belongs to one pair
	}
	if len(pairs) == 0 {
		return nil
	}
	if b.Pith != nil {
		in.Rings.Pith = &resaw.Point{X: b.Pith.X - blank.Y, Z: b.Pith.Z - blank.Face1}
	} else {
		in.Rings.Readings = []match.RingReading{{Angle: *b.RingAngle}}
	}
	if b.RunoutOneIn != nil {
		in.Runout = *b.RunoutOneIn
	}
	if len(in.Leaves) > match.MostLeaves {
		return nil
	}
	matched, err := match.Halves(in)
	if err != nil {
		return err
	}
	p.notes.Merge(matched.Notes)
	for i := range matched.Pairs {
		l, known := pairs[matched.Pairs[i].First]
		if !known {
			continue
		}
		layout := &matched.Pairs[i].Layouts[0]
		seam := &layout.Seams[layout.Better]
		m := PlannedMatch{Billet: b.Name, Blank: label, Leaves: []int{l.Number, l.Number + 1}, Part: p.asked.Parts[l.Part].Name, Set: l.Set, Opening: string(opening),
			Distance: p.length(layout.Distance), Edge: "near", Faced: string(seam.Kind), AngleDeg: wire.Rounded(seam.AngleA.Degrees(), 6), Score: wire.Rounded(seam.Score, 6)}
		if seam.Edge == match.RightEdge {
			m.Edge = "far"
		}
		if seam.Shift != nil {
			shift := p.length(*seam.Shift)
			m.Shift = &shift
		}
		r.Matches = append(r.Matches, m)
	}
	return nil
}

// chance tells how sure the sets are.
func (p *planner) chance(made *plan.Plan, r *ResawResult) error {
	v := p.req.Chance
	if v == nil {
		return nil
	}
	varies := plan.Variation{KerfSD: shelf.LengthOrNone(v.KerfSD), WanderSD: shelf.LengthOrNone(v.WanderSD)}
	if v.Hidden != nil {
		varies.HiddenFault = *v.Hidden / 100
	}
	c, err := plan.ChanceOf(&p.asked, made, varies)
	if code, _ := wire.DomainCode(err); code == method.TooMuchWork {
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: "chance", Detail: "the plan has more than " + strconv.Itoa(plan.MaxChanceLeaves) + " leaves; its chance is not told"})
		return nil
	}
	if err != nil {
		return wire.Under("chance", err, [2]string{"hidden_fault", "hidden_fault_pct"})
	}
	p.notes.Merge(c.Notes)
	r.Chance = &PlanChance{LeafLostPct: hundredth(100 * c.LeafLost), Parts: []ChanceOfPart{},
		Assumes: "the kerf is off by the same, normally distributed amount in the whole job; every leaf is lost to a hidden fault or to wander on its own; the fence holds the thickness of leaves; runs of leaves that are left are paired anew"}
	for k := range c.Parts {
		one := ChanceOfPart{Name: p.asked.Parts[k].Name, Planned: made.Sets[k], Mean: hundredth(c.Parts[k].Mean), AtLeast: []float64{}}
		for n, share := range c.Parts[k].AtLeast {
			one.AtLeast = append(one.AtLeast, hundredth(100*share))
			if share >= 0.9-1e-12 {
				one.Likely = n + 1
			}
		}
		r.Chance.Parts = append(r.Chance.Parts, one)
	}
	return nil
}

// hundredth rounds what is told of a chance.
func hundredth(v float64) float64 { return math.Round(100*v) / 100 }
