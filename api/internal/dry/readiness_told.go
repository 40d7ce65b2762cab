package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ReadinessResult says what the billet is ready for.
type ReadinessResult struct {
	Wood        shelf.WoodUsed     `json:"wood" required:"true"`
	Summary     string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Verdicts    []StepVerdict      `json:"verdicts" required:"true" nullable:"false" description:"in the order of the work"`
	Moisture    MoistureNow        `json:"moisture" required:"true"`
	Target      Target             `json:"target" required:"true"`
	Movement    []PartMovement     `json:"movement" required:"true" nullable:"false" description:"of the billet itself, from now until it has settled in the build room"`
	WeightAt    *TargetMass        `json:"mass_at_target,omitempty" description:"what the billet will weigh when it has settled"`
	Yield       *shelf.YieldResult `json:"yield,omitempty" description:"with saw and part"`
	Calibration *Calibration       `json:"calibration,omitempty" description:"with stays: what the readings taught"`
	Rejected    []RejectedReading  `json:"rejected_readings,omitempty" description:"with stays: readings that the others rule out; they did not count"`
	Next        *NextReading       `json:"next_reading,omitempty" description:"with stays: the one reading worth taking next"`
	Series      []CoursePoint      `json:"series,omitempty" description:"with stays: the course, past and to come"`
	Advice      []string           `json:"advice" required:"true" nullable:"false" description:"what would make the answer surer"`
	chart       func() []byte      // the drawing
}

// StepVerdict is the judgement on one step of the work.
type StepVerdict struct {
	Step        string            `json:"step" required:"true" enum:"resaw,thickness,glue"`
	Verdict     string            `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say"`
	Probability float64           `json:"probability" required:"true" description:"that every criterion with a reading is met"`
	Detail      string            `json:"detail" required:"true" description:"the judgement in words"`
	Criteria    []CriterionResult `json:"criteria" required:"true" nullable:"false"`
	ReadyOn     *wire.DateBand    `json:"ready_on,omitempty" description:"with stays: when the step is first ready, from today on"`
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
	SDPct     float64           `json:"mc_sd_points" required:"true"`
	Estimates []shelf.Estimate  `json:"estimates" required:"true" nullable:"false"`
	Shell     *wire.PercentBand `json:"shell,omitempty" description:"with stays: outer tenth at each face"`
	Core      *wire.PercentBand `json:"core,omitempty" description:"with stays: middle fifth of the thickness"`
	Gradient  *shelf.Gradient   `json:"gradient,omitempty"`
	Trend     *WeightTrend      `json:"trend,omitempty" description:"over the last five weights; with stays, of the fitted course"`
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
	RHPct     *float64         `json:"rh_pct,omitempty" description:"relative humidity of the air that keeps it there"`
	GapPoints float64          `json:"gap_mc_points" required:"true" description:"moisture content now less the target"`
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
	Ovendry wire.Quantity     `json:"ovendry_mass" required:"true" description:"the mass without water that this rests on"`
}

// Render draws the course or lists it; only a billet with stays has one.
func (r *ReadinessResult) Render(name string) ([]byte, error) {
	if r.chart == nil {
		return nil, wire.Missing("stays", "a drawing or a table of the course needs the stays of the billet")
	}
	if name == wire.TableForm.Name {
		return courseTable(r.Series), nil
	}
	return r.chart(), nil
}

// Calibration is what the readings taught about the billet.
type Calibration struct {
	Factor       shelf.FactorUsed   `json:"drying_factor" required:"true" description:"after the readings"`
	FactorBefore shelf.FactorUsed   `json:"drying_factor_before" required:"true" description:"as known of the wood"`
	StartMC      wire.PercentBand   `json:"start_mc" required:"true" description:"on the day of stacking"`
	EMCScale     EMCScale           `json:"emc_scale" required:"true"`
	Ovendry      *wire.QuantityBand `json:"ovendry,omitempty" description:"ovendry mass of the billet, if it was weighed"`
	Meters       []MeterBias        `json:"meter_biases" required:"true" nullable:"false" description:"what each meter shows too much"`
	ReadingsUsed int                `json:"readings_used" required:"true"`
	Method       string             `json:"method" required:"true" description:"how the ensemble was drawn"`
	Effective    float64            `json:"effective_members" required:"true" description:"forecasts that agree with the readings, out of members"`
	Members      int                `json:"members" required:"true"`
}

// EMCScale is the equilibrium of this wood in this place over the printed curve.
type EMCScale struct {
	Value float64 `json:"value" required:"true"`
	Low   float64 `json:"low" required:"true"`
	High  float64 `json:"high" required:"true"`
}

// MeterBias is what a meter shows too much.
type MeterBias struct {
	Meter  string           `json:"meter" required:"true"`
	Points wire.PercentBand `json:"points" required:"true" description:"reading less truth"`
}

// RejectedReading is a reading that the others rule out.
type RejectedReading struct {
	Pointer   string `json:"pointer" required:"true" description:"of the reading in the request"`
	Date      string `json:"date" required:"true"`
	Detail    string `json:"detail" required:"true"`
	Slip      string `json:"likely_slip,omitempty" description:"the slip of the pen that would explain it"`
	Undecided bool   `json:"undecided" required:"true" description:"nothing tells which side is wrong"`
	With      string `json:"conflicts_with,omitempty" description:"pointer of the reading it contradicts, if it is one"`
}

// NextReading is the one reading worth taking next.
type NextReading struct {
	Kind       string             `json:"kind" required:"true" enum:"weight,ovendry_sample,pin_meter" description:"of the reading; a pin meter is read at the core"`
	Date       string             `json:"date" required:"true"`
	ExpectMass *wire.QuantityBand `json:"expect_mass,omitempty" description:"if all is well"`
	ExpectMC   *wire.PercentBand  `json:"expect_mc,omitempty" description:"if all is well"`
	Above      string             `json:"advice_above" required:"true" description:"what it means if the reading comes out above what is expected"`
	Below      string             `json:"advice_below" required:"true" description:"what it means if it comes out below"`
	Detail     string             `json:"detail" required:"true" description:"what to read, when, and what it would tell"`
}
