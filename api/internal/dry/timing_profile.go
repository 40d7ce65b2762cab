package dry

import (
	"math"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/section"
)

// profile is the moisture content at even steps from the face (first) to the
// middle (last) of the billet, alike from both faces. Empty: even.
type profile []quantity.Moisture

const profileSteps = 41

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

// wettest is the moisture content of the wettest leaf; 0 when even.
func (p profile) wettest() quantity.Moisture {
	wettest := quantity.Moisture(0)
	for _, m := range p {
		wettest = max(wettest, m)
	}
	return wettest
}

// How the profile of today is known.
const (
	profileRead  = "read"
	profileDried = "dried_down_in_the_first_place"
	profileEven  = "even"
)

// findProfile finds the moisture content through the thickness today: a parabola
// through shell and core, or that of wood that dried down where it lies.
func (g *timing) findProfile() error {
	g.profile, g.how = make(profile, profileSteps), profileRead
	m := g.req.Moisture
	if m.Shell == nil {
		return g.driedDown()
	}
	// M = c - a u^2, u from 0 in the middle to 1 at the face. The mean of u^2 is
	// (1 - 0.8^3)/0.6 over the outer tenth, 0.2^3/0.6 over the middle fifth, 1/3 in all.
	const outer, inner = (1 - 0.512) / 0.6, 0.008 / 0.6
	a := wire.FromPercent(*m.Core-*m.Shell) / (outer - inner)
	c := g.now.Value + a/3
	for i := range g.profile {
		u := quantity.Moisture(1 - float64(i)/(profileSteps-1))
		g.profile[i] = min(max(c-a*u*u, 0.005), mostStart)
	}
	return nil
}

// fromSaturation is where wood is let dry down from to find its profile.
const fromSaturation = 30 * quantity.PercentMC

func (g *timing) driedDown() error {
	for i := range g.profile {
		g.profile[i] = g.now.Value
	}
	g.how = profileEven
	detail := "the billet is taken as even through its thickness, because it is too wet to have a known profile; read shell and core for its gradient"
	if g.now.Value < fromSaturation-2*quantity.PercentMC {
		whole, err := g.setupOf(g.req.Billet.Thickness.SI)
		if err != nil {
			return err
		}
		job, err := whole.middle()
		if err != nil {
			return err
		}
		first := job.Phases[0]
		first.Length = min(HorizonLimit, first.Climate.End())
		job.Phases, job.Initial, job.StopAt, job.History = []drying.Phase{first}, fromSaturation, g.now.Value, drying.FromGreen
		course, err := g.solver.Run(g.ctx, &job)
		if err != nil {
			return forecastError(err)
		}
		detail = "the billet is taken as even through its thickness: wood does not come down to its moisture content in the first place of storage; read shell and core for its gradient"
		if course.Reached {
			g.keepProfile()
			g.how = profileDried
			detail = "shell and core were not given; the billet is taken to have dried down from fibre saturation in the first place of storage. Reading both makes cup and dates surer"
		}
	}
	g.notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.slab", Input: "moisture", Detail: detail})
	return nil
}

// keepProfile takes the profile at the end of the solver's last run.
func (g *timing) keepProfile() {
	g.profile = make(profile, profileSteps)
	for i := range g.profile {
		g.profile[i] = g.solver.MoistureAt(0.5 * float64(i) / (profileSteps - 1))
	}
}

// setupOf is the forecast of a piece before anything is drawn.
func (g *timing) setupOf(thickness quantity.Length) (*forecast, error) {
	degrees := g.angle.Degrees()
	start, sd := g.now.Value.Percent(), g.sd.Percent()
	f := &forecast{tables: g.tables, notes: g.notes, report: g.report, in: seasoned{
		wood: g.wood, thickness: thickness, ringAngle: &degrees, stackedOn: g.req.AsOf, storage: g.req.Storage, startPct: &start, startSD: &sd, horizon: g.horizon, factor: g.req.Factor,
	}}
	var err error
	f.setup, f.stay, f.used, err = setupOf(g.tables, &f.in, g.notes)
	return f, wire.Under("", err, [2]string{"stacked_on", "as_of"}, [2]string{"thickness", "billet/thickness"})
}

func (g *timing) profileNow() ProfileNow {
	return ProfileNow{Mean: wire.MoistureBandOf(g.now), ShellPct: g.profile.mean(0, 0.1).Percent(), CorePct: g.profile.mean(0.4, 0.5).Percent(), How: g.how}
}

// gap is how far core and shell are apart.
func (p profile) gap() quantity.Moisture {
	return quantity.Moisture(math.Abs(float64(p.mean(0.4, 0.5) - p.mean(0, 0.1))))
}

// readyNow says whether the billet is within the limits to resaw today.
func (g *timing) readyNow() bool {
	l := g.limits(readiness.Resaw, g.req.Billet.Thickness.SI)
	off := g.now.Value - g.target.Value
	return off <= l.Above && -off <= l.Below && (l.Gradient == 0 || g.profile.gap() <= l.Gradient)
}

// profiled runs the billet from its profile of today.
func (g *timing) profiled(whole *forecast, factor float64, times []quantity.Duration) (drying.Course, error) {
	job, err := whole.middle()
	if err != nil {
		return drying.Course{}, err
	}
	job.Profile, job.Factor, job.Times = g.profile.at, factor, times
	course, err := g.solver.Run(g.ctx, &job)
	return course, forecastError(err)
}

// waitForGradient moves the saw date to when shell and core are within their
// limit too, if they are apart today: the ensemble starts even. Slow wood takes
// the late date, fast wood the early one.
func (g *timing) waitForGradient(whole *forecast, date *readiness.ReadyDate) error {
	limits := g.limits(readiness.Resaw, whole.in.thickness)
	if limits.Gradient == 0 || g.profile.gap() <= limits.Gradient {
		return nil
	}
	const looks = 300
	times := make([]quantity.Duration, 0, looks+1)
	for i := range looks + 1 {
		share := quantity.Duration(i) / looks
		times = append(times, g.horizon*share*share)
	}
	for _, one := range []struct {
		factor float64
		date   *readiness.Date
	}{{whole.used.High, &date.Low}, {whole.used.Median, &date.Median}, {whole.used.Low, &date.High}} {
		course, err := g.profiled(whole, one.factor, times)
		if err != nil {
			return err
		}
		at := readiness.Date{At: g.horizon}
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

// profileAt is the profile of the billet on the day it is sawn.
func (g *timing) profileAt(whole *forecast, at quantity.Duration) error {
	if at <= 0 {
		return nil // that of today
	}
	job, err := whole.middle()
	if err != nil {
		return err
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
	job.Profile, job.Phases = g.profile.at, phases
	if _, err := g.solver.Run(g.ctx, &job); err != nil {
		return forecastError(err)
	}
	g.keepProfile()
	return nil
}

// profileDoubt is the standard deviation of the moisture content at one depth of
// the profile. Own estimate.
const profileDoubt = 0.3 * quantity.PercentMC

// cup finds the leaf that bends most when it becomes even.
func (g *timing) cup(way *TimingWay, billet *shelf.Billet, width, leaf, extra quantity.Length) error {
	if way.Leaves == 0 || len(g.profile) == 0 {
		return nil
	}
	facing, _ := g.tables.Losses.Facing.Get()
	facing = shelf.LengthOr(g.req.Saw.Facing, facing)
	step := leaf + g.req.Saw.Kerf.SI + shelf.LengthOrNone(g.req.Saw.Reface)
	t := float64(billet.Thickness.SI)
	found := LeafCup{}
	worst := -1.0
	for i := range mostCupped {
		front := float64(facing/2) + float64(i)*float64(step)
		if front+float64(leaf) > t*(1+1e-9) {
			break
		}
		bent, err := section.Gradient(leaf, width, g.angle, g.levels(front/t, float64(leaf)/t), g.wood.Value)
		if err != nil {
			return wire.Under("", err, [2]string{"thickness", "part"}, [2]string{"width", "part/width"}, [2]string{"ring_angle_deg", "ring_angle_deg"}, [2]string{"wood", g.woodMember()})
		}
		g.notes.Merge(bent.Notes)
		c := bent.Cup
		if size := math.Abs(float64(c.Value)); size > worst {
			worst = size
			found = LeafCup{Leaf: i + 1}
			if front+float64(leaf)/2 < t/2 == (c.Value > 0) {
				found.Hollow = "outside"
			} else {
				found.Hollow = "inside"
			}
			if size < 1e-6 {
				found.Hollow = ""
			}
			if c.Value < 0 {
				c.Value, c.Low, c.High = -c.Value, -c.High, -c.Low
			}
			c.Low = max(c.Low, 0)
			found.Cup = g.report.LengthBand(c)
		}
	}
	room := g.flat + extra
	found.Room, found.Exceeds = g.report.Length(room), worst > float64(room)
	way.Cup = &found
	return nil
}

// mostCupped is how many leaves of a stack are bent.
const mostCupped = 200

// levels are the moisture contents through a leaf, and that it settles at.
func (g *timing) levels(front, thick float64) []section.Level {
	const n = 9
	levels := make([]section.Level, n)
	for i := range levels {
		share := float64(i) / (n - 1)
		levels[i] = section.Level{Depth: share, From: quantity.NormalBand(g.profile.at(front+share*thick), profileDoubt), To: quantity.NormalBand(g.target.Value, 0)}
		levels[i].From.Low = max(levels[i].From.Low, 0)
	}
	return levels
}
