package readiness

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var judgeRow = method.Method{
	ID: "readiness.criteria", Chapter: "readiness",
	Summary:  "Probability that the wood meets what a step of the work asks: level, gradient, rest",
	Equation: "P(low <= X <= high) = Phi((high - x)/s) - Phi((low - x)/s) for each criterion; their product for the step; ready from 0.80, not ready where X lies beyond one limit with 0.80 and beyond the other with 0.05 at most, else open",
	Inputs: []method.Input{
		{Name: "mc_pct", Unit: "%MC", Fitted: method.Range{Low: 3, High: 30}, Limit: method.Range{Low: 0, High: 250}},
		{Name: "target_pct", Unit: "%MC", Fitted: method.Range{Low: 4, High: 16}, Limit: method.Range{Low: 0, High: 30}},
	},
	Accuracy: "the criteria are taken as independent and normal; limits and thresholds are common practice",
	Source:   "common practice, no source; Wood Handbook, FPL-GTR-190, ch. 13 for the need of level and gradient",
	Checked:  method.Practice,
}

// Uncertain is a value with its standard deviation; Known is false when there
// is no reading of it.
type Uncertain struct {
	Value, SD float64
	Known     bool
}

// State is what is known of a piece now.
type State struct {
	MC       Uncertain // mean over the thickness, fraction of ovendry mass
	Target   Uncertain // EMC of the build room for this wood, fraction
	Gradient Uncertain // core minus shell, fraction
	Rate     Uncertain // change of mass per day, share of the mass
}

// Outcome is a three-valued verdict.
type Outcome string

// Outcomes of a criterion or a step.
const (
	Ready     Outcome = "ready"
	NotReady  Outcome = "not_ready"
	CannotSay Outcome = "cannot_say"
)

// Thresholds of probability for an outcome; between them nothing is claimed. A number that is
// hardly known lies within narrow limits with little probability wherever it is, which says
// nothing against the wood: it is not ready where the number is known to lie on one side of
// them. Common practice and own choice, no source.
const (
	readyFrom    = 0.80
	notReadyFrom = 0.80 // that a number lies beyond one limit
	otherSide    = 0.05 // that it lies beyond the other, at most
)

// Names of the criteria.
const (
	levelCriterion    = "level"
	gradientCriterion = "gradient"
	restCriterion     = "rest"
)

// Criterion is one thing a step asks, with the number that met or failed it.
type Criterion struct {
	Name        string // "level", "gradient" or "rest"
	Outcome     Outcome
	Probability float64 // that the criterion is met; NaN-free, 0 when not known
	Known       bool
	// Measured is the number judged and Allowed its limits: level, moisture content
	// minus target; gradient, core minus shell; both as fractions of ovendry mass.
	// Rest, the change per day as a share of the mass.
	Measured quantity.Band[float64]
	Allowed  method.Range
	Detail   string
}

// Verdict is the judgement on one step: ready where every criterion is and all together with
// a probability of 0.80; not ready where one criterion is not.
type Verdict struct {
	Step        Step
	Outcome     Outcome
	Probability float64 // that every criterion that can be judged is met
	Criteria    []Criterion
	Failed      int // criteria that are not met
	Detail      string
}

// Judge returns the verdict on step s for wood in the given state. A criterion
// without a reading is not known: it cannot make the step ready, but another
// criterion may still show that it is not.
//
// Errors: *method.Error out_of_range for "mc_pct" (0 to 250), "target_pct"
// (0 to 30) and the limits, as Posterior.Judge names them; missing for "mc_pct" when
// MC or Target is not known.
// Accuracy: as good as the standard deviations given; criteria are taken as
// independent.
//
// Source: see the registry row readiness.criteria.
func Judge(s Step, limits Limits, state State) (Verdict, method.Notes, error) {
	var notes method.Notes
	if !state.MC.Known || !state.Target.Known {
		return Verdict{}, notes, &method.Error{Code: method.Missing, Input: "mc_pct", Detail: "a verdict needs a moisture content and a target"}
	}
	if err := limits.check(); err != nil {
		return Verdict{}, notes, err
	}
	if err := notes.Use(&judgeRow, "mc_pct", state.MC.Value*100); err != nil {
		return Verdict{}, notes, err
	}
	if err := notes.Use(&judgeRow, "target_pct", state.Target.Value*100); err != nil {
		return Verdict{}, notes, err
	}
	v := Verdict{Step: s, Probability: 1}
	v.add(level(limits, state))
	if limits.Gradient > 0 {
		v.add(gradient(limits, state.Gradient))
	}
	if _, asked := limits.rest(state.MC.Value); asked {
		v.add(rest(limits, state))
	}
	v.conclude()
	return v, notes, nil
}

func level(limits Limits, state State) Criterion {
	gap := state.MC.Value - state.Target.Value
	sd := math.Hypot(state.MC.SD, state.Target.SD)
	c := judged(levelCriterion, gap, sd, method.Range{Low: -float64(limits.Below), High: float64(limits.Above)})
	c.Measured.Low = max(c.Measured.Low, -state.Target.Value) // no wood holds less than no water
	c.Detail = fmt.Sprintf("moisture content %.1f %% is %+.1f points (%+.1f to %+.1f) from the target %.1f %%; allowed -%s to +%s points",
		state.MC.Value*100, gap*100, c.Measured.Low*100, c.Measured.High*100, state.Target.Value*100, points(limits.Below),
		points(limits.Above))
	return c
}

func gradient(limits Limits, g Uncertain) Criterion {
	c := Criterion{Name: gradientCriterion, Known: g.Known, Outcome: CannotSay, Allowed: method.Range{Low: -float64(limits.Gradient), High: float64(limits.Gradient)},
		Detail: "no readings at two depths, near the face and at the core; the core may be wetter than the shell by more than " + points(limits.Gradient) + " points"}
	if !g.Known {
		return c
	}
	c = judged(c.Name, g.Value, g.SD, c.Allowed)
	c.Detail = fmt.Sprintf("core minus shell is %+.1f points; allowed %s points either way", g.Value*100, points(limits.Gradient))
	return c
}

func rest(limits Limits, state State) Criterion {
	perDay, _ := limits.rest(state.MC.Value)
	perDay /= 1 + state.MC.Value // of the mass
	r := state.Rate
	c := Criterion{Name: restCriterion, Known: r.Known, Outcome: CannotSay, Allowed: method.Range{Low: -perDay, High: perDay},
		Detail: "fewer than three dated weights; it is not known whether the weight is at rest"}
	if !r.Known {
		return c
	}
	c = judged(c.Name, r.Value, r.SD, c.Allowed)
	c.Detail = fmt.Sprintf("the weight changes by %+.3f %% a day; allowed %s %% either way", r.Value*100, quantity.FormatNumber(perDay*100, 3))
	return c
}

// judged is the criterion of a number, normal with a standard deviation, that is to lie
// within limits.
func judged(name string, value, sd float64, allowed method.Range) Criterion {
	met := chances{within(value, sd, allowed.Low, allowed.High), within(value, sd, math.Inf(-1), allowed.Low),
		within(value, sd, allowed.High, math.Inf(1))}
	return Criterion{Name: name, Known: true, Probability: met.within, Outcome: met.outcome(), Measured: quantity.NormalBand(value, sd),
		Allowed: allowed}
}

func points(m quantity.Moisture) string { return quantity.FormatNumber(m.Percent(), 1) }

func (v *Verdict) add(c Criterion) {
	v.Criteria = append(v.Criteria, c)
	if c.Known {
		v.Probability *= c.Probability
	}
}

// conclude draws the step's outcome from its criteria: one that fails fails
// the step; one that is not known keeps it from being ready.
func (v *Verdict) conclude() {
	v.Outcome, v.Failed = CannotSay, 0
	if v.Probability >= readyFrom {
		v.Outcome = Ready
	}
	for _, c := range v.Criteria {
		if c.Known && c.Outcome == NotReady {
			if v.Failed == 0 {
				v.Detail = c.Detail
			}
			v.Outcome = NotReady
			v.Failed++
		}
	}
	if v.Failed > 0 {
		return
	}
	for _, c := range v.Criteria {
		if c.Outcome == CannotSay {
			v.Outcome, v.Detail = CannotSay, c.Detail
			return
		}
	}
	if v.Outcome == Ready {
		v.Detail = "every criterion is met"
		return
	}
	v.Detail = "no single criterion fails, but together they are met with too little certainty"
}

// chances are the probabilities that a number lies within its limits, below and above them.
// Of a wedge that is further apart than its limits some place lies on either side.
type chances struct{ within, below, above float64 }

func (c chances) outcome() Outcome {
	less, more := min(c.below, c.above), max(c.below, c.above)
	switch {
	case c.within >= readyFrom:
		return Ready
	case more >= notReadyFrom && less <= otherSide, less >= notReadyFrom:
		return NotReady
	}
	return CannotSay
}
