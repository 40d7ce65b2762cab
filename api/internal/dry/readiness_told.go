package dry

import (
	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ReadinessResult says what the billet is ready for.
type ReadinessResult struct {
	Wood        shelf.WoodUsed         `json:"wood" required:"true" description:"the wood with the figures that were used"`
	Summary     string                 `json:"summary" required:"true" description:"the answer in a sentence"`
	Verdicts    []StepVerdict          `json:"verdicts" required:"true" nullable:"false" description:"in the order of the work"`
	Moisture    MoistureNow            `json:"moisture" required:"true" description:"what is known of the moisture content today"`
	Target      Target                 `json:"target" required:"true" description:"where the wood settles"`
	Movement    []PartMovement         `json:"movement" required:"true" nullable:"false" description:"of the billet itself, from now until it has settled in the build room"`
	WeightAt    *TargetMass            `json:"mass_at_target,omitempty" description:"what the billet will weigh when it has settled"`
	Yield       *shelf.LeafYieldResult `json:"yield,omitempty" description:"with saw and part"`
	Calibration *Calibration           `json:"calibration,omitempty" description:"with stays: what the readings taught"`
	Rejected    []RejectedReading      `json:"rejected_readings,omitempty" description:"readings that did not count: weights that no billet of this size and wood has, and with stays what the others rule out"`
	Next        *NextReading           `json:"next_reading,omitempty" description:"with stays: the one reading worth taking next"`
	Weights     []ExpectedWeight       `json:"expected_weights,omitempty" description:"with stays and a weight: what the scale will show if all is well, from as_of on, up to 90 days ahead"`
	Series      []CoursePoint          `json:"series,omitempty" detail:"full" description:"with stays: the course, past and to come. Left out with ?detail=summary"`
	Checks      *SurfaceChecks         `json:"surface_checks,omitempty" description:"with stays, of wood that still is above 25 % and whose safe daily loss is known: of how it dries from as_of on; an index, as seasoning tells it"`
	Defects     []DryingDefect         `json:"drying_defects,omitempty" description:"with stays, of wood that still is wet: harm to be looked out for from as_of on, by the wood, its moisture and the air it lies in, as seasoning tells it; rules of the trade"`
	Advice      []string               `json:"advice" required:"true" nullable:"false" description:"harm that is ahead of wet wood and what to do about it, what would make the answer surer, and where to bring wood that never comes near its target where it lies"`
	harm        string                 // that is ahead, for the summary; empty: none
	chart       func(width int) []byte // the drawing
}

// StepVerdict is the judgement on one step of the work.
type StepVerdict struct {
	Step        string            `json:"step" required:"true" enum:"resaw,thickness,glue" description:"of the work"`
	Verdict     string            `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say" description:"ready: every criterion is met, together with a probability of 0.80. Not ready: a criterion is missed on one side with a probability of 0.80. Else it cannot be said: what is known so badly that it may lie on either side of the limits is no reason against the wood"`
	Probability float64           `json:"probability" required:"true" description:"that every criterion with a reading is met"`
	Detail      string            `json:"detail" required:"true" description:"the judgement in words"`
	Criteria    []CriterionResult `json:"criteria" required:"true" nullable:"false" description:"what the step asks, one by one"`
	ReadyOn     *ReadyOn          `json:"ready_on,omitempty" description:"with stays: when the step is ready, from as_of on; without a value where it may be ready on that very day, and that cannot be said"`
	perhaps     bool              // it may be ready today
}

// ReadyOn is when a step is first ready, and whether it stays so.
type ReadyOn struct {
	wire.DateBand
	Detail string `json:"detail" required:"true" description:"what the date is worth, in words"`
}

// CriterionResult is one thing a step asks.
type CriterionResult struct {
	Kind        string   `json:"kind" required:"true" enum:"level,gradient,rest" description:"level: near the target; gradient: core and shell alike; rest: no longer moving"`
	Verdict     string   `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say" description:"on this criterion alone"`
	Probability *float64 `json:"probability,omitempty" description:"left out when there is no reading"`
	Detail      string   `json:"detail" required:"true" description:"in words"`
}

// MoistureNow is the moisture content now and where it was learnt.
type MoistureNow struct {
	MC        wire.Band        `json:"mc" required:"true" description:"over the whole thickness"`
	SDPct     float64          `json:"mc_sd_points" required:"true" description:"standard deviation of mc"`
	Estimates []shelf.Estimate `json:"estimates" required:"true" nullable:"false" description:"of each reading"`
	Shell     *wire.Band       `json:"shell_mc,omitempty" description:"with stays: outer tenth at each face"`
	Core      *wire.Band       `json:"core_mc,omitempty" description:"with stays: middle fifth of the thickness"`
	Thinnest  *wire.Band       `json:"thinnest_mc,omitempty" description:"with stays, of a wedge or a taper: where it is thinnest, over the thickness there"`
	Thickest  *wire.Band       `json:"thickest_mc,omitempty" description:"with stays, of a wedge or a taper: where it is thickest, over the thickness there; the last to be dry"`
	Gradient  *shelf.Gradient  `json:"gradient,omitempty" description:"left out where core and shell were not both read"`
	Trend     *WeightTrend     `json:"trend,omitempty" description:"over the last five weights; with stays, of the fitted course"`
}

// WeightTrend is the change of weight.
type WeightTrend struct {
	Mass     wire.Band `json:"mass_change" required:"true" description:"of the weight, in percent of it a day; negative is drying"`
	MC       wire.Band `json:"mc_change" required:"true" description:"of the moisture content, in points a day; negative is drying"`
	SpanDays float64   `json:"span_days" required:"true" description:"over which it is seen"`
}

// Target is where the wood will settle in the build room.
type Target struct {
	MC        wire.Band `json:"mc" required:"true" description:"over the whole thickness"`
	RHPct     *float64  `json:"rh_pct,omitempty" description:"relative humidity of the air that keeps it there"`
	Sorption  string    `json:"sorption,omitempty" enum:"drying,wetting,unknown" description:"side of the sorption loop that mc is taken on: drying for wood that dries from green, in whatever room it has lain since; unknown for wood that was dry before, or may have been: the middle of the loop, as /v1/emc tells it, and with stays up to half a point off it, towards what the wood held at their start. Left out: the target was stated as a moisture content"`
	Detail    string    `json:"detail,omitempty" description:"why that side. Left out with sorption"`
	GapPoints float64   `json:"gap_mc_points" required:"true" description:"moisture content now less the target"`
}

// PartMovement is how a dimension of the billet moves on its way to the target.
type PartMovement struct {
	Dimension string        `json:"dimension" required:"true" enum:"width,thickness" description:"of the billet"`
	Rings     string        `json:"rings" required:"true" enum:"as_given,if_quartersawn,if_flatsawn" description:"the rings that this holds for; both where they were not given"`
	Now       wire.Quantity `json:"now" required:"true" description:"size now"`
	Change    wire.Band     `json:"change" required:"true" description:"on the way to the target; negative is shrinkage"`
}

// TargetMass is a mass with its band.
type TargetMass struct {
	Mass    wire.Band     `json:"mass" required:"true" description:"once it has settled"`
	Ovendry wire.Quantity `json:"ovendry_mass" required:"true" description:"the mass without water that this rests on"`
}

// Render draws the course or lists it; only a billet with stays has one.
func (r *ReadinessResult) Render(name string) ([]byte, error) {
	if r.chart == nil {
		return nil, wire.Missing("stays", "a drawing or a table of the course needs the stays of the billet")
	}
	if name == wire.TableForm.Name {
		return courseTable(r.Series), nil
	}
	return r.chart(0), nil
}

// RenderShown draws the course for a screen that has so many px for it.
func (r *ReadinessResult) RenderShown(width int) ([]byte, error) {
	if r.chart == nil {
		return r.Render(wire.DrawnForm.Name)
	}
	return drawing.OnScreen(r.chart(width)), nil
}

// Calibration is what the readings taught about the billet.
type Calibration struct {
	Factor       shelf.FactorUsed `json:"drying_factor" required:"true" description:"after the readings"`
	Pace         shelf.FactorUsed `json:"pace" required:"true" description:"of the wet stage in a wide pile, over that in moving air; after the readings"`
	Foretold     *Foretold        `json:"foretold,omitempty" description:"how the forecast does on the weighings of this piece, each foretold from those before it; with four and more"`
	FactorBefore shelf.FactorUsed `json:"drying_factor_before" required:"true" description:"as known of the wood"`
	StartMC      wire.Band        `json:"start_mc" required:"true" description:"on the day of stacking"`
	EMCScale     wire.Band        `json:"emc_scale" required:"true" description:"equilibrium of this piece in this place over that of the isotherm of the wood"`
	Ovendry      *wire.Band       `json:"ovendry_mass,omitempty" description:"mass without water of the billet, if it was weighed"`
	Meters       []MeterBias      `json:"meter_biases" required:"true" nullable:"false" description:"what each meter shows too much"`
	ReadingsUsed int              `json:"readings_used" required:"true" description:"that were not rejected"`
	Method       string           `json:"method" required:"true" description:"how the ensemble was drawn"`
	Effective    float64          `json:"effective_members" required:"true" resolution:"0.1" description:"forecasts that agree with the readings, out of members"`
	Members      int              `json:"members" required:"true" description:"forecasts of the ensemble"`
}

// MeterBias is what a meter shows too much.
type MeterBias struct {
	Meter  string    `json:"meter" required:"true" description:"its name, or its kind where it has none"`
	Points wire.Band `json:"bias" required:"true" description:"reading less truth"`
}

// RejectedReading is a reading that the others rule out.
type RejectedReading struct {
	Pointer   string `json:"pointer" required:"true" description:"of the reading in the request"`
	Date      string `json:"date" required:"true" format:"date" description:"of the reading"`
	Detail    string `json:"detail" required:"true" description:"what was read, and what the others lead to expect"`
	Slip      string `json:"likely_slip,omitempty" description:"the slip of the pen that would explain it"`
	Undecided bool   `json:"undecided" required:"true" description:"nothing tells which side is wrong"`
	With      string `json:"conflicts_with,omitempty" description:"pointer of the reading it contradicts, if it is one"`
}

// NextReading is the one reading worth taking next.
type NextReading struct {
	Kind       string     `json:"kind" required:"true" enum:"weight,ovendry_sample,pin_meter" description:"of the reading; a pin meter is read at the core"`
	Date       string     `json:"date" required:"true" format:"date" description:"of the reading"`
	ExpectMass *wire.Band `json:"expected_mass,omitempty" description:"if all is well"`
	ExpectMC   *wire.Band `json:"expected_mc,omitempty" description:"if all is well"`
	Above      string     `json:"advice_above" required:"true" description:"what it means if the reading comes out above what is expected"`
	Below      string     `json:"advice_below" required:"true" description:"what it means if it comes out below"`
	Detail     string     `json:"detail" required:"true" description:"what to read, when, and what it would tell"`
}

// Foretold counts weighings that fell into the band foretold of them.
type Foretold struct {
	InBand    int `json:"in_band" required:"true" description:"fell in the 90 % band"`
	Weighings int `json:"weighings" required:"true" description:"that were foretold"`
}

// ExpectedWeight is what the scale will show on a day if all is well.
type ExpectedWeight struct {
	Date      string     `json:"date" required:"true" format:"date" description:"of the weighing"`
	Mass      wire.Band  `json:"mass" required:"true" description:"if all is well"`
	Plausible wire.Range `json:"plausible_mass" required:"true" description:"twice as wide as the band of mass, about one of a thousand lies outside: such a weight is worth a second look at the scale"`
}
