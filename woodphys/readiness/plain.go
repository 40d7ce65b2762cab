package readiness

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// PlainQuestion is a piece as it is now with what it is wanted for.
type PlainQuestion struct {
	Billet Billet
	Seen   Seen
	Target quantity.Band[quantity.Moisture] // where it comes to rest
	Limits []OwnLimits
}

// PlainAnswer is the judgement.
type PlainAnswer struct {
	Verdicts []Verdict // of the steps, in their order
	Wants    []Want    // what would make it surer, or what to wait for
	Settled  Settled
	Notes    method.Notes
}

// JudgePlain judges a piece by what is known of it now.
//
// Errors: those of Judge and of Billet.Settle.
// Accuracy: as Judge.
//
// Source: row readiness.criteria.
func JudgePlain(q *PlainQuestion) (PlainAnswer, error) {
	var a PlainAnswer
	state := q.state()
	for _, step := range Steps() {
		verdict, notes, err := Judge(step, LimitsOf(step, q.Billet.judged(), q.Limits), state)
		if err != nil {
			return PlainAnswer{}, err
		}
		a.Notes.Merge(notes)
		a.Verdicts = append(a.Verdicts, verdict)
	}
	a.Wants = q.Seen.wants(q.Billet.Length, a.Verdicts, q.Target)
	var err error
	a.Settled, err = q.Billet.Settle(q.Seen.MC.MC, q.Seen.MC.SD, q.Target)
	return a, err
}

// state is what the criteria are judged by.
func (q *PlainQuestion) state() State {
	seen := &q.Seen
	state := State{
		MC:     Uncertain{Value: float64(seen.MC.MC.Value), SD: float64(seen.MC.SD), Known: true},
		Target: Uncertain{Value: float64(q.Target.Value), SD: float64(q.Target.SD()), Known: true},
	}
	if g := seen.Gradient; g != nil {
		state.Gradient = Uncertain{Value: float64(g.CoreMinusShell.Value), SD: float64(g.SD), Known: true}
	}
	if t := seen.Trend; t != nil {
		state.Rate = Uncertain{Value: t.MassPerDay.Value, SD: t.MassPerDay.SD(), Known: true}
	}
	return state
}
