package readiness

import (
	"context"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// HistoryQuestion is a piece with its history, its readings and what it is wanted for.
type HistoryQuestion struct {
	Billet       Billet
	Setup        Setup
	Observations []Observation
	TakenAt      map[int]WedgePlace               // where on a wedge, of those observations that are of one place, by their number
	Volume       quantity.Volume                  // of the piece as it measures; 0: not known
	Today        quantity.Duration                // since stacking, within the phases
	Target       quantity.Band[quantity.Moisture] // where it comes to rest, as far as that is known before its readings
	Room         Room                             // whose air that is; the zero one: not told
	Build        Room                             // that the piece would be brought into; the zero one: not known
	Limits       []OwnLimits
	NoCourse     bool // the course is not looked at
}

// HistoryAnswer is what the readings taught and what it is ready for.
type HistoryAnswer struct {
	Posterior *Posterior
	// Impossible are weights that the piece cannot have, which the other readings do not rule
	// out; they did not count.
	Impossible []Impossible
	Now        Condition
	Course     Course    // past and to come; empty where it is not looked at
	Verdicts   []Verdict // of the steps, in their order
	Dates      []ReadyDate
	Next       Advice                           // about the first step that is not settled
	Wants      []Want                           // what would make it surer
	Moved      *Moved                           // nil where the piece can come near its target where it lies
	Weights    []Foreseen                       // from today on; none where its ovendry mass is not known
	Target     quantity.Band[quantity.Moisture] // where it comes to rest from what it holds now
	Settled    Settled
	Notes      method.Notes
}

// JudgeHistory learns from the readings of a piece and judges it by what it learned.
//
// Errors: those of Learn, with "start_mc_pct" for the start; those of Posterior.Judge,
// Posterior.ReadyDate and Billet.Settle; contradictory for "observations/<n>/mass" of weights
// that the piece cannot have, where no other is left.
// Accuracy: as Learn.
//
// Source: rows readiness.learn, readiness.joint, readiness.ready-date and
// readiness.possible-mass.
func JudgeHistory(ctx context.Context, q *HistoryQuestion) (*HistoryAnswer, error) {
	setup := q.Setup
	setup.Exact = []quantity.Duration{q.Today}
	a := &HistoryAnswer{}
	whole, err := q.onWedge(ctx, &a.Notes)
	if err != nil {
		return nil, err
	}
	asked := *q
	asked.Observations = whole
	q = &asked
	p, impossible, err := q.learn(ctx, setup)
	if err != nil {
		return nil, method.Renamed(err, [2]string{"mc_pct", "start_mc_pct"})
	}
	a.Posterior, a.Impossible = p, impossible
	a.Notes.Merge(p.Notes)
	if a.Now, err = p.Now(q.Today); err != nil {
		return nil, err
	}
	asked.Target = q.Room.settles(q.Target, a.Now.Mean.Value)
	a.Target = asked.Target
	if err := a.judge(q); err != nil {
		return nil, err
	}
	if a.Weights, err = p.Foresee(q.Today); err != nil {
		return nil, err
	}
	if !q.NoCourse {
		if a.Course, err = p.Whole(); err != nil {
			return nil, err
		}
	}
	if a.Settled, err = q.Billet.Settle(a.Now.Mean, a.Now.Mean.SD(), q.Target); err != nil {
		return nil, err
	}
	a.weighedBefore(q)
	a.Wants = a.wants(q.Billet.Length)
	if a.overruled(q) {
		a.Wants = append(a.Wants, Want{Kind: WantAgain})
	}
	return a, a.moved(ctx, q)
}

// weighedBefore tells the mass at the target from the ovendry mass that was learned from all
// weights: the last alone would give another, and what it weighed then goes with the moisture
// of then.
func (a *HistoryAnswer) weighedBefore(q *HistoryQuestion) {
	if a.Settled.Weight == nil || len(a.Posterior.OvendryKnown) == 0 || !a.Posterior.OvendryKnown[0] {
		return
	}
	dry, more := a.Posterior.Ovendry[0], 1+float64(q.Target.Value)
	a.Settled.Weight.Ovendry = dry.Value
	a.Settled.Weight.Mass = quantity.Band[quantity.Mass]{Value: dry.Value * quantity.Mass(more),
		Low: dry.Low * quantity.Mass(more), High: dry.High * quantity.Mass(more)}
}

// judge gives the verdict and the date of every step, and the reading that tells most
// about the first of them that is not settled.
func (a *HistoryAnswer) judge(q *HistoryQuestion) error {
	target := q.Setup.TargetIn(q.Target, q.Room)
	open := Steps()[len(Steps())-1]
	for _, step := range Steps() {
		limits := LimitsOf(step, q.Billet.judged(), q.Limits)
		verdict, notes, err := a.Posterior.Judge(step, limits, target, q.Today)
		if err != nil {
			return err
		}
		a.Notes.Merge(notes)
		date, err := a.Posterior.ReadyDate(limits, target, q.Today, 0)
		if err != nil {
			return err
		}
		a.Notes.Merge(date.Notes)
		date.unlessToday(&verdict, q.Today, a.Posterior.Horizon())
		a.Verdicts, a.Dates = append(a.Verdicts, verdict), append(a.Dates, date)
	}
	for i := range a.Verdicts {
		if a.Verdicts[i].Outcome != Ready {
			open = a.Verdicts[i].Step
			break
		}
	}
	var err error
	if a.Next, err = a.Posterior.NextReading(LimitsOf(open, q.Billet.judged(), q.Limits), target, q.Today); err != nil {
		return err
	}
	a.Notes.Merge(a.Next.Notes)
	return nil
}

// overruled reports that the newest reading, or one of its day, was set aside, and that the
// wood would not be within the limits of a step that it is ready for if it were right.
func (a *HistoryAnswer) overruled(q *HistoryQuestion) bool {
	newest := quantity.Duration(0)
	for i := range q.Observations {
		newest = max(newest, q.Observations[i].At)
	}
	for i := range a.Posterior.Contradictions {
		c := &a.Posterior.Contradictions[i]
		if q.Observations[c.Index].At < newest {
			continue
		}
		off := c.means(a.Now.Mean.Value) - q.Target.Value
		for j := range a.Verdicts {
			limits := LimitsOf(a.Verdicts[j].Step, q.Billet.judged(), q.Limits)
			if a.Verdicts[j].Outcome == Ready && (off > limits.Above || -off > limits.Below) {
				return true
			}
		}
	}
	return false
}

// means is the moisture content that a reading stands for, if it is right; a weight by how far
// it lies off what the others lead to expect of wood at a moisture content.
func (c *Contradiction) means(now quantity.Moisture) quantity.Moisture {
	if c.Kind != Weight {
		return c.GivenMC
	}
	return (1+now)*quantity.Moisture(c.GivenMass/c.ExpectedMass.Value) - 1
}

// sampleTells is how well a level has to be unknown for an ovendry sample to tell more of it.
// Own choice: what one says of the whole.
const sampleTells = 1 * quantity.PercentMC

// sampleSettles is the share of the uncertainty of the verdict from which on a sample is said to
// settle it. Own choice.
const sampleSettles = 0.1

// wants are what would make the judgement surer beside the next reading: a sample, where the
// readings leave the level open and one would tell more.
func (a *HistoryAnswer) wants(length quantity.Length) []Want {
	tells := func(o Option) bool { return o.Kind == Sample && o.Gain >= sampleSettles }
	if !slices.ContainsFunc(a.Next.Options, tells) {
		return nil
	}
	for i := range a.Verdicts {
		for j := range a.Verdicts[i].Criteria {
			c := &a.Verdicts[i].Criteria[j]
			if c.Name == levelCriterion && c.Outcome == CannotSay && a.Now.Mean.SD() > sampleTells {
				return []Want{wantSample(a.Now.Mean.SD(), length)}
			}
		}
	}
	return nil
}

// Sense says whether core and shell can be told apart: they can where the band of
// their difference holds no zero.
//
// Accuracy: 90 % of cases, as the band.
//
// Source: the band of Gradient.
func (c *Condition) Sense() moisture.Sense {
	switch {
	case c.Gradient.Low > 0:
		return moisture.CoreWetter
	case c.Gradient.High < 0:
		return moisture.ShellWetter
	}
	return moisture.NotTold
}
