package dry

import (
	"context"
	"errors"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// history is a billet that is judged by its history and its readings.
type history struct {
	req      *ReadinessRequest
	wood     *shelf.Wood
	stay     *storage // nil where it is wrong
	horizon  quantity.Duration
	before   shelf.FactorUsed // the drying factor as known of the wood
	question readiness.HistoryQuestion
	sources  []source // of the observations
	rh       float64  // of the build room
	report   wire.Reporter
}

// readHistory reads a billet with a history. All that is wrong is told at once; dates are
// not held against a storage that is wrong.
func (req *ReadinessRequest) readHistory(ctx context.Context, t *shelf.Tables, w *shelf.Wood, notes *method.Notes) (*history, error) {
	h := &history{req: req, wood: w, horizon: horizonOf(req.History.Horizon), report: wire.ReportIn(req.ReportIn),
		question: readiness.HistoryQuestion{Billet: req.billet(w), Limits: ownLimits(req.Limits)}}
	start := startOf(req.History.StartPct, req.History.StartSD)
	room, at, noTarget := rest(req.BuildRoom, seasoning.Branch(start.MC), w)
	notes.Merge(at.Notes)
	h.question.Target, h.rh = at.Moisture, room.RelativeHumidity
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
	p := &piece{wood: h.wood, thickness: req.Billet.Thickness.SI, ringAngle: req.RingAngle, stackedOn: req.History.StackedOn, stays: req.History.Storage,
		start: start, horizon: h.horizon, factor: req.History.Factor}
	in, stay, noStay := p.read(t, shelf.Simulation(ctx))
	prior, noSetup := in.Setup()
	h.stay, h.question.Setup = stay, prior.Setup
	h.before = shelf.DescribeFactor(&prior.Factor, h.report)
	notes.Merge(prior.Notes)
	return inHistory(errors.Join(noStay, p.wrong(noSetup)))
}

// day is a date within the forecast, counted from stacking.
func (h *history) day(input, text string) (quantity.Duration, error) {
	date, err := shelf.ParseDay(input, text)
	if err != nil || h.stay == nil {
		return 0, err
	}
	at := h.stay.since(date)
	if at < 0 || at > h.horizon {
		first, last := h.stay.date(0), h.stay.date(h.horizon)
		return 0, &method.Error{Code: method.OutOfRange, Input: input, Limit: first + " to " + last,
			Detail: "the date must lie between the day of stacking, " + first + ", and the end of the forecast, " + last}
	}
	return at, nil
}

// bodies are what is weighed: the billet, whose ovendry mass its size gives a
// first guess of, and the sample board.
func (h *history) bodies(notes *method.Notes) error {
	billet := readiness.Body{Name: "billet"}
	if h.req.isBox() {
		var err error
		_ = h.wood.VolumetricShrinkage(notes) // for what it notes
		if billet, err = readiness.GuessedBody(billet.Name, h.req.volume(), &h.question.Setup.Wood, h.question.Target.Value); err != nil {
			return wire.Under("", err, [2]string{"specific_gravity", "species"})
		}
	}
	h.question.Setup.Bodies = []readiness.Body{billet}
	if len(h.req.Board) > 0 {
		h.question.Setup.Bodies = append(h.question.Setup.Bodies, readiness.SampleBoard())
	}
	return nil
}

func (h *history) answer(ctx context.Context, result *ReadinessResult, notes *method.Notes) error {
	a, err := readiness.JudgeHistory(ctx, &h.question)
	if err != nil {
		return h.wrong(err)
	}
	notes.Merge(a.Notes)
	h.word(a, result)
	h.req.settled(&a.Settled, result, notes)
	return nil
}

// wrong points errors of the judgement at the members of the request.
func (h *history) wrong(err error) error {
	if domain, is := wire.AsDomain(err); is {
		if pointer, is := h.ofObservation(domain.Input); is {
			moved := *domain
			moved.Input = pointer
			return &moved
		}
	}
	const limits = "limits"
	err = method.Renamed(err, [2]string{"at_days", "history/as_of"}, [2]string{"horizon_days", "history/horizon_days"},
		[2]string{"above_pct", limits}, [2]string{"below_pct", limits}, [2]string{"gradient_pct", limits}, [2]string{"rate_pct_per_day", limits}, [2]string{"trend_pct", limits})
	return h.req.ofSettling(inHistory(ofForecast(err)))
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
