package sorption

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Equation is a published equation for the equilibrium of ordinary wood. Each stands in a
// file of its own with its row; Equations lists them.
type Equation interface {
	// Row is its row in the registry.
	Row() *method.Method
	// EMC is the equilibrium at a temperature of -40 to 120 degC and a relative humidity
	// of 0 to HighestSurfaceHumidity (a fraction), as the equation has it, beyond where it
	// was fitted as well.
	EMC(t quantity.Temperature, rh float64) quantity.Moisture
}

// Equations returns the published equations, that of the printed table first. The band
// of every equilibrium holds what each of them gives.
//
// Accuracy: that of each equation. Source: their rows.
func Equations() []Equation { return []Equation{HailwoodHorrobin{}, PowerLaw{}} }

// HailwoodHorrobin is the equation that table 4-2 of the Wood Handbook was printed from.
type HailwoodHorrobin struct{}

// Row returns its row in the registry.
//
// Accuracy: exact. Source: the registry.
func (HailwoodHorrobin) Row() *method.Method { return &rowEMC }

// EMC returns the equilibrium at t (-40 to 120 degC) and rh (fraction 0 to 1). Below the
// table it runs on by its polynomials, which fall with cold; NewIsotherm does not.
//
// Accuracy: as Isotherm.At.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5.
func (HailwoodHorrobin) EMC(t quantity.Temperature, rh float64) quantity.Moisture {
	return celsiusSet(min(max(t.Celsius(), lowestC), highestC)).At(rh)
}

// EquationResult is what one published equation gives.
type EquationResult struct {
	ID  string // of its row
	EMC quantity.Moisture
}

// byEquation returns what each equation gives for a wood that holds share of what
// ordinary wood holds there.
func byEquation(t quantity.Temperature, rh, share float64) []EquationResult {
	all := Equations()
	out := make([]EquationResult, len(all))
	for i, e := range all {
		out[i] = EquationResult{e.Row().ID, quantity.Moisture(share) * e.EMC(t, rh)}
	}
	return out
}

// spreadOfEquations is the standard deviation that lets a 90 % band about the middle hold
// what each equation gives.
func spreadOfEquations(of []EquationResult, middle quantity.Moisture) quantity.Moisture {
	furthest := 0.0
	for _, r := range of {
		furthest = math.Max(furthest, math.Abs(float64(r.EMC-middle)))
	}
	return quantity.Moisture(furthest / quantity.Z90)
}
