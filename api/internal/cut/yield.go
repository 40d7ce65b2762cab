package cut

import (
	"context"
	"errors"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// LeafYieldRequest asks what a billet yields with a saw.
type LeafYieldRequest struct {
	Billet   *shelf.Billet        `json:"billet" validate:"required" needs:"length width thickness" description:"the rough piece, with its facing and its trims"`
	Saw      *shelf.Saw           `json:"saw" validate:"required" needs:"kerf|usual_kerf" description:"what its cuts take"`
	Part     *shelf.Part          `json:"part" validate:"required" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size" description:"what is wanted of the billet; its width is that of the piece as sawn"`
	Rejected []shelf.RejectedLeaf `json:"rejected_leaves,omitempty" validate:"max=1000,dive" description:"leaves that turned out to be faulty, which make no set. Left out: none"`
	ReportIn string               `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer"`
}

// System is the one that the request asks its answer in.
func (req *LeafYieldRequest) System() string { return req.ReportIn }

// Bulk is how many bytes the answer holds at most.
func (req *LeafYieldRequest) Bulk() int { return shelf.YieldBytes(req.Billet, req.Part) }

// ComputeYield answers what a billet yields.
func ComputeYield(_ context.Context, t *shelf.Tables, req *LeafYieldRequest) (shelf.LeafYieldResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := req.Billet.WoodOf(t, "billet", &notes)
	cutting := &shelf.Cutting{Billet: req.Billet, Saw: req.Saw, Part: req.Part, Rejected: req.Rejected,
		Report: wire.ReportIn(req.ReportIn)}
	result, err := cutting.Yield(t, w, &notes)
	if err := shelf.Besides(noWood, errors.Join(err, wire.Under("billet", req.Billet.CheckIdle()))); err != nil {
		return shelf.LeafYieldResult{}, notes, err
	}
	var unused shelf.NotUsed
	cutting.Unused(&unused)
	unused.Tell(&notes)
	req.tellLeftOut(&notes)
	t.CautionsAt("billet/wood", w, &notes)
	notes.Warn(shelf.ResawCaution)
	return result, notes, nil
}

// tellLeftOut warns of what a plan counts and a yield does not, so that their numbers of
// leaves may differ.
func (req *LeafYieldRequest) tellLeftOut(notes *method.Notes) {
	var left []string
	for _, one := range []struct {
		has  bool
		name string
	}{{len(req.Billet.Zones) > 0, "zones"}, {req.Billet.Cup != nil, "cup"}, {req.Billet.Bow != nil, "bow"}, {req.Billet.Twist != nil, "twist"},
		{req.Part.MinRingAngle != nil, "the least ring angle"}} {
		if one.has {
			left = append(left, one.name)
		}
	}
	if len(left) > 0 {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "billet", Detail: "the leaves are counted as of a clear, flat billet, without " +
			strings.Join(left, ", ") + "; /v1/resaw-plan counts these and may find fewer"})
	}
}
