package readiness

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
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
const latticeShare = 0.8

// proposal is a distribution of parameters to draw from: independent variables
// times a lower factor about a mean.
type proposal struct {
	name   string
	n      int
	mean   point
	factor []float64
	normal bool // else the parameters before those of the stays have Student's t with four degrees of freedom
}

// about returns the proposal with the spread of a peak, times wide.
func (f *fit) about(p *peak, name string, wide float64) proposal {
	cov := inverse(p.h, f.n)
	cholesky(cov, f.n)
	for i := range cov {
		cov[i] *= wide
	}
	return proposal{name: name, n: f.n, mean: p.x, factor: cov}
}

// priorOf returns the prior of the start in hand as a proposal.
func (f *fit) priorOf(name string) proposal {
	q := proposal{name: name, n: f.n, mean: f.prior, normal: true, factor: make([]float64, f.n*f.n)}
	for d := range f.n {
		q.factor[(f.n+1)*d] = f.sd[d]
	}
	return q
}

// draw returns the parameters of a point of the unit cube and the logarithm of
// their density, the EMC scale on the lattice.
//
//nolint:gosec // indices are below the dimensions
func (q *proposal) draw(u *[dimensions]float64, lattice float64) (x point, logDensity float64) {
	var z [maxDims]float64
	l, n := q.factor, q.n
	for d := range n {
		heavy := d < iStays && !q.normal
		quantile, log := normalQuantile, normalLog
		if heavy {
			quantile, log = studentQuantile, studentLog
		}
		z[d] = quantile(u[d])
		if d == iEMC {
			x[d] = math.Round((q.mean[d]+l[0]*z[d])/lattice) * lattice
			z[d] = (x[d] - q.mean[d]) / l[0]
			logDensity = math.Log(cellOf(z[d], lattice/2/l[0], heavy) / lattice)
			continue
		}
		x[d] = q.mean[d]
		for e := range d + 1 {
			x[d] += l[n*d+e] * z[e]
		}
		logDensity += log(z[d]) - math.Log(l[(n+1)*d])
	}
	return x.snapped(), logDensity
}

// cellOf is the probability of the cell about z.
func cellOf(z, half float64, heavy bool) float64 {
	below := phi
	if heavy {
		below = studentBelow
	}
	if z > 0 { // the upper tail by its mirror, where 1 - F would lose its digits
		return below(half-z) - below(-half-z)
	}
	return below(z+half) - below(z-half)
}

// part is a state in which the piece may have been stacked, with the mode that the
// readings have there.
type part struct {
	start   int
	peak    *peak
	log     float64 // logarithm of its evidence
	members int
}

// ensemble is a weighted sample of the posterior with its courses.
type ensemble struct {
	name    string
	x       []point
	weight  []float64   // sum 1
	part    []int       // which of the parts
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
	thin    [][]float32 // by member, at times: how far the thin places of a wedge lie off the mean; nil for a board
	thick   [][]float32 // the same of the thick places
	steep   [][]float32 // by how much core minus shell is more there
	size    float64     // effective
	slabs   []float32
	dropped int
}

// enough is the effective size, as a share of the members, below which the next
// proposal is tried; poor is the size below which the reader is warned.
const (
	enough = 0.15
	poor   = 40
)

// sampleFrom draws and weighs an ensemble, of each part by its own proposal. best is the
// part whose covariance of the readings stands for all.
func (f *fit) sampleFrom(ctx context.Context, parts []*part, ways []proposal, best *peak, grid []quantity.Duration, into *ensemble) error {
	members := f.setup.Members
	into.reset(ways[0].name, members, len(grid), len(best.used), len(f.all))
	into.times = grid
	points, by := newSobol(f.setup.Seed), f.weigher(best)
	most, m := math.Inf(-1), 0
	for k, one := range parts {
		f.begin(one.start)
		lattice := min(latticeShare*ways[k].factor[0], math.Sqrt(inverse(one.peak.h, f.n)[0]))
		for range one.members {
			u := points.point()
			into.part[m] = k
			if err := f.member(ctx, m, &u, lattice, &ways[k], by, into); err != nil {
				return err
			}
			into.weight[m] += f.logShare() - math.Log(float64(one.members))
			most = max(most, into.weight[m])
			m++
		}
	}
	into.normalise(most)
	return nil
}

// member draws and weighs one member.
func (f *fit) member(ctx context.Context, m int, u *[dimensions]float64, lattice float64, q *proposal, by *weigher, into *ensemble) error {
	x, logDensity := q.draw(u, lattice)
	into.x[m], into.weight[m] = x, math.Inf(-1)
	into.stray[m], into.aim[m] = normalQuantile(u[maxDims]), normalQuantile(u[maxDims+1])
	if !f.setup.inside(x) {
		into.dropped++
		return nil
	}
	c, err := f.model.run(ctx, x, into.times, f.depths)
	if err != nil {
		return err
	}
	f.runs++
	a := into.alpha[m]
	for i, r := range by.best.used {
		a[i] = f.residual(r, &c, r.grid)
	}
	likely := by.solve(&c, a)
	into.weight[m] = likely - 0.5*f.priorSquares(x) - logDensity
	into.keep(m, &c)
	for i, r := range f.all {
		into.seen[m][i] = r.moistureOf(&c, r.grid)
	}
	return nil
}

func (e *ensemble) reset(name string, members, times, used, all int) {
	e.name, e.dropped = name, 0
	if len(e.x) != members {
		e.x, e.part = make([]point, members), make([]int, members)
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

// refit returns a proposal about the mean and spread of the members of a part; ok is
// false when they are too few to have a spread.
func (e *ensemble) refit(name string, n, part int) (q proposal, ok bool) {
	q = proposal{name: name, n: n}
	total, squares := 0.0, 0.0
	for m, w := range e.weight {
		if e.part[m] == part {
			total += w
			squares += w * w
			for d := range n {
				q.mean[d] += w * e.x[m][d]
			}
		}
	}
	if !(total*total > 2*float64(n)*squares) {
		return q, false
	}
	for d := range n {
		q.mean[d] /= total
	}
	cov := make([]float64, n*n)
	for m, w := range e.weight {
		if e.part[m] != part || w == 0 {
			continue
		}
		for d := range n {
			for k := range d + 1 {
				cov[n*d+k] += w / total * (e.x[m][d] - q.mean[d]) * (e.x[m][k] - q.mean[k])
			}
		}
	}
	for d := range n {
		cov[(n+1)*d] *= 1 + 1e-6
	}
	if !cholesky(cov, n) {
		return q, false
	}
	q.factor = cov
	return q, true
}

// sample draws the ensemble, going on to wider proposals while it is too thin, and
// returns the best.
func (f *fit) sample(ctx context.Context, parts []*part, grid []quantity.Duration) (*ensemble, error) {
	f.allot(parts)
	top, best := parts[0].peak, new(ensemble)
	ways := func(way func(k int, one *part) (proposal, bool)) ([]proposal, bool) {
		list := []proposal{}
		for k, one := range parts {
			f.begin(one.start)
			q, ok := way(k, one)
			if !ok {
				return nil, false
			}
			list = append(list, q)
		}
		return list, true
	}
	if len(top.used) == 0 {
		list, _ := ways(func(int, *part) (proposal, bool) { return f.priorOf(FromPriorOnly), true })
		return best, f.sampleFrom(ctx, parts, list, top, grid, best)
	}
	want := enough * float64(f.setup.Members)
	for _, name := range []string{FromMode, FromEnsemble, FromInflated, FromPrior} {
		if best.size >= want {
			break
		}
		list, ok := ways(func(k int, one *part) (proposal, bool) {
			switch name {
			case FromMode:
				return f.about(one.peak, name, 1.15), true
			case FromEnsemble:
				return best.refit(name, f.n, k)
			case FromInflated:
				return f.about(one.peak, name, 1.6), true
			}
			return f.priorOf(name), true
		})
		if !ok {
			continue
		}
		next := new(ensemble)
		if err := f.sampleFrom(ctx, parts, list, top, grid, next); err != nil {
			return nil, err
		}
		if next.size > best.size {
			best = next
		}
	}
	if best.size == 0 {
		return nil, &method.Error{Code: method.Contradictory, Input: "observations",
			Detail: "no course of drying agrees with these readings; check the sizes of the piece, the weights with their unit, the dates, and whether wood was cut off in between, which event tells"}
	}
	return best, nil
}

// fewest members of a part that is looked at.
const fewestMembers = 16

// allot shares the members among the parts by their evidence.
func (f *fit) allot(parts []*part) {
	total, left := 0.0, f.setup.Members
	for _, one := range parts {
		total += math.Exp(one.log - parts[0].log)
	}
	for k := len(parts) - 1; k > 0; k-- {
		n := int(math.Round(float64(f.setup.Members) * math.Exp(parts[k].log-parts[0].log) / total))
		parts[k].members = min(max(n, min(fewestMembers, f.setup.Members/8)), left/2)
		left -= parts[k].members
	}
	parts[0].members = left
}
