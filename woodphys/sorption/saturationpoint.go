package sorption

import "latewood/woodphys/quantity"

// NominalFibreSaturation is the fibre saturation point the handbook's shrinkage
// values assume. Wood Handbook FPL-GTR-190 ch. 4 (from memory); species spread
// from about 20 to 35 %MC.
const NominalFibreSaturation = 30 * quantity.PercentMC

// fibreSaturationFall is the fall of the fibre saturation point per kelvin.
// Stamm and Loughborough 1935 (from memory).
const fibreSaturationFall = 0.1 * quantity.PercentMC

// FibreSaturation returns the fibre saturation point at t (-40 to 120 degC) of
// a wood whose point at 20 degC is at20C (10 to 45 %MC): that of a wood of 30 falls by
// 0.1 %MC per kelvin, that of others in proportion, so that no isotherm crosses it. Above
// 100 degC it is held at its value there, because the fall was not observed beyond;
// below the coldest air of the printed EMC it rises with the isotherm.
//
// Errors: *method.Error with input "temperature" or "fibre_saturation_pct" out
// of range or NaN.
// Accuracy: +/-3 %MC for a species by name; methods of measuring differ by more. That
// other woods fall in proportion is an assumption.
//
// Source: Stamm and Loughborough 1935 (from memory); ColdRise in the cold.
func FibreSaturation(t quantity.Temperature, at20C quantity.Moisture) (quantity.Moisture, error) {
	if _, err := rowSaturation.Check("temperature", t.Celsius()); err != nil {
		return 0, err
	}
	if _, err := rowSaturation.Check("fibre_saturation_pct", at20C.Percent()); err != nil {
		return 0, err
	}
	above := min(max(t.Celsius(), coldestTabledC), 100) - 20
	share := 1 - fibreSaturationFall*quantity.Moisture(above)/NominalFibreSaturation
	return at20C * share * quantity.Moisture(ColdRise(t)), nil
}
