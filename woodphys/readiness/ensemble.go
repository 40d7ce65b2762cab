package readiness

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

// How the ensemble was drawn.
const (
	FromMode      = "about the mode"       // Student's t about the mode
	FromEnsemble  = "about the ensemble"   // the same about mean and spread of a first ensemble
	FromInflated  = "about the mode, wide" // twice as wide
	FromPrior     = "the prior"            // weighted draws from the prior: little is left to choose from
	FromPriorOnly = "the prior alone"      // no reading to weigh them with
)

// latticeShare is the step of the lattice of EMC scales in standard deviations of
// the proposal, and never more than one of the posterior: members share the tables
// of a scale. The sum over a lattice of one standard deviation stands for the
// integral of a normal density to 5e-9.
const latticeShare = 0.4

// proposal is a distribution of parameters to draw from: independent variables
// times a lower factor about a mean.
type proposal struct {
	name   string
	mean   point
	factor [9]float64
	normal bool // else Student's t with four degrees of freedom
}

// about returns the proposal with the spread of a peak, times wide.
func (p *peak) about(name string, wide float64) proposal {
	return proposal{name: name, mean: p.x, factor: lowerOf(inverse(p.h), wide)}
}

// inverse returns the inverse of the matrix with factor h.
func inverse(h [9]float64) (out [9]float64) {
	for d := range 3 {
		var e [3]float64
		e[d] = 1
		lowerSolve(h[:], e[:])
		upperSolve(h[:], e[:])
		for k := range 3 {
			out[3*k+d] = e[k]
		}
	}
	return out
}

func lowerOf(cov [9]float64, wide float64) [9]float64 {
	cholesky(cov[:], 3)
	for i := range cov {
		cov[i] *= wide
	}
	return cov
}

// draw returns the parameters of a point of the unit cube and the logarithm of
// their density, the EMC scale on the lattice.
func (q *proposal) draw(u [dimensions]float64, lattice float64) (x point, logDensity float64) {
	quantile, below, log := studentQuantile, studentBelow, studentLog
	if q.normal {
		quantile, below, log = normalQuantile, phi, normalLog
	}
	l := &q.factor
	near := q.mean[iEMC] + l[0]*quantile(u[iEMC])
	x[iEMC] = math.Round(near/lattice) * lattice
	z0 := (x[iEMC] - q.mean[iEMC]) / l[0]
	half := lattice / 2 / l[0]
	// the upper tail by its mirror, where 1 - F would lose its digits
	cell := below(z0+half) - below(z0-half)
	if z0 > 0 {
		cell = below(half-z0) - below(-half-z0)
	}
	z1, z2 := quantile(u[iFactor]), quantile(u[iStart])
	x[iFactor] = q.mean[iFactor] + l[3]*z0 + l[4]*z1
	x[iStart] = q.mean[iStart] + l[6]*z0 + l[7]*z1 + l[8]*z2
	return x, math.Log(cell/lattice) + log(z1) - math.Log(l[4]) + log(z2) - math.Log(l[8])
}

// ensemble is a weighted sample of the posterior with its courses.
type ensemble struct {
	name    string
	x       []point
	weight  []float64   // sum 1
	alpha   [][]float64 // C^-1 residuals of each member
	seen    [][]float64 // moisture content where the readings were taken
	stray   []float64   // standard normal, for what is asked of one parameter alone
	aim     []float64   // the same of the target
	times   []quantity.Duration
	mean    [][]float32 // by member, at times
	shell   [][]float32
	core    [][]float32
	drift   [][]float32 // by member, at times: mean of the discrepancy given the readings
	loose   []float32   // at times: standard deviation of the rest of it
	wander  [][]float32 // by member, at times: the rest in its standard deviations, a path
	size    float64     // effective
	slabs   []float32
	dropped int
}

// enough is the effective size, as a share of the members, below which the next
// proposal is tried; poor is the size below which the reader is warned.
const (
	enough = 0.25
	poor   = 40
)

// sampleFrom draws and weighs an ensemble.
func (f *fit) sampleFrom(ctx context.Context, q proposal, p *peak, grid []quantity.Duration, into *ensemble) error {
	members := f.setup.Members
	into.reset(q.name, members, len(grid), len(p.used), len(f.all))
	into.times = grid
	lattice := min(latticeShare*q.factor[0], math.Sqrt(inverse(p.h)[0]))
	points := newSobol(f.setup.Seed)
	best := math.Inf(-1)
	for m := range members {
		u := points.point()
		x, logDensity := q.draw(u, lattice)
		into.x[m], into.weight[m] = x, math.Inf(-1)
		into.stray[m], into.aim[m] = normalQuantile(u[3]), normalQuantile(u[4])
		if !f.setup.inside(x) {
			into.dropped++
			continue
		}
		c, err := f.model.run(ctx, x, grid, f.depths)
		if err != nil {
			return err
		}
		f.runs++
		a := into.alpha[m]
		for i, r := range p.used {
			a[i] = f.residual(r, &c, r.grid)
		}
		lowerSolve(p.c, a)
		into.weight[m] = -0.5*(f.priorSquares(x)+dot(a, a)) - logDensity
		upperSolve(p.c, a)
		best = max(best, into.weight[m])
		into.keep(m, &c)
		for i, r := range f.all {
			into.seen[m][i] = r.moistureOf(&c, r.grid)
		}
	}
	into.normalise(best)
	return nil
}

func (e *ensemble) reset(name string, members, times, used, all int) {
	e.name, e.dropped = name, 0
	if len(e.x) != members {
		e.x = make([]point, members)
		e.weight, e.stray, e.aim = make([]float64, members), make([]float64, members), make([]float64, members)
		e.mean, e.shell, e.core = make([][]float32, members), make([][]float32, members), make([][]float32, members)
		e.alpha = make([][]float64, members)
		e.slabs = make([]float32, 3*members*times)
		e.seen = make([][]float64, members)
		values := make([]float64, members*(used+all))
		for m := range members {
			s := e.slabs[3*m*times : 3*(m+1)*times]
			e.mean[m], e.shell[m], e.core[m] = s[:times:times], s[times:2*times:2*times], s[2*times:]
			v := values[m*(used+all) : (m+1)*(used+all)]
			e.alpha[m], e.seen[m] = v[:used:used], v[used:]
		}
	}
}

func (e *ensemble) keep(m int, c *drying.Course) {
	for i := range c.Mean {
		e.mean[m][i], e.shell[m][i], e.core[m][i] = float32(c.Mean[i]), float32(c.Shell[i]), float32(c.Core[i])
	}
}

// normalise turns logarithms into weights of sum 1 and finds the effective size.
func (e *ensemble) normalise(best float64) {
	sum, squares := 0.0, 0.0
	for m, w := range e.weight {
		e.weight[m] = math.Exp(w - best)
		if math.IsNaN(e.weight[m]) {
			e.weight[m] = 0
		}
		sum += e.weight[m]
	}
	e.size = 0
	if !(sum > 0) {
		return
	}
	for m := range e.weight {
		e.weight[m] /= sum
		squares += e.weight[m] * e.weight[m]
	}
	e.size = 1 / squares
}

// refit returns a proposal about the mean and spread of the ensemble; ok is false
// when it is too thin to have a spread.
func (e *ensemble) refit(name string) (q proposal, ok bool) {
	q.name = name
	if e.size < 6 {
		return q, false
	}
	for m, w := range e.weight {
		for d := range 3 {
			q.mean[d] += w * e.x[m][d]
		}
	}
	var cov [9]float64
	for m, w := range e.weight {
		for d := range 3 {
			for k := range 3 {
				cov[3*d+k] += w * (e.x[m][d] - q.mean[d]) * (e.x[m][k] - q.mean[k])
			}
		}
	}
	for d := range 3 {
		cov[4*d] *= 1 + 1e-6
	}
	if !cholesky(cov[:], 3) {
		return q, false
	}
	q.factor = cov
	return q, true
}

// sample draws the ensemble, going on to wider proposals while it is too thin, and
// returns the best.
func (f *fit) sample(ctx context.Context, p *peak, grid []quantity.Duration) (*ensemble, error) {
	prior := proposal{name: FromPrior, mean: f.prior, normal: true}
	for d := range 3 {
		prior.factor[4*d] = f.sd[d]
	}
	best := new(ensemble)
	if len(p.used) == 0 {
		prior.name = FromPriorOnly
		return best, f.sampleFrom(ctx, prior, p, grid, best)
	}
	if err := f.sampleFrom(ctx, p.about(FromMode, 1), p, grid, best); err != nil {
		return nil, err
	}
	want := enough * float64(f.setup.Members)
	for _, name := range []string{FromEnsemble, FromInflated, FromPrior} {
		if best.size >= want {
			break
		}
		q := prior
		switch name {
		case FromEnsemble:
			var ok bool
			if q, ok = best.refit(name); !ok {
				continue
			}
		case FromInflated:
			q = p.about(name, 2)
		}
		next := new(ensemble)
		if err := f.sampleFrom(ctx, q, p, grid, next); err != nil {
			return nil, err
		}
		if next.size > best.size {
			best = next
		}
	}
	return best, nil
}
