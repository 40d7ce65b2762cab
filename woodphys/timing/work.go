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
	profile profile // of today, then of the day the billet is sawn; empty: not known
	ready   bool    // within the limits to resaw, today
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
