package drying

import (
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// millimetreMercury in Pa, conventional (from memory, NIST SP 811).
const millimetreMercury = 133.322

var rowRedOak = method.Method{
	ID: "drying.red-oak-kiln", Chapter: "drying",
	Summary:  "Drying time of red oak in fast air, an exponential approach to equilibrium",
	Equation: "M = M_e + (M_0 - M_e) exp(-t/tau); tau[d] = L[in]^1.52/(0.0575 + 0.00142 p_s[mmHg])",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 19, High: 76}, Limit: method.Range{Low: 5, High: 150}},
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 43, High: 82}, Limit: method.Range{Low: 0, High: 100}},
		{Name: "rh_pct", Unit: "%", Fitted: method.Range{Low: 20, High: 90}, Limit: method.Range{Low: 0, High: 98}},
		{Name: "mc_pct", Unit: "%", Fitted: method.Range{Low: 6, High: 90}, Limit: method.Range{Low: 0, High: 100 * highestMC}},
	},
	Accuracy: "kiln air flow; at room temperature an extrapolation, for comparison only",
	Source:   "Tschernitz and Simpson 1979, Wood Science 11(4)", Checked: method.Memory,
}

// RedOakTimeConstant returns the time in which red oak boards of a thickness (5
// to 150 mm) in fast air of temperature t (0 to 100 degC, fitted at 43 to 82)
// lose 63 % of the moisture above equilibrium.
//
// Errors: *method.Error with input "thickness" or "temperature".
// Accuracy: kiln air flow; for comparison, not for a forecast of air drying.
//
// Source: Tschernitz and Simpson 1979 (from memory).
func RedOakTimeConstant(thickness quantity.Length, t quantity.Temperature) (quantity.Duration, error) {
	if _, err := rowRedOak.Check("thickness", thickness.Millimetres()); err != nil {
		return 0, err
	}
	if _, err := rowRedOak.Check("temperature", t.Celsius()); err != nil {
		return 0, err
	}
	mercury := air.SaturationPressureOverWater(t).Pascals() / millimetreMercury
	return quantity.Duration(math.Pow(thickness.Inches(), 1.52)/(0.0575+0.00142*mercury)) * quantity.Day, nil
}

// RedOakTime returns the time from one mean moisture content to a lower one
// (0 to 1.5) by the same rule in air of relative humidity rh (fraction 0 to 0.98).
//
// Errors: as RedOakTimeConstant; input "rh_pct", "mc_pct"; code Contradictory
// (input "mc_to") when the end is not between equilibrium and the start.
// Accuracy: as RedOakTimeConstant.
//
// Source: Tschernitz and Simpson 1979 (from memory); EMC of the Wood Handbook.
func RedOakTime(thickness quantity.Length, t quantity.Temperature, rh float64, from, to quantity.Moisture) (quantity.Duration, error) {
	tau, err := RedOakTimeConstant(thickness, t)
	if err != nil {
		return 0, err
	}
	if _, err := rowRedOak.Check("rh_pct", rh*100); err != nil {
		return 0, err
	}
	for _, m := range []quantity.Moisture{from, to} {
		if _, err := rowRedOak.Check("mc_pct", m.Percent()); err != nil {
			return 0, err
		}
	}
	rest := sorption.NewIsotherm(t).At(rh)
	if !(to > rest && from >= to) {
		return 0, &method.Error{Code: method.Contradictory, Input: "mc_to", Limit: "above equilibrium, at most the start",
			Detail: "the end must lie between the equilibrium moisture content of the air and the start"}
	}
	return -tau * quantity.Duration(math.Log(float64((to-rest)/(from-rest)))), nil
}
