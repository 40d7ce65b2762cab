package dry

import (
	"context"
	"errors"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// readHistory reads a billet that lies somewhere. All that is wrong is told at once; dates
// are not held against stays that are wrong.
func (req *ReadinessRequest) readHistory(ctx context.Context, t *shelf.Tables, w *shelf.Wood,
	notes *method.Notes) (*history, error) {
	h := &history{req: req, wood: w, horizon: req.horizon(), report: wire.ReportIn(req.ReportIn),
		question: readiness.HistoryQuestion{Limits: ownLimits(req.Limits)}}
	var noRings error
	h.question.Billet, noRings = req.billet(w, notes)
	h.rested = req.old()
	start, noStart := h.start(ctx, t, notes)
	room, at, noTarget := rest(req.Target, &start, w)
	notes.Merge(at.Notes)
	h.question.Target, h.question.Room, h.target = at.Moisture, at.Room, targetOf(&room, &at)
	h.question.Build = readiness.Room{Temperature: room.Temperature, RelativeHumidity: room.RelativeHumidity}
	lacking := req.together()
	noSetup := h.setup(ctx, t, start, notes)
	var noDay, noBodies error
	if req.AsOf != "" {
		h.question.Today, noDay = h.day("as_of", req.AsOf)
	}
	if req.AsOf == "" || noDay != nil {
		h.question.Today = h.horizon // what lies after it is not known
	}
	if noSetup == nil && w != nil {
		noBodies = h.bodies(notes)
	}
	return h, errors.Join(noRings, noTarget, noStart, lacking, noSetup, noDay, noBodies, h.gather(notes))
}

// start is the moisture content at the begin of the forecast.
func (h *history) start(ctx context.Context, t *shelf.Tables, notes *method.Notes) (seasoning.Start, error) {
	start, err := startOf(h.req.Billet.StartCondition, h.wood, notes)
	if h.rested == nil || err != nil {
		return start, err
	}
	h.horizon = seasoning.LongestHorizon
	if h.rested.wet = h.stillDries(ctx, t, start); h.rested.wet {
		return start, nil
	}
	return h.rested.start(t, h.wood), nil
}

// stillDries reports that old wood may not be at rest by today; what is wrong with it is told
// elsewhere.
func (h *history) stillDries(ctx context.Context, t *shelf.Tables, start seasoning.Start) bool {
	if h.wood == nil {
		return false
	}
	in, _, err := h.pieceFrom(start).read(ctx, t, shelf.Simulation(ctx))
	if err != nil {
		return false
	}
	wet, err := in.StillDries(ctx, h.rested.lain)
	return err == nil && wet
}

// horizon is the end of the forecast, from the day of stacking.
func (req *ReadinessRequest) horizon() quantity.Duration {
	stacked, noStack := shelf.ParseDay("billet/stacked_on", req.Billet.StackedOn)
	today, noDay := shelf.ParseDay("as_of", req.AsOf)
	if req.Horizon != nil || noStack != nil || noDay != nil { // which are told elsewhere
		return horizonOf(req.Horizon)
	}
	return seasoning.HorizonAfter(quantity.Duration(today.Sub(stacked).Seconds()))
}

// together tells what is missing beside the stays.
func (req *ReadinessRequest) together() error {
	var noDay, noStack error
	if req.AsOf == "" {
		noDay = wire.Missing("as_of", "stays need as_of, the day of the verdicts")
	}
	if req.Billet.StackedOn == "" {
		noStack = wire.Missing("billet/stacked_on", "stays need stacked_on, the day on which the billet was put to dry")
	}
	return errors.Join(noDay, noStack)
}

// setup reads what is known of the billet before its readings.
func (h *history) setup(ctx context.Context, t *shelf.Tables, start seasoning.Start, notes *method.Notes) error {
	req := h.req
	p := h.pieceFrom(start)
	in, stay, noStay := p.read(ctx, t, shelf.Simulation(ctx))
	in.Notes, noStay = in.Notes.Each(h.rested.places), method.EachInput(noStay, h.rested.places)
	prior, noSetup := in.Setup()
	h.stay, h.piece, h.question.Setup = stay, in, prior.Setup
	h.before = shelf.DescribeFactor(&prior.Factor)
	notes.Merge(wire.AtMembers(prior.Notes, func(err error) error { return ofStart(req.Billet.StartCondition)(p.wrong(err)) }))
	return errors.Join(noStay, p.wrong(noSetup))
}

// pieceFrom is the billet with what it holds at the begin of its forecast.
func (h *history) pieceFrom(start seasoning.Start) *piece {
	req := h.req
	shape, noShape := req.Billet.Shape()
	if noShape != nil { // which is told with the billet
		shape = nil
	}
	p := &piece{
		wood: h.wood, thickness: req.Billet.Thickness.SI, taper: shape,
		length: shelf.LengthOrNone(req.Billet.Length), ends: drying.EndSeal(req.Billet.EndSeal), ringAngle: orUsual(h.question.Billet.RingAngle, drying.UsualRingAngle),
		stackedOn: req.Billet.StackedOn, stays: req.Stays, start: start, horizon: h.horizon,
		factor: req.Billet.Wood.DryingFactor(), mayBeDry: req.Billet.StartCondition == nil,
	}
	if r := h.rested; r != nil {
		p.stackedOn, p.stays, p.mayBeDry = r.since.Format(time.DateOnly), r.stays, p.mayBeDry && r.wet
	}
	return p
}

// bodies are what is weighed: the billet, whose ovendry mass its size gives a
// first guess of, and the sample board.
func (h *history) bodies(notes *method.Notes) error {
	billet := readiness.Body{Name: "billet"}
	shape, err := h.req.Billet.Shape()
	if err != nil {
		return nil //nolint:nilerr // which is told with the billet
	}
	h.question.Volume = shape.Volume()
	_ = h.wood.VolumetricShrinkage(notes) // for what it notes
	settled := h.question.Target.Value
	if billet, err = readiness.GuessedBody(billet.Name, shape.Volume(), &h.question.Setup.Wood, settled); err != nil {
		return wire.Under("", err, [2]string{"specific_gravity", "wood/specific_gravity"})
	}
	h.question.Setup.Bodies = []readiness.Body{billet}
	if len(h.req.weights(sampleBoard)) > 0 {
		h.question.Setup.Bodies = append(h.question.Setup.Bodies, readiness.SampleBoard())
	}
	h.question.Setup.Bodies = append(h.question.Setup.Bodies, h.req.earlierBodies()...)
	return nil
}
