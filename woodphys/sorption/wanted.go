package sorption

import (
	"fmt"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// HumidityBand is the relative humidity that keeps a wood at a moisture content.
type HumidityBand struct {
	RH    quantity.Band[float64] // fraction 0 to 0.98, 90 % band
	Notes method.Notes
}

// HumidityFor returns the relative humidity at temperature t (-40 to 120 degC)
// that keeps a wood at mc on branch b: the one at which EquilibriumBand gives
// mc. The ends of the band are the humidities at which the ends of the EMC band
// reach mc, held to 0 and 0.98.
//
// Errors: *method.Error with input "temperature" or "branch"; out_of_range for
// "mc_pct" when no air below 98 % RH keeps the wood so wet, or mc is not above 0.
// Accuracy: 1e-9 in the humidity; the band is that of EquilibriumBand.
//
// Source: EquilibriumBand, inverted by halving.
func HumidityFor(t quantity.Temperature, mc quantity.Moisture, b Branch, c Curves) (HumidityBand, error) {
	var answer HumidityBand
	top, err := EquilibriumBand(t, HighestSurfaceHumidity, b, c)
	if err != nil {
		return HumidityBand{}, err
	}
	// What is said of the EMC is said of that in the dampest air.
	top.Notes.Warnings = slices.DeleteFunc(top.Notes.Warnings, func(w method.Warning) bool { return w.Input == "mc_pct" })
	answer.Notes.Merge(top.Notes)
	answer.Notes.Rest(&rowInverse)
	if !(mc > 0 && mc <= top.Moisture.Value) {
		limit := method.Between(0, quantity.RoundedDown(top.Moisture.Value.Percent(), 1), "%")
		return HumidityBand{}, &method.Error{Code: method.OutOfRange, Input: "mc_pct", Limit: limit,
			Detail: fmt.Sprintf("no air at %s below 98 %% RH keeps this wood at %.1f %%; it must be %s", t.Format("C"), mc.Percent(), limit)}
	}
	at := func(end func(quantity.Band[quantity.Moisture]) quantity.Moisture) float64 {
		low, high := 0.0, HighestSurfaceHumidity
		for high-low > 1e-10 {
			middle := (low + high) / 2
			e, err := EquilibriumBand(t, middle, b, c)
			if err != nil || end(e.Moisture) > mc { // t and b were accepted above
				high = middle
			} else {
				low = middle
			}
		}
		return math.Min((low+high)/2, HighestSurfaceHumidity)
	}
	answer.RH = quantity.Band[float64]{
		Value: at(func(m quantity.Band[quantity.Moisture]) quantity.Moisture { return m.Value }),
		Low:   at(func(m quantity.Band[quantity.Moisture]) quantity.Moisture { return m.High }),
		High:  at(func(m quantity.Band[quantity.Moisture]) quantity.Moisture { return m.Low }),
	}
	return answer, nil
}
