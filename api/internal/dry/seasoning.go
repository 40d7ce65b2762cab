package dry

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// ComputeSeasoning answers the question.
func ComputeSeasoning(ctx context.Context, t *shelf.Tables,
	req *SeasoningRequest) (*SeasoningResult, method.Notes, error) {
	var notes method.Notes
	q, said, err := req.read(ctx, t, &notes)
	if err != nil {
		return nil, notes, err
	}
	answer, err := seasoning.Forecast(ctx, q)
	if err != nil {
		return nil, notes, ofForecast(err)
	}
	notes.Merge(answer.Notes)
	t.Cautions(said.wood, &notes)
	return said.result(q, answer), notes, nil
}

// read is the question in SI, with what it takes to word the answer.
func (req *SeasoningRequest) read(ctx context.Context, t *shelf.Tables,
	notes *method.Notes) (*seasoning.Question, *seasoningWords, error) {
	w, noWood := t.WoodOf(req.Species, req.Wood, notes)
	start := startOf(req.StartPct, req.StartSD)
	at, noTarget := req.rest(w, start.MC)
	p := &piece{wood: w, thickness: req.Thickness.SI, ringAngle: ringsAt(req.RingAngle, drying.UsualRingAngle),
		stackedOn: req.StackedOn, stays: req.Storage,
		start: start, horizon: horizonOf(req.Horizon), factor: req.Factor}
	in, stay, noStay := p.read(t, shelf.Simulation(ctx))
	_, noSetup := in.Setup()
	if err := errors.Join(noWood, noTarget, noStay, p.wrong(noSetup), req.sizes()); err != nil {
		return nil, nil, err
	}
	q := &seasoning.Question{Piece: in, Rest: at, Ends: drying.EndSeal(req.Ends)}
	if req.Within != nil {
		q.Within = wire.FromPercent(*req.Within)
	}
	if req.Width != nil {
		q.Width = req.Width.SI
	}
	if req.Length != nil {
		q.Length = req.Length.SI
	}
	var err error
	q.Stackings, err = stay.fromMonths(t, req.Storage)
	return q, &seasoningWords{req: req, wood: w, stay: stay, report: wire.ReportIn(req.ReportIn)}, err
}

// rest is where the wood comes to rest: in the air of the build room, or at the target
// that is stated.
func (req *SeasoningRequest) rest(w *shelf.Wood, start quantity.Moisture) (seasoning.Rest, error) {
	switch {
	case req.BuildRoom != nil && req.Target != nil:
		return seasoning.Rest{}, wire.Contradictory("target_pct", "give build_room or target_pct, not both")
	case req.Target != nil:
		return seasoning.Rest{Moisture: quantity.NormalBand(wire.FromPercent(*req.Target), 0)}, nil
	case req.BuildRoom == nil:
		return seasoning.Rest{}, wire.Missing("build_room", "give build_room, the air of the room the wood will be "+
			"worked in, or target_pct")
	}
	_, at, err := rest(req.BuildRoom, &start, w)
	return at, err
}

// sizes refuses sizes that contradict or say nothing.
func (req *SeasoningRequest) sizes() error {
	var narrow, loose error
	if req.Width != nil && req.Width.SI < req.Thickness.SI {
		narrow = &method.Error{Code: method.Contradictory, Input: "width",
			Limit:  "at least " + req.Thickness.SI.AtLeast(req.Thickness.Unit),
			Detail: "width is less than thickness; the wide face is the wider one"}
	}
	if req.Ends == "" && req.Length != nil {
		loose = wire.Missing("ends", "length is of use only with ends: sealed_fresh, sealed_late or bare")
	}
	return errors.Join(narrow, loose)
}
