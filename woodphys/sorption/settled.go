package sorption

import (
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Settled is a wood at rest in an air.
type Settled struct {
	Air        air.State
	EMC        quantity.Band[quantity.Moisture]
	Forms      []EquationResult                 // what each published equation gives for this wood
	Saturation quantity.Band[quantity.Moisture] // fibre saturation at the temperature of the air
	// RH is the band of the relative humidity (fraction 0 to 0.98) that keeps the wood
	// at a wanted EMC; nil where the air was given.
	RH    *quantity.Band[float64]
	Notes method.Notes
}

// SettleIn returns where a wood settles in an air, on branch b of the sorption loop. The
// wood needs FibreSaturation with its spread, or LowerEMC. The notes are without those
// of the air.
//
// Errors: as EquilibriumBand and FibreSaturation.
// Accuracy: as EquilibriumBand; of the fibre saturation the stated spread.
//
// Source: EquilibriumBand and FibreSaturation.
func SettleIn(s air.State, b Branch, w wood.Wood) (Settled, error) {
	curves := CurvesOf(&w)
	emc, err := EquilibriumBand(s.DryBulb, s.RelativeHumidity, b, curves)
	if err != nil {
		return Settled{}, err
	}
	m, err := curves.SaturationAt(s.DryBulb)
	if err != nil {
		return Settled{}, err
	}
	out := Settled{Air: s, EMC: emc.Moisture, Forms: emc.Forms, Notes: emc.Notes}
	spread := w.FibreSaturationSpread
	if spread == 0 {
		spread = quantity.Z90 * curves.SaturationSD
	}
	out.Saturation = quantity.Band[quantity.Moisture]{Value: m, Low: m - spread, High: m + spread}
	out.Notes.Rest(&rowSaturation)
	return out, nil
}

// KeepAt returns the air of temperature t (-40 to 120 degC), at sea level, that keeps a
// wood at the EMC mc, on branch b of the sorption loop, and the wood in it.
//
// Errors: as HumidityFor and SettleIn.
// Accuracy: as HumidityFor.
//
// Source: HumidityFor and SettleIn.
func KeepAt(t quantity.Temperature, mc quantity.Moisture, b Branch, w wood.Wood) (Settled, error) {
	humidity, err := HumidityFor(t, mc, b, CurvesOf(&w))
	if err != nil {
		return Settled{}, err
	}
	s, err := air.FromRelativeHumidity(t, humidity.RH.Value, air.SeaLevelPressure)
	if err != nil {
		return Settled{}, err
	}
	out, err := SettleIn(s, b, w)
	if err != nil {
		return Settled{}, err
	}
	notes := humidity.Notes
	notes.Merge(out.Notes)
	out.RH, out.Notes = &humidity.RH, notes
	return out, nil
}
