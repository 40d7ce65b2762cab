package api

import (
	"context"

	"latewood/woodphys/method"
)

// YieldRequest asks what a billet yields with a saw.
type YieldRequest struct {
	Species  string        `json:"species,omitempty" validate:"max=100" description:"id or name; for cautions and for the shrinkage still to come"`
	Billet   *Billet       `json:"billet" validate:"required"`
	Saw      *Saw          `json:"saw" validate:"required"`
	Part     *PlatePart    `json:"part" validate:"required"`
	Spoiled  []SpoiledLeaf `json:"spoiled,omitempty" validate:"max=1000,dive"`
	ReportIn string        `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// system is the one that the request asks its answer in.
func (req *YieldRequest) system() string { return req.ReportIn }

func computeYield(_ context.Context, t *tables, req *YieldRequest) (YieldResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.optionalWood(req.Species)
	result, err := (&cutting{req.Billet, req.Saw, req.Part, req.Spoiled, reportIn(req.ReportIn)}).yield(t, w, &notes)
	if err := besides(noWood, err); err != nil {
		return YieldResult{}, notes, err
	}
	t.cautions(w, &notes)
	notes.Warn(resawCaution)
	return result, notes, nil
}
