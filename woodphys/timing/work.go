package timing

import (
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// work is the work on one question.
type work struct {
	q      *Question
	notes  method.Notes
	solver drying.Solver

	now     quantity.Band[quantity.Moisture]
	sd      quantity.Moisture
	cases   cases   // of today, then of the day the billet is sawn; empty: not known
	profile profile // their mean; empty: not known
	dried   bool    // it is asked of the billet after it dried whole
	ready   bool    // within the limits to resaw, today
}

// ownSD is how far each profile strays as a whole: a past that is looked at has it in its
// own moisture content, a profile that was read has not.
func (w *work) ownSD() quantity.Moisture {
	if len(w.cases) > 1 {
		return 0
	}
	return w.sd
}

// limits are those of a step for stock of a thickness.
func (w *work) limits(step readiness.Step, thickness quantity.Length) readiness.Limits {
	return readiness.LimitsOf(step, thickness, w.q.Limits)
}

// readyNow says whether the billet is within the limits to resaw today.
func (w *work) readyNow() bool {
	l := w.limits(readiness.Resaw, w.q.Billet.Thickness)
	off := w.now.Value - w.q.Rest.Moisture.Value
	return off <= l.Above && -off <= l.Below && (l.Gradient == 0 || w.profile.gap() <= l.Gradient)
}
