package drying

import (
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// EndGrain is what a piece loses through its two ends. It tells the same for ever and may be shared.
type EndGrain struct {
	length     float64 // m
	resistance float64 // of the coat, s/m
	tables     *Transport
}

var rowEndGrain = method.Method{
	ID: "drying.end-grain", Chapter: "drying",
	Summary: "What a piece of a length loses through its ends: the mean of the whole, and what that takes from the middle of its length",
	Equation: "of each section dM/dt = d/dx(w^S k D_L dM/dx) - f(x) dM/dt of the faces in the middle, f = (M - M_e)/(M_middle - M_e) (product of solutions); " +
		"at the ends as drying.slab has it at the faces, with 1/beta + r_coat; the slab is the section in the middle of the length and gives off what flows from it along the grain, each depth by its M - M_e",
	Inputs: []method.Input{
		{Name: "length", Unit: "mm", Fitted: method.Range{Low: 20, High: 12000}, Limit: method.Range{Low: 10, High: 20000}},
	},
	Accuracy: "the numbers, as coarse as forecasts run, from two thicknesses to forty against a computation in two dimensions: the mean of the whole 1.5 %MC while it is wet, 0.6 for pieces of 8 thicknesses and more, its time to a moisture content 8 % or a day, that of the core 10 % or two days; of a piece as long as thick twice that; finer steps do not make it better. The model: D_L a factor of 2, a coat a factor of 2",
	Source: siauSource + " for D_L; Newman 1931, Transactions of the AIChE 27, for the product of solutions (from memory); a coat divides the loss of an end by 5 to 20 (from memory); " +
		"that drying factor and pace count along the grain as across it is assumed",
	Checked: method.Memory,
}

// NewEndGrain returns the ends of a piece of a wood, of a length (10 mm to 20 m) and with ends kept
// so; factor and pace are those of its drying in the middle (0.005 to 20), by which the resistance of a coat is found:
// it divides the loss of a bare end in its first week, green, in air of 20 degC and 65 %RH, by 10 (fresh) or
// 5 (late).
//
// Errors: *method.Error with input "length" or "end_seal", or those of NewTransport.
// Accuracy: that of the row; of a coat a factor of 2.
//
// Source: row drying.end-grain.
func NewEndGrain(w wood.Wood, length quantity.Length, seal EndSeal, factor, pace float64, notes *method.Notes) (*EndGrain, error) {
	if err := notes.Use(&rowEndGrain, "length", length.Millimetres()); err != nil {
		return nil, err
	}
	divides, known := coats[seal]
	if !known {
		_, err := UsualCheckReach(seal)
		return nil, err
	}
	tables, err := newTransport(mediumOf(&w, 0), alongGrain)
	if err != nil {
		return nil, err
	}
	g := &EndGrain{length: float64(length), tables: tables}
	if divides > 1 {
		g.resistance = coatResistance(tables, factor, pace, divides)
	}
	return g, nil
}

// Of the week over which a coat is told: green wood, so long that the other end is far, in even steps.
const (
	coatLength  = 0.3 // m
	coatInitial = 0.6
	coatC       = 20.0
	coatRH      = 0.65
	coatSteps   = 80
)

// coatResistance is that of a coat, in s/m, that divides the loss of a bare end.
func coatResistance(tables *Transport, factor, pace, divides float64) float64 {
	open := OpenStack()
	s := Solver{
		tables: tables, half: coatLength / 2, factor: factor, pace: pace, quicker: 1, density: waterDensity * tables.wood.gravity,
		film: open.film(), history: NoHysteresis, lnPace: math.Log(open.WetPace(pace)),
	}
	s.line.begin(&EndGrain{length: coatLength, tables: tables}, coatLength, coatInitial)
	s.line.film = s.film
	var at moment
	s.fill(&at, coatC, coatRH, coatInitial)
	rests := s.loopIn(&at)
	const week = referenceDays * day
	for range coatSteps {
		s.line.follow(&s, &at, rests, week/coatSteps, 0)
	}
	flux := s.density * s.half * (coatInitial - s.line.mean()) / week // kg/m2 s
	t := quantity.Celsius(coatC)
	drive := air.SaturationPressureOverWater(t).Pascals() / (vapourConstant * t.Kelvin()) * (1 - coatRH)
	return (divides - 1) * drive / flux
}
