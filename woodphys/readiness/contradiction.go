package readiness

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Contradiction is a reading that the others rule out. It is left out of the fit.
type Contradiction struct {
	Index int // of the observation
	Kind  Kind
	// Given and Expected, with the 90 % band of the reading that the others lead to
	// expect: Mass for a weight, MC else.
	GivenMass    quantity.Mass
	ExpectedMass quantity.Band[quantity.Mass]
	GivenMC      quantity.Moisture
	ExpectedMC   quantity.Band[quantity.Moisture]
	// Deviations is how far it lies from them, in standard deviations.
	Deviations float64
	// Undecided means that nothing tells which side is wrong; With names the other
	// reading, or is -1 when it is the forecast itself.
	Undecided bool
	With      int
	Slip      string // the slip of the pen that explains it, if clearly one does
}

// setAside is a reading taken out of the fit.
type setAside struct {
	r         *reading
	z         float64
	odds      float64 // how many times likelier it makes the readings, as a logarithm; of a pair, the first
	undecided bool
	with      *reading // of an undecided pair
}

const (
	// mostAside bounds the work; beyond, the readings as a whole are not to be trusted.
	mostAside = 10
	misfit    = 0.001 // of chi-square, from which the uncertainties are raised
)

// settle fits the readings, setting aside those that contradict the rest, and returns
// the states in which the piece may have been stacked, the likeliest first. kept are
// never set aside.
func (p *Posterior) settle(ctx context.Context, f *fit, readings []*reading, kept map[*reading]bool) ([]*part, []*setAside, error) {
	p.setup.inflate, f.modes = 1, nil
	for _, r := range readings {
		r.wide = 1
	}
	p.setup.searching = true
	used, aside, err := p.sift(ctx, f, readings, kept)
	p.setup.searching = false
	if err != nil {
		return nil, nil, err
	}
	var parts []*part
	if parts, err = f.parts(ctx, used, below); err != nil {
		return nil, nil, err
	}
	if f.tails(parts[0].peak, used) {
		if parts, err = f.parts(ctx, used, below); err != nil {
			return nil, nil, err
		}
	}
	for range mostInflations {
		top := parts[0].peak
		n := len(used)
		if n == 0 || chiSquareTail(2*top.cost, n) >= misfit {
			break
		}
		// honest margins: as if the forecast had been taken to be too sure (after Birge
		// 1932, from memory)
		p.setup.inflate *= 2 * top.cost / float64(n)
		f.widen(math.Sqrt(p.setup.inflate))
		if parts, err = f.parts(ctx, used, below); err != nil {
			return nil, nil, err
		}
	}
	if p.setup.inflate > 1 && !p.warned {
		p.warned = true
		p.Notes.Warn(method.Warning{Code: method.Disagreement, Method: contradictionRow.ID, Input: "observations",
			Detail: fmt.Sprintf("the readings disagree with the forecast by more than it allows; it was taken to be %.1f times as uncertain, and the readings outrank it. Check the wood, the day of stacking and the place", math.Sqrt(p.setup.inflate))})
	}
	return parts, aside, nil
}

// sift returns the readings that stay and those that are set aside. A step of the weights
// that explains more than setting them aside does is looked for once; from then on the weights
// before it are of another mass.
func (p *Posterior) sift(ctx context.Context, f *fit, readings []*reading, kept map[*reading]bool) ([]*reading, []*setAside, error) {
	parts, err := f.parts(ctx, readings, farBelow)
	if err != nil {
		return nil, nil, err
	}
	f.begin(parts[0].start)
	used, aside, err := f.search(ctx, parts[0].peak, readings, kept)
	if err != nil || f.stepped {
		return used, aside, err
	}
	f.stepped = true
	if p.Cut, err = f.cut(ctx, parts[0].peak, readings, aside); err != nil || p.Cut == nil || !p.Cut.Apart {
		return used, aside, err
	}
	p.setup.resized = math.Abs(p.Cut.size)
	f.modes = nil
	if parts, err = f.parts(ctx, readings, farBelow); err != nil {
		return nil, nil, err
	}
	f.begin(parts[0].start)
	return f.search(ctx, parts[0].peak, readings, kept)
}

const (
	// farBelow and below the best evidence, as a logarithm, a state is given up: while
	// readings may still be wrong, and after.
	farBelow, below = 25, 5.0
	mostInflations  = 4
	// tailFreedom is that of Student's t for the errors of readings.
	tailFreedom = 4.0
)

// parts returns the states in which the piece may have been stacked, the likeliest first.
func (f *fit) parts(ctx context.Context, used []*reading, within float64) ([]*part, error) {
	var list []*part
	for k := range f.starts {
		f.begin(k)
		from := f.prior
		if k < len(f.modes) {
			from = f.modes[k] // found before, with nearly the same readings
		}
		peak, err := f.climb(ctx, used, from)
		if err != nil {
			return nil, err
		}
		if k == len(f.modes) {
			f.modes = append(f.modes, peak.x)
		}
		f.modes[k] = peak.x
		list = append(list, &part{start: k, peak: peak, log: f.evidence(peak)})
	}
	slices.SortStableFunc(list, func(a, b *part) int { return cmp.Compare(b.log, a.log) })
	best := list[0].log
	return slices.DeleteFunc(list, func(a *part) bool { return a.log < best-within }), nil
}

// tails widens the errors of readings that lie in the tails, as Student's t has it: the
// expected precision of each given its residual (Lange, Little and Taylor 1989, from
// memory). It reports whether any was widened.
func (f *fit) tails(top *peak, used []*reading) bool {
	n := len(used)
	if n < 3 || f.setup.normal {
		return false
	}
	inv := inverse(top.c, n)
	widened := false
	for i := range used {
		sum := 0.0
		for j := range n {
			sum += inv[i*n+j] * top.r[j]
		}
		own := top.used[i].own()
		e := own * sum
		spread := own - own*own*inv[i*n+i]
		precision := (tailFreedom + 1) / (tailFreedom + (e*e+spread)/own)
		if precision < 0.8 {
			used[i].wide, widened = 1/math.Sqrt(precision), true
		}
	}
	return widened
}

// expected is the band that the rest leads to expect of a reading that was set aside.
func (p *Posterior) expected(a *setAside, s []sample) quantity.Band[float64] {
	r := *a.r
	mean := 0.0
	for m, w := range p.e.weight {
		mean += w * p.e.seen[m][r.seen]
	}
	r.slope = 1
	p.setup.strays(&r, mean)
	if r.kind == Weight {
		r.slope = 1 / (1 + mean)
	}
	q := p.foresee(&r, p.setup.shared(&r, &r)+r.own())
	for m := range s {
		y := r.expect(p.e.seen[m][r.seen]) + q.shift(p, m) + q.sd*p.e.stray[m]
		if r.kind == Weight {
			y += p.f.logOD[r.body]
		}
		s[m] = sample{y, p.e.weight[m]}
	}
	return bandOf[float64](s)
}

// inOwnBand notes the readings set aside that lie in the band they would be printed
// with: those are kept. It reports whether there are any.
func (p *Posterior) inOwnBand(aside []*setAside, kept map[*reading]bool) bool {
	s := make([]sample, p.f.setup.Members)
	found := false
	for _, a := range aside {
		if a.undecided && a.r.kind == Weight && a.with.kind == Weight {
			continue // what is printed for either would hold both
		}
		if band := p.expected(a, s); a.r.y >= band.Low && a.r.y <= band.High {
			kept[a.r], found = true, true
		}
	}
	return found
}

// report describes the readings set aside, with what the rest leads to expect.
func (p *Posterior) report(aside []*setAside) []Contradiction {
	var list []Contradiction
	s := make([]sample, p.Members)
	for _, a := range aside {
		r := a.r
		band := p.expected(a, s)
		c := Contradiction{Index: r.index, Kind: r.kind, Deviations: a.z, Undecided: a.undecided, With: -1}
		if a.with != nil {
			c.With = a.with.index
		}
		if r.kind == Weight {
			mass := func(y float64) quantity.Mass { return quantity.Mass(math.Exp(y)) }
			c.GivenMass, c.ExpectedMass = mass(r.y), quantity.Band[quantity.Mass]{Value: mass(band.Value), Low: mass(band.Low), High: mass(band.High)}
			c.Slip = slipOf(r.written, r.y, c.GivenMass.Grams(), band, true)
		} else {
			c.GivenMC = quantity.Moisture(r.y)
			c.ExpectedMC = quantity.Band[quantity.Moisture]{Value: quantity.Moisture(band.Value), Low: quantity.Moisture(band.Low), High: quantity.Moisture(band.High)}
			if band.Low > 0 {
				logs := quantity.Band[float64]{Value: math.Log(band.Value), Low: math.Log(band.Low), High: math.Log(band.High)}
				c.Slip = slipOf(r.written, math.Log(max(r.y, 1e-6)), c.GivenMC.Percent(), logs, false)
			}
		}
		list = append(list, c)
	}
	return list
}
