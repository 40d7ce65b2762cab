package readiness

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Kind is the kind of an observation.
type Kind string

// Kinds of observations.
const (
	Weight Kind = "weight" // of a body
	Pin    Kind = "meter"  // of a moisture meter, corrected for temperature and species
	Sample Kind = "sample" // an ovendry sample, or a moisture content stated by the caller
)

// Observation is one reading of the piece. Which of its fields count follows
// from its kind.
type Observation struct {
	Kind Kind
	At   quantity.Duration // since the day of stacking, within the phases

	// Of a weight.
	Body     int // index into Setup.Bodies; of a sample, the body it was cut from
	Weighing moisture.Weighing

	// Of a meter or a sample: the moisture content, 0 to 250 %MC, and the standard
	// deviation of this reading alone (0.05 to 50 %MC), without the common error of
	// the meter; see MeterBias.
	MC, SD quantity.Moisture
	Meter  int            // index into Setup.Meters
	Part   moisture.Place // of the thickness; empty means the mean
	Cut    bool           // of a sample: it was cut out of the piece and oven-dried
	// Depth of the pins or the slice as a share of the thickness, 0 to 0.5; counts
	// in place of Part when DepthKnown.
	Depth      float64
	DepthKnown bool

	// Aside leaves it out of everything.
	Aside bool

	// Written is the number as the maker wrote it down, without its unit, if known:
	// for the search of swapped digits.
	Written string
	Unit    string // it was written in, of a weight; empty: kg
}

// ObservationOf returns the observation that an estimate of the moisture chapter
// makes. With meter >= 0 it is a reading of that meter, whose common part
// (MeterBias) is left to the meter; else a sample.
//
// Errors: none; Learn checks the observation.
func ObservationOf(e moisture.Estimate, at quantity.Duration, meter int) Observation {
	o := Observation{Kind: Sample, At: at, MC: e.MC.Value, SD: e.SD, Part: e.Place, Cut: e.Section}
	if meter >= 0 {
		o.Kind, o.Meter = Pin, meter
		_, o.SD = MeterBias(e.SD)
	}
	return o
}

const (
	// scaleRepeats is the standard deviation with which a shop scale repeats, beside
	// its division, as a share. Own choice.
	scaleRepeats = 0.0005
	// unknownDivision is taken as a share of the mass when the division is not given,
	// as in the moisture chapter.
	unknownDivision = 0.001
	// meterTop is the moisture content above which a meter's level is not used: from
	// 25 to 30 % up meters are published as unreliable.
	meterTop = 0.28
	// spotShare of the difference between core and face is the standard deviation
	// added to a reading at an unknown depth. Own choice.
	spotShare = 0.5
	// depthStep to which depths are rounded.
	depthStep = 0.025
)

// reading is an observation made ready for the fit.
type reading struct {
	index   int // in the caller's list
	kind    Kind
	at      float64 // s
	body    int
	meter   int
	y       float64 // logarithm of the mass in kg, or moisture content
	noise   float64 // standard deviation of y of this reading alone
	ahead   float64 // see sampleAhead
	cut     bool    // of a sample: out of the piece
	part    moisture.Place
	depth   int // index into the depths of the runs, -1 for none
	when    int // index into the times of the fit
	eve     int // the same of a day before
	grid    int // index into the times of the forecast
	seen    int // index into what the ensemble says of the readings
	written string
	slips   []slip // of the pen or of the unit that may explain it; nil before they are asked for
	// earlier is that of the weights before a step that wood cut off made: they are of a piece
	// of another mass.
	earlier bool

	slope float64 // dy/dM where the fit is linearised
	stray float64 // standard deviation of the discrepancy there, as moisture content
	// lasting is that of the lasting one, and wide what noise is multiplied by for the
	// heavy tail of its errors, where it is above 1.
	lasting, wide float64
	extra         float64 // added for an unknown depth
	dated         float64 // standard deviation of y because its day is not sure
}

// check returns the reading of o, number i of the caller.
func (o *Observation) check(s *Setup, i int, horizon quantity.Duration, notes *method.Notes) (reading, error) {
	place := func(name string) string { return fmt.Sprintf("observations/%d/%s", i, name) }
	r := reading{index: i, kind: o.Kind, at: float64(o.At), body: o.Body, meter: -1, depth: -1, written: o.Written, ahead: s.ahead(o.Kind), cut: o.Cut}
	if !(o.At >= 0 && o.At <= horizon) {
		return r, &method.Error{Code: method.OutOfRange, Input: place("at_days"), Limit: method.Between(0, horizon.Days(), "days"),
			Detail: fmt.Sprintf("a reading must lie between the day of stacking and the end of the phases, %g days later; got %g", horizon.Days(), o.At.Days())}
	}
	if o.Body < 0 || o.Body >= len(s.Bodies) {
		return r, &method.Error{Code: method.Unknown, Input: place("body"), Detail: fmt.Sprintf("there is no body %d", o.Body)}
	}
	switch o.Kind {
	case Weight:
		return r, o.checkWeight(&r, place, notes)
	case Pin:
		if o.Meter < 0 || o.Meter >= len(s.Meters) {
			return r, &method.Error{Code: method.Unknown, Input: place("meter"), Detail: fmt.Sprintf("there is no meter %d", o.Meter)}
		}
		r.meter = o.Meter
	case Sample:
	default:
		return r, &method.Error{Code: method.Unknown, Input: place("kind"), Limit: method.OneOf(Weight, Pin, Sample), Detail: "kind must be weight, meter or sample"}
	}
	for _, in := range [...]struct {
		name  string
		value float64
	}{{"mc_pct", o.MC.Percent()}, {"sd_pct", o.SD.Percent()}} {
		if err := notes.Use(&learnRow, in.name, in.value); err != nil {
			return r, method.Named(err, place(in.name))
		}
	}
	r.y, r.noise, r.part = float64(o.MC), float64(o.SD), o.Part
	if o.DepthKnown {
		if _, err := learnRow.Check("depth", o.Depth); err != nil {
			return r, method.Named(err, place("depth"))
		}
		r.depth = int(math.Round(o.Depth / depthStep))
		return r, nil
	}
	switch o.Part {
	case "":
		r.part = moisture.Mean
	case moisture.Mean, moisture.Shell, moisture.Core, moisture.Spot:
	default:
		return r, &method.Error{Code: method.Unknown, Input: place("part"), Limit: method.OneOf(moisture.Mean, moisture.Shell, moisture.Core, moisture.Spot), Detail: "part must be mean, shell, core or spot"}
	}
	return r, nil
}

func (o *Observation) checkWeight(r *reading, place func(string) string, notes *method.Notes) error {
	w := o.Weighing
	for _, in := range [...]struct {
		name  string
		value float64
	}{{"mass", w.Mass.Grams()}, {"mass_resolution", w.Resolution.Grams()}} {
		if err := notes.Use(&learnRow, in.name, in.value); err != nil {
			return method.Named(err, place(in.name))
		}
	}
	division := float64(w.Resolution / w.Mass)
	if w.Resolution == 0 {
		division = unknownDivision
		notes.Warn(method.Warning{Code: method.DefaultUsed, Method: learnRow.ID, Input: "mass_resolution",
			Detail: "the scale's division was not given; 0.1 % of the mass is taken"})
	}
	if division > 1 {
		return &method.Error{Code: method.Contradictory, Input: place("mass_resolution"), Limit: method.AtMost(w.Mass.AtMost("g")),
			Detail: "the scale's division is larger than the mass weighed on it"}
	}
	r.y = math.Log(w.Mass.Kilograms())
	r.noise = math.Hypot(division/math.Sqrt(12), scaleRepeats) // uniform within a division
	r.part = moisture.Mean
	return nil
}
