package cut

import (
	"math"
	"slices"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
	"latewood/woodphys/resaw/plan"
)

// answering puts a plan into the words and units of its answer.
type answering struct {
	asked   *planAsked
	told    *plan.Told
	matched *match.OpenedResult
	report  wire.Reporter
	notes   *method.Notes
}

func (a *answering) length(l quantity.Length) wire.Quantity { return a.report.Cut(l) }

// step is the fraction of an inch that saws are set to; 0 for any setting.
func (a *answering) step() quantity.Length { return a.asked.Parts[0].Step }

// result is the whole answer.
func (a *answering) result(req *ResawPlanRequest, standIns []shelf.Provenance) *ResawPlanResult {
	told := a.told
	r := &ResawPlanResult{Saw: a.asked.saws[told.Saw], Proof: a.proof(), StandIns: standIns, Parts: []PlanYield{},
		Billets: []BilletAnswer{}, Saws: []SawAnswer{},
		Volume: billetVolume(told.Volume)}
	for i := range a.asked.Parts {
		r.Parts = append(r.Parts, a.yieldOf(i, &req.Parts[i]))
	}
	for i := range told.Billets {
		r.Billets = append(r.Billets, a.billet(i, &req.Billets[i]))
	}
	if told.Mass != nil {
		band := a.massBand(*told.Mass)
		r.Mass = &band
	}
	for i := range told.Saws {
		s, saw := &told.Saws[i], &a.asked.Saws[i]
		r.Saws = append(r.Saws, SawAnswer{ID: a.asked.saws[i], Name: req.Saws[i].Name, Kerf: a.length(saw.Resaw), Worth: s.Worth, Bound: s.Bound,
			Optimal: s.Optimal,
			Sets:    s.Sets, Missing: s.Short, Leaves: s.Leaves, Cuts: s.Cuts})
	}
	r.MaxKerf, r.Buy = a.kerf(told.Kerf), a.toBuy()
	r.Matches = a.matches()
	r.Chance = a.chance()
	r.Woods = woodsUsed(a.asked.woods)
	r.Summary = a.summaryOf(r)
	r.drawing = a.drawing(req, r)
	return r
}

// drawing is what the drawings of the plan take.
func (a *answering) drawing(req *ResawPlanRequest, r *ResawPlanResult) *planDrawing {
	g := &planDrawing{asked: &a.asked.Request, told: a.told, report: a.report, summary: r.Summary, date: req.AsOf,
		billetIDs: a.asked.billets, partIDs: a.asked.parts, finished: a.asked.finished,
		seamless: a.asked.seamless, paper: paperOf(req)}
	for i := range req.Billets {
		g.billetNames = append(g.billetNames, req.Billets[i].Name)
		g.settings = append(g.settings, r.Billets[i].Settings)
	}
	for i := range a.matched.Pairs {
		m := &a.matched.Pairs[i]
		pair := a.told.Pairs[m.Tag]
		g.matched = append(g.matched, plannedPair{leafOf{pair.Billet, pair.Blank, pair.Leaf, pair.Strip}, string(m.Opening),
			string(m.Seam.Edge)})
	}
	for _, w := range a.asked.woods {
		name := ""
		if w != nil {
			name = w.Common
		}
		g.woods = append(g.woods, name)
	}
	g.templateOf = max(0, slices.Index(a.asked.billets, req.Template))
	return g
}

func (a *answering) proof() PlanProof {
	told := a.told
	out := PlanProof{Optimal: told.Optimal, Worth: told.Worth, Bound: told.Bound, Gap: told.Bound - told.Worth,
		Work: told.Work, Budget: a.asked.Work,
		Missing: told.Missing, EndedEarly: told.Ended}
	out.UsedPct = math.Round(1e4*told.Used) / 100
	if told.Bound > 0 {
		out.GapPct = 100 * float64(out.Gap) / float64(told.Bound)
	}
	if !told.Optimal {
		a.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Input: "max_search_steps",
			Detail: "the work ended before the plan was proven: other cuts may give more, but not by more than the gap; " +
				"fewer kinds of part, fewer billets at a time, fewer zones or fewer saws help to prove more"})
	}
	return out
}

// yieldOf is what the plan gives of the i-th part.
func (a *answering) yieldOf(i int, asked *shelf.Part) PlanYield {
	part, leaf := &a.asked.Parts[i], &a.told.Builds[i]
	a.notes.Merge(leaf.Notes)
	build := shelf.LeafBuildOf(leaf, a.length)
	if part.AsSawn {
		build.Terms = nil
	}
	return PlanYield{ID: a.asked.parts[i], Name: asked.Name, PartSize: asked.PartSize, Length: a.length(part.Length), Width: a.length(part.Width),
		Leaf:   build,
		Pieces: part.Pieces, Match: string(part.Match), Sets: a.told.Sets[i], Least: part.Least, Most: part.Most,
		Missing: a.told.Short[i], Worth: part.Worth}
}

// billet is how the i-th billet is cut.
func (a *answering) billet(i int, of *shelf.Billet) BilletAnswer {
	b, told, rough := &a.told.Billets[i], &a.told.Cut[i], &a.asked.Billets[i]
	out := BilletAnswer{ID: a.asked.billets[i], Name: of.Name, Worth: b.Worth, Cuts: b.Cuts, Remainder: a.length(b.Remainder),
		Volume: billetVolume(told.Volume),
		Steps:  a.steps(b, told.Pieces), Settings: a.settingsOf(i), Offcuts: a.offcuts(i, of),
		Blanks: []PlanBlank{}, Shares: planShares(told.Shares)}
	if rough.Pith != nil {
		out.Pith = &PithPlace{a.length(rough.Pith.X), a.length(rough.Pith.Z)}
	}
	for j := range b.Blanks {
		out.Blanks = append(out.Blanks, a.blank(&b.Blanks[j], &told.Blanks[j], j))
	}
	if told.Mass != nil {
		a.notes.Merge(a.asked.weighed[i])
		a.notes.Merge(told.Mass.Notes)
		band := a.massBand(told.Mass.Mass)
		out.Mass = &band
	}
	return out
}

func planShares(f resaw.Fractions) PlanShares {
	share := func(v float64) float64 { return 100 * v }
	return PlanShares{share(f.Plate), share(f.Kerf), share(f.Shavings), share(f.Offcut) + share(f.Trim)}
}

// billetVolume shows a volume.
func billetVolume(v quantity.Volume) shelf.BilletVolume {
	return shelf.BilletVolume{CubicMetres: v.CubicMetres(), BoardFeet: v.BoardFeet()}
}

func (a *answering) massBand(b quantity.Band[quantity.Mass]) wire.Band {
	return a.report.MassBand(b)
}

func (a *answering) blank(b *plan.Blank, told *plan.BlankTold, j int) PlanBlank {
	q := a.length
	out := PlanBlank{ID: plan.Letters(j), X: q(b.X), Y: q(b.Y), Length: q(b.Length), Width: q(b.Width), Turned: b.Turned,
		Z: q(b.Face1), Usable: q(b.Usable), FarUsable: a.optional(b.FarUsable), Remaining: q(b.Remainder),
		Leaves: make([]PlanLeaf, 0, len(b.Leaves)), OneMore: a.more(told.OneMore), NextSet: a.more(told.NextSet)}
	for n := range b.Leaves {
		l := &b.Leaves[n]
		leaf := PlanLeaf{Number: l.Number, Role: string(l.Role), Set: l.Set, ZFrom: q(l.From), ZTo: q(l.To),
			FarFrom: a.optional(l.FarFrom), FarTo: a.optional(l.FarTo)}
		if l.Part >= 0 {
			leaf.Part = a.asked.parts[l.Part]
		}
		for i := range l.Strips {
			s := &l.Strips[i]
			leaf.Pieces = append(leaf.Pieces, LeafPiece{Number: i + 1, Piece: s.Piece, Role: string(s.Role), Set: s.Set, X: q(s.X),
				Y: q(s.Y), Length: q(s.Length), Width: q(s.Width)})
		}
		if l.Role != plan.RoleSet {
			leaf.GoodFor = a.goodFor(l.Role, told.GoodFor[n])
		}
		out.Leaves = append(out.Leaves, leaf)
	}
	return out
}

// kerf is the widest that would do, in digits that a kerf is measured in.
func (a *answering) kerf(most *quantity.Length) *wire.Quantity {
	if most == nil {
		return nil
	}
	kerf := a.report.Most(*most)
	return &kerf
}

// more is what further leaves would need.
func (a *answering) more(m *plan.MoreLeaves) *MoreWood {
	if m == nil {
		return nil
	}
	out := &MoreWood{Leaves: m.Leaves, ShortBy: a.length(m.ShortBy), MaxKerf: a.kerf(m.KerfAtMost)}
	if m.ThinnerBy != nil {
		t := a.length(*m.ThinnerBy)
		out.ThinnerBy = &t
	}
	return out
}

// goodFor says what a leaf of no set is good for: small parts of the table, then what
// the trade keeps such leaves for (common practice, no source).
func (a *answering) goodFor(role plan.Role, small []int) []string {
	var out []string
	without := ""
	if role == plan.RoleRejected {
		without = ", clear of its fault"
	}
	for _, i := range small {
		out = append(out, a.asked.small[i]+without)
	}
	if role == plan.RoleUnpaired {
		out = append(out, "a one-piece part, or to make up a four-piece set beside its neighbours")
	}
	return append(out, "test strips for bending and glue, ovendry samples, patches kept for repairs")
}

// woodsUsed names the woods whose figures the answer used.
func woodsUsed(woods []*shelf.Wood) []shelf.WoodUsed {
	var used []shelf.WoodUsed
	seen := map[*shelf.Wood]bool{}
	for _, w := range woods {
		if w == nil || seen[w] {
			continue
		}
		seen[w] = true
		used = append(used, w.Used("specific_gravity_green", "volumetric", "radial", "tangential", "fibre_saturation"))
	}
	return used
}

// matches tells how the planned pairs match, the best first.
func (a *answering) matches() []PlannedMatch {
	if len(a.matched.Pairs) > 0 { // what billets have in common is told of the first
		first := a.told.Pairs[a.matched.Pairs[0].Tag].Billet
		for i := range a.told.Pairs {
			first = min(first, a.told.Pairs[i].Billet)
		}
		a.notes.MergeFor(place("billets", first), a.asked.Billets[first].Name, a.matched.Notes.Each(func(input string) string {
			if input == "runout_one_in" {
				return "grain/runout_one_in"
			}
			return "rings"
		}))
	}
	if a.told.Unread {
		a.notes.Warn(method.Warning{Code: method.Assumption, Input: "billets",
			Detail: "no rings were read of some billets, or no pith of wedges, so the match of their pairs is not told"})
	}
	var out []PlannedMatch
	for i := range a.matched.Pairs {
		m := &a.matched.Pairs[i]
		pair, seam := a.told.Pairs[m.Tag], &m.Seam
		l := &a.told.Billets[pair.Billet].Blanks[pair.Blank].Leaves[pair.Leaf-1]
		one := PlannedMatch{Rank: i + 1, Billet: a.asked.billets[pair.Billet], Blank: plan.Letters(pair.Blank),
			Leaves: []int{l.Number, l.Number + 1}, Piece: pair.Strip, Part: a.asked.parts[l.Part],
			Set:     l.All()[max(0, pair.Strip-1)].Set,
			Opening: string(m.Opening), Distance: a.length(m.Distance), Edge: "near", Faced: string(seam.Kind),
			AngleDeg: seam.AngleA.Degrees(), Score: seam.Score, Cured: seam.Cured}
		if seam.Edge == match.FarEdge {
			one.Edge = "far"
		}
		if seam.Shift != nil {
			shift := a.length(*seam.Shift)
			one.Shift = &shift
		}
		out = append(out, one)
	}
	return out
}

// chance tells how sure the sets are; nil where it was not asked for.
func (a *answering) chance() *SetProbabilities {
	if a.asked.Varies == nil {
		return nil
	}
	c := a.told.Chance
	if c == nil {
		a.notes.Warn(method.Warning{Code: method.Assumption, Input: "variation", Detail: "the plan has more than " +
			strconv.Itoa(plan.MaxChanceLeaves) + " leaves; its chance is not told"})
		return nil
	}
	a.notes.Merge(c.Notes)
	out := &SetProbabilities{LeafLost: c.LeafLost, Parts: []PartProbability{},
		Note: "the kerf is off by the same, normally distributed amount in the whole job; every leaf is lost to " +
			"a hidden fault or to wander on its own; the fence holds the thickness of leaves; runs of leaves that " +
			"are left are paired anew"}
	for k := range c.Parts {
		one := PartProbability{ID: a.asked.parts[k], Planned: a.told.Sets[k],
			Mean: c.Parts[k].Mean, AtLeast: []float64{}, Safe: c.Parts[k].Likely}
		one.AtLeast = append(one.AtLeast, c.Parts[k].AtLeast...)
		out.Parts = append(out.Parts, one)
	}
	return out
}
