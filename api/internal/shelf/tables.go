package shelf

import (
	"slices"

	"latewood/species"
	"latewood/woodphys/air"
	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/movement"
	"latewood/woodphys/readiness"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
	"latewood/woodphys/resaw/plan"
	"latewood/woodphys/sawlog"
	"latewood/woodphys/section"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Tables is what the service looks things up in; it is built once and never
// changed.
type Tables struct {
	Species *species.Tables
	Version string
	Woods   map[string]*Wood // by id
	General wood.Wood        // what is known of woods in general: the fibre saturation
	Methods []*method.Method
	Losses  Losses // usual ones of the shop
}

// LoadTables loads what the service looks things up in.
func LoadTables() (*Tables, error) {
	loaded, err := species.Default()
	if err != nil {
		return nil, err
	}
	t := &Tables{Species: loaded, Version: loaded.DataVersion(), Woods: map[string]*Wood{}}
	if t.Losses, err = lossesOf(loaded); err != nil {
		return nil, err
	}
	for _, w := range loaded.Woods() {
		t.Woods[w.ID] = fromTables(loaded, w)
	}
	saturates(&t.General, loaded.GeneralFibreSaturation())
	t.Methods = slices.Concat(air.Methods(), sorption.Methods(), moisture.Methods(), movement.Methods(), drying.Methods(),
		match.Methods(), resaw.Methods(), plan.Methods(), sawlog.Methods(), readiness.Methods(), section.Methods(), laminate.Methods(),
		inservice.Methods())
	return t, nil
}
