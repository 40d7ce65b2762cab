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
	// fewReadings may bend the fit to a wrong one among them, so that it does not stand out:
	// where they lie this badly (of chi-square), each is tried.
	fewReadings, strainedFit = 8, 0.02
	// spoiledFit and soundFit are how badly readings lie with one that is wrong, and how well
	// without it, where it alone is to blame.
	spoiledFit, soundFit = 0.003, 0.05
	// fewestAgreed others must agree to say so: two always do, by the start and the pace.
	fewestAgreed = 3
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
	f.begin(parts[0].start)
	p.prior, p.first = f.prior, parts[0].start
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
	used, aside, rest, err := p.search(ctx, f, parts[0].peak, readings, kept)
	if err != nil || f.stepped {
		return used, aside, err
	}
	f.stepped = true
	if p.Cut, err = f.cut(ctx, parts[0].peak, rest, readings, aside); err != nil || p.Cut == nil || !p.Cut.Apart {
		return used, aside, err
	}
	p.setup.resized = math.Abs(p.Cut.size)
	f.modes = nil
	if parts, err = f.parts(ctx, readings, farBelow); err != nil {
		return nil, nil, err
	}
	f.begin(parts[0].start)
	used, aside, _, err = p.search(ctx, f, parts[0].peak, readings, kept)
	return used, aside, err
}

const (
	// searchQuick and searchLasting are what the quick discrepancy (a spell of weather is no
	// slip of the pen) and the lasting one (which would hide one) are multiplied by while
	// contradictions are looked for.
	searchQuick, searchLasting = 1.5, 0.53
	// farBelow and below the best evidence, as a logarithm, a state is given up: while
	// readings may still be wrong, and after.
	farBelow, below = 25, 5.0
	// leastLimit is how far a reading lies from what the others lead to expect at least, in
	// standard deviations, before it is set aside.
	leastLimit = 3.3
	// moistureLimit is the same of a sample or a meter: it speaks of the place it was taken
	// from as well as of the piece.
	moistureLimit  = 3.8
	mostInflations = 4
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

// search sets readings aside that contradict the rest, and returns those that stay and the
// fit of them.
func (p *Posterior) search(ctx context.Context, f *fit, top *peak, readings []*reading, kept map[*reading]bool) ([]*reading, []*setAside, *peak, error) {
	used := slices.Clone(readings)
	var aside []*setAside
	most := min(len(readings)/3, mostAside)
	limit := max(-normalQuantile(falseAlarm/2/float64(max(len(readings), 1))), leastLimit)
	for len(used) > 1 && len(aside) < max(most, 1) {
		found, next, err := p.worst(ctx, f, top, used, limit, kept)
		if err != nil {
			return nil, nil, nil, err
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
				return nil, nil, nil, err
			}
		}
	}
	return used, aside, top, nil
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

// worst returns the reading that contradicts the rest most, or both of an
// undecided pair, or none, and the fit without it if it is at hand.
func (p *Posterior) worst(ctx context.Context, f *fit, top *peak, used []*reading, limit float64, kept map[*reading]bool) ([]*setAside, *peak, error) {
	suspects := make([]int, 0, len(used))
	strained := len(used) <= fewReadings && chiSquareTail(2*top.cost, len(used)) < strainedFit
	for i, z := range top.loo {
		if (math.Abs(z) > limit*0.6 || strained) && !trusted(used[i], used) && !kept[used[i]] {
			suspects = append(suspects, i)
		}
	}
	slices.SortStableFunc(suspects, func(a, b int) int {
		return cmp.Compare(math.Abs(top.loo[b]), math.Abs(top.loo[a]))
	})
	if len(suspects) == 0 || math.Abs(top.loo[suspects[0]]) <= limit && !strained {
		return nil, nil, nil
	}
	trials := make([]trial, 0, mostSuspects)
	for _, i := range suspects[:min(len(suspects), mostSuspects)] {
		one, gross, err := f.without(ctx, top, used, i)
		if err != nil {
			return nil, nil, err
		}
		if gross {
			trials = append(trials, one)
		}
	}
	if len(trials) == 0 {
		return nil, nil, nil
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

// trial is the fit without a reading, and by how much that differs from it, in standard
// deviations.
type trial struct {
	r    *reading
	peak *peak
	z    float64
}

// without tries the fit without reading i; gross reports whether it differs by enough to
// be set aside.
func (f *fit) without(ctx context.Context, top *peak, used []*reading, i int) (one trial, gross bool, err error) {
	r, rest := used[i], slices.Delete(slices.Clone(used), i, i+1)
	peak, err := f.climb(ctx, rest, top.x)
	if err != nil {
		return trial{}, false, err
	}
	s, err := f.surprise(ctx, peak, r)
	if err != nil {
		return trial{}, false, err
	}
	most, lone := math.Abs(s.z()), false
	if len(rest) >= fewestAgreed {
		lone = chiSquareTail(2*top.cost, len(used)) < spoiledFit && chiSquareTail(2*peak.cost, len(rest)) > soundFit
		// What the fit gains by leaving it out says the same where all is linear, and more
		// where the reading has bent the fit to itself.
		most = max(most, math.Sqrt(2*max(top.cost-peak.cost, 0)))
	}
	gross = math.Abs(s.gap) >= s.gross(r, used, lone) && (r.kind == Weight || most >= moistureLimit)
	return trial{r, peak, math.Copysign(most, s.gap)}, gross, nil
}

// surprised is by how much a reading differs from what the fit without it foretells, in
// logarithm of a mass or as moisture content.
type surprised struct {
	gap, sd float64
	wet     float64 // moisture content foretold
	dated   float64 // standard deviation of the reading from its day alone
}

// z is the gap in standard deviations.
func (s *surprised) z() float64 { return s.gap / s.sd }

// Least gaps of readings that are set aside. Own choice.
const (
	grossMass = 0.055 // share of a weight
	// grossWet is by how much more for moisture above wetFrom: where wood dries fast a day
	// makes much, and the law is least sure. The first and the last weight have neighbours
	// on one side alone, and there it is grossEnd.
	grossWet      = 0.05
	grossEnd      = 0.15
	wetFrom       = 0.30
	slipMass      = 0.03 // share of a weight that two swapped digits or the like explain
	grossMoisture = 0.04 // of a meter or a sample, and of its moisture content
	grossShare    = 0.12
	// grossDays is how many of the usual errors of a day come on top.
	grossDays = 3.0
	// grossFew is the share of a weight where fewer than fewestAgreed others are left: two
	// of them and the forecast outvote a third only where it is off by nearly a tenth.
	grossFew = 0.08
)

// gross is the least by which a reading that is set aside differs from what the others
// lead to expect: of a weight as a share, of moisture content in itself. A slip of the
// pen or a wrong piece on the scale makes more; what makes less is weather, and has its
// place in the heavy tails of the errors. A weight that a slip of the pen explains needs
// to differ by less.
//
// So does one of which all the others, which fit each other, know that it is wrong (lone).
func (s *surprised) gross(r *reading, used []*reading, lone bool) float64 {
	late := grossDays * s.dated
	if r.kind != Weight {
		return grossMoisture + grossShare*r.y + late
	}
	expected := r.y - s.gap
	band := quantity.Band[float64]{Value: expected, Low: expected - quantity.Z90*s.sd, High: expected + quantity.Z90*s.sd}
	if slipOf(r.written, r.y, quantity.Mass(math.Exp(r.y)).Grams(), band, true) != "" {
		return slipMass
	}
	switch {
	case len(used)-1 < fewestAgreed:
		return grossFew
	case lone:
		return grossMass + late
	}
	wet := max(s.wet-wetFrom, 0)
	if atEnd(r, used) {
		return grossMass + grossEnd*wet + late
	}
	return grossMass + grossWet*wet + late
}

// atEnd reports whether a weight is the first or the last of its body.
func atEnd(r *reading, used []*reading) bool {
	before, after := false, false
	for _, o := range used {
		if o != r && o.kind == Weight && o.body == r.body {
			before, after = before || o.at <= r.at, after || o.at >= r.at
		}
	}
	return !before || !after
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
	return surprised{gap, math.Sqrt(variance), one.moistureOf(&course, one.when), one.dated}, nil
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
