package year

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
)

// YearInServiceRequest asks how finished parts live through the year of a room.
type YearInServiceRequest struct { //nolint:revive // the contract has this name
	Room     *shelf.Room      `json:"room" validate:"required" description:"the air that the finished work lives in"`
	Build    *shelf.Condition `json:"build_condition" validate:"required" description:"condition of the parts at the build, of each that has none of its own"`
	Parts    []ServicePart    `json:"parts" validate:"required,min=1,max=60,dive" description:"the parts, each by itself"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (r *YearInServiceRequest) System() string { return r.ReportIn }

// ComputeInService answers how finished parts live through the year of a room.
func ComputeInService(ctx context.Context, t *shelf.Tables,
	req *YearInServiceRequest) (*YearInServiceResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	room, noRoom := roomFor(t, req.Room, report, &notes)
	read := partsOf(t, req.Build, &notes)
	parts, noParts := read.read(req.Parts)
	if err := errors.Join(noRoom, noParts, read.simulable(parts)); err != nil {
		return nil, notes, err
	}
	season := inservice.Season{Work: shelf.Simulation(ctx)}
	lives, err := season.Live(ctx, room.Room, pieces(parts))
	if err != nil {
		return nil, notes, pointed(err, req.Parts)
	}
	notes.Merge(lives.Notes)
	idle(req.Parts, true, false, &notes)
	return describeInService(room, parts, &lives, report), notes, nil
}
