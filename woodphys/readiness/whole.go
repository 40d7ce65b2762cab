package readiness

import "latewood/woodphys/quantity"

// wholeTimes is how many times a whole course is told at.
const wholeTimes = 160

// Whole returns the course from the day of stacking to the horizon at 160 times that
// keep its shape: close at first, where it bends, and even in the seasons after.
//
// Errors: as Posterior.Course.
// Accuracy: as Posterior.Course.
//
// Source: row readiness.learn; the times are our own choice.
func (p *Posterior) Whole() (Course, error) {
	horizon := p.Horizon()
	times := make([]quantity.Duration, 0, wholeTimes)
	for i := range wholeTimes {
		share := float64(i) / (wholeTimes - 1)
		times = append(times, min(horizon*quantity.Duration(0.6*share*share+0.4*share), horizon))
	}
	return p.Course(times)
}
