package readiness

import (
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Posterior is what is known of a piece after its readings. It does not change
// and may be shared. Make it with Learn.
type Posterior struct {
	Factor  quantity.Band[float64]           // drying factor, as far as all stays have it in common
	Pace    quantity.Band[float64]           // of the wet stage, in a wide pile
	StartMC quantity.Band[quantity.Moisture] // on the day of stacking
	// EMCScale is the EMC of this piece in this place over that of the isotherm of the
	// wood, its EMCFactor in it.
	EMCScale quantity.Band[float64]
	// Ovendry masses by body, OvendryKnown false where neither weight nor prior is.
	Ovendry      []quantity.Band[quantity.Mass]
	OvendryKnown []bool
	// MeterBias by meter: reading minus truth; a meter without readings has its prior.
	MeterBias []quantity.Band[quantity.Moisture]

	Used           int // readings in the fit
	Ignored        []int
	Thinned        int
	Contradictions []Contradiction
	// Cut is a step of the weights that wood cut off, or something put on, would explain; nil
	// where there is none.
	Cut *Cut
	// Inflated is by how much the forecast was taken to be less sure (its discrepancies
	// and what was expected of the piece) because readings disagree with it; 1 if not.
	Inflated float64

	// Foretold is how the forecast does on the weighings of this piece.
	Foretold Foretold

	Method        string // how the ensemble was drawn, one of From...
	Members       int
	EffectiveSize float64
	Runs          int // of the forecast
	Notes         method.Notes

	setup  Setup
	prior  point // of the likeliest start
	first  int   // that start
	warned bool
	f      *fit
	peak   *peak
	parts  []*part // that the members are of
	e      *ensemble
}

// Foretold counts the weights of a piece that fell into the 90 % band that those before
// them, and what was known of the piece, lead to expect; 0 of 0 where there are fewer than
// four. The first weight of a body of unknown ovendry mass is not counted: nothing is
// foretold of it.
type Foretold struct{ Held, Of int }

// fewestForetold is how many weights it takes to say so.
const fewestForetold = 4

// foretold counts them.
func (p *Posterior) foretold() Foretold {
	var out Foretold
	p.f.begin(p.first)
	ahead := p.f.ahead(p.peak)
	type scale struct {
		body    int
		earlier bool
	}
	seen, weights := map[scale]bool{}, 0
	for i, r := range p.peak.used {
		if r.kind != Weight {
			continue
		}
		weights++
		if on := (scale{r.body, r.earlier}); !seen[on] {
			seen[on] = true
			if p.setup.Bodies[r.body].Ovendry == 0 || r.earlier {
				continue
			}
		}
		out.Of++
		if math.Abs(ahead[i]) <= quantity.Z90 {
			out.Held++
		}
	}
	if weights < fewestForetold {
		return Foretold{}
	}
	return out
}

// Horizon returns the end of the phases, up to which the posterior can be asked.
func (p *Posterior) Horizon() quantity.Duration { return p.e.times[len(p.e.times)-1] }

// predicted is the distribution of a linear unknown or a future reading: normal
// in each member about shift on top of what the forecast says, with one standard
// deviation.
type predicted struct {
	with  []float64 // covariance with the readings of the fit
	solve []float64 // C^-1 of it
	sd    float64
}

// foresee conditions an unknown on the readings: self is its variance.
func (p *Posterior) foresee(unknown *reading, self float64) predicted {
	n := len(p.peak.used)
	q := predicted{with: make([]float64, n), solve: make([]float64, n)}
	for i, r := range p.peak.used {
		q.with[i] = p.setup.shared(unknown, r)
	}
	copy(q.solve, q.with)
	lowerSolve(p.peak.c, q.solve)
	q.sd = math.Sqrt(max(self-dot(q.solve, q.solve), 0))
	upperSolve(p.peak.c, q.solve)
	return q
}

// shift is the mean of the unknown in member m.
func (q *predicted) shift(p *Posterior, m int) float64 { return dot(q.with, p.e.alpha[m]) }

// astray conditions the discrepancy at a time, where the moisture content is about
// mean, on the readings.
func (p *Posterior) astray(at quantity.Duration, mean float64) predicted {
	u := p.setup.straying(float64(at), mean)
	return p.foresee(&u, p.setup.shared(&u, &u))
}

// strays fills what the readings say of the discrepancy at the times of the
// forecast.
func (p *Posterior) strays() {
	e := p.e
	e.loose = make([]float32, len(e.times))
	e.drift, e.wander = make([][]float32, p.Members), make([][]float32, p.Members)
	n := len(e.times)
	flat := make([]float32, 2*p.Members*n)
	anchor := p.anchor()
	for m := range e.drift {
		part := flat[2*m*n : 2*(m+1)*n]
		e.drift[m], e.wander[m] = part[:n:n], part[n:]
		p.roam(m, anchor)
	}
	for i, at := range e.times {
		mean := 0.0
		for m, w := range e.weight {
			mean += w * float64(e.mean[m][i])
		}
		q := p.astray(at, mean)
		e.loose[i] = float32(q.sd)
		for m, w := range e.weight {
			if w > 0 {
				e.drift[m][i] = float32(q.shift(p, m))
			}
		}
	}
}

// roam draws the path of member m about the mean of its discrepancy: correlated
// over the time of the discrepancy, with the spread that the readings leave at
// every time. A path, and not a value for good, because the weather lets a piece
// meet a limit earlier than its mean course does. Near a reading the correlation is
// an approximation, the spread is not. The path starts both ways from the time that
// is asked for most, where the draw is even.
func (p *Posterior) roam(m, anchor int) {
	e, seed := p.e, mix(p.setup.Seed)+uint64(m)<<32
	path := e.wander[m]
	d := &p.setup.Discrepancy
	next := func(i, before int) {
		apart := math.Abs(float64(e.times[i] - e.times[before]))
		mean := 0.5 * float64(e.mean[m][i]+e.mean[m][before])
		quick, lasting := p.setup.quick(float64(e.times[i]), mean), p.setup.lasts(float64(e.times[i]), mean)
		keep := (quick*quick*math.Exp(-apart/float64(d.Time)) + lasting*lasting*smooth(apart/float64(d.Lasting.Time))) /
			(quick*quick + lasting*lasting)
		u := (float64(mix(seed+uint64(i))>>11) + 0.5) / (1 << 53)
		path[i] = float32(keep*float64(path[before]) + math.Sqrt(1-keep*keep)*normalQuantile(u))
	}
	path[anchor] = float32(e.stray[m])
	for i := anchor + 1; i < len(path); i++ {
		next(i, i-1)
	}
	for i := anchor - 1; i >= 0; i-- {
		next(i, i+1)
	}
}

// anchor is the index of the first of the exact times, or else of the last reading.
func (p *Posterior) anchor() int {
	at := quantity.Duration(0)
	switch n := len(p.peak.used); {
	case len(p.setup.Exact) > 0:
		at = p.setup.Exact[0]
	case n > 0:
		at = quantity.Duration(p.peak.used[n-1].at)
	}
	i, _ := slices.BinarySearch(p.e.times, at)
	return min(i, len(p.e.times)-1)
}

// parameters fills the bands of the parameters.
func (p *Posterior) parameters() {
	s := make([]sample, p.Members)
	fill := func(value func(m int) float64) []sample {
		for m := range s {
			s[m] = sample{value(m), p.e.weight[m]}
		}
		return s
	}
	p.Factor = bandOf[float64](fill(func(m int) float64 { return math.Exp(p.e.x[m][iFactor]) }))
	p.Pace = bandOf[float64](fill(func(m int) float64 { return math.Exp(p.e.x[m][iPace]) }))
	p.StartMC = bandOf[quantity.Moisture](fill(func(m int) float64 { return p.e.x[m][iStart] }))
	emc := p.setup.Wood.EMCFactor
	p.EMCScale = bandOf[float64](fill(func(m int) float64 { return emc * math.Exp(p.e.x[m][iEMC]) }))
	p.Inflated = math.Sqrt(p.setup.inflate)
	for b := range p.setup.Bodies {
		known := p.setup.Bodies[b].Ovendry > 0
		for _, r := range p.peak.used {
			known = known || r.kind == Weight && r.body == b
		}
		var band quantity.Band[quantity.Mass]
		if known {
			sd := p.setup.ovendrySD(b)
			q := p.common(sd, func(r *reading) bool { return r.kind == Weight && r.body == b })
			band = bandOf[quantity.Mass](fill(func(m int) float64 {
				return math.Exp(p.f.logOD[b] + q.shift(p, m) + q.sd*p.e.stray[m])
			}))
		}
		p.Ovendry, p.OvendryKnown = append(p.Ovendry, band), append(p.OvendryKnown, known)
	}
	for k, meter := range p.setup.Meters {
		q := p.common(float64(meter.BiasSD), func(r *reading) bool { return r.meter == k })
		p.MeterBias = append(p.MeterBias, bandOf[quantity.Moisture](fill(func(m int) float64 {
			return q.shift(p, m) + q.sd*p.e.stray[m]
		})))
	}
}

// common conditions a parameter that enters some readings as it is.
func (p *Posterior) common(sd float64, enters func(*reading) bool) predicted {
	n := len(p.peak.used)
	q := predicted{with: make([]float64, n), solve: make([]float64, n)}
	for i, r := range p.peak.used {
		if enters(r) {
			q.with[i] = sd * sd
		}
	}
	copy(q.solve, q.with)
	lowerSolve(p.peak.c, q.solve)
	q.sd = math.Sqrt(max(sd*sd-dot(q.solve, q.solve), 0))
	return q
}
