package timing

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// looks is how often the wait for the gradient looks, close at first.
const looks = 300

// profiled runs the billet from its profile of today.
func (w *work) profiled(ctx context.Context, whole *seasoning.Outlook, factor float64,
	times []quantity.Duration) (drying.Course, error) {
	job, err := whole.Middle()
	if err != nil {
		return drying.Course{}, ofStart(err)
	}
	job.Profile, job.Factor, job.Times = w.profile.at, factor, times
	course, err := w.solver.Run(ctx, &job)
	return course, ofRun(err)
}

// waitForGradient moves the saw date to when shell and core are within their
// limit too, if they are apart today: the ensemble starts even. Slow wood takes
// the late date, fast wood the early one.
func (w *work) waitForGradient(ctx context.Context, whole *seasoning.Outlook, date *readiness.ReadyDate) error {
	limits := w.limits(readiness.Resaw, w.q.Billet.Thickness)
	if limits.Gradient == 0 || w.profile.gap() <= limits.Gradient {
		return nil
	}
	times := make([]quantity.Duration, 0, looks+1)
	for i := range looks + 1 {
		share := quantity.Duration(i) / looks
		times = append(times, w.q.Horizon*share*share)
	}
	factor := whole.Factor.Band()
	for _, one := range []struct {
		factor float64
		date   *readiness.Date
	}{{factor.High, &date.Low}, {factor.Value, &date.Median}, {factor.Low, &date.High}} {
		course, err := w.profiled(ctx, whole, one.factor, times)
		if err != nil {
			return err
		}
		at := readiness.Date{At: w.q.Horizon}
		for i := range course.Times {
			if gap := course.Core[i] - course.Shell[i]; quantity.Moisture(math.Abs(float64(gap))) <= limits.Gradient {
				at = readiness.Date{At: course.Times[i], Within: true}
				break
			}
		}
		if at.At > one.date.At {
			one.date.At, one.date.Within = at.At, at.Within && one.date.Within
		}
	}
	return nil
}

// Shares of an early, a middle and a late date, at the ends and in the middle of a 90 % band,
// in means over what is not known (Pearson and Tukey 1965, recalled).
const (
	shareOfEnd    = 0.185
	shareOfMiddle = 1 - 2*shareOfEnd
)

// profilesAt keeps the profiles of the billet on the day it is sawn: of fast wood on the early
// date, of slow wood on the late one, where that is within the forecast.
func (w *work) profilesAt(ctx context.Context, whole *seasoning.Outlook, saw *readiness.ReadyDate) error {
	if saw.Median.At <= 0 {
		return nil // those of today
	}
	factor := whole.Factor.Band()
	var found cases
	total := 0.0
	for _, one := range []struct {
		factor float64
		on     readiness.Date
		share  float64
	}{{factor.High, saw.Low, shareOfEnd}, {factor.Value, saw.Median, shareOfMiddle}, {factor.Low, saw.High, shareOfEnd}} {
		if !one.on.Within {
			continue
		}
		p, err := w.profileAt(ctx, whole, one.factor, one.on.At)
		if err != nil {
			return err
		}
		found, total = append(found, likely{p, one.share}), total+one.share
	}
	for i := range found {
		found[i].share /= total
	}
	w.keep(found)
	return nil
}

// profileAt is the profile of the billet after a time.
func (w *work) profileAt(ctx context.Context, whole *seasoning.Outlook, factor float64, at quantity.Duration) (profile, error) {
	if at <= 0 {
		return w.profile, nil
	}
	job, err := whole.Middle()
	if err != nil {
		return nil, ofStart(err)
	}
	var phases []drying.Phase
	left := at
	for _, p := range job.Phases {
		if left <= 0 {
			break
		}
		p.Length = min(p.Length, left)
		left -= p.Length
		phases = append(phases, p)
	}
	job.Profile, job.Factor, job.Phases = w.profile.at, factor, phases
	if _, err := w.solver.Run(ctx, &job); err != nil {
		return nil, ofRun(err)
	}
	return w.endProfile(), nil
}
