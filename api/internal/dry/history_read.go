package dry

import (
	"context"
	"errors"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// readHistory reads a billet with a history. All that is wrong is told at once; dates are
// not held against a storage that is wrong.
func (req *ReadinessRequest) readHistory(ctx context.Context, t *shelf.Tables, w *shelf.Wood,
	notes *method.Notes) (*history, error) {
	h := &history{req: req, wood: w, horizon: horizonOf(req.History.Horizon), report: wire.ReportIn(req.ReportIn),
		question: readiness.HistoryQuestion{Billet: req.billet(w), Limits: ownLimits(req.Limits)}}
	start := startOf(req.History.StartPct, req.History.StartSD)
	room, at, noTarget := rest(req.BuildRoom, &start.MC, w)
	notes.Merge(at.Notes)
	h.question.Target, h.question.Room, h.rh = at.Moisture, at.Room, room.RelativeHumidity
	noSetup := h.setup(ctx, t, start, notes)
	var noDay, noBodies error
	if h.question.Today, noDay = h.day("history/as_of", req.History.AsOf); noDay != nil {
		h.question.Today = h.horizon // what lies after it is not known
	}
	if noSetup == nil && w != nil {
		noBodies = h.bodies(notes)
	}
	return h, errors.Join(noTarget, noSetup, noDay, noBodies, h.gather(notes))
}

// setup reads what is known of the billet before its readings.
func (h *history) setup(ctx context.Context, t *shelf.Tables, start seasoning.Start, notes *method.Notes) error {
	req := h.req
	p := &piece{
		wood: h.wood, thickness: req.Billet.Thickness.SI, ringAngle: ringsAt(req.RingAngle, drying.UsualRingAngle),
		stackedOn: req.History.StackedOn, stays: req.History.Storage, start: start, horizon: h.horizon,
		factor: req.History.Factor, mayBeDry: true,
	}
	in, stay, noStay := p.read(t, shelf.Simulation(ctx))
	prior, noSetup := in.Setup()
	h.stay, h.question.Setup = stay, prior.Setup
	h.before = shelf.DescribeFactor(&prior.Factor, h.report)
	notes.Merge(prior.Notes)
	return inHistory(errors.Join(noStay, p.wrong(noSetup)))
}

// bodies are what is weighed: the billet, whose ovendry mass its size gives a
// first guess of, and the sample board.
func (h *history) bodies(notes *method.Notes) error {
	billet := readiness.Body{Name: "billet"}
	if h.req.isBox() {
		var err error
		_ = h.wood.VolumetricShrinkage(notes) // for what it notes
		settled := h.question.Target.Value
		if billet, err = readiness.GuessedBody(billet.Name, h.req.volume(), &h.question.Setup.Wood, settled); err != nil {
			return wire.Under("", err, [2]string{"specific_gravity", "species"})
		}
	}
	h.question.Setup.Bodies = []readiness.Body{billet}
	if len(h.req.Board) > 0 {
		h.question.Setup.Bodies = append(h.question.Setup.Bodies, readiness.SampleBoard())
	}
	return nil
}

// inHistory moves errors of the forecast below the member history.
func inHistory(err error) error {
	return wire.EachError(err, func(one error) error {
		domain, ok := wire.AsDomain(one)
		if !ok {
			return one
		}
		for _, own := range []string{"stacked_on", "storage", "start_mc_pct", "start_sd_pct", "horizon_days", "drying_factor"} {
			if domain.Input == own || strings.HasPrefix(domain.Input, own+"/") {
				return wire.Under("history", one)
			}
		}
		return one
	})
}
