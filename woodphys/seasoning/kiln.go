package seasoning

import (
	"context"
	"math"
	"strconv"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// StepKind is what a step of a schedule is for.
type StepKind string

// Kinds of step.
const (
	DryingStep   StepKind = "drying"
	Equalizing   StepKind = "equalizing"   // damper, so that pieces and depths come together
	Conditioning StepKind = "conditioning" // damper still and hot, to take the stress out of the skin
)

// Step is a part of the schedule of a kiln, in air that does not change.
type Step struct {
	Kind        StepKind
	Length      quantity.Duration // above 0; 0: until Until
	Until       quantity.Moisture // of the mean, where Length is 0
	Temperature quantity.Temperature
	RH          float64 // a fraction
}

// Kiln is a schedule as it is run.
type Kiln struct {
	Begin quantity.Duration // since stacking
	Steps []Step            // each with its Length
	Air   *drying.Climate   // of all of them, in run time
}

// End is when the schedule ends, since stacking.
//
// Accuracy: exact. Source: sum of the lengths.
func (k *Kiln) End() quantity.Duration {
	at := k.Begin
	for i := range k.Steps {
		at += k.Steps[i].Length
	}
	return at
}

// Of a step of a schedule: how long one may take that ends by moisture content, what one
// takes at least, and how soon the air of the next is reached. Own choice.
const (
	longestStep  = 365 * quantity.Day
	shortestStep = 1 * quantity.Hour
	betweenSteps = 15 * quantity.Minute
)

// Run lays the schedule out in time for a piece that has lain in phases before, which end
// when the schedule begins: a step that ends by moisture content takes as long as the middle
// forecast of the piece.
//
// Errors: those of Piece.Setup and drying.Solver.Run; of drying.Constant below "phases/N";
// out_of_range for "phases/N/until_mc_pct" where the wood does not come down so far within a
// year.
// Accuracy: that of the middle forecast: a piece that dries faster or slower ends such a step
// drier or wetter.
//
// Source: row drying.slab.
func (p *Piece) Run(ctx context.Context, before []drying.Phase, steps []Step, exposure drying.Exposure) (*Kiln, error) {
	k := &Kiln{Steps: append([]Step{}, steps...)}
	for i := range before {
		k.Begin += before[i].Length
	}
	for i := range k.Steps {
		step := &k.Steps[i]
		place := func(err error) error { return method.Below(err, "phases/"+strconv.Itoa(i)) }
		if _, err := drying.Constant(step.Temperature, step.RH); err != nil {
			return nil, place(err)
		}
		if step.Length == 0 {
			length, err := p.until(ctx, before, k, i, exposure)
			if err != nil {
				return nil, place(err)
			}
			step.Length = length
		}
	}
	var err error
	k.Air, err = k.climate(len(k.Steps))
	return k, err
}

// until is how long a step takes that ends by moisture content.
func (p *Piece) until(ctx context.Context, before []drying.Phase, k *Kiln, i int, exposure drying.Exposure) (quantity.Duration, error) {
	prior, err := p.Setup()
	if err != nil {
		return 0, err
	}
	job, err := prior.Middle()
	if err != nil {
		return 0, err
	}
	step := &k.Steps[i]
	begin, until := k.Begin, step.Until
	for j := range i {
		begin += k.Steps[j].Length
	}
	step.Length = longestStep
	climate, err := k.climate(i + 1)
	if err != nil {
		return 0, err
	}
	job.Phases = append(append([]drying.Phase{}, before...), drying.Phase{Length: begin - k.Begin + longestStep, Climate: climate, Exposure: exposure})
	job.StopAt = until
	solver := drying.Solver{Work: p.Work}
	course, err := solver.Run(ctx, &job)
	switch {
	case err != nil:
		return 0, ofRun(err)
	case !course.Reached:
		return 0, &method.Error{Code: method.OutOfRange, Input: "until_mc_pct",
			Limit: method.AtLeast(quantity.RoundedUp(course.Final.Percent(), 1), "%"),
			Detail: "the wood does not come down to " + quantity.FormatNumber(until.Percent(), 1) + " % in this air; within a year it is at " +
				quantity.FormatNumber(course.Final.Percent(), 1) + " %"}
	}
	return max(course.ReachedAt-begin, shortestStep), nil
}

// climate is the air of the first steps, and of the last of them beyond.
func (k *Kiln) climate(steps int) (*drying.Climate, error) {
	var rows []drying.Reading
	at := k.Begin
	for i := range k.Steps[:steps] {
		s := &k.Steps[i]
		from := at
		if i > 0 {
			from += min(betweenSteps, s.Length/2)
		}
		at += s.Length
		rows = append(rows, drying.Reading{Time: from, Temperature: s.Temperature, RH: s.RH}, drying.Reading{Time: at, Temperature: s.Temperature, RH: s.RH})
	}
	return drying.Logged(rows)
}

// CaseState is what stress a kiln leaves in the skin of the wood.
type CaseState string

// States.
const (
	CaseFree     CaseState = "none"     // no step was hot and dry enough to set the skin
	CaseLikely   CaseState = "likely"   // the skin is set, and nothing took it out
	CasePartly   CaseState = "partly"   // conditioning began to, and fell short
	CaseRelieved CaseState = "relieved" // conditioning took it out
	CaseReversed CaseState = "reversed" // conditioning went on too long
)

// CaseStress is the stress that the last schedule leaves, and what conditioning it asks for.
type CaseStress struct {
	State CaseState
	At    quantity.Duration // since stacking, when the schedule ends
	// What relieves it: so long, at least so warm, in air that keeps wood at so much.
	Hours       float64
	Temperature quantity.Temperature
	EMC         quantity.Moisture
}

// Of conditioning (Simpson, ed., 1991, Dry Kiln Operator's Manual, USDA AH 188, ch. 7, from
// memory): air that keeps the wood 4 points (hardwoods) or 3 (softwoods) above what it holds,
// hot, for 16 to 24 hours at 25 mm of hardwood and about twice as long at 50 mm; softwoods a
// third of it. The least temperature, what counts as enough and as too long are our own choice.
const (
	conditionHardwood = 4 * quantity.PercentMC
	conditionSoftwood = 3 * quantity.PercentMC
	conditionHours    = 20.0 // of 25.4 mm of hardwood
	softwoodShare     = 1.0 / 3
	conditionAt       = 55.0 // degC at least
	nearlyPoints      = 0.5 * quantity.PercentMC
	nearlyHours       = 0.8
	tooLong           = 3.0
)

// caseStress is what the last schedule leaves in the wood, by the course of the middle forecast.
func caseStress(p *Piece, course *watched) *CaseStress {
	if len(p.Kilns) == 0 {
		return nil
	}
	k := &p.Kilns[len(p.Kilns)-1]
	soft := p.Wood.Conifer()
	c := &CaseStress{At: k.End(), Temperature: quantity.Celsius(conditionAt), State: CaseFree,
		Hours: conditionHours * math.Pow(float64(p.Thickness/(25.4*quantity.Millimetre)), 1.2)}
	above := conditionHardwood
	if soft {
		c.Hours, above = c.Hours*softwoodShare, conditionSoftwood
	}
	set, end, given := false, k.Begin, 0.0
	for i := range k.Steps {
		step := &k.Steps[i]
		begin := end
		end += step.Length
		if step.Kind == Conditioning {
			holds := course.meanAt(begin)
			if c.EMC == 0 {
				c.EMC = holds + above
			}
			if p.emcOf(step) >= holds+above-nearlyPoints && step.Temperature.Celsius() >= conditionAt {
				given += step.Length.Days() * 24
			}
			continue
		}
		if course.set(begin, end) {
			set, given = true, 0 // which undoes what conditioning did before
		}
	}
	if c.EMC == 0 {
		c.EMC = course.meanAt(end) + above
	}
	switch share := given / c.Hours; {
	case given > 0 && share > tooLong:
		c.State = CaseReversed
	case !set:
		c.State = CaseFree
	case share >= nearlyHours:
		c.State = CaseRelieved
	case given > 0:
		c.State = CasePartly
	default:
		c.State = CaseLikely
	}
	return c
}

// emcOf is what the air of a step keeps the wood at.
func (p *Piece) emcOf(step *Step) quantity.Moisture {
	transport, err := drying.NewTransport(p.Wood)
	if err != nil {
		return 0
	}
	isotherm := transport.Isotherm(step.Temperature)
	return isotherm.At(step.RH)
}
