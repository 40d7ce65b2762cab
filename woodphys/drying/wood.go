package drying

import (
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// medium is what the diffusion through a wood depends on.
type medium struct {
	gravity  float64           // basic specific gravity
	fsp      quantity.Moisture // at 20 degC
	emc      float64           // EMC over that of the isotherm of the wood
	pressure quantity.Pressure // of the air
}

// mediumOf is a wood in air of a pressure; the zero pressure is that at sea level, and
// what is not known of the wood is the usual.
func mediumOf(w *wood.Wood, p quantity.Pressure) medium {
	m := medium{gravity: w.SpecificGravity.Value, fsp: w.FibreSaturation, emc: w.EMCScale(), pressure: p}
	if m.fsp == 0 {
		m.fsp = sorption.NominalFibreSaturation
	}
	if m.pressure == 0 {
		m.pressure = air.SeaLevelPressure
	}
	return m
}

// curve is the isotherm of the wood at a temperature.
func (m *medium) curve(t quantity.Temperature) sorption.Isotherm {
	return sorption.Curves{Saturation: m.fsp, Factor: m.emc}.At(t, sorption.Middle)
}

// inputs are the medium as the row names it.
func (m *medium) inputs() []named {
	return []named{
		{"specific_gravity", m.gravity}, {"fibre_saturation_pct", m.fsp.Percent()},
		{"emc_factor", m.emc}, {"pressure", m.pressure.Pascals()},
	}
}

// named is a value with its name in a row.
type named struct {
	name  string
	value float64
}

func (m *medium) check(notes *method.Notes) error {
	for _, in := range m.inputs() {
		if err := notes.Use(&rowDiffusivity, in.name, in.value); err != nil {
			return err
		}
	}
	return nil
}
