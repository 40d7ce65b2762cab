package year

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
)

// AssemblyMovementRequest asks for the movement figures of a whole assembly.
type AssemblyMovementRequest struct {
	Room     *shelf.Room      `json:"room,omitempty" description:"the air that the finished work lives in: the driest and the wettest state of each part are those of its year in this room. Give this, or driest_condition with wettest_condition"`
	Driest   *shelf.Condition `json:"driest_condition,omitempty" description:"driest condition, in which all parts come to rest. Goes with wettest_condition, in place of room"`
	Wettest  *shelf.Condition `json:"wettest_condition,omitempty" description:"wettest condition, in which all parts come to rest. Goes with driest_condition"`
	Build    *shelf.Condition `json:"build_condition,omitempty" description:"condition of the parts at the build, of each that has none of its own. Left out: each has its own"`
	Parts    []ServicePart    `json:"parts" validate:"required,min=1,max=60,dive" description:"the parts of the work"`
	Pairs    []JointPair      `json:"pairs,omitempty" validate:"max=100,dive" description:"parts that meet with a clearance between them and stay loose. Left out: none"`
	Glued    []GluedJoint     `json:"glued_joints,omitempty" validate:"max=100,dive" description:"parts that are glued to each other, which hold each other from moving. Left out: none"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// Joins says which members go together.
func (*AssemblyMovementRequest) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"room"}, {"driest_condition", "wettest_condition"}},
		Needs:  map[string][]string{"driest_condition": {"wettest_condition"}, "wettest_condition": {"driest_condition"}},
		NotAll: [][]string{{"room", "driest_condition"}, {"room", "wettest_condition"}}}
}

// System is the one that the request asks its answer in.
func (req *AssemblyMovementRequest) System() string { return req.ReportIn }

// Light reports that no year is simulated.
func (req *AssemblyMovementRequest) Light() bool { return req.Room == nil }

// ComputeFigures answers the movement figures of a whole assembly.
func ComputeFigures(ctx context.Context, t *shelf.Tables, req *AssemblyMovementRequest) (*AssemblyMovementResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	room, noExtremes := req.extremes(t, report, &notes)
	read := partsOf(t, req.Build, &notes)
	parts, noParts := read.read(req.Parts)
	var notSimulable error
	if req.Room != nil {
		notSimulable = read.simulable(parts)
	}
	meetings, noPairs := meetingsOf(req.Pairs, req.Parts)
	joints, noJoints := jointsOf(req.Glued, req.Parts)
	if err := errors.Join(noExtremes, noParts, notSimulable, noPairs, noJoints); err != nil {
		return nil, notes, err
	}
	var air *inservice.Room
	if room != nil {
		air = room.Room
	} else if err := req.atRest(parts); err != nil {
		return nil, notes, err
	}
	season := inservice.Season{Work: shelf.Simulation(ctx)}
	figures, err := season.FiguresOf(ctx, air, pieces(parts), meetings, joints)
	if err != nil {
		return nil, notes, report.LimitsOf(req.pointed(err))
	}
	notes.Merge(wire.AtMembers(figures.Notes, req.pointed))
	idle(req.Parts, req.Room != nil, true, &notes)
	if req.Room != nil {
		tellBare(req.Parts, &notes)
	}
	return describeFigures(room, parts, req, &figures, meetings, report), notes, nil
}

// extremes reads where the driest and the wettest state come from; nil without
// a room.
func (req *AssemblyMovementRequest) extremes(t *shelf.Tables, report wire.Reporter, notes *method.Notes) (*lived, error) {
	switch {
	case req.Room != nil && (req.Driest != nil || req.Wettest != nil):
		return nil, wire.Contradictory("room", "give room, or driest_condition and wettest_condition, not both")
	case req.Room != nil:
		return roomFor(t, req.Room, report, notes)
	case req.Driest == nil && req.Wettest == nil:
		return nil, wire.Missing("room", "give room, or driest_condition and wettest_condition")
	case req.Driest == nil:
		return nil, wire.Missing("driest_condition", "driest_condition goes with wettest_condition")
	case req.Wettest == nil:
		return nil, wire.Missing("wettest_condition", "wettest_condition goes with driest_condition")
	}
	_, dry := req.Driest.Moisture("driest_condition", nil, &method.Notes{})
	_, wet := req.Wettest.Moisture("wettest_condition", nil, &method.Notes{})
	return nil, errors.Join(dry, wet)
}

// atRest tells each part where it comes to rest.
func (req *AssemblyMovementRequest) atRest(parts []*part) (err error) {
	for _, p := range parts {
		if p.Driest, err = req.Driest.Moisture("/driest_condition", p.wood, &p.Notes); err != nil {
			return err
		}
		if p.Wettest, err = req.Wettest.Moisture("/wettest_condition", p.wood, &p.Notes); err != nil {
			return err
		}
		p.InAirs = req.Driest.InAir() && req.Wettest.InAir()
	}
	return nil
}

// pointed points an error of the physics at the members of the request.
func (req *AssemblyMovementRequest) pointed(err error) error {
	var names [][2]string
	for i := range req.Parts {
		at := "parts/" + strconv.Itoa(i) + "/"
		names = append(names, [2]string{at + "driest", "/driest_condition"}, [2]string{at + "wettest", "/wettest_condition"})
	}
	for i := range req.Pairs {
		at := "pairs/" + strconv.Itoa(i) + "/"
		names = append(names, [2]string{at + "play_least", at + "min_clearance"},
			[2]string{at + "play_most", at + "max_clearance"}, [2]string{at + "outer/to_driest", at + "outer"},
			[2]string{at + "outer/to_wettest", at + "outer"}, [2]string{at + "inner/to_driest", at + "inner"}, [2]string{at + "inner/to_wettest", at + "inner"},
			[2]string{at + "outer/over", at + "outer/size"})
	}
	return wire.Under("", pointed(err, req.Parts), names...)
}
