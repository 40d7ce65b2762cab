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
	undecided bool
	with      *reading // of an undecided pair
}

const (
	// falseAlarm is the share of sound series that raise an alarm.
	falseAlarm = 0.01
	// undecidedBelow is the difference of chi-square between two suspects, 20 to 1,
	// below which neither is preferred.
	undecidedBelow = 6.0
	mostSuspects   = 5
	// mostAside bounds the work; beyond, the readings as a whole are not to be trusted.
	mostAside = 10
	misfit    = 0.001 // of chi-square, from which the uncertainties are raised
)

// settle fits the readings, setting aside those that contradict the rest, and
// returns the last fit.
func (p *Posterior) settle(ctx context.Context, f *fit, readings []*reading) (*peak, []*setAside, error) {
	used := slices.Clone(readings)
	var aside []*setAside
	most := min(max(1, len(readings)/3), mostAside)
	top, err := f.climb(ctx, used, f.prior)
	if err != nil {
		return nil, nil, err
	}
	limit := -normalQuantile(falseAlarm / 2 / float64(max(len(readings), 1)))
	for len(used) > 0 && len(aside) < most {
		found, next, err := p.worst(ctx, f, top, used, limit)
		if err != nil {
			return nil, nil, err
		}
		if len(found) == 0 {
			break
		}
		aside = append(aside, found...)
		used = slices.DeleteFunc(used, func(r *reading) bool {
			return slices.ContainsFunc(found, func(a *setAside) bool { return a.r == r })
		})
		if top = next; top == nil {
			if top, err = f.climb(ctx, used, f.prior); err != nil {
				return nil, nil, err
			}
		}
	}
	if n := len(used); n > 0 && chiSquareTail(2*top.cost, n) < misfit {
		// honest margins: as if the uncertainties had been given too small (Birge
		// 1932, from memory)
		f.inflate = 2 * top.cost / float64(n)
		p.Notes.Warn(method.Warning{Code: method.Disagreement, Method: contradictionRow.ID, Input: "observations",
			Detail: fmt.Sprintf("the readings agree worse with each other and with the forecast than their uncertainties allow; all were taken to be %.1f times as uncertain. Check the wood, the day of stacking and the place", math.Sqrt(f.inflate))})
		if top, err = f.climb(ctx, used, top.x); err != nil {
			return nil, nil, err
		}
	}
	return top, aside, nil
}

// worst returns the reading that contradicts the rest most, or both of an
// undecided pair, or none, and the fit without it if it is at hand.
func (p *Posterior) worst(ctx context.Context, f *fit, top *peak, used []*reading, limit float64) ([]*setAside, *peak, error) {
	suspects := make([]int, 0, len(used))
	for i, z := range top.loo {
		if math.Abs(z) > limit*0.6 {
			suspects = append(suspects, i)
		}
	}
	slices.SortStableFunc(suspects, func(a, b int) int {
		return cmp.Compare(math.Abs(top.loo[b]), math.Abs(top.loo[a]))
	})
	if len(suspects) == 0 || math.Abs(top.loo[suspects[0]]) <= limit {
		return nil, nil, nil
	}
	if len(used) == 1 {
		return []*setAside{{r: used[0], z: top.loo[0], undecided: true}}, nil, nil
	}
	type trial struct {
		r    *reading
		peak *peak
		z    float64
	}
	trials := make([]trial, 0, mostSuspects)
	for _, i := range suspects[:min(len(suspects), mostSuspects)] {
		rest := slices.Delete(slices.Clone(used), i, i+1)
		peak, err := f.climb(ctx, rest, top.x)
		if err != nil {
			return nil, nil, err
		}
		z, err := f.surprise(ctx, peak, used[i])
		if err != nil {
			return nil, nil, err
		}
		trials = append(trials, trial{used[i], peak, z})
	}
	slices.SortStableFunc(trials, func(a, b trial) int { return cmp.Compare(a.peak.cost, b.peak.cost) })
	first := &trials[0]
	if math.Abs(first.z) <= limit {
		return nil, nil, nil
	}
	if len(trials) > 1 {
		if other := &trials[1]; 2*(other.peak.cost-first.peak.cost) < undecidedBelow && math.Abs(other.z) > limit {
			return []*setAside{{r: first.r, z: first.z, undecided: true, with: other.r}, {r: other.r, z: other.z, undecided: true, with: first.r}}, nil, nil
		}
	}
	return []*setAside{{r: first.r, z: first.z}}, first.peak, nil
}

// surprise returns by how many standard deviations a reading lies from what the
// fit without it predicts.
func (f *fit) surprise(ctx context.Context, p *peak, r *reading) (float64, error) {
	one := *r
	list := []*reading{&one}
	times := timesOf(list)
	var base, ahead [1]float64
	course, err := f.at(ctx, p.x, list, times, base[:])
	if err != nil {
		return 0, err
	}
	one.linearise(&course, 0, &f.setup.Discrepancy)
	with := make([]float64, len(p.used))
	for i, u := range p.used {
		with[i] = f.setup.shared(&one, u) * f.inflate
	}
	lowerSolve(p.c, with)
	white := append([]float64(nil), p.r...)
	lowerSolve(p.c, white)
	gap := base[0] - dot(with, white)
	variance := (f.setup.shared(&one, &one)+one.own())*f.inflate - dot(with, with)
	var slope point // of the prediction, less what the readings of the fit follow
	for d := range slope {
		x := p.x
		x[d] += differenceStep * f.sd[d]
		if x = f.setup.hold(x); x[d] == p.x[d] {
			continue
		}
		if _, err := f.at(ctx, x, list, times, ahead[:]); err != nil {
			return 0, err
		}
		copy(white, p.j[d])
		lowerSolve(p.c, white)
		slope[d] = (base[0]-ahead[0])/(x[d]-p.x[d]) - dot(with, white)
	}
	cov := inverse(p.h)
	for d := range 3 {
		for e := range 3 {
			variance += slope[d] * cov[3*d+e] * slope[e]
		}
	}
	return gap / math.Sqrt(variance), nil
}

// report describes the readings set aside, with what the rest leads to expect.
func (p *Posterior) report(aside []*setAside) []Contradiction {
	var list []Contradiction
	s := make([]sample, p.Members)
	for _, a := range aside {
		r := *a.r
		mean := 0.0
		for m, w := range p.e.weight {
			mean += w * p.e.seen[m][r.seen]
		}
		r.slope, r.stray = 1, p.setup.Discrepancy.sd(mean)
		if r.kind == Weight {
			r.slope = 1 / (1 + mean)
		}
		q := p.foresee(&r, (p.setup.shared(&r, &r)+r.own())*p.f.inflate)
		for m := range s {
			y := r.expect(p.e.seen[m][r.seen]) + q.shift(p, m) + q.sd*p.e.stray[m]
			if r.kind == Weight {
				y += p.f.logOD[r.body]
			}
			s[m] = sample{y, p.e.weight[m]}
		}
		band := bandOf[float64](s)
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
