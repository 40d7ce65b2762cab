package drying

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Phase is a stay of the wood in one place.
type Phase struct {
	Length   quantity.Duration // 0 to 100 years
	Climate  *Climate          // in run time, so that the seasons go on from phase to phase
	Exposure Exposure
	// PaceShift is added to the logarithm of the wet-stage pace of this stay, FactorShift to
	// that of the drying factor, and Damper to the relative humidity of its air (a fraction,
	// -0.5 to 0.5): by how much this stay differs from what is told of it.
	PaceShift   float64
	FactorShift float64
	Damper      float64
}

// Setting is how finely a run is computed.
type Setting struct {
	Cells     int               // through half the thickness, 4 to 400
	Tolerance quantity.Moisture // of one time step, 1e-9 to 2 %MC
	MaxSteps  int               // work budget; 0 means UsualMaxSteps
}

// Standard is the usual setting, within 0.02 %MC of a fine run over three years
// from green, in the mean.
func Standard() Setting { return Setting{Cells: 14, Tolerance: 2e-5} }

// Coarse is the setting for many runs, within 0.1 %MC in the mean for stock of 10 mm
// and more; the core is off by up to 3 %MC in the days when the front of free water
// reaches it.
func Coarse() Setting { return Setting{Cells: 8, Tolerance: 1.5e-4} }

// UsualMaxSteps is the budget of a run that sets none, in time steps.
const UsualMaxSteps = 50_000

// Job is one run: a board, where it lies and what is wanted of it.
type Job struct {
	Transport *Transport
	Thickness quantity.Length // green, 0.5 to 600 mm; both faces open
	Factor    float64         // drying factor k with the ring angle in it, 0.005 to 20
	// Pace is the wet-stage pace of the wood in a wide pile, 0.005 to 20; 0 means 1, wood
	// that no pile slows. What it is elsewhere says the exposure.
	Pace    float64
	Initial quantity.Moisture // uniform, 0 to 1.5
	// Profile, when not nil, replaces Initial: the moisture content at a depth from
	// the face as a share of the thickness, 0 (face) to 0.5 (middle).
	Profile func(depth float64) quantity.Moisture
	History History
	Ends    *EndGrain // through which it loses too; nil: sealed so well, or so far away, that they do not count
	Phases  []Phase   // 1 to 1000

	Times  []quantity.Duration // since the start, rising, at which the course is wanted
	Depths []float64           // wanted besides mean, shell and core; shares of the thickness, 0 to 0.5
	// StopAt, when above 0, ends the run when the mean is first at or below it.
	StopAt  quantity.Moisture
	Setting // the zero value stands for Standard
}

// pace is the wet-stage pace in a wide pile.
func (j *Job) pace() float64 {
	if j.Pace == 0 {
		return 1
	}
	return j.Pace
}

func (j *Job) check(notes *method.Notes) error {
	if j.Transport == nil {
		return &method.Error{Code: method.Missing, Input: "wood", Detail: "the wood is missing"}
	}
	notes.Merge(j.Transport.notes)
	for _, in := range [...]struct {
		name  string
		value float64
	}{
		{"thickness", j.Thickness.Millimetres()}, {"drying_factor", j.Factor}, {"pace", j.pace()},
		{"tolerance_pct", j.Tolerance.Percent()},
	} {
		if err := notes.Use(&rowSlab, in.name, in.value); err != nil {
			return err
		}
	}
	if j.Profile == nil {
		if err := notes.Use(&rowSlab, "mc_pct", j.Initial.Percent()); err != nil {
			return err
		}
	}
	switch {
	case j.Cells < 4 || j.Cells > 400:
		return &method.Error{Code: method.OutOfRange, Input: "cells", Limit: method.Between(4, 400, ""), Detail: fmt.Sprintf("cells must be 4 to 400; got %d", j.Cells)}
	case j.History < FromGreen || j.History > NoHysteresis:
		return &method.Error{Code: method.Unknown, Input: "history", Detail: "history must be from green, unknown or none"}
	case math.IsNaN(float64(j.StopAt)) || j.StopAt < 0:
		return &method.Error{Code: method.OutOfRange, Input: "stop_at", Limit: method.AtLeast(0, "%MC"), Detail: "the moisture content to stop at must be at least 0 %MC"}
	}
	for i, d := range j.Depths {
		if _, err := rowSlab.Check("depth", d); err != nil {
			return method.Below(err, fmt.Sprintf("depths/%d", i))
		}
	}
	notes.Rest(&rowFrost)
	if j.History != NoHysteresis {
		notes.Rest(&rowHysteresis)
	}
	return j.checkPhases(notes)
}

func (j *Job) checkPhases(notes *method.Notes) error {
	if len(j.Phases) == 0 || len(j.Phases) > 1000 {
		return &method.Error{Code: method.OutOfRange, Input: "phases", Limit: method.Between(1, 1000, "phases"), Detail: fmt.Sprintf("a run has 1 to 1000 phases; got %d", len(j.Phases))}
	}
	total := quantity.Duration(0)
	for i := range j.Phases {
		p := &j.Phases[i]
		place := func(err error) error { return method.Below(err, fmt.Sprintf("phases/%d", i)) }
		if _, err := rowSlab.Check("phase_days", p.Length.Days()); err != nil {
			return place(err)
		}
		if p.Climate == nil {
			return place(&method.Error{Code: method.Missing, Input: "climate", Detail: "the climate of the phase is missing"})
		}
		told := len(notes.Warnings)
		if err := p.Exposure.check(notes); err != nil {
			return place(err)
		}
		if len(notes.Warnings) > told {
			notes.Place(told, fmt.Sprintf("phases/%d", i))
		}
		if !(math.Abs(p.Damper) <= 0.5) || !(math.Abs(p.PaceShift) <= 5) || !(math.Abs(p.FactorShift) <= 5) {
			return place(&method.Error{Code: method.OutOfRange, Input: "damper", Limit: method.Between(-0.5, 0.5, ""),
				Detail: "a stay may differ by half of the relative humidity and by 5 in the logarithms of its pace and its factor"})
		}
		if len(p.Climate.notes.Warnings) > 0 {
			notes.Merge(p.Climate.notes.Below(fmt.Sprintf("phases/%d", i)))
		} else {
			notes.Merge(p.Climate.notes)
		}
		start := total
		total += p.Length
		if float64(total) > p.Climate.end*(1+1e-12) || len(p.Climate.knots) > 1 && p.Climate.period == 0 && float64(start) < p.Climate.knots[0]-1 {
			return place(&method.Error{Code: method.Missing, Input: "rows",
				Detail: "the logged air does not cover the whole phase"})
		}
	}
	last := quantity.Duration(0)
	for i, t := range j.Times {
		if !(t >= last && t <= total) {
			return &method.Error{Code: method.OutOfRange, Input: fmt.Sprintf("times/%d", i), Limit: method.Between(last.Days(), total.Days(), "d"),
				Detail: fmt.Sprintf("times must rise and lie within the phases (0 to %g d); got %g d", total.Days(), t.Days())}
		}
		last = t
	}
	return nil
}
