package readiness

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Option is a candidate with what it is expected to tell.
type Option struct {
	Candidate
	At quantity.Duration // since stacking
	// Expect is the reading if all is well, with its 90 % band: Mass for a weight, MC
	// else.
	Mass quantity.Band[quantity.Mass]
	MC   quantity.Band[quantity.Moisture]
	// Spread is the standard deviation of the ready date now, and SpreadAfter what
	// it is expected to be after the reading. A date beyond the horizon counts as the
	// horizon.
	Spread, SpreadAfter quantity.Duration
	// Entropy of the verdict in bits (1: quite open, 0: settled) now and expected.
	Entropy, EntropyAfter float64
	IfAbove, IfBelow      Meaning
	Gain                  float64 // share of the uncertainty it is expected to remove, 0 to 1
}

// Meaning is what a reading at the upper or the lower end of its band would mean.
type Meaning struct {
	Ready  float64 // probability that the step is ready at the time asked from
	Median Date    // of the ready date
	Detail string
}

// Advice is the reading worth taking next.
type Advice struct {
	Best    int // index into Options, in the order of the candidates
	Options []Option
	// By says what was looked at: "verdict" while the verdict of now is open, else
	// "ready date", or "moisture" when neither is uncertain.
	By     string
	Little bool // not even the best tells much now
	Notes  method.Notes
}

// What an advice looks at.
const (
	ByVerdict  = "verdict"
	ByDate     = "ready date"
	ByMoisture = "moisture"
)

const (
	// nearBest is the share of the best gain from which the soonest reading is taken.
	nearBest      = 0.9
	mostImagined  = 96 // members whose predicted reading is tried
	openFrom      = 0.10
	settledSpread = 0.5 * quantity.Day
	tellsLittle   = 0.02
)

// NextReading returns which of the candidates, the usual ones when there are none (without
// those that would say nothing of wood so wet), tells most about when step s is ready, seen from a time on: the one that most
// reduces the expected entropy of the verdict while that is open (probability 0.1
// to 0.9), else the expected standard deviation of the ready date. Of readings
// that are nearly as good the soonest is taken. from: 0 to the horizon; at most 50
// candidates.
//
// Errors: as Posterior.Judge, out_of_range for "candidates" (their number), and "candidates/<n>/..." for a reading that cannot be taken.
// Accuracy: a ranking; about a tenth in the gain.
//
// Source: row readiness.next-reading.
func (p *Posterior) NextReading(limits Limits, target Target, from quantity.Duration, candidates ...Candidate) (Advice, error) {
	var a Advice
	a.Notes.Merge(p.Notes)
	if err := p.askable(limits, &target, from, &a.Notes); err != nil {
		return Advice{}, err
	}
	usual := len(candidates) == 0
	if usual {
		for _, c := range p.UsualCandidates() {
			if from+c.After <= p.Horizon() && p.tells(&c, from+c.After) {
				candidates = append(candidates, c)
			}
		}
	}
	if err := a.Notes.Use(&nextRow, "candidates", float64(len(candidates))); err != nil {
		return Advice{}, err
	}
	k := p.knowledge(limits, &target, from)
	a.By = k.by()
	for i := range candidates {
		r, self, err := candidates[i].check(p, i, from, &a.Notes)
		if err != nil {
			return Advice{}, err
		}
		look := p.prospect(&r, self, from)
		a.Options = append(a.Options, k.option(p, &candidates[i], &r, &look, a.By))
	}
	a.Best = bestOf(a.Options)
	a.Little = a.Options[a.Best].Gain < tellsLittle
	return a, nil
}

// bestOf is the soonest of the readings that tell nearly as much as any. A sample costs wood and a
// day at the oven: where it would settle little, and what costs neither tells half as much and more
// than next to nothing, that is looked at first.
func bestOf(options []Option) int {
	most, costless := 0.0, 0.0
	for _, o := range options {
		most = max(most, o.Gain)
		if o.Kind != Sample {
			costless = max(costless, o.Gain)
		}
	}
	spared := most < sampleSettles && costless >= max(0.5*most, tellsLittle)
	if spared {
		most = costless
	}
	best := -1
	for i, o := range options {
		if o.Gain < nearBest*most || spared && o.Kind == Sample {
			continue
		}
		if best < 0 || o.At < options[best].At || o.At == options[best].At && o.Gain > options[best].Gain {
			best = i
		}
	}
	return best
}

// knowledge is what the members say of the decision.
type knowledge struct {
	from    quantity.Duration
	horizon quantity.Duration
	weight  []float64
	date    []float64 // s, at most the horizon
	never   []bool
	ready   []float64 // 1 or 0 at from
	mean    []float64
	now     outlook
	chances *readyChances
}

// outlook sums the knowledge up for some weights.
type outlook struct{ probability, entropy, spread, moisture float64 }

func (p *Posterior) knowledge(limits Limits, target *Target, from quantity.Duration) *knowledge {
	n := p.Members
	k := &knowledge{from: from, horizon: p.Horizon(), weight: p.e.weight, date: p.dates(limits, target, from, p.Horizon()),
		never: make([]bool, n), ready: make([]float64, n), mean: make([]float64, n), chances: p.chancesOf(limits, target, from, p.Horizon())}
	v := p.view(from)
	for m := range n {
		if k.never[m] = math.IsInf(k.date[m], 1); k.never[m] {
			k.date[m] = float64(k.horizon)
		} else if k.date[m] <= float64(from) {
			k.ready[m] = 1
		}
		k.mean[m] = v.meanOf(m)
	}
	k.now = k.look(k.weight)
	return k
}

// look sums up with unnormalised weights.
func (k *knowledge) look(weight []float64) outlook {
	var total, ready, d1, d2, m1, m2 float64
	for m, w := range weight {
		d := (k.date[m] - float64(k.from)) / float64(quantity.Day)
		x := k.mean[m]
		total += w
		ready += w * k.ready[m]
		d1 += w * d
		d2 += w * d * d
		m1 += w * x
		m2 += w * x * x
	}
	if !(total > 0) {
		return outlook{}
	}
	p := min(max(ready/total, 0), 1)
	sd := func(one, two float64) float64 { return math.Sqrt(max(two/total-one/total*one/total, 0)) }
	return outlook{p, entropy(p), sd(d1, d2), sd(m1, m2)}
}

// entropy in bits of an event of probability p.
func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

func (k *knowledge) by() string {
	switch {
	case k.now.probability > openFrom && k.now.probability < 1-openFrom:
		return ByVerdict
	case k.now.spread > settledSpread.Days():
		return ByDate
	}
	return ByMoisture
}

// option works out what a reading is expected to tell: imagined in some members,
// at three values about what each predicts, and the ensemble weighted anew by each.
func (k *knowledge) option(p *Posterior, c *Candidate, r *reading, look *prospect, by string) Option {
	o := Option{Candidate: *c, At: quantity.Duration(r.at), Spread: quantity.Duration(k.now.spread) * quantity.Day, Entropy: k.now.entropy}
	// nodes and weights of Gauss-Hermite for three values of a normal variable
	root := math.Sqrt(3)
	nodes, shares := [3]float64{-root, 0, root}, [3]float64{1. / 6, 2. / 3, 1. / 6}
	anew := make([]float64, len(k.weight))
	var total, spreadSum, entropySum, moistureSum float64
	reached, due := 0.0, 0.5/mostImagined
	for m, w := range k.weight {
		for reached += w; due < reached; due += 1.0 / mostImagined { // systematic: each as often as it weighs
			for i, z := range nodes {
				after := k.given(look, look.mean[m]+z*look.sd, anew)
				total += shares[i]
				spreadSum += shares[i] * after.spread * after.spread
				entropySum += shares[i] * after.entropy
				moistureSum += shares[i] * after.moisture * after.moisture
			}
		}
	}
	after := k.now
	if total > 0 {
		after.spread, after.entropy, after.moisture = math.Sqrt(spreadSum/total), entropySum/total, math.Sqrt(moistureSum/total)
	}
	o.SpreadAfter, o.EntropyAfter = quantity.Duration(after.spread)*quantity.Day, after.entropy
	gain := func(before, after float64) float64 {
		if before <= 0 {
			return 0
		}
		return min(max(1-after/before, 0), 1)
	}
	switch by {
	case ByVerdict:
		o.Gain = gain(k.now.entropy, after.entropy)
	case ByDate:
		o.Gain = gain(k.now.spread, after.spread)
	default:
		o.Gain = gain(k.now.moisture, after.moisture)
	}
	band := p.foretell(look)
	low, high := band.Low, band.High
	if r.kind == Weight {
		o.Mass = quantity.Band[quantity.Mass]{Value: quantity.Mass(math.Exp(band.Value)), Low: quantity.Mass(math.Exp(low)), High: quantity.Mass(math.Exp(high))}
	} else {
		o.MC = quantity.Band[quantity.Moisture]{Value: quantity.Moisture(band.Value), Low: quantity.Moisture(low), High: quantity.Moisture(high)}.Clamp(0, 2.5)
	}
	k.atEnd(look, high, anew)
	o.IfAbove = k.meaning(anew)
	k.atEnd(look, low, anew)
	o.IfBelow = k.meaning(anew)
	k.explain(&o.IfAbove, "at the upper end or above")
	k.explain(&o.IfBelow, "at the lower end or below")
	return o
}

// foretell is the 90 % band of a reading to come.
func (p *Posterior) foretell(look *prospect) quantity.Band[float64] {
	s := make([]sample, p.Members)
	for m, w := range p.e.weight {
		s[m] = sample{look.mean[m] + look.sd*p.e.aim[m], w} // aim is free of the reading: a second draw
	}
	return bandOf[float64](s)
}

// given writes the weights after a reading y and sums them up.
func (k *knowledge) given(look *prospect, y float64, anew []float64) outlook {
	inv := 1 / look.sd
	best := math.Inf(1)
	for m := range anew {
		z := (y - look.mean[m]) * inv
		anew[m] = 0.5 * z * z
		if k.weight[m] > 0 {
			best = min(best, anew[m])
		}
	}
	for m := range anew {
		if d := anew[m] - best; d < 30 {
			anew[m] = k.weight[m] * math.Exp(-d)
		} else {
			anew[m] = 0
		}
	}
	return k.look(anew)
}
