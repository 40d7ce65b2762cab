package dry

import (
	"context"
	"errors"
	"math"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Learned is what the readings taught about the billet.
type Learned struct {
	Factor        shelf.FactorUsed   `json:"drying_factor" required:"true" description:"after the readings"`
	FactorBefore  shelf.FactorUsed   `json:"drying_factor_before" required:"true" description:"as known of the wood"`
	StartMC       wire.PercentBand   `json:"start_mc" required:"true" description:"on the day of stacking"`
	EMCScale      EMCScale           `json:"emc_scale" required:"true"`
	Ovendry       *wire.QuantityBand `json:"ovendry,omitempty" description:"ovendry mass of the billet, if it was weighed"`
	Meters        []MeterError       `json:"meters" required:"true" nullable:"false"`
	ReadingsUsed  int                `json:"readings_used" required:"true"`
	Method        string             `json:"method" required:"true" description:"how the ensemble was drawn"`
	EffectiveSize float64            `json:"effective_size" required:"true" description:"forecasts that agree with the readings, out of members"`
	Members       int                `json:"members" required:"true"`
}

// EMCScale is the equilibrium of this wood in this place over the printed curve.
type EMCScale struct {
	Value float64 `json:"value" required:"true"`
	Low   float64 `json:"low" required:"true"`
	High  float64 `json:"high" required:"true"`
}

// MeterError is what a meter shows too much.
type MeterError struct {
	Meter  string           `json:"meter" required:"true"`
	Points wire.PercentBand `json:"points" required:"true" description:"reading less truth"`
}

// SetAside is a reading that the others rule out.
type SetAside struct {
	Pointer   string `json:"pointer" required:"true" description:"of the reading in the request"`
	Date      string `json:"date" required:"true"`
	Detail    string `json:"detail" required:"true"`
	Slip      string `json:"slip,omitempty" description:"the slip of the pen that would explain it"`
	Undecided bool   `json:"undecided" required:"true" description:"nothing tells which side is wrong"`
	With      string `json:"with,omitempty" description:"pointer of the reading it contradicts, if it is one"`
}

// NextReading is the one reading worth taking next.
type NextReading struct {
	What       string             `json:"what" required:"true" enum:"weigh,ovendry_sample,pin_reading_at_the_core"`
	Date       string             `json:"date" required:"true"`
	ExpectMass *wire.QuantityBand `json:"expect_mass,omitempty" description:"if all is well"`
	ExpectMC   *wire.PercentBand  `json:"expect_mc,omitempty" description:"if all is well"`
	IfAbove    string             `json:"if_above" required:"true"`
	IfBelow    string             `json:"if_below" required:"true"`
	Why        string             `json:"why" required:"true"`
}

// learned fuses the readings with the forecast of the billet's history.
func (req *ReadinessRequest) learned(ctx context.Context, t *shelf.Tables, w *shelf.Wood, result *ReadinessResult, notes *method.Notes) (*moisture.Estimate, quantity.Band[quantity.Moisture], error) {
	l, rh, err := req.learning(t, w, result, notes)
	if err != nil {
		return nil, l.target, err
	}
	if err := l.Run(ctx); err != nil {
		return nil, l.target, err
	}
	now, err := l.answer(rh)
	return now, l.target, err
}

// learning reads the request; without a wood it only tells what is wrong with it.
func (req *ReadinessRequest) learning(t *shelf.Tables, w *shelf.Wood, result *ReadinessResult, notes *method.Notes) (l *learning, rh float64, err error) {
	h := req.History
	target, rh, noTarget := req.target(historyBranch(h.StartPct), w, notes)
	l = &learning{req: req, result: result, target: target, forecast: forecast{tables: t, notes: notes, report: wire.ReportIn(req.ReportIn), in: seasoned{
		wood: w, thickness: req.Billet.Thickness.SI, shown: req.Billet.Thickness.SI.Format(req.Billet.Thickness.Unit), ringAngle: req.RingAngle, stackedOn: h.StackedOn, storage: h.Storage,
		startPct: h.StartPct, startSD: h.StartSD, horizon: horizonOf(h.Horizon), factor: h.Factor,
	}}}
	return l, rh, errors.Join(noTarget, l.Read())
}

// learning is the work on one billet with a history.
type learning struct {
	forecast
	req      *ReadinessRequest
	result   *ReadinessResult
	target   quantity.Band[quantity.Moisture]
	today    quantity.Duration
	meters   []string
	observed []readiness.Observation
	sources  []source
}

// source is where an observation came from.
type source struct {
	pointer, date string
	unit          string            // of a weight, as the caller wrote it
	mc            moisture.Estimate // for the drawing; empty for a weight
}

// Read draws up what is known of the piece and gathers the readings. All that is
// wrong is told at once; dates are not held against a storage that is wrong.
func (l *learning) Read() (err error) {
	noSetup := inHistory(l.prepare())
	var noDay, noBodies error
	if l.today, noDay = l.day("history/as_of", l.req.History.AsOf); noDay != nil {
		l.today = l.in.horizon // what lies after it is not known
	}
	if noSetup == nil && l.in.wood != nil {
		noBodies = l.bodies()
	}
	return errors.Join(noSetup, noDay, noBodies, l.gather())
}

// Run fuses the readings.
func (l *learning) Run(ctx context.Context) (err error) {
	l.simulateWith(shelf.Simulation(ctx))
	l.setup.Exact = []quantity.Duration{l.today}
	if l.posterior, err = readiness.Learn(ctx, l.setup, l.observed); err != nil {
		return l.pointAtReading(err)
	}
	l.notes.Merge(l.posterior.Notes)
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

// day is a date within the forecast, counted from stacking.
func (l *learning) day(input, text string) (quantity.Duration, error) {
	date, err := shelf.ParseDay(input, text)
	if err != nil || l.stay == nil {
		return 0, err
	}
	at, end := l.stay.since(date), l.in.horizon
	if at < 0 || at > end {
		return 0, &method.Error{Code: method.OutOfRange, Input: input, Limit: l.stay.date(0) + " to " + l.stay.date(end),
			Detail: "the date must lie between the day of stacking, " + l.stay.date(0) + ", and the end of the forecast, " + l.stay.date(end)}
	}
	return at, nil
}

// boardDiffers is how far a sample board strays from its billet for good.
const boardDiffers = 1 * quantity.PercentMC

// ovendrySpread is the spread of the ovendry mass guessed from size and the
// published density: 10 % between pieces, 3 % of measuring.
const ovendrySpread = 0.105

// bodies are what is weighed: the billet, whose ovendry mass its size gives a
// first guess of, and the sample board.
func (l *learning) bodies() error {
	billet := readiness.Body{Name: "billet"}
	b := l.req.Billet
	if b.ThinEnd == nil && b.ThinEdge == nil {
		gravity, err := moisture.SpecificGravityAt(l.setup.Wood.SpecificGravity.Value, l.target.Value, l.in.wood.VolumetricShrinkage(l.notes), l.in.wood.FibreSaturation())
		if err != nil {
			return wire.Under("", err, [2]string{"specific_gravity", "species"})
		}
		const water = 1000 // kg/m3
		billet.Ovendry = quantity.Mass(float64(b.Length.SI*b.Width.SI*b.Thickness.SI) * gravity.SpecificGravity * water)
		billet.OvendrySD = ovendrySpread
	}
	l.setup.Bodies = []readiness.Body{billet}
	if len(l.req.Board) > 0 {
		l.setup.Bodies = append(l.setup.Bodies, readiness.Body{Name: "sample board", Differs: boardDiffers})
	}
	return nil
}

// gather turns the request into observations.
func (l *learning) gather() error {
	var wrong []error
	for i := range l.req.Readings {
		wrong = append(wrong, l.reading(i))
	}
	for body, list := range [][]DatedWeight{l.req.Weights, l.req.Board} {
		member := [...]string{"weights", "sample_board_weights"}[body]
		wrong = append(wrong, l.weights(body, member, list))
	}
	if k := l.req.KnownMC; k != nil {
		at, err := l.day("known_mc/date", k.Date)
		if err == nil && at > l.today {
			err = l.ahead("known_mc")
		}
		wrong = append(wrong, err)
		known := shelf.KnownMoisture(*k.MC, k.SD)
		l.add(readiness.Observation{Kind: readiness.Sample, At: at, MC: known.Value, SD: known.SD(), Written: quantity.FormatNumber(*k.MC, 6)}, source{pointer: "/known_mc", date: k.Date})
	}
	return errors.Join(wrong...)
}

func (l *learning) add(o readiness.Observation, s source) {
	l.observed, l.sources = append(l.observed, o), append(l.sources, s)
}

// weights adds dated weights of a body.
func (l *learning) weights(body int, member string, list []DatedWeight) error {
	var wrong []error
	previous := quantity.Duration(math.Inf(-1))
	for i := range list {
		place := member + "/" + strconv.Itoa(i)
		at, err := l.day(place+"/date", list[i].Date)
		switch {
		case err != nil || l.stay == nil:
		case at <= previous:
			err = &method.Error{Code: method.OutOfRange, Input: place + "/date", Limit: "after " + l.stay.date(previous), Detail: "weights must be in order of date, one a day"}
		case at > l.today:
			err = l.ahead(place)
		default:
			previous = at
		}
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		l.add(readiness.Observation{Kind: readiness.Weight, At: at, Body: body, Weighing: shelf.Weighing(list[i].Mass, l.req.Scale), Written: written(list[i].Mass)},
			source{pointer: "/" + place, date: list[i].Date, unit: list[i].Mass.Unit})
	}
	return errors.Join(wrong...)
}

// written is the number of a mass in the unit the caller gave it in.
func written(m *wire.Mass) string {
	value, ok := m.SI.In(m.Unit)
	if !ok {
		return ""
	}
	const decimals = 6 // finer than any scale; rounds what the conversion left
	return quantity.FormatNumber(value, decimals)
}

func (l *learning) ahead(place string) error {
	return &method.Error{Code: method.OutOfRange, Input: place + "/date", Limit: "at most " + l.req.History.AsOf, Detail: "this lies after as_of; a reading cannot be of the future"}
}

// reading adds one reading of a meter or a sample.
func (l *learning) reading(i int) error {
	r, place := &l.req.Readings[i], "readings/"+strconv.Itoa(i)
	date, at := l.req.History.AsOf, l.today
	var noDay error
	if r.Date != "" {
		date = r.Date
		if at, noDay = l.day(place+"/date", date); noDay == nil && at > l.today {
			noDay = l.ahead(place)
		}
	}
	estimate, _, err := r.Estimate(l.in.wood, l.notes)
	if err := errors.Join(noDay, wire.Under(place, err)); err != nil {
		return err
	}
	l.notes.Merge(estimate.Notes)
	meter := -1
	switch {
	case r.PinMeter != nil:
		meter = l.meter("pin meter", r.PinMeter.Meter, estimate.SD)
	case r.PinlessMeter != nil:
		meter = l.meter("pinless meter", r.PinlessMeter.Meter, estimate.SD)
	}
	o := readiness.ObservationOf(estimate, at, meter)
	if p := r.PinMeter; p != nil && p.Depth != nil {
		share := float64(p.Depth.SI / p.Thickness.SI)
		o.Depth, o.DepthKnown = min(share, 1-share), true
	}
	l.add(o, source{pointer: "/" + place, date: date, mc: estimate})
	return nil
}

// meter finds or adds a meter by its name.
func (l *learning) meter(kind, name string, sd quantity.Moisture) int {
	if name == "" {
		name = kind
	}
	for i, known := range l.meters {
		if known == name {
			return i
		}
	}
	bias, _ := readiness.MeterBias(sd)
	l.meters = append(l.meters, name)
	l.setup.Meters = append(l.setup.Meters, readiness.Meter{Name: name, BiasSD: bias})
	return len(l.meters) - 1
}

// pointAtReading turns "observations/3/..." into the pointer of the reading.
func (l *learning) pointAtReading(err error) error {
	if domain, ok := wire.AsDomain(err); ok {
		if rest, is := strings.CutPrefix(domain.Input, "observations/"); is {
			number, name, _ := strings.Cut(rest, "/")
			if i, err := strconv.Atoi(number); err == nil && i < len(l.sources) {
				moved := *domain
				moved.Input = l.sources[i].pointer
				if name == "mass_resolution" {
					moved.Input = "scale_division"
				}
				return &moved
			}
		}
		switch kind, _, _ := strings.Cut(domain.Input, "/"); kind {
		case "meters":
			return wire.Under("", err, [2]string{domain.Input, "readings"})
		case "bodies":
			return wire.Under("", err, [2]string{domain.Input, "billet"})
		}
	}
	return inHistory(forecastError(err))
}
