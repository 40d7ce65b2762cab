package dry

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// judged is a billet made ready to be judged, by what is known of it now or by its
// history.
type judged interface {
	// answer fills in what is known of the moisture and what it is ready for.
	answer(ctx context.Context, result *ReadinessResult, notes *method.Notes) error
}

// ComputeReadiness answers the question.
func ComputeReadiness(ctx context.Context, t *shelf.Tables,
	req *ReadinessRequest) (*ReadinessResult, method.Notes, error) {
	var notes, cutNotes method.Notes
	w, noWood := woodOf(t, req.Billet, &notes)
	yield, noYield := req.yield(t, w, &cutNotes)
	billet, noMoisture := req.read(ctx, t, w, &notes)
	// before anything is simulated
	if err := besides(noWood, req.stepsOnce(), noYield, noMoisture); err != nil {
		return nil, notes, err
	}
	result := &ReadinessResult{Yield: yield, Wood: w.Used(shelf.Beside("specific_gravity_green")...)}
	if err := billet.answer(ctx, result, &notes); err != nil {
		return nil, notes, inBilletError(err)
	}
	notes.Merge(cutNotes)
	result.Summary = summarise(result)
	req.unused(&notes)
	t.Cautions(w, &notes)
	heats(req.Stays, &notes)
	if !req.Light() {
		short(req.Billet, &notes)
	}
	return result, inBillet(notes), nil
}

// read is the billet in SI; all that is wrong with what is known of it is told at once.
// Without a wood, w nil, that is all it is good for.
func (req *ReadinessRequest) read(ctx context.Context, t *shelf.Tables, w *shelf.Wood,
	notes *method.Notes) (judged, error) {
	if req.Light() {
		return req.readPlain(w, notes)
	}
	return req.readHistory(ctx, t, w, notes)
}

// unused tells which members of billet, saw and part have no bearing on the answer.
func (req *ReadinessRequest) unused(notes *method.Notes) {
	used := append([]string{"wood", "length", "width", "thickness", "end_width", "end_thickness", "far_thickness"}, ringsUsed...)
	if !req.Light() {
		used = append(used, "stacked_on", "start_condition", "end_seal")
	}
	var n shelf.NotUsed
	if req.Saw != nil && req.Part != nil {
		(&shelf.Cutting{Billet: req.Billet, Saw: req.Saw, Part: req.Part}).Unused(&n, used...)
	} else {
		n.Look("billet", req.Billet, used...)
	}
	n.Tell(notes)
	for i := range req.Readings {
		if at, _ := req.Readings[i].TakenAt(); at != "" && (req.Light() || req.Billet.Wedge() == "") {
			notes.Warn(method.Warning{Code: method.NotUsed, Input: placeOf(i) + "/taken_at", Detail: "where it was taken counts with the stays " +
				"of a wedge: of a board all places are alike, and without stays it is not known how far they lie apart"})
		}
	}
}

// stepsOnce refuses two sets of limits for one step: which is meant is not known.
func (req *ReadinessRequest) stepsOnce() error {
	var wrong []error
	seen := map[string]bool{}
	for i := range req.Limits {
		if seen[req.Limits[i].Step] {
			wrong = append(wrong, twice("step_limits/"+strconv.Itoa(i)+"/step", req.Limits[i].Step))
		}
		seen[req.Limits[i].Step] = true
	}
	return errors.Join(wrong...)
}

// yield answers the question of the saw along with that of the moisture.
func (req *ReadinessRequest) yield(t *shelf.Tables, w *shelf.Wood, notes *method.Notes) (*shelf.LeafYieldResult, error) {
	if req.Saw == nil && req.Part == nil {
		return nil, nil //nolint:nilnil // not asked
	}
	if req.Saw == nil {
		return nil, wire.Missing("saw", "saw and part go together")
	}
	if req.Part == nil {
		return nil, wire.Missing("part", "saw and part go together")
	}
	cut := &shelf.Cutting{Billet: req.Billet, Saw: req.Saw, Part: req.Part, Rejected: req.Rejected,
		Report: wire.ReportIn(req.ReportIn)}
	result, err := cut.Yield(t, w, notes)
	notes.Warn(shelf.ResawCaution)
	return &result, err
}
