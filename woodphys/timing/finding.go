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

// mostCases is how many pasts of a billet are looked at whose shell and core were not read.
const mostCases = 48

// ofPasts is how finely each is run: as fine through the thickness as usual, for the cup hangs
// on the profile, and in coarse steps. The cup is within a hundredth of that of a fine run.
var ofPasts = drying.Setting{Cells: drying.Standard().Cells, Tolerance: drying.Coarse().Tolerance}

// greenUnknown is the start of a wood whose green moisture is not known. Own choice, no
// source: about the middle of the tables.
var greenUnknown = seasoning.Start{MC: 75 * quantity.PercentMC, SD: 25 * quantity.PercentMC}

// findProfile finds the moisture content through the thickness today: one through
// shell and core as read, or that of wood that dried from green where it lies.
func (w *work) findProfile(ctx context.Context) (ProfileOrigin, error) {
	if over := w.q.Moisture.CoreOverShell; over != nil {
		read := parabola(w.now.Value, *over)
		if shell := w.q.Moisture.Shell; shell > 0 {
			read = through(w.now.Value, shell, *over)
		}
		w.keep(certain(read))
		return ProfileRead, nil
	}
	dried, err := w.driedDown(ctx)
	if err != nil {
		return ProfileEven, err
	}
	how, detail := ProfileDried, "shell and core were not given; the billet is taken to have dried from green in the mean air of the "+
		"first of its stays. Reading both makes cup and dates surer"
	switch share := quantity.FormatNumber(10*dried, 0); {
	case dried == 0 && w.now.Value > w.saturation():
		how, detail = ProfileEven, "the billet is taken as even through its thickness, because it is as wet as green wood; "+
			"read shell and core for its gradient"
	case dried == 0:
		how, detail = ProfileEven, "the billet is taken as even through its thickness: wood does not come down to its moisture "+
			"content in the first of its stays; read shell and core for its gradient"
	case share != "10":
		detail = "shell and core were not given, and how wet the billet was is not known: in " + share + " of 10 cases it has " +
			"dried from green in the first of its stays, and its shell is drier than its core; in the others it is even. Reading " +
			"both makes cup and dates much surer; of a billet sawn from the log today give them alike"
	}
	w.notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.slab", Input: "moisture", Detail: detail})
	return how, nil
}

// keep keeps the profiles that the billet may have.
func (w *work) keep(c cases) { w.cases, w.profile = c, c.middle() }

// saturation is the fibre saturation of the wood.
func (w *work) saturation() quantity.Moisture {
	if w.q.Wood.FibreSaturation > 0 {
		return w.q.Wood.FibreSaturation
	}
	return sorption.NominalFibreSaturation
}

// past is how a billet may have come to what it holds.
type past struct {
	start, now   quantity.Moisture
	factor, pace float64
}

// driedDown finds the profiles of a billet that dried to its moisture content from green, in
// the mean air of the first place it lies in, and returns the share of those that dried at
// all. What is not known is how wet it was, how wet it is, and how fast it dried; one that
// started no wetter than it is, or does not come down so far there, is even.
//
// The air is the mean, because a billet that comes to the same moisture content twice in a
// year would have two profiles, and an answer that jumps between them.
func (w *work) driedDown(ctx context.Context) (float64, error) {
	prior, err := w.prior(theBillet, w.q.Billet.Thickness, 0, seasoning.Start{MC: w.now.Value, SD: w.sd})
	if err != nil {
		return 0, err
	}
	job, err := prior.Middle()
	if err != nil {
		return 0, ofStart(err)
	}
	first := job.Phases[0]
	first.Climate, err = drying.Constant(first.Climate.Mean(min(first.Length, 365*quantity.Day)))
	if err != nil {
		return 0, ofRun(err)
	}
	first.Length = forever
	job.Ends = nil // the moisture content was read in the middle of the length
	job.Phases, job.History, job.Setting = []drying.Phase{first}, drying.FromGreen, ofPasts
	for i := range profileSteps {
		job.Depths = append(job.Depths, 0.5*float64(i)/(profileSteps-1))
	}
	found, dried := make(cases, 0, mostCases), 0.0
	for _, one := range w.pasts(&prior) {
		p := even(one.now)
		if one.start > one.now {
			job.Initial, job.StopAt, job.Factor, job.Pace = one.start, one.now, one.factor, one.pace
			course, err := w.solver.Run(ctx, &job)
			if err != nil {
				return 0, ofRun(err)
			}
			if course.Reached {
				copy(p, course.Stopped)
				dried += 1.0 / mostCases
			}
		}
		found = append(found, likely{p, 1.0 / mostCases})
	}
	w.keep(found)
	return dried, nil
}

// pasts spreads what is not known of the past over even shares of its distributions. Green
// wood is never below fibre saturation.
func (w *work) pasts(prior *seasoning.Prior) []past {
	green, known := seasoning.Green(&w.q.Wood)
	if !known {
		green = greenUnknown
	}
	s := &prior.Setup
	list := make([]past, mostCases)
	for i := range list {
		z := spread(i)
		one := &list[i]
		one.now = min(max(w.now.Value+quantity.Moisture(z[1])*w.sd, driestPast), seasoning.Wettest)
		one.start = min(max(green.MC+quantity.Moisture(z[0])*green.SD, w.saturation(), one.now), seasoning.Wettest)
		one.factor = min(max(s.Factor*math.Exp(z[2]*s.FactorLogSD), slowestPast), fastestPast)
		one.pace = min(max(s.Pace*math.Exp(z[3]*s.PaceLogSD), slowestPast), fastestPast)
	}
	return list
}

// The driest wood that is followed, and the slowest and the fastest: what the solver takes.
const (
	driestPast  = 1 * quantity.PercentMC
	slowestPast = 0.005
	fastestPast = 20
)

// spread is the i-th of mostCases points of four standard normal variables: even steps in
// the first, and steps by the powers of the inverse of the root of x^4 = x + 1 in the others
// (the additive recurrence of Roberts 2018, recalled), which leave no gaps and no clusters.
func spread(i int) (z [4]float64) {
	const root = 1.2207440846057596
	u := (float64(i) + 0.5) / mostCases
	step := 1.0
	for k := range z {
		z[k] = math.Sqrt2 * math.Erfinv(2*u-1)
		step /= root
		_, u = math.Modf(0.5 + float64(i+1)*step)
	}
	return z
}

// endProfile is the profile at the end of the solver's last run.
func (w *work) endProfile() profile {
	p := make(profile, profileSteps)
	for i := range p {
		p[i] = w.solver.MoistureAt(0.5 * float64(i) / (profileSteps - 1))
	}
	return p
}

// ofRun names the start of a run as the moisture of the billet.
func ofRun(err error) error { return method.Renamed(err, [2]string{"mc_pct", "mean_pct"}) }
