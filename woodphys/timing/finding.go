package timing

import (
	"context"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// surelyBelow is how far below fibre saturation wood has a profile that can be found from
// where it lies.
const surelyBelow = 2 * quantity.PercentMC

// findProfile finds the moisture content through the thickness today: a parabola
// through shell and core, or that of wood that dried down where it lies.
func (w *work) findProfile(ctx context.Context) (ProfileOrigin, error) {
	if over := w.q.Moisture.CoreOverShell; over != nil {
		w.profile = parabola(w.now.Value, *over)
		return ProfileRead, nil
	}
	w.profile = make(profile, profileSteps)
	for i := range w.profile {
		w.profile[i] = w.now.Value
	}
	how := ProfileEven
	detail := "the billet is taken as even through its thickness, because it is too wet to have a known profile; " +
		"read shell and core for its gradient"
	if w.now.Value < sorption.NominalFibreSaturation-surelyBelow {
		reached, err := w.driedDown(ctx)
		if err != nil {
			return how, err
		}
		detail = "the billet is taken as even through its thickness: wood does not come down to its moisture content " +
			"in the first of its stays; read shell and core for its gradient"
		if reached {
			w.keepProfile()
			how = ProfileDried
			detail = "shell and core were not given; the billet is taken to have dried down from fibre saturation in the " +
				"first of its stays. Reading both makes cup and dates surer"
		}
	}
	w.notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.slab", Input: "moisture", Detail: detail})
	return how, nil
}

// driedDown lets the billet dry down from fibre saturation to its moisture content in the
// first place it lies in, and says whether it came so far.
func (w *work) driedDown(ctx context.Context) (bool, error) {
	prior, err := w.prior(w.q.Lay, w.q.Billet.Thickness, 0, seasoning.Start{MC: w.now.Value, SD: w.sd})
	if err != nil {
		return false, err
	}
	job, err := prior.Middle()
	if err != nil {
		return false, ofStart(err)
	}
	first := job.Phases[0]
	first.Length = min(seasoning.LongestHorizon, first.Climate.End())
	job.Phases, job.History = []drying.Phase{first}, drying.FromGreen
	job.Initial, job.StopAt = sorption.NominalFibreSaturation, w.now.Value
	course, err := w.solver.Run(ctx, &job)
	return course.Reached, ofRun(err)
}

// keepProfile takes the profile at the end of the solver's last run.
func (w *work) keepProfile() {
	w.profile = make(profile, profileSteps)
	for i := range w.profile {
		w.profile[i] = w.solver.MoistureAt(0.5 * float64(i) / (profileSteps - 1))
	}
}

// ofRun names the start of a run as the moisture of the billet.
func ofRun(err error) error { return method.Renamed(err, [2]string{"mc_pct", "mean_pct"}) }
