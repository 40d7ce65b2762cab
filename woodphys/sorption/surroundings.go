package sorption

import (
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Surroundings are an air in full, with where wood of unknown history settles in it.
type Surroundings struct {
	air.State
	EMC quantity.Band[quantity.Moisture]
	// WetBulb is that of an aspirated psychrometer, IceBulb whether it would carry ice.
	// DewPoint is over water. FrostPoint is where vapour would settle as ice, below 0 degC
	// only. A point that does not exist in so dry an air is nil.
	WetBulb, DewPoint, FrostPoint *quantity.Temperature
	IceBulb                       bool
}

// Airs are an air and what it becomes at another temperature with its vapour kept.
type Airs struct {
	Air    Surroundings
	Heated *Surroundings // nil where no other temperature was asked for
	Notes  method.Notes
}

// AirIn returns everything that follows from an air s and, where heatedTo is not nil
// (-60 to 120 degC), from what it becomes at that temperature.
//
// Errors: as EquilibriumBand and air.Heated, of the heated air under heated/.
// Accuracy: that of the methods of package air and of EquilibriumBand.
//
// Source: package air, EquilibriumBand.
func AirIn(s air.State, heatedTo *quantity.Temperature) (Airs, error) {
	var out Airs
	var err error
	if out.Air, err = surroundings(s, &out.Notes); err != nil || heatedTo == nil {
		return out, err
	}
	heated, err := air.Heated(s, *heatedTo)
	if err != nil {
		return Airs{}, method.Below(err, "heated")
	}
	after, err := surroundings(heated, &out.Notes)
	if err != nil {
		return Airs{}, method.Below(err, "heated")
	}
	out.Heated = &after
	return out, nil
}

func surroundings(s air.State, notes *method.Notes) (Surroundings, error) {
	notes.Merge(s.Notes)
	out := Surroundings{State: s}
	emc, err := EquilibriumBand(s.DryBulb, s.RelativeHumidity, Middle, Curves{})
	if err != nil {
		return Surroundings{}, err
	}
	notes.Merge(emc.Notes)
	out.EMC = emc.Moisture
	if wet, iced, err := s.WetBulb(); err == nil {
		out.WetBulb, out.IceBulb = &wet, iced
	}
	if dew, err := s.DewPoint(); err == nil {
		out.DewPoint = &dew
	}
	if frost, below, err := s.FrostPoint(); err == nil && below {
		out.FrostPoint = &frost
	}
	return out, nil
}
