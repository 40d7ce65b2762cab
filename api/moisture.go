package api

import (
	"context"

	"latewood/woodphys/method"
)

// MoistureRequest asks for the moisture content from one or more readings.
type MoistureRequest struct {
	Species  string    `json:"species,omitempty" validate:"max=100" description:"id or name; needed for size_and_weight without a specific gravity"`
	Readings []Reading `json:"readings" validate:"required,min=1,max=50,dive" description:"each has exactly one of the members that name a way of reading"`
}

// MoistureResult is each estimate, and all together where they can be combined.
type MoistureResult struct {
	Estimates []Estimate `json:"estimates" required:"true" nullable:"false" description:"in the order of the readings"`
	Combined  *Estimate  `json:"combined,omitempty" description:"of the readings that speak for the whole section, weighted by their certainty"`
	Gradient  *Gradient  `json:"gradient,omitempty" description:"when the core and the shell were read"`
}

func computeMoisture(_ context.Context, t *tables, req *MoistureRequest) (MoistureResult, method.Notes, error) {
	var notes method.Notes
	wood, noWood := t.optionalWood(req.Species)
	read, err := readAll(req.Readings, wood, "readings", &notes)
	if err := besides(noWood, err); err != nil {
		return MoistureResult{}, notes, err
	}
	result := MoistureResult{Estimates: make([]Estimate, 0, len(read.all))}
	for i := range read.all {
		result.Estimates = append(result.Estimates, describeEstimate(read.all[i], read.remarks[i]))
	}
	if read.combined != nil {
		combined := describeEstimate(*read.combined, "")
		result.Combined = &combined
	}
	if read.gradient != nil {
		result.Gradient = describeGradient(read.gradient)
	}
	return result, notes, nil
}
