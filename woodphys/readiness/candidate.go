package readiness

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Candidate is a reading that could be taken next.
type Candidate struct {
	Kind  Kind
	After quantity.Duration // from the time asked from; 0 to the horizon
	Body  int               // weighed or sampled, an index into Setup.Bodies
	// SD of the reading alone: moisture content for a meter or a sample (0.05 to 50
	// %MC); for a weight MassSD as a share of the mass, 0 means 0.0006.
	SD     quantity.Moisture
	MassSD float64
	// Meter is an index into Setup.Meters, or -1 for one not used before, with the
	// common error BiasSD.
	Meter      int
	BiasSD     quantity.Moisture
	Part       moisture.Place // of a meter or a sample: mean (or empty), shell or core
	Depth      float64        // kept for messages; the part counts
	DepthKnown bool
}

// usualWeightSD is a scale that reads 0.1 % of the mass and repeats to half of it.
const usualWeightSD = 0.0006

// Usual standard deviations of readings to come, own choices from the figures of
// the moisture chapter: an ovendry section of 0.35 %MC with what it differs from
// the whole piece, and a corrected pin meter.
const (
	usualSampleSD = 0.6 * quantity.PercentMC
	usualPinSD    = 1.75 * quantity.PercentMC
)

// wettestForPins is the moisture content above which a pin meter says that wood is wet, and not how
// wet.
//
// Source: published as "unreliable above 25-30 %", as in the moisture chapter; the upper end is
// our own choice.
const wettestForPins = 30 * quantity.PercentMC

// tells reports that a usual reading of the piece would say something at a time, in half of the cases
// at least.
func (p *Posterior) tells(c *Candidate, at quantity.Duration) bool {
	if c.Kind != Pin {
		return true
	}
	return p.share(c.Part, at, func(holds float64) bool { return holds <= float64(wettestForPins) }) >= 0.5
}

// share is that of the cases of which what a part of the piece holds at a time is as asked.
func (p *Posterior) share(part moisture.Place, at quantity.Duration, is func(holds float64) bool) (share float64) {
	here, r := p.e.find(at), reading{part: part}
	for m, w := range p.e.weight {
		if is(r.memberMoisture(p.e, here, m)) {
			share += w
		}
	}
	return share
}

// UsualCandidates returns the readings a maker chooses among: weigh the first body
// again after 7, 14 and 30 days if it was weighed before or its ovendry mass is
// known, an ovendry sample now, a pin reading at the core now.
func (p *Posterior) UsualCandidates() []Candidate {
	var list []Candidate
	if p.OvendryKnown[0] {
		for _, days := range [...]float64{7, 14, 30} {
			list = append(list, Candidate{Kind: Weight, After: quantity.Duration(days) * quantity.Day})
		}
	}
	list = append(list, Candidate{Kind: Sample, SD: usualSampleSD})
	bias, single := MeterBias(usualPinSD)
	pin := Candidate{Kind: Pin, Meter: -1, SD: single, BiasSD: bias, Part: moisture.Core}
	if len(p.setup.Meters) > 0 {
		pin.Meter = 0
	}
	return append(list, pin)
}

// check returns the candidate as a reading to be taken, with the variance of y in
// a member of which the parameters are known.
func (c *Candidate) check(p *Posterior, i int, from quantity.Duration, notes *method.Notes) (r reading, self float64, err error) {
	at := func(name string) string { return fmt.Sprintf("candidates/%d/%s", i, name) }
	r = reading{kind: c.Kind, at: float64(from + c.After), body: c.Body, meter: -1, depth: -1, part: c.Part, noise: float64(c.SD), ahead: p.setup.ahead(c.Kind)}
	if !(c.After >= 0 && from+c.After <= p.Horizon()) {
		return r, 0, &method.Error{Code: method.OutOfRange, Input: at("after_days"), Limit: method.Between(0, (p.Horizon() - from).Days(), "days"),
			Detail: "the reading must be taken within the phases"}
	}
	if c.Body < 0 || c.Body >= len(p.setup.Bodies) {
		return r, 0, &method.Error{Code: method.Unknown, Input: at("body"), Detail: fmt.Sprintf("there is no body %d", c.Body)}
	}
	switch c.Kind {
	case Weight:
		if !p.OvendryKnown[c.Body] {
			return r, 0, &method.Error{Code: method.Missing, Input: at("body"), Detail: "a first weight says nothing without an ovendry mass; weigh now, and again later"}
		}
		if r.noise = c.MassSD; r.noise == 0 {
			r.noise = usualWeightSD
		}
		if !(r.noise > 0 && r.noise <= 1) {
			return r, 0, &method.Error{Code: method.OutOfRange, Input: at("mass_sd"), Limit: method.Between(0, 1, ""), Detail: "the standard deviation of a weight must be a share of it, 0 to 1"}
		}
		r.part = moisture.Mean
	case Pin, Sample:
		if err := notes.Use(&nextRow, "sd_pct", c.SD.Percent()); err != nil {
			return r, 0, method.Named(err, at("sd_pct"))
		}
		if c.Part != "" && c.Part != moisture.Mean && c.Part != moisture.Core && c.Part != moisture.Shell {
			return r, 0, &method.Error{Code: method.Unsupported, Input: at("part"), Limit: method.OneOf(moisture.Mean, moisture.Shell, moisture.Core), Detail: "a reading to come speaks for mean, shell or core"}
		}
		if c.Kind == Pin {
			switch {
			case c.Meter >= len(p.setup.Meters) || c.Meter < -1:
				return r, 0, &method.Error{Code: method.Unknown, Input: at("meter"), Detail: fmt.Sprintf("there is no meter %d", c.Meter)}
			case c.Meter >= 0:
				r.meter = c.Meter
			case !(c.BiasSD >= 0 && c.BiasSD <= 20*quantity.PercentMC):
				return r, 0, &method.Error{Code: method.OutOfRange, Input: at("bias_sd_pct"), Limit: method.Between(0, 20, "%MC"), Detail: "the common error of the meter must be 0 to 20 %MC"}
			default:
				r.extra = float64(c.BiasSD)
			}
		}
	default:
		return r, 0, &method.Error{Code: method.Unknown, Input: at("kind"), Limit: method.OneOf(Weight, Pin, Sample), Detail: "kind must be weight, meter or sample"}
	}
	mean := 0.0
	here := p.e.find(quantity.Duration(r.at))
	for m, w := range p.e.weight {
		mean += w * r.memberMoisture(p.e, here, m)
	}
	r.slope = 1
	p.setup.strays(&r, mean)
	if c.Kind == Weight {
		r.slope = 1 / (1 + mean)
	}
	return r, p.setup.shared(&r, &r) + r.own(), nil
}

// memberMoisture is what member m says of the part that r speaks for.
func (r *reading) memberMoisture(e *ensemble, here place, m int) float64 {
	switch r.part {
	case moisture.Core:
		return here.of(e.core[m])
	case moisture.Shell:
		return here.of(e.shell[m])
	case moisture.Mean, moisture.Spot:
	}
	return here.of(e.mean[m])
}

// prospect is a reading to come as the members predict it: normal in each.
type prospect struct {
	mean []float64 // of y
	sd   float64
}

func (p *Posterior) prospect(r *reading, self float64, from quantity.Duration) prospect {
	q := p.foresee(r, self)
	here := p.e.find(quantity.Duration(r.at))
	mean := 0.0
	now := p.e.find(from)
	for m, w := range p.e.weight {
		mean += w * now.of(p.e.mean[m])
	}
	// The discrepancy at the time asked from is drawn in each member; the reading to
	// come leans on it.
	u := p.setup.straying(float64(from), mean)
	d := p.astray(from, mean)
	lean := 0.0
	if d.sd > 0 {
		lean = (p.setup.shared(&u, r) - dot(d.with, q.solve)) / d.sd
	}
	out := prospect{mean: make([]float64, p.Members), sd: math.Sqrt(max(q.sd*q.sd-lean*lean, 1e-12))}
	for m := range out.mean {
		out.mean[m] = r.expect(r.memberMoisture(p.e, here, m)) + q.shift(p, m) + lean*now.of(p.e.wander[m])
		if r.kind == Weight {
			out.mean[m] += p.f.logOD[r.body]
		}
	}
	return out
}
