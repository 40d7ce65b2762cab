package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

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

// Render draws the course or lists it; only a billet with a history has one.
func (r *ReadinessResult) Render(name string) ([]byte, error) {
	if r.chart == nil {
		return nil, wire.Missing("history", "a drawing or a table of the course needs the history of the billet")
	}
	if name == wire.TableForm.Name {
		return courseTable(r.Series), nil
	}
	return r.chart(), nil
}

// Learned is what the readings taught about the billet.
type Learned struct {
	Factor        shelf.FactorUsed   `json:"drying_factor" required:"true" description:"after the readings"`
	Pace          shelf.FactorUsed   `json:"pace" required:"true" description:"of the wet stage in a wide pile, over that in moving air; after the readings"`
	Foretold      *Foretold          `json:"foretold,omitempty" description:"how the forecast does on the weighings of this piece, each foretold from those before it; with four and more"`
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

// Foretold counts weighings that fell into the band foretold of them.
type Foretold struct {
	InBand    int `json:"in_band" required:"true" description:"fell in the 90 % band"`
	Weighings int `json:"weighings" required:"true"`
}
