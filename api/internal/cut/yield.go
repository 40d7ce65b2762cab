package cut

import (
	"context"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// YieldRequest asks what a billet yields with a saw.
type YieldRequest struct {
	Wood     *shelf.WoodAsked    `json:"wood,omitempty" description:"for cautions and for the shrinkage still to come"`
	Billet   *shelf.Billet       `json:"billet" validate:"required" needs:"length width thickness"`
	Saw      *shelf.Saw          `json:"saw" validate:"required"`
	Part     *shelf.PlatePart    `json:"part" validate:"required"`
	Spoiled  []shelf.SpoiledLeaf `json:"spoiled,omitempty" validate:"max=1000,dive"`
	ReportIn string              `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *YieldRequest) System() string { return req.ReportIn }

// Bulk is how many bytes the answer holds at most.
func (req *YieldRequest) Bulk() int { return shelf.YieldBytes(req.Billet, req.Part) }

// ComputeYield answers what a billet yields.
func ComputeYield(_ context.Context, t *shelf.Tables, req *YieldRequest) (shelf.YieldResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.OptionalWood(req.Wood, &notes)
	result, err := (&shelf.Cutting{Billet: req.Billet, Saw: req.Saw, Part: req.Part, Spoiled: req.Spoiled,
		Report: wire.ReportIn(req.ReportIn)}).Yield(t, w, &notes)
	if err := shelf.Besides(noWood, err); err != nil {
		return shelf.YieldResult{}, notes, err
	}
	t.Cautions(w, &notes)
	notes.Warn(shelf.ResawCaution)
	return result, notes, nil
}
