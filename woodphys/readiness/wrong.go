package readiness

import (
	"cmp"
	"context"
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// A reading is set aside where all readings are so much likelier with it wrong than with none. A
// sound one lies off what the others lead to expect by what that is unsure of; a wrong one by a
// slip of the pen besides, or by anything. So one number weighs how far it is off, how sure the
// others are of it, and what the fit gains without it.
const (
	// wrongOdds is how many times likelier the readings have to be with this one wrong, of which
	// each of them has the same chance beforehand, than with none. Own choice: of the model's own
	// billets fewer than 1 % of the sound series raise an alarm then, of other truths 2 to 4 %
	// (WRONG.md, and woodphys/seasoning/WRONG.md).
	wrongOdds = 4.0
	// penShare of the wrong figures are slips of the pen or of the unit, each as likely as the
	// others; the rest is off by anything, with this standard deviation. Own choice: what is
	// named hangs little on them.
	penShare  = 0.2
	wrongMass = 0.10 // logarithm of a weight
	wrongMC   = 0.10
	// What differs by less than the least gap is no slip but weather, and has its place in the
	// heavy tails of the errors: of a weight as a share, and less where a slip of the pen
	// explains it; of a meter or a sample, and of its moisture content. Own choice.
	leastMass, leastPen = 0.065, 0.03
	leastMC, leastShare = 0.04, 0.12
	// moistureLimit is how far a sample or a meter lies from the others at least, in standard
	// deviations: it speaks of the place it was taken from as well as of the piece.
	moistureLimit = 3.8
	// undecidedOdds of two suspects, below which neither is preferred.
	undecidedOdds = 20.0
	mostSuspects  = 5
	// suspectOdds is how far below the odds a reading may lie with the problem made linear for
	// the fit without it to be tried: a wrong one among few has bent the fit to itself.
	suspectOdds = 8.0
)

// search sets readings aside that contradict the rest, and returns those that stay.
func (f *fit) search(ctx context.Context, top *peak, readings []*reading, kept map[*reading]bool) ([]*reading, []*setAside, error) {
	used := slices.Clone(readings)
	var aside []*setAside
	most := min(len(readings)/3, mostAside)
	for len(used) > 1 && len(aside) < max(most, 1) {
		found, next, err := f.worst(ctx, top, used, kept)
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
		if top = next; top == nil && len(aside) < most {
			if top, err = f.climb(ctx, used, f.prior); err != nil {
				return nil, nil, err
			}
		}
	}
	return used, aside, nil
}

// trusted reports whether a reading stands against the forecast: the only ovendry sample,
// or moisture content that is told.
func trusted(r *reading, used []*reading) bool {
	if r.kind != Sample {
		return false
	}
	for _, o := range used {
		if o != r && o.kind == Sample {
			return false
		}
	}
	return true
}

// worst returns the reading that is wrong by most, or both of an undecided pair, or none, and
// the fit without it if it is at hand.
func (f *fit) worst(ctx context.Context, top *peak, used []*reading, kept map[*reading]bool) ([]*setAside, *peak, error) {
	bar := math.Log(wrongOdds * float64(len(used)))
	var suspects []trial
	for i, r := range used {
		if kept[r] || trusted(r, used) {
			continue
		}
		s := surprised{gap: top.loo[i] * top.lone[i], sd: top.lone[i]}
		if odds := max(s.wrong(r), s.anything(r)) - s.sound(); odds > bar-math.Log(suspectOdds) {
			suspects = append(suspects, trial{i: i, odds: odds})
		}
	}
	likeliest(suspects)
	var trials []trial
	for i := range suspects[:min(len(suspects), mostSuspects)] {
		one, err := f.without(ctx, top, used, suspects[i].i)
		if err != nil {
			return nil, nil, err
		}
		if one.odds > bar {
			trials = append(trials, one)
		}
	}
	if len(trials) == 0 {
		return nil, nil, nil
	}
	likeliest(trials)
	first := &trials[0]
	odds := first.odds - math.Log(float64(len(used)))
	if len(trials) > 1 {
		if other := &trials[1]; first.odds-other.odds < math.Log(undecidedOdds) {
			return []*setAside{{r: first.r, z: first.z, odds: odds, undecided: true, with: other.r}, {r: other.r, z: other.z, undecided: true, with: first.r}}, nil, nil
		}
	}
	return []*setAside{{r: first.r, z: first.z, odds: odds}}, first.peak, nil
}

// trial is the fit without a reading.
type trial struct {
	i    int // number of the reading
	r    *reading
	peak *peak
	z    float64 // by how much it differs from that fit, in standard deviations
	odds float64 // how many times likelier all are with it wrong than with none, as a logarithm
}

func likeliest(list []trial) {
	slices.SortStableFunc(list, func(a, b trial) int { return cmp.Compare(b.odds, a.odds) })
}

// without tries the fit without reading i.
func (f *fit) without(ctx context.Context, top *peak, used []*reading, i int) (trial, error) {
	r, rest := used[i], slices.Delete(slices.Clone(used), i, i+1)
	peak, err := f.climb(ctx, rest, top.x)
	if err != nil {
		return trial{}, err
	}
	s, err := f.surprise(ctx, peak, r)
	if err != nil {
		return trial{}, err
	}
	// What the fit gains by leaving it out says the same where all is linear, and more where the
	// reading has bent the fit to itself.
	z := max(math.Abs(s.gap/s.sd), math.Sqrt(2*max(top.cost-peak.cost, 0)))
	one := trial{i: i, r: r, peak: peak, z: math.Copysign(z, s.gap), odds: s.wrong(r) + f.evidence(peak) - f.evidence(top)}
	if r.kind != Weight && z < moistureLimit {
		one.odds = math.Inf(-1)
	}
	return one, nil
}

// surprised is by how much a reading differs from what the others lead to expect, in
// logarithm of a mass or as moisture content, and the standard deviation of that.
type surprised struct{ gap, sd float64 }

// sound is the logarithm of how likely the gap is if the reading is sound, but for what is
// common to all.
func (s *surprised) sound() float64 { return logLikely(s.gap, s.sd) }

func logLikely(gap, sd float64) float64 { return -0.5*gap*gap/(sd*sd) - math.Log(sd) }

// anything is the same if it is off by anything.
func (s *surprised) anything(r *reading) float64 {
	off := wrongMC
	if r.kind == Weight {
		off = wrongMass
	}
	return logLikely(s.gap, math.Hypot(s.sd, off))
}

// wrong is the same if it is wrong.
func (s *surprised) wrong(r *reading) float64 {
	likely := math.Inf(-1)
	add := func(share, log float64) {
		high, low := max(likely, log+math.Log(share)), min(likely, log+math.Log(share))
		likely = high + math.Log1p(math.Exp(low-high))
	}
	if r.kind != Weight {
		if math.Abs(s.gap) >= leastMC+leastShare*r.y {
			likely = s.anything(r)
		}
		return likely
	}
	if math.Abs(s.gap) >= leastMass {
		likely = math.Log(1-penShare) + s.anything(r)
	}
	if r.slips == nil {
		r.slips = slipsOf(r.written, quantity.Mass(math.Exp(r.y)).Grams(), true)
	}
	for _, slip := range r.slips {
		if math.Abs(slip.mend) >= leastPen {
			add(penShare/float64(len(r.slips)), logLikely(s.gap+slip.mend, s.sd))
		}
	}
	return likely
}

// surprise returns by how much a reading lies from what the fit without it predicts.
func (f *fit) surprise(ctx context.Context, p *peak, r *reading) (surprised, error) {
	one := *r
	list := []*reading{&one}
	times := timesOf(list)
	var base, ahead [1]float64
	course, err := f.at(ctx, p.x, list, times, base[:])
	if err != nil {
		return surprised{}, err
	}
	one.linearise(&course, one.when, f.setup)
	with := make([]float64, len(p.used))
	for i, u := range p.used {
		with[i] = f.setup.shared(&one, u)
	}
	lowerSolve(p.c, with)
	white := append([]float64(nil), p.r...)
	lowerSolve(p.c, white)
	gap := base[0] - dot(with, white)
	variance := f.setup.shared(&one, &one) + one.own() - dot(with, with)
	var slope point // of the prediction, less what the readings of the fit follow
	for d := range f.n {
		x := p.x
		x[d] += differenceStep * f.sd[d]
		if x = f.setup.hold(x); x[d] == p.x[d] {
			continue
		}
		if _, err := f.at(ctx, x, list, times, ahead[:]); err != nil {
			return surprised{}, err
		}
		copy(white, p.j[d])
		lowerSolve(p.c, white)
		slope[d] = (base[0]-ahead[0])/(x[d]-p.x[d]) - dot(with, white)
	}
	cov := inverse(p.h, f.n)
	for d := range f.n {
		for e := range f.n {
			variance += slope[d] * cov[f.n*d+e] * slope[e]
		}
	}
	return surprised{gap, math.Sqrt(variance)}, nil
}
