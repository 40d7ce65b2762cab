package cut

import (
	"context"
	"slices"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/match"
	"latewood/woodphys/resaw/plan"
)

// planCaution is shelf.ResawCaution for a plan, with what a plan does not see.
var planCaution = method.Warning{Code: method.Caution,
	Detail: "a plan is geometry only, and wood under stress can spring; " + shelf.ResawCaution.Detail}

// ComputeResaw answers with the best plan found. The chapters are asked twice, because
// the planner knows nothing of the match of the halves: it tells which pairs there are.
func ComputeResaw(ctx context.Context, t *shelf.Tables, req *ResawPlanRequest) (*ResawPlanResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn).InFractions(req.fraction())
	r := &reading{t: t, report: report, bench: shelf.NewBench(t, report, &notes), notes: &notes}
	asked, err := r.question(req)
	if err != nil {
		return nil, notes, err
	}
	told, err := plan.Tell(ctx, asked.Question)
	if err != nil {
		return nil, notes, report.LimitsOf(planError(err))
	}
	matched, err := match.Opened(told.Opened)
	if err != nil {
		return nil, notes, err
	}
	// The one caution of the planner is about tall cuts: planCaution has it.
	told.Notes.Warnings = slices.DeleteFunc(told.Notes.Warnings,
		func(w method.Warning) bool { return w.Code == method.Caution })
	for i := range told.Notes.Warnings {
		w := &told.Notes.Warnings[i]
		w.Input = planMember(w.Input)
	}
	notes.Merge(told.Notes)
	for i := range asked.partsRead {
		asked.partsRead[i].TellCarved(r.bench, place("parts", i), told.Splits(i))
	}
	a := &answering{asked: asked, told: &told, matched: &matched, report: report, notes: &notes}
	result := a.result(req, r.bench.Usual.All)
	a.tellRounding()
	a.tellWhatIsMissing()
	tellUnused(req, asked, &notes)
	seen := map[*shelf.Wood]bool{}
	for i, w := range asked.woods {
		if !seen[w] {
			t.CautionsAt(place("billets", i)+"/wood", w, &notes)
		}
		seen[w] = true
	}
	caution := planCaution
	caution.Input, caution.Subject = place("saws", told.Saw), asked.Saws[told.Saw].Name
	notes.Warn(caution)
	return result, notes, nil
}
