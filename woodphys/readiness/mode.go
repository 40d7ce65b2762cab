package readiness

import (
	"context"
	"math"
	"slices"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// fit is the search for the parameters with a set of readings.
type fit struct {
	setup  *Setup
	model  forward
	prior  point // means
	sd     point
	logOD  []float64 // means of the logarithm of the ovendry masses, kg
	depths []float64
	all    []*reading // with those set aside
	n      int        // parameters that count
	starts []Start
	start  int     // in hand
	modes  []point // last found, by start
	wide   float64 // what the spreads of the prior are multiplied by
	runs   int
	// stepped is that a step of the weights was looked for.
	stepped bool
}

// peak is the mode found with some of the readings, and the problem made linear
// about it.
type peak struct {
	x    point
	used []*reading // the readings of the fit, in order of time; linearised here
	r    []float64  // y minus expectation at x
	j    [maxDims][]float64
	c    []float64 // factor of the covariance of the readings
	h    []float64 // factor of the inverse covariance of the parameters
	cost float64   // half the squares of prior and readings
	loo  []float64 // leave-one-out residuals in standard deviations
	lone []float64 // those standard deviations
}

// timesOf returns the distinct times of the readings and of a day before each, and sets
// when and eve.
func timesOf(rs []*reading) []quantity.Duration {
	times := make([]quantity.Duration, 0, 2*len(rs))
	eve := func(r *reading) quantity.Duration { return max(quantity.Duration(r.at)-quantity.Day, 0) }
	for _, r := range rs {
		times = append(times, eve(r), quantity.Duration(r.at))
	}
	slices.Sort(times)
	times = slices.Compact(times)
	for _, r := range rs {
		r.when, _ = slices.BinarySearch(times, quantity.Duration(r.at))
		r.eve, _ = slices.BinarySearch(times, eve(r))
	}
	return times
}

// snapped is the point to nine digits: a step control that says yes or no must not hang on
// the last digit of a weight that was told in pounds.
func (x point) snapped() point {
	const grid = 1 << 30
	for d := range x {
		x[d] = math.Round(x[d]*grid) / grid
	}
	return x
}

// begin takes up one of the states in which the piece may have been stacked.
func (f *fit) begin(start int) {
	f.start = start
	one := &f.starts[start]
	f.prior[iStart], f.sd[iStart] = float64(one.MC), float64(one.SD)*f.wide
	if s, is := f.model.(*slab); is {
		s.from = one.History
	}
}

// logShare is the logarithm of the probability of the start in hand, with what of the
// density of its prior is its own.
func (f *fit) logShare() float64 {
	return math.Log(f.starts[f.start].Probability) - math.Log(f.sd[iStart])
}

// widen multiplies the spreads of what is expected of the piece.
func (f *fit) widen(by float64) {
	for d := range f.n {
		f.sd[d] *= by / f.wide
	}
	f.wide = by
}

// evidence is the logarithm of the probability of the readings in the start in hand, but
// for what is common to all (Laplace's approximation).
func (f *fit) evidence(p *peak) float64 {
	return f.logShare() - p.cost - logDet(p.c, len(p.used)) - logDet(p.h, f.n)
}

// residual returns y - g of a reading for a course at time index k.
func (f *fit) residual(r *reading, c *drying.Course, k int) float64 {
	v := r.y - r.expect(r.moistureOf(c, k))
	if r.kind == Weight {
		v -= f.logOD[r.body]
	}
	return v
}

func (f *fit) priorSquares(x point) float64 {
	sum := 0.0
	for d := range f.n {
		z := (x[d] - f.prior[d]) / f.sd[d]
		sum += z * z
	}
	return sum
}

const (
	// differenceStep of the slopes in prior standard deviations: wide against the
	// tolerance of a coarse run.
	differenceStep = 0.5
	mostIterations = 12
	settled        = 0.05 // of a posterior standard deviation
	nearly         = 0.4  // a step so short is the last: the slopes change little over it
)

// climb looks for the mode of the readings by Gauss-Newton steps from start.
func (f *fit) climb(ctx context.Context, rs []*reading, start point) (*peak, error) {
	n := len(rs)
	p := &peak{x: f.setup.hold(start), used: make([]*reading, n), r: make([]float64, n), c: make([]float64, n*n), h: make([]float64, f.n*f.n)}
	own := make([]reading, n)
	for i, r := range rs {
		own[i] = *r
		p.used[i] = &own[i]
	}
	for d := range f.n {
		p.j[d] = make([]float64, n)
		p.h[(f.n+1)*d] = 1 / f.sd[d]
	}
	if n == 0 {
		p.x = f.prior
		return p, nil
	}
	times := timesOf(p.used)
	ahead, work := make([]float64, n), make([]float64, n)
	course, err := f.at(ctx, p.x, p.used, times, p.r)
	if err != nil {
		return nil, err
	}
	for iteration := 0; ; iteration++ {
		for _, r := range p.used {
			r.linearise(&course, r.when, f.setup)
		}
		f.setup.covariance(p.used, p.c)
		if !cholesky(p.c, n) {
			return nil, errSingular()
		}
		if err := f.slopes(ctx, p, times, ahead); err != nil {
			return nil, err
		}
		step := f.newton(p, work)
		p.cost = f.cost(p, p.x, p.r, work)
		length := f.length(p, step)
		if iteration == mostIterations || length < settled {
			break
		}
		moved := false
		for share := 1.0; share > 0.05; share /= 2.5 {
			x := p.x
			for d := range f.n {
				x[d] += share * step[d]
			}
			x = f.setup.hold(x.snapped())
			if course, err = f.at(ctx, x, p.used, times, ahead); err != nil {
				return nil, err
			}
			// A short step is taken as it is: about the mode the runs are too coarse to
			// tell better from worse, and the last digit of a weight must not decide.
			allowed := p.cost
			if length < nearly {
				allowed += 0.5
			}
			if f.cost(p, x, ahead, work) < allowed {
				p.x, moved = x, true
				copy(p.r, ahead)
				p.cost = f.cost(p, x, ahead, work)
				break
			}
		}
		if !moved || length < nearly {
			break
		}
	}
	return p, f.leaveOneOut(p)
}

func errSingular() error {
	return &method.Error{Code: method.Unsupported, Input: "observations", Detail: "the readings cannot be fitted: their uncertainties differ too much; check masses, divisions and standard deviations"}
}

// at runs the model and writes the residuals.
func (f *fit) at(ctx context.Context, x point, rs []*reading, times []quantity.Duration, out []float64) (drying.Course, error) {
	f.runs++
	c, err := f.model.run(ctx, x, times, f.depths)
	if err != nil {
		return c, err
	}
	for i, r := range rs {
		out[i] = f.residual(r, &c, r.when)
	}
	return c, nil
}

// cost returns half the squares of prior and readings.
func (f *fit) cost(p *peak, x point, r, work []float64) float64 {
	copy(work, r)
	lowerSolve(p.c, work)
	return 0.5 * (f.priorSquares(x) + dot(work, work))
}

// slopes fills the derivatives of the expectations by finite differences, away
// from the nearer bound.
func (f *fit) slopes(ctx context.Context, p *peak, times []quantity.Duration, ahead []float64) error {
	for d := range f.n {
		if d >= iStays && f.begins(d) >= p.used[len(p.used)-1].at {
			clear(p.j[d]) // a stay after the last reading
			continue
		}
		step := differenceStep * f.sd[d] / f.wide
		x := p.x
		x[d] += step
		if f.setup.hold(x) != x {
			step = -step
			x[d] = p.x[d] + step
			x = f.setup.hold(x)
			step = x[d] - p.x[d]
		}
		if step == 0 {
			clear(p.j[d])
			continue
		}
		if _, err := f.at(ctx, x, p.used, times, ahead); err != nil {
			return err
		}
		for i := range ahead {
			p.j[d][i] = (p.r[i] - ahead[i]) / step
		}
	}
	return nil
}

// begins is when the stay of a parameter begins, in seconds.
func (f *fit) begins(d int) float64 {
	at := 0.0
	for i := range f.setup.Phases {
		if f.setup.stayOf(i) == (d-iStays)/2 {
			return at
		}
		at += float64(f.setup.Phases[i].Length)
	}
	return at
}

// newton factors the inverse covariance of the parameters and returns the step to
// the mode of the linear problem.
func (f *fit) newton(p *peak, work []float64) point {
	n := len(p.r)
	white := make([]float64, 0, f.n*n)
	for d := range f.n {
		white = append(white, p.j[d]...)
		lowerSolve(p.c, white[d*n:])
	}
	copy(work, p.r)
	lowerSolve(p.c, work)
	var step point
	for d := range f.n {
		one := white[d*n : (d+1)*n]
		step[d] = dot(one, work) - (p.x[d]-f.prior[d])/(f.sd[d]*f.sd[d]) //nolint:gosec // d is below the dimensions
		for e := range d + 1 {
			p.h[f.n*d+e] = dot(one, white[e*n:])
		}
		p.h[(f.n+1)*d] += 1 / (f.sd[d] * f.sd[d])
	}
	cholesky(p.h, f.n) // positive definite: a square plus the prior
	lowerSolve(p.h, step[:f.n])
	upperSolve(p.h, step[:f.n])
	return step
}

// length returns the length of a step in posterior standard deviations.
func (f *fit) length(p *peak, step point) float64 {
	sum := 0.0
	for d := range f.n {
		v := 0.0
		for e := d; e < f.n; e++ {
			v += p.h[f.n*e+d] * step[e]
		}
		sum += v * v
	}
	return math.Sqrt(sum)
}

// ahead returns the residuals of each reading from what those before it foretell, in
// standard deviations as they were given (nothing raised since because they disagree),
// with the problem made linear about the mode.
func (f *fit) ahead(p *peak) []float64 {
	n, wide := len(p.r), f.wide
	inflate := f.setup.inflate
	f.setup.inflate = 1
	f.widen(1)
	used := make([]*reading, n)
	for i, r := range p.used {
		own := *r
		own.wide = 1
		used[i] = &own
	}
	v, r := make([]float64, n*n), make([]float64, n)
	f.setup.covariance(used, v)
	for i := range n {
		r[i] = p.r[i]
		for d := range f.n {
			r[i] -= p.j[d][i] * (f.prior[d] - p.x[d])
			for j := range i + 1 {
				v[i*n+j] += p.j[d][i] * p.j[d][j] * f.sd[d] * f.sd[d]
			}
		}
	}
	f.setup.inflate = inflate
	f.widen(wide)
	if !cholesky(v, n) {
		clear(r)
		return r
	}
	lowerSolve(v, r)
	return r
}

// foreseen is the covariance of the readings with the prior of the parameters in it, and
// what the readings differ by from what the prior leads to expect.
func (f *fit) foreseen(p *peak) (v, r []float64) {
	n := len(p.r)
	v, r = make([]float64, n*n), make([]float64, n)
	f.setup.covariance(p.used, v)
	for i := range n {
		r[i] = p.r[i]
		for d := range f.n {
			r[i] -= p.j[d][i] * (f.prior[d] - p.x[d])
			for j := range i + 1 {
				v[i*n+j] += p.j[d][i] * p.j[d][j] * f.sd[d] * f.sd[d]
			}
		}
	}
	return v, r
}

// leaveOneOut fills loo and lone from the covariance of the readings with the
// prior of the parameters in it.
func (f *fit) leaveOneOut(p *peak) error {
	n := len(p.r)
	v, r := f.foreseen(p)
	if !cholesky(v, n) {
		return errSingular()
	}
	lowerSolve(v, r)
	upperSolve(v, r) // V^-1 r
	p.loo, p.lone = make([]float64, n), make([]float64, n)
	unit := make([]float64, n)
	for i := range n {
		clear(unit)
		unit[i] = 1
		lowerSolve(v, unit)
		p.lone[i] = 1 / math.Sqrt(dot(unit, unit)) // [V^-1]_ii = |L^-1 e_i|^2
		p.loo[i] = r[i] * p.lone[i]
	}
	return nil
}
