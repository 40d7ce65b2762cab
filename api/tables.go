package api

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
	"latewood/woodphys/section"
	"latewood/woodphys/sorption"
)

// tables is what the service looks things up in; it is built once and never
// changed.
type tables struct {
	species *species.Tables
	version string
	woods   map[string]*wood // by id
	methods []*method.Method
	losses  losses // usual ones of the shop
}

func loadTables() (*tables, error) {
	loaded, err := species.Default()
	if err != nil {
		return nil, err
	}
	t := &tables{species: loaded, version: loaded.DataVersion(), woods: map[string]*wood{}}
	if t.losses, err = lossesOf(loaded); err != nil {
		return nil, err
	}
	for _, w := range loaded.Woods() {
		t.woods[w.ID] = fromTables(w)
	}
	t.methods = slices.Concat(air.Methods(), sorption.Methods(), moisture.Methods(), movement.Methods(), drying.Methods(), resaw.Methods(), readiness.Methods(), section.Methods(), laminate.Methods(), inservice.Methods())
	return t, nil
}
