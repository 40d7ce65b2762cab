package sorption

import (
	"fmt"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// EquilibriumMoisture returns the moisture content at which wood neither gains
// nor loses moisture in air of temperature t (-40 to 120 degC, fitted over 0 to
// 100) and relative humidity rh (fraction 0 to 1, over liquid water below 0 degC
// too). It is the printed middle curve for all species.
//
// Errors: *method.Error with input "temperature" or "rh_pct" out of range or NaN.
// Accuracy: 0.06 %MC against the printed table (rounding); about 1 %MC between
// species; +/-8 % of the value when the history of the piece is unknown. At
// rh = 1 it gives 28.8 %MC at 20 degC, a little below the nominal fibre
// saturation of 30; for a bare surface use Isotherm.Surface.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5 (from memory).
func EquilibriumMoisture(t quantity.Temperature, rh float64) (quantity.Moisture, error) {
	if _, err := rowEMC.Check("temperature", t.Celsius()); err != nil {
		return 0, err
	}
	if _, err := rowEMC.Check("rh_pct", rh*100); err != nil {
		return 0, err
	}
	return NewIsotherm(t).At(rh), nil
}

// RelativeHumidityFor returns the relative humidity (fraction 0 to 1) of air of
// temperature t (-40 to 120 degC) in which wood settles at moisture content mc:
// the inverse of EquilibriumMoisture to 1e-12.
//
// Errors: *method.Error with input "temperature" or "mc_pct" out of range or
// NaN, also when mc lies above the EMC of saturated air at t.
// Accuracy: 1 %MC between species is 5 to 7 %RH from 20 to 60 % RH, 4 at 70 and
// 2 at 90 % RH.
//
// Source: inversion of Wood Handbook FPL-GTR-190 eq. 4-5.
func RelativeHumidityFor(t quantity.Temperature, mc quantity.Moisture) (float64, error) {
	if _, err := rowInverse.Check("temperature", t.Celsius()); err != nil {
		return 0, err
	}
	if _, err := rowInverse.Check("mc_pct", mc.Percent()); err != nil {
		return 0, err
	}
	curve := NewIsotherm(t)
	highest := curve.At(1)
	if float64(mc) > float64(highest)*(1+1e-12) {
		limit := fmt.Sprintf("at most %.1f %%MC", highest.Percent())
		return 0, &method.Error{Code: method.OutOfRange, Input: "mc_pct", Limit: limit,
			Detail: fmt.Sprintf("no air keeps wood at %.1f %%MC at %s; saturated air gives %.1f %%MC", mc.Percent(), t.Format("C"), highest.Percent())}
	}
	return curve.Inverse(mc), nil
}
