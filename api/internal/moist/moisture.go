package moist

import (
	"context"

	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

// MoistureRequest asks for the moisture content from one or more readings.
type MoistureRequest struct {
	Wood     *shelf.WoodAsked `json:"wood,omitempty" description:"size_and_weight needs its specific gravity"`
	Readings []shelf.Reading  `json:"readings" validate:"required,min=1,max=50,dive" description:"of one piece; its kind says how each was taken. A weight alone tells nothing here"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (req *MoistureRequest) System() string { return req.ReportIn }

// MoistureResult is each estimate, and all together where they can be combined.
type MoistureResult struct {
	Summary   string           `json:"summary" required:"true" description:"the answer in a sentence"`
	Estimates []shelf.Estimate `json:"estimates" required:"true" nullable:"false" description:"in the order of the readings, without weights"`
	Combined  *shelf.Estimate  `json:"combined,omitempty" description:"of the readings that speak for the whole section, weighted by their certainty"`
	Gradient  *shelf.Gradient  `json:"gradient,omitempty" description:"when the core and the shell were read"`
}

// ComputeMoisture answers the moisture content from readings.
func ComputeMoisture(_ context.Context, t *shelf.Tables, req *MoistureRequest) (MoistureResult, method.Notes, error) {
	var notes method.Notes
	wood, noWood := t.OptionalWood(req.Wood, &notes)
	read, err := shelf.ReadAll(req.Readings, wood, "readings", &notes)
	if err := shelf.Besides(noWood, err); err != nil {
		return MoistureResult{}, notes, err
	}
	result := MoistureResult{Estimates: make([]shelf.Estimate, 0, len(read.All))}
	for i := range read.All {
		result.Estimates = append(result.Estimates, shelf.DescribeEstimate(read.All[i], read.Remarks[i]))
	}
	if read.Combined != nil {
		combined := shelf.DescribeEstimate(*read.Combined, "")
		result.Combined = &combined
	}
	if read.Gradient != nil {
		result.Gradient = shelf.DescribeGradient(read.Gradient)
	}
	result.Summary = result.said()
	return result, notes, nil
}

// said is the answer in words.
func (r *MoistureResult) said() string {
	told := "no reading speaks for the whole section"
	if r.Combined != nil {
		told = "it holds " + r.Combined.MC.Said()
	}
	if r.Gradient != nil {
		told += "; " + r.Gradient.Detail
	}
	return told
}
