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
		return nil, notes, inBilletError(ofForecast(err))
	}
	notes.Merge(wire.AtMembers(answer.Notes, ofStart(req.Billet.StartCondition)))
	req.unused(&notes)
	t.Cautions(said.wood, &notes)
	heats(req.Stays, &notes)
	short(req.Billet, &notes)
	wedge(req.Billet, &answer.Setup, "", said.report, &notes)
	return said.result(q, answer), inBillet(notes), nil
}

// read is the question in SI, with what it takes to word the answer.
func (req *SeasoningRequest) read(ctx context.Context, t *shelf.Tables,
	notes *method.Notes) (*seasoning.Question, *seasoningWords, error) {
	w, noWood := woodOf(t, req.Billet, notes)
	b := req.Billet
	start, noStart := startOf(b.StartCondition, w, notes)
	rings, noRings := ringAngle(b, notes)
	_, at, noTarget := rest(req.Target, &start, w)
	shape, noShape := b.Shape()
	p := &piece{wood: w, thickness: b.Thickness.SI, taper: shape, ringAngle: orUsual(rings, drying.UsualRingAngle),
		stackedOn: b.StackedOn, stays: req.Stays,
		length: shelf.LengthOrNone(b.Length), ends: drying.EndSeal(b.EndSeal),
		start: start, horizon: horizonOf(req.Horizon), factor: b.Wood.DryingFactor()}
	in, stay, noStay := p.read(ctx, t, shelf.Simulation(ctx))
	_, noSetup := in.Setup()
	if err := besides(noWood, noShape, noRings, noTarget, noStart, noStay, p.wrong(withoutThickness(noSetup)), wire.Under("billet", sizes(b))); err != nil {
		return nil, nil, err
	}
	q := &seasoning.Question{Piece: in, Rest: at, Ends: drying.EndSeal(b.EndSeal)}
	if req.Within == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "tolerance_mc_points",
			Detail: "the wood counts as dry from 1 point above the target on (own choice)"})
	} else {
		q.Within = wire.FromPercent(*req.Within)
	}
	if b.Width != nil {
		q.Width = b.Width.SI
	}
	if b.Length != nil && b.EndSeal != "" {
		q.Length = b.Length.SI
	}
	var err error
	q.Stackings, err = stay.fromMonths(t, req.Stays)
	return q, &seasoningWords{req: req, wood: w, stay: stay, report: wire.ReportIn(req.ReportIn)}, err
}

// unused tells which members of the billet have no bearing on the forecast.
func (req *SeasoningRequest) unused(notes *method.Notes) {
	used := append([]string{"wood", "thickness", "far_thickness", "end_thickness", "width", "stacked_on", "start_condition", "end_seal"}, ringsUsed...)
	if _, isShort := throughEnds(req.Billet); isShort || req.Billet.EndSeal != "" || req.Billet.EndThickness != nil {
		used = append(used, "length")
	}
	if req.Billet.Wedge() != "" && req.Billet.Width != nil {
		used = append(used, "end_width")
	}
	var n shelf.NotUsed
	n.Look("billet", req.Billet, used...)
	n.Tell(notes)
}

// Of a piece that is forecast.
const (
	thinnest  = 1 * quantity.Millimetre
	narrowest = 1 * quantity.Millimetre
	widest    = 600 * quantity.Millimetre
	shortest  = 50 * quantity.Millimetre
	longest   = 12 * quantity.Metre
)

// sizes refuses sizes that the drying model does not go to, and those that contradict.
// Errors point below the billet.
func sizes(b *shelf.Billet) error {
	wrong := []error{within("thickness", b.Thickness, thinnest, seasoning.ThickestDried),
		within("far_thickness", b.FarThickness, 0, seasoning.ThickestDried),
		within("end_thickness", b.EndThickness, 0, seasoning.ThickestDried), within("width", b.Width, narrowest, widest)}
	if b.EndSeal != "" { // or the length has no bearing
		wrong = append(wrong, within("length", b.Length, shortest, longest))
	}
	if b.Width != nil && b.Width.SI < b.Thickness.SI {
		wrong = append(wrong, &method.Error{Code: method.Contradictory, Input: "width",
			Limit:  method.AtLeast(b.Thickness.SI.AtLeast(b.Thickness.Unit)),
			Detail: "width is less than thickness; the wide face is the wider one"})
	}
	return errors.Join(wrong...)
}

// withoutThickness leaves out of what is wrong with a piece its thickness, of which sizes says
// the narrower limit.
func withoutThickness(err error) error {
	return wire.EachError(err, func(one error) error {
		if domain, is := wire.AsDomain(one); is && domain.Input == "thickness" && domain.Code == method.OutOfRange {
			return nil
		}
		return one
	})
}

// within refuses a length that is given and lies outside of what is computed.
func within(name string, l *wire.Length, least, most quantity.Length) error {
	var limit *method.Limit
	switch {
	case l == nil:
		return nil
	case wire.ToPicometre(float64(l.SI)) < float64(least):
		limit = method.AtLeast(least.AtLeast(l.Unit))
	case wire.ToPicometre(float64(l.SI)) > float64(most):
		limit = method.AtMost(most.AtMost(l.Unit))
	default:
		return nil
	}
	return &method.Error{Code: method.OutOfRange, Input: name, Limit: limit, Detail: name + " must be " + limit.String() +
		", which is as far as the drying model goes"}
}
