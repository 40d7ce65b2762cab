package timing

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// profile is the moisture content at even steps from the face (first) to the
// middle (last) of the billet, alike from both faces. Empty: not known.
type profile []quantity.Moisture

const profileSteps = 41

// driestWood is the driest that a profile is taken to be.
const driestWood = 0.005

// surelyBelow is how far below fibre saturation wood has a profile that can be found from
// where it lies.
const surelyBelow = 2 * quantity.PercentMC

// ProfileOrigin says where the difference of shell and core comes from.
type ProfileOrigin string

// How the profile of today is known.
const (
	ProfileRead  ProfileOrigin = "read"
	ProfileDried ProfileOrigin = "dried_down_in_the_first_place"
	ProfileEven  ProfileOrigin = "even"
)

// at is the moisture content at a depth, a share of the thickness.
func (p profile) at(depth float64) quantity.Moisture {
	if depth > 0.5 {
		depth = 1 - depth
	}
	place := math.Max(0, depth) * 2 * float64(len(p)-1)
	i := min(int(place), len(p)-2)
	share := quantity.Moisture(place - float64(i))
	return p[i]*(1-share) + p[i+1]*share
}

// mean over a part of the thickness.
func (p profile) mean(from, to float64) quantity.Moisture {
	const parts = 40
	sum := quantity.Moisture(0)
	for i := range parts {
		sum += p.at(from + (to-from)*(float64(i)+0.5)/parts)
	}
	return sum / parts
}

// shell is the mean over the outer tenth, core that over the middle fifth.
func (p profile) shell() quantity.Moisture { return p.mean(0, 0.1) }
func (p profile) core() quantity.Moisture  { return p.mean(0.4, 0.5) }

// gap is how far core and shell are apart.
func (p profile) gap() quantity.Moisture {
	return quantity.Moisture(math.Abs(float64(p.core() - p.shell())))
}

// wettest is the moisture content of the wettest leaf; 0 when it is not known.
func (p profile) wettest() quantity.Moisture {
	wettest := quantity.Moisture(0)
	for _, m := range p {
		wettest = max(wettest, m)
	}
	return wettest
}

// parabola is the profile with a mean and a difference of core and shell, M = c - a u^2
// with u from 0 in the middle to 1 at the face.
func parabola(mean, coreOverShell quantity.Moisture) profile {
	// The mean of u^2 is (1 - 0.8^3)/0.6 over the outer tenth, 0.2^3/0.6 over the middle
	// fifth, 1/3 in all.
	const outer, inner = (1 - 0.512) / 0.6, 0.008 / 0.6
	a := coreOverShell / (outer - inner)
	c := mean + a/3
	p := make(profile, profileSteps)
	for i := range p {
		u := quantity.Moisture(1 - float64(i)/(profileSteps-1))
		p[i] = min(max(c-a*u*u, driestWood), seasoning.Wettest)
	}
	return p
}

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
	detail := "the billet is taken as even through its thickness, because it is too wet to have a known profile; read shell and core for its gradient"
	if w.now.Value < sorption.NominalFibreSaturation-surelyBelow {
		reached, err := w.driedDown(ctx)
		if err != nil {
			return how, err
		}
		detail = "the billet is taken as even through its thickness: wood does not come down to its moisture content in the first place of storage; read shell and core for its gradient"
		if reached {
			w.keepProfile()
			how = ProfileDried
			detail = "shell and core were not given; the billet is taken to have dried down from fibre saturation in the first place of storage. Reading both makes cup and dates surer"
		}
	}
	w.notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.slab", Input: "moisture", Detail: detail})
	return how, nil
}

// driedDown lets the billet dry down from fibre saturation to its moisture content in the
// first place it lies in, and says whether it came so far.
func (w *work) driedDown(ctx context.Context) (bool, error) {
	prior, err := w.prior(w.q.Thickness, 0, seasoning.Start{MC: w.now.Value, SD: w.sd})
	if err != nil {
		return false, err
	}
	job, err := prior.Middle()
	if err != nil {
		return false, ofStart(err)
	}
	first := job.Phases[0]
	first.Length = min(seasoning.LongestHorizon, first.Climate.End())
	job.Phases, job.Initial, job.StopAt, job.History = []drying.Phase{first}, sorption.NominalFibreSaturation, w.now.Value, drying.FromGreen
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
