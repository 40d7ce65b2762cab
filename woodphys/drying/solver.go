package drying

import (
	"context"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Solver runs jobs one after another and keeps its workspace, so that a run
// after the first of its size allocates nothing. The zero value is ready. Not
// for two goroutines at a time.
type Solver struct {
	Work *Work // counts and bounds the steps of all runs; nil: each run has its own budget alone

	grid   *grid
	depths []float64 // of the functionals kept
	takes  []functional

	// the job in hand
	tables    *Transport
	half      float64 // m, half the thickness
	factor    float64
	pace      float64 // wet-stage pace of the wood in a wide pile
	lnPace    float64 // logarithm of that of the exposure in hand
	quicker   float64 // what the stay in hand multiplies the factor by
	damper    float64 // added to the relative humidity of the air in hand
	density   float64 // kg/m3, ovendry mass over green volume
	film      float64 // m/s
	history   History
	fresh     float64 // 1 while green wood never took up moisture, 0 when that is forgotten
	linear    *linearLaw
	fixedStep float64 // s; above 0 switches the step control off, for tests of order

	cursor         int
	air            struct{ c, rh float64 } // last filled in, degC and fraction
	exchange       exchange
	now, next, aux *moment
	step
	line   endLine // along the grain, where the ends count
	course Course
}

// Run computes one job.
//
// Errors: *method.Error with the input at fault; code TooMuchWork (input
// "max_steps") when the budget of the run or of s.Work is used up; code Stopped when ctx ends.
// Accuracy: of the numbers, 0.02 %MC at Standard; of the model, see package.
//
// Source: rows drying.slab, drying.diffusivity, drying.exposure, drying.frost,
// drying.hysteresis.
func (s *Solver) Run(ctx context.Context, job *Job) (Course, error) {
	if job.Setting == (Setting{}) {
		standard := *job
		standard.Setting = Standard()
		job = &standard
	}
	notes := method.Notes{Basis: s.course.Notes.Basis[:0], Warnings: s.course.Notes.Warnings[:0]}
	if err := job.check(&notes); err != nil {
		return Course{}, err
	}
	return s.run(ctx, job, notes)
}

// run computes a job that was checked.
func (s *Solver) run(ctx context.Context, job *Job, notes method.Notes) (Course, error) {
	if err := s.prepare(job); err != nil {
		return Course{}, err
	}
	s.course.Notes = notes
	start := dot(s.grid.weight, s.y)
	if err := s.phases(ctx, job); err != nil {
		return Course{}, err
	}
	c := &s.course
	mean := dot(s.grid.weight, s.y)
	c.Final, c.Lost = quantity.Moisture(mean-s.line.behind), quantity.Moisture(s.lost+s.line.behind)
	c.Imbalance = math.Abs(start-mean-s.lost) / math.Max(math.Abs(s.lost), 0.01)
	return *c, nil
}

// MoistureAt returns the moisture content at a depth from the face, a share of
// the thickness from 0 to 0.5, at the end of the last run; 0 before any run.
//
// Accuracy: as Run.
//
// Source: row drying.slab.
func (s *Solver) MoistureAt(depth float64) quantity.Moisture {
	if s.now == nil {
		s.now, s.next, s.aux = new(moment), new(moment), new(moment)
	}
	if s.grid == nil || !(depth >= 0 && depth <= 0.5) {
		return 0
	}
	return quantity.Moisture(min(max(dot(s.grid.point(1-2*depth), s.y), 0), highestMC))
}

func (s *Solver) prepare(job *Job) error {
	if s.now == nil {
		s.now, s.next, s.aux = new(moment), new(moment), new(moment)
	}
	if s.grid == nil || len(s.grid.x) != job.Cells+1 {
		s.grid = newGrid(job.Cells, spacingRatio)
		s.resize(job.Cells + 1)
		s.takes = nil
	}
	if s.takes == nil || !slices.Equal(s.depths, job.Depths) {
		s.depths = slices.Clone(job.Depths)
		g := s.grid
		s.takes = []functional{g.functional(g.weight), g.functional(g.average(0.8, 1)), g.functional(g.average(0, 0.2)), g.functional(g.point(1))}
		for _, d := range job.Depths {
			s.takes = append(s.takes, g.functional(g.point(1-2*d)))
		}
		s.course.Depth = make([][]quantity.Moisture, len(job.Depths))
	}
	s.tables, s.half, s.factor, s.pace = job.Transport, float64(job.Thickness)/2, job.Factor, job.pace()
	s.density = waterDensity * job.Transport.wood.gravity
	s.history, s.fresh = job.History, freshness(job.History)
	for i, x := range s.grid.x {
		m := float64(job.Initial)
		if job.Profile != nil {
			m = float64(job.Profile((1 - x) / 2))
			if _, err := rowSlab.Check("mc_pct", 100*m); err != nil {
				return err
			}
		}
		s.y[i] = m
	}
	s.lost, s.h = 0, 0
	s.line.begin(job.Ends, float64(job.Thickness), dot(s.grid.weight, s.y))
	c := &s.course
	*c = Course{Times: job.Times[:0:0], Mean: c.Mean[:0], Shell: c.Shell[:0], Core: c.Core[:0], Surface: c.Surface[:0], Depth: c.Depth, Stopped: c.Stopped[:0]}
	for i := range c.Depth {
		c.Depth[i] = c.Depth[i][:0]
	}
	return nil
}

func freshness(h History) float64 {
	if h == FromGreen {
		return 1
	}
	return 0
}

// minStep is the step in seconds below which the solver gives up.
const minStep = 1e-6

func (s *Solver) phases(ctx context.Context, job *Job) error {
	t, end := 0.0, 0.0
	for p := range job.Phases {
		phase := &job.Phases[p]
		end += float64(phase.Length)
		s.enter(phase, t)
		if p == 0 {
			s.emit(job, 0, 0)
		}
		s.h = min(max(s.h, firstStep), 6*3600)
		for t < end && !s.course.Reached {
			if err := s.mayGoOn(ctx, job); err != nil {
				return err
			}
			taken, err := s.advance(job, phase, t, s.within(phase, end-t))
			if err != nil {
				return err
			}
			t += taken
			if taken > 0 && end-t < 1e-6 {
				t = end
			}
		}
		if s.course.Reached {
			break
		}
	}
	s.course.End = quantity.Duration(t)
	if s.course.Reached {
		s.course.End = s.course.ReachedAt
	}
	s.course.Times = job.Times[:len(s.course.Mean)]
	return nil
}

// mayGoOn says what stands against one more step.
func (s *Solver) mayGoOn(ctx context.Context, job *Job) error {
	budget := job.MaxSteps
	if budget == 0 {
		budget = UsualMaxSteps
	}
	if s.course.Steps+s.course.Rejected >= budget {
		return tooMuch("the simulation needs", budget)
	}
	if err := s.Work.step(); err != nil {
		return err
	}
	if (s.course.Steps+s.course.Rejected)%64 == 0 && ctx.Err() != nil {
		return &method.Error{Code: method.Stopped, Input: "phases", Detail: "the forecast was stopped before it was done"}
	}
	return nil
}

// within is the step to try where so many seconds of the phase are left.
func (s *Solver) within(phase *Phase, left float64) float64 {
	h := min(s.h, phase.Climate.maxStep)
	if s.fixedStep > 0 {
		h = s.fixedStep
	}
	if h > left*(1-1e-9) {
		return left
	}
	if h > left/2 {
		return left / 2 // no sliver at the end
	}
	return h
}

// advance tries one step of h from t, sets the size of the next and returns how far it came:
// h, or 0 for a step that is to be tried again.
func (s *Solver) advance(job *Job, phase *Phase, t, h float64) (float64, error) {
	tolerance := float64(job.Tolerance)
	err := s.attempt(phase.Climate, t, h) / tolerance
	if err <= 1 && h > eventStep && s.overstep(s.end(), s.trial[len(s.trial)-1], s.qtrial, h) > tolerance/2 {
		s.course.Rejected++
		s.h = max(h*s.crossing(), eventStep)
		return 0, nil
	}
	if s.fixedStep == 0 && !(err <= 1) {
		s.course.Rejected++
		if math.IsNaN(err) {
			err = 1e9
		}
		s.h = h * max(0.1, 0.85*math.Pow(err, -1.0/3))
		if s.h < minStep {
			return 0, &method.Error{Code: method.Unsupported, Input: "phases",
				Detail: "the time steps became too small; the input is outside what can be computed"}
		}
		return 0, nil
	}
	s.accept(job, t, h)
	s.h = max(h*min(5, 0.85*math.Pow(max(err, 1e-6), -1.0/3)), minStep)
	return h, nil
}

// eventStep in seconds is how closely a change of the exchange at the face is
// located.
const eventStep = 6 * 3600.0

// firstStep in seconds, where the face starts to dry.
const firstStep = 300.0

// stay takes up what a phase says beside its air.
func (s *Solver) stay(p *Phase) {
	s.film, s.cursor = p.Exposure.film(), 0
	if s.line.ends != nil {
		s.line.film = 1 / (1/s.film + s.line.ends.resistance)
	}
	s.lnPace = math.Log(p.Exposure.WetPace(s.pace)) + p.PaceShift
	s.damper, s.quicker = p.Damper, math.Exp(p.FactorShift)
}

// coreTake is the place of the core among the functionals.
const coreTake = 2

// enter sets up the balances at the start of a phase at run time t.
func (s *Solver) enter(p *Phase, t float64) {
	s.stay(p)
	c, _, h, _ := p.Climate.at(t, &s.cursor)
	s.fill(s.now, c, h, dot(s.takes[coreTake].take, s.y))
	s.settle(s.choose(s.now, s.y[len(s.y)-1]))
}
