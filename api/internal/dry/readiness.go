package dry

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// ReadinessRequest describes a billet, what was read and weighed on it, and the
// room it will be built in.
type ReadinessRequest struct {
	Species   string              `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood      *shelf.OwnWood      `json:"wood,omitempty"`
	Billet    *shelf.Billet       `json:"billet" validate:"required"`
	RingAngle *float64            `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"of the rings to the wide face: 90 quartersawn, 0 flatsawn; without it both are shown"`
	BuildRoom *shelf.Air          `json:"build_room" validate:"required" description:"air of the room the wood will be worked in; its equilibrium is the target"`
	Readings  []shelf.Reading     `json:"readings,omitempty" validate:"max=200,dive" description:"without history all are taken as of now"`
	Weights   []DatedWeight       `json:"weights,omitempty" validate:"max=500,dive" description:"of the whole billet, in order of date"`
	Scale     *wire.Mass          `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step the scale shows"`
	Board     []DatedWeight       `json:"sample_board_weights,omitempty" validate:"max=500,dive" description:"with history: of a board that dries beside the billet, in order of date"`
	KnownMC   *KnownMC            `json:"known_mc,omitempty" description:"the moisture content on one of the days it was weighed"`
	History   *History            `json:"history,omitempty" description:"where the billet has lain and will lie: the readings are then fused with the drying forecast, and dates come with the verdicts"`
	Limits    []StepLimits        `json:"limits,omitempty" validate:"max=3,dive" description:"in place of the usual ones"`
	Saw       *shelf.Saw          `json:"saw,omitempty" description:"with part: what the billet yields"`
	Part      *shelf.PlatePart    `json:"part,omitempty"`
	Spoiled   []shelf.SpoiledLeaf `json:"spoiled,omitempty" validate:"max=1000,dive"`
	ReportIn  string              `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *ReadinessRequest) System() string { return req.ReportIn }

// History is the past and the future of a billet.
type History struct {
	AsOf      string           `json:"as_of" validate:"required,datetime=2006-01-02" description:"today: the verdicts are for this day"`
	StackedOn string           `json:"stacked_on" validate:"required,datetime=2006-01-02"`
	StartPct  *float64         `json:"start_mc_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"moisture content on the day of stacking; default: the published green moisture of the wood"`
	StartSD   *float64         `json:"start_sd_pct,omitempty" validate:"omitempty,gte=0.1,lte=50"`
	Storage   []shelf.Stay     `json:"storage" validate:"required,min=1,max=12,dive" description:"in order of time; the last stay is where it will go on lying"`
	Horizon   *float64         `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" default:"1825" description:"end of the forecast, counted from stacking"`
	Factor    *shelf.OwnFactor `json:"drying_factor,omitempty"`
}

// DatedWeight is the billet weighed on a day.
type DatedWeight struct {
	Date string     `json:"date" validate:"required,datetime=2006-01-02"`
	Mass *wire.Mass `json:"mass" validate:"required,gt=0,lte=5000"`
}

// KnownMC is a moisture content known on a day of the weights.
type KnownMC struct {
	Date string   `json:"date" validate:"required,datetime=2006-01-02" description:"one of the dates in weights"`
	MC   *float64 `json:"mc_pct" validate:"required,gte=0,lte=250"`
	SD   *float64 `json:"sd_pct,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3"`
}

// StepLimits replaces the usual limits of one step.
type StepLimits struct {
	Step     string   `json:"step" validate:"required,oneof=resaw thickness glue"`
	Above    *float64 `json:"above_pct,omitempty" validate:"omitempty,gt=0,lte=50" description:"points above the target"`
	Below    *float64 `json:"below_pct,omitempty" validate:"omitempty,gt=0,lte=50" description:"points below the target"`
	Gradient *float64 `json:"gradient_pct,omitempty" validate:"omitempty,gte=0,lte=50" description:"points between core and shell; 0: not asked"`
	Rate     *float64 `json:"rate_pct_per_day,omitempty" validate:"omitempty,gte=0,lte=10" description:"change of weight, percent of the mass per day; 0: not asked"`
	Trend    *float64 `json:"trend_pct,omitempty" validate:"omitempty,gte=0,lte=20" description:"points of moisture content over two weeks; 0: not asked"`
}

// ReadinessResult says what the billet is ready for.
type ReadinessResult struct {
	Wood      shelf.WoodUsed     `json:"wood" required:"true"`
	Summary   string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Steps     []StepVerdict      `json:"steps" required:"true" nullable:"false" description:"in the order of the work"`
	Moisture  MoistureNow        `json:"moisture" required:"true"`
	Target    Target             `json:"target" required:"true"`
	Movement  []PartMovement     `json:"movement" required:"true" nullable:"false" description:"of the billet itself, from now until it has settled in the build room"`
	WeightAt  *TargetMass        `json:"weight_at_target,omitempty" description:"what the billet will weigh when it has settled"`
	Yield     *shelf.YieldResult `json:"yield,omitempty" description:"with saw and part"`
	Learned   *Learned           `json:"learned,omitempty" description:"with history: what the readings taught"`
	SetAside  []SetAside         `json:"set_aside,omitempty" description:"with history: readings that the others rule out; they did not count"`
	Next      *NextReading       `json:"next_reading,omitempty" description:"with history: the one reading worth taking next"`
	Series    []CoursePoint      `json:"series,omitempty" description:"with history: the course, past and to come"`
	NextSteps []string           `json:"next" required:"true" nullable:"false" description:"what would make the answer surer"`
	chart     func() []byte      // the drawing
}

// StepVerdict is the judgement on one step of the work.
type StepVerdict struct {
	Step        string            `json:"step" required:"true" enum:"resaw,thickness,glue"`
	Verdict     string            `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say"`
	Probability float64           `json:"probability" required:"true" description:"that every criterion with a reading is met"`
	Reason      string            `json:"reason" required:"true"`
	Criteria    []CriterionResult `json:"criteria" required:"true" nullable:"false"`
	ReadyOn     *ReachedOn        `json:"ready_on,omitempty" description:"with history: when the step is first ready, from today on"`
}

// CriterionResult is one thing a step asks.
type CriterionResult struct {
	Name        string   `json:"name" required:"true" enum:"level,gradient,rest"`
	Verdict     string   `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say"`
	Probability *float64 `json:"probability,omitempty" description:"left out when there is no reading"`
	Detail      string   `json:"detail" required:"true"`
}

// MoistureNow is the moisture content now and where it was learnt.
type MoistureNow struct {
	MC        wire.PercentBand  `json:"mc" required:"true"`
	SDPct     float64           `json:"sd_pct" required:"true"`
	Estimates []shelf.Estimate  `json:"estimates" required:"true" nullable:"false"`
	Shell     *wire.PercentBand `json:"shell,omitempty" description:"with history: outer tenth at each face"`
	Core      *wire.PercentBand `json:"core,omitempty" description:"with history: middle fifth of the thickness"`
	Gradient  *shelf.Gradient   `json:"gradient,omitempty"`
	Trend     *WeightTrend      `json:"trend,omitempty" description:"over the last five weights; with history, of the fitted course"`
}

// WeightTrend is the change of weight.
type WeightTrend struct {
	MassPctPerDay wire.PercentBand `json:"mass_pct_per_day" required:"true" description:"negative is drying"`
	MCPctPerDay   wire.PercentBand `json:"mc_pct_per_day" required:"true"`
	SpanDays      float64          `json:"span_days" required:"true"`
}

// Target is where the wood will settle in the build room.
type Target struct {
	MC        wire.PercentBand `json:"mc" required:"true"`
	RHPct     float64          `json:"rh_pct" required:"true"`
	GapPoints float64          `json:"gap_points" required:"true" description:"moisture content now less the target"`
}

// PartMovement is how a dimension of the billet moves on its way to the target.
type PartMovement struct {
	Dimension string            `json:"dimension" required:"true" enum:"width,thickness"`
	Rings     string            `json:"rings" required:"true" enum:"as_given,if_quartersawn,if_flatsawn"`
	Now       wire.Quantity     `json:"now" required:"true"`
	Change    wire.QuantityBand `json:"change" required:"true"`
}

// TargetMass is a mass with its band.
type TargetMass struct {
	Mass    wire.QuantityBand `json:"mass" required:"true"`
	Ovendry wire.Quantity     `json:"ovendry" required:"true"`
}

func ComputeReadiness(ctx context.Context, t *shelf.Tables, req *ReadinessRequest) (*ReadinessResult, method.Notes, error) {
	var notes method.Notes
	var cutNotes method.Notes
	w, noWood := t.WoodOf(req.Species, req.Wood, &notes)
	yield, noYield := req.yield(t, w, &cutNotes)
	if wrong := errors.Join(noWood, req.stepsOnce(), noYield); wrong != nil { // before anything is simulated
		return nil, notes, shelf.Besides(noWood, errors.Join(req.stepsOnce(), noYield, req.faults(t, w)))
	}
	result := &ReadinessResult{Wood: w.Used("radial", "tangential", "coefficient_radial", "coefficient_tangential", "specific_gravity_green")}
	var now *moisture.Estimate
	var target quantity.Band[quantity.Moisture]
	var err error
	if req.History == nil {
		now, target, err = req.plain(w, result, &notes)
	} else {
		now, target, err = req.learned(ctx, t, w, result, &notes)
	}
	if err != nil {
		return nil, notes, err
	}
	report := wire.ReportIn(req.ReportIn)
	if result.Movement, err = req.billetMovement(w, now.MC, target, report, &notes); err != nil {
		return nil, notes, err
	}
	if result.WeightAt, err = req.weightAt(now, target, report, &notes); err != nil {
		return nil, notes, err
	}
	result.Yield = yield
	notes.Merge(cutNotes)
	result.Summary = summarise(result)
	t.Cautions(w, &notes)
	return result, notes, nil
}

// faults tells what is wrong with what is known of the moisture; w may be nil.
func (req *ReadinessRequest) faults(t *shelf.Tables, w *shelf.Wood) (err error) {
	if req.History == nil {
		_, _, err = req.plain(w, &ReadinessResult{}, &method.Notes{})
	} else {
		_, _, err = req.learning(t, w, &ReadinessResult{}, &method.Notes{})
	}
	return err
}

// Light: without a history nothing is simulated.
func (req *ReadinessRequest) Light() bool { return req.History == nil }

// stepsOnce refuses two sets of limits for one step: which is meant is not known.
func (req *ReadinessRequest) stepsOnce() error {
	var twice []error
	seen := map[string]bool{}
	for i := range req.Limits {
		if seen[req.Limits[i].Step] {
			twice = append(twice, wire.Contradictory("limits/"+strconv.Itoa(i)+"/step", "the limits of "+req.Limits[i].Step+" are given twice"))
		}
		seen[req.Limits[i].Step] = true
	}
	return errors.Join(twice...)
}

// limits are the usual ones with the caller's in their place.
func (req *ReadinessRequest) limits(step readiness.Step) readiness.Limits {
	limits := readiness.LimitsFor(step, req.Billet.Thickness.SI)
	for _, own := range req.Limits {
		if own.Step != string(step) {
			continue
		}
		for _, set := range []struct {
			to   *quantity.Moisture
			from *float64
		}{{&limits.Above, own.Above}, {&limits.Below, own.Below}, {&limits.Gradient, own.Gradient}, {&limits.Trend, own.Trend}} {
			if set.from != nil {
				*set.to = wire.FromPercent(*set.from)
			}
		}
		if own.Rate != nil {
			limits.Rate = *own.Rate / 100
		}
	}
	return limits
}

func describeVerdict(v *readiness.Verdict) StepVerdict {
	out := StepVerdict{Step: string(v.Step), Verdict: string(v.Outcome), Probability: v.Probability, Reason: v.Detail, Criteria: []CriterionResult{}}
	for _, c := range v.Criteria {
		one := CriterionResult{Name: c.Name, Verdict: string(c.Outcome), Detail: c.Detail}
		if c.Known {
			one.Probability = &c.Probability
		}
		out.Criteria = append(out.Criteria, one)
	}
	return out
}
