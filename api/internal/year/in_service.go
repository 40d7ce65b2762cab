package year

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
)

// InServiceRequest asks how finished parts live through the year of a room.
type InServiceRequest struct {
	Room     *shelf.Room       `json:"room" validate:"required"`
	MadeAt   *shelf.Conditions `json:"build_condition" validate:"required" description:"moisture content at the build, of all parts without their own; exactly one of mc_pct, air and green"`
	Parts    []ServicePart     `json:"parts" validate:"required,min=1,max=12,dive"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *InServiceRequest) System() string { return r.ReportIn }

// ComputeInService answers how finished parts live through the year of a room.
func ComputeInService(ctx context.Context, t *shelf.Tables,
	req *InServiceRequest) (*InServiceResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	room, noRoom := roomFor(t, req.Room, report, &notes)
	read := partsOf(t, req.MadeAt, &notes)
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
	return describeInService(room, parts, &lives, report), notes, nil
}
