package sorption

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Constants of FPL-GTR-282 eq. 4-6 (Glass and others 2014), read in a transcription; the
// temperature is in kelvin.
const (
	powerA      = -0.000612
	powerB      = 2.43
	powerC      = 0.0577
	powerD      = 0.430
	criticalOfH = 647.1 // K, critical temperature of water
)

var rowPower = method.Method{
	ID: "emc.power-law", Chapter: "sorption",
	Summary:  "Equilibrium moisture content of wood in air, second published equation; in the cold its rise is taken",
	Equation: "EMC = 100 [A T (1 - T/Tc)^B ln(1 - H)]^(C T^D), T in K, A = -0.000612, B = 2.43, C = 0.0577, D = 0.430, Tc = 647.1 K",
	Inputs: []method.Input{
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: lowestC, High: 100}, Limit: method.Range{Low: lowestC, High: highestC}},
		{Name: "rh_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 98}, Limit: method.Range{Low: 0, High: 98}},
	},
	Accuracy: "apart from the other equation by 0.5 %MC at 20 C, 80 % RH, 1.7 at 0 C and 2.6 at -10 C; the difference is the error of the form",
	Source:   "Wood Handbook, FPL-GTR-282 (2021), eq. 4-6, p. 4-4, after Glass and others 2014; a transcription was read",
	Checked:  method.Read,
}

// PowerLaw is the second equation that the Wood Handbook of 2021 prints.
type PowerLaw struct{}

// Row returns its row in the registry.
//
// Accuracy: exact. Source: the registry.
func (PowerLaw) Row() *method.Method { return &rowPower }

// EMC returns the equilibrium at t (-40 to 120 degC) and rh (fraction, 0 to
// HighestSurfaceHumidity).
//
// Accuracy: see its row.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-6.
func (PowerLaw) EMC(t quantity.Temperature, rh float64) quantity.Moisture {
	k := quantity.Celsius(min(max(t.Celsius(), lowestC), highestC)).Kelvin()
	base := powerA * k * math.Pow(1-k/criticalOfH, powerB) * math.Log1p(-min(max(rh, 0), HighestSurfaceHumidity))
	return quantity.Moisture(math.Pow(base, powerC*math.Pow(k, powerD)))
}

const (
	// coldestTabledC is the lowest temperature of table 4-2, 30 degF.
	coldestTabledC = -10.0 / 9
	// riseAt is the humidity that the rise with cold is taken at; from 50 to 98 % it
	// differs by a fiftieth. Own choice.
	riseAt = 0.65
)

// ColdRise returns what the printed curve and fibre saturation are multiplied by below the
// lowest temperature of table 4-2 (-1.1 degC), down to -40 degC; 1 above it. Wood holds
// more the colder it is, as the second equation has it; the polynomials of the first fall.
//
// Accuracy: sorption beside ice was hardly measured: 5 % at -10 degC and 20 % at -40 degC.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-6 at 65 % RH, over its value at -1.1 degC.
func ColdRise(t quantity.Temperature) float64 {
	if t.Celsius() >= coldestTabledC {
		return 1
	}
	return float64(PowerLaw{}.EMC(t, riseAt) / PowerLaw{}.EMC(quantity.Celsius(coldestTabledC), riseAt))
}
