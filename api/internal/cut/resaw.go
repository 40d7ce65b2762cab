package cut

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// UsualWork is the budget of a plan and the most that may be asked for: less
// than 2 seconds on a small machine.
const UsualWork = 20_000_000

// planCaution is resawCaution for a plan, with what a plan does not see.
var planCaution = method.Warning{Code: method.Caution, Detail: "a plan is geometry only, and wood under stress can spring; " + shelf.ResawCaution.Detail}

func ComputeResaw(ctx context.Context, t *shelf.Tables, req *ResawRequest) (*ResawResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	p := &planner{t: t, req: req, report: report, usual: &shelf.StandIns{Report: report}, notes: &notes}
	if err := p.Read(); err != nil {
		return nil, notes, err
	}
	made, err := plan.Make(ctx, p.asked)
	if err != nil {
		return nil, notes, planError(err)
	}
	// The one caution of the planner is about tall cuts: planCaution has it.
	made.Notes.Warnings = slices.DeleteFunc(made.Notes.Warnings, func(w method.Warning) bool { return w.Code == method.Caution })
	for i := range made.Notes.Warnings {
		w := &made.Notes.Warnings[i]
		w.Input = planMember(w.Input)
	}
	notes.Merge(made.Notes)
	result, err := p.answer(&made)
	if err != nil {
		return nil, notes, err
	}
	if err := p.tellWhatIsMissing(ctx, &made); err != nil {
		return nil, notes, err
	}
	p.tellWhatIsTrimmed(&made)
	seen := map[*shelf.Wood]bool{}
	for _, w := range p.woods {
		if !seen[w] {
			t.Cautions(w, &notes)
		}
		seen[w] = true
	}
	notes.Warn(planCaution)
	return result, notes, nil
}

// Read turns the request into that of the planner. Everything that is wrong is
// told at once.
func (p *planner) Read() error {
	err := errors.Join(p.billets(), p.saws())
	if err == nil { // against billets that are wrong, parts are not held
		err = p.parts()
	}
	if n := p.req.Template; n != nil && *n > len(p.req.Billets) {
		err = errors.Join(err, &method.Error{Code: method.OutOfRange, Input: "template_billet", Limit: "1 to " + strconv.Itoa(len(p.req.Billets)), Detail: "there is no billet " + strconv.Itoa(*n)})
	}
	if err != nil {
		return err
	}
	p.asked.Work = UsualWork
	if p.req.Work != nil {
		p.asked.Work = int64(*p.req.Work)
	}
	return p.room()
}

// planError points at the members of the request.
func planError(err error) error {
	domain, is := wire.AsDomain(err)
	if !is {
		return err
	}
	moved := *domain
	moved.Input = planMember(domain.Input)
	return &moved
}

// planMember is the member of a request that the planner calls input.
func planMember(input string) string {
	list, rest, _ := strings.Cut(input, "/")
	number, member, _ := strings.Cut(rest, "/")
	renamed, known := planMembers[list][member]
	if member == "" || !known {
		renamed = member
	}
	if list == "billets" && strings.HasPrefix(member, "zones/") {
		one, _ := strings.CutPrefix(member, "zones/")
		n, side, _ := strings.Cut(one, "/")
		renamed = "zones/" + n + "/" + string(side[0]) + map[byte]string{'0': "_from", '1': "_to"}[side[len(side)-1]]
	}
	switch {
	case input == "worth": // too many sets to count
		return "parts"
	case renamed != "":
		return list + "/" + number + "/" + renamed
	}
	return input
}

// planMembers are the members of a request that the planner calls otherwise.
var planMembers = map[string]map[string]string{
	"billets": {"thickness_far_edge": "thickness_far_edge", "facing_face1": "facing_face_1", "facing_far": "facing_far_face", "trim_start": "end_trim_start",
		"trim_end": "end_trim_end", "pith/x": "rings/pith/y", "pith/z": "rings/pith/z", "ring_angle": "rings/ring_angle_deg"},
	"parts": {"final": "final_thickness", "shrinkage": "sawn_at_pct", "pieces": "pieces_per_set", "least_ring_angle": "least_ring_angle_deg", "most_runout_one_in": "runout_at_most_one_in"},
	"saws":  {"resaw": "kerf", "crosscut": "crosscut_kerf", "rip": "rip_kerf"},
}

// answer describes the plan.
func (p *planner) answer(made *plan.Plan) (*ResawResult, error) {
	saw := &p.asked.Saws[made.Saw]
	r := &ResawResult{Saw: saw.Name, Proof: p.proof(made), StandIns: p.usual.All, Parts: []PlanYield{}, Billets: []BilletAnswer{}, Saws: []SawAnswer{}}
	for i := range p.asked.Parts {
		y, err := p.yieldOf(made, i)
		if err != nil {
			return nil, wire.Under(place("parts", i), err)
		}
		r.Parts = append(r.Parts, y)
	}
	var mass quantity.Band[quantity.Mass]
	volume := quantity.Volume(0)
	weighed := true
	for i := range made.Billets {
		b, m, err := p.billetAnswer(made, i)
		if err != nil {
			return nil, wire.Under(place("billets", i), err)
		}
		if weighed = weighed && m != nil; m != nil {
			mass = quantity.Band[quantity.Mass]{Value: mass.Value + m.Value, Low: mass.Low + m.Low, High: mass.High + m.High}
		}
		volume += made.Billets[i].Shares.Whole.Volume()
		r.Billets = append(r.Billets, b)
	}
	r.Volume = billetVolume(volume)
	if weighed {
		band := p.massBand(mass)
		r.Mass = &band
	}
	for i := range made.Saws {
		s := &made.Saws[i]
		r.Saws = append(r.Saws, SawAnswer{Name: p.asked.Saws[i].Name, Kerf: p.length(p.asked.Saws[i].Resaw), Worth: s.Worth, Bound: s.Bound, Optimal: s.Optimal,
			Sets: s.Sets, Missing: s.Short, Leaves: s.Leaves, Cuts: s.Cuts})
	}
	if err := p.matches(made, r); err != nil {
		return nil, err
	}
	if err := p.chance(made, r); err != nil {
		return nil, err
	}
	p.woodsUsed(r)
	r.Summary = summaryOf(r)
	r.drawing = &planDrawing{p: p, plan: made, result: r}
	return r, nil
}

func (p *planner) proof(made *plan.Plan) PlanProof {
	out := PlanProof{Optimal: made.Optimal, Worth: made.Worth, Bound: made.Bound, Gap: made.Bound - made.Worth, Work: made.Work, Budget: p.asked.Work}
	if made.Bound > 0 {
		out.GapPct = quantity.Tidy(100 * float64(out.Gap) / float64(made.Bound))
	}
	for _, n := range made.Short {
		out.Missing += n
	}
	for i := range made.Saws {
		out.EndedEarly = out.EndedEarly || !made.Optimal && made.Saws[i].Ended
	}
	switch {
	case out.EndedEarly:
		p.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Input: "work_budget", Detail: "the work ended before the plan was proven: it may be beaten, but not by more than the gap; fewer kinds of part, fewer billets at a time or fewer saws help"})
	case !made.Optimal:
		p.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Detail: "the plan is not proven to be the best: the taper of a billet, its outline and its pith pull different ways, for which the search is not complete; it may be beaten, but not by more than the gap; the search is done, so that a larger work_budget would not prove more"})
	}
	return out
}

func (p *planner) yieldOf(made *plan.Plan, i int) (PlanYield, error) {
	part, saw := &p.asked.Parts[i], &p.asked.Saws[made.Saw]
	sum, lines, n, err := resaw.LeafThickness(part.On(saw))
	if err != nil {
		return PlanYield{}, err
	}
	p.notes.Merge(n)
	y := PlanYield{Name: part.Name, Plate: p.plates[i], Length: p.length(part.Length), Width: p.length(part.Width), Leaf: shelf.LeafBuild{Thickness: p.length(sum)},
		Pieces: part.Pieces, Match: string(part.Match), Sets: made.Sets[i], Least: part.Least, Most: part.Most, Missing: made.Short[i], Worth: part.Worth}
	for _, line := range lines {
		y.Leaf.Parts = append(y.Leaf.Parts, shelf.LeafPart{Name: line.Name, Thickness: p.length(line.Thickness)})
	}
	return y, nil
}

func summaryOf(r *ResawResult) string {
	sets := []string{}
	for i := range r.Parts {
		if y := &r.Parts[i]; y.Sets > 0 {
			sets = append(sets, wire.CountOf(y.Sets, "set")+" of "+y.Name)
		}
	}
	text := "no set of any part fits"
	if len(sets) > 0 {
		text = strings.Join(sets, "; ")
	}
	text += "; worth " + strconv.FormatInt(r.Proof.Worth, 10)
	if r.Proof.Missing > 0 {
		missing := []string{}
		for i := range r.Parts {
			if y := &r.Parts[i]; y.Missing > 0 {
				missing = append(missing, strconv.Itoa(y.Missing)+" of "+y.Name)
			}
		}
		text += ", " + wire.CountOf(r.Proof.Missing, "set") + " missing (" + strings.Join(missing, ", ") + ")"
	}
	if r.Proof.Optimal {
		return text + "; proven best"
	}
	return text + "; not proven, at most " + strconv.FormatInt(r.Proof.Bound, 10)
}
