package drying

import (
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Wood is what the diffusion through one kind of wood depends on. The zero
// values of FibreSaturation, EMCFactor and Pressure stand for the usual ones.
type Wood struct {
	SpecificGravity float64           // basic: ovendry mass over green volume over water, 0.10 to 1.20
	FibreSaturation quantity.Moisture // at 20 degC, 0.15 to 0.40; 0 means 0.30
	EMCFactor       float64           // EMC over that of the printed curve, 0.5 to 1.5; 0 means 1
	Pressure        quantity.Pressure // of the air (air.StandardPressure of the altitude), 50 to 110 kPa; 0 means sea level
}

func (w Wood) complete() Wood {
	if w.FibreSaturation == 0 {
		w.FibreSaturation = sorption.NominalFibreSaturation
	}
	if w.EMCFactor == 0 {
		w.EMCFactor = 1
	}
	if w.Pressure == 0 {
		w.Pressure = air.SeaLevelPressure
	}
	return w
}

func (w Wood) check(notes *method.Notes) error {
	if err := notes.Use(&rowDiffusivity, "specific_gravity", w.SpecificGravity); err != nil {
		return err
	}
	if err := notes.Use(&rowDiffusivity, "fibre_saturation_pct", w.FibreSaturation.Percent()); err != nil {
		return err
	}
	if err := notes.Use(&rowDiffusivity, "emc_factor", w.EMCFactor); err != nil {
		return err
	}
	return notes.Use(&rowDiffusivity, "pressure", w.Pressure.Pascals())
}
