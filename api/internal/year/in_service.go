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

// YearInServiceRequest asks how finished parts live through the year of a room.
type YearInServiceRequest struct { //nolint:revive // the contract has this name
	Room      *shelf.Room       `json:"room" validate:"required" description:"the air that the finished work lives in"`
	Build     *shelf.Condition  `json:"build_condition,omitempty" description:"condition of the parts and laminates at the build, of each that has none of its own. Left out: each has its own"`
	Parts     []ServicePart     `json:"parts,omitempty" validate:"omitempty,max=60,dive" description:"the parts, each by itself. Left out or empty: only laminates"`
	Laminates []ServiceLaminate `json:"laminates,omitempty" validate:"omitempty,max=8,dive" description:"finished work of glued layers: a cap on a body, a neck of staves. Left out or empty: only parts"`
	ReportIn  string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// Joins says which members go together.
func (*YearInServiceRequest) Joins() wire.Joined {
	return wire.Joined{AnyOf: [][]string{{"parts"}, {"laminates"}}}
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
	laminates, noLaminates := read.laminates(req.Laminates)
	noLaminates = errors.Join(noLaminates, apartFromParts(req))
	if len(req.Parts)+len(req.Laminates) == 0 {
		noParts = wire.Missing("parts", "give parts, laminates, or both")
	}
	if err := errors.Join(noRoom, noParts, read.simulable(parts), noLaminates); err != nil {
		return nil, notes, err
	}
	season := inservice.Season{Work: shelf.Simulation(ctx)}
	lives, err := season.Live(ctx, room.Room, pieces(parts), allLayered(laminates))
	if err != nil {
		return nil, notes, req.pointed(err)
	}
	notes.Merge(wire.AtMembers(lives.Notes, req.pointed))
	idle(req.Parts, true, false, &notes)
	idleLaminates(req.Laminates, &notes)
	tellAssumed(req, report, &notes)
	return describeInService(room, parts, laminates, &lives, report), notes, nil
}

// apartFromParts refuses a laminate that is called as a part is: warnings name both by their ids.
func apartFromParts(req *YearInServiceRequest) error {
	named := map[string]int{}
	for i := range req.Parts {
		named[req.Parts[i].ID] = i + 1
	}
	var wrong []error
	for i := range req.Laminates {
		id := req.Laminates[i].ID
		if part := named[id]; id != "" && part > 0 {
			wrong = append(wrong, &method.Error{Code: method.Duplicate, Input: "laminates/" + strconv.Itoa(i) + "/id",
				Detail: "part " + strconv.Itoa(part) + " and laminate " + strconv.Itoa(i+1) + " of the lists have the same id " + strconv.Quote(id)})
		}
	}
	return errors.Join(wrong...)
}

// tellAssumed tells what is taken where it was not given: bare faces, and the usual glue.
func tellAssumed(req *YearInServiceRequest, report wire.Reporter, notes *method.Notes) {
	tellBare(req.Parts, notes)
	for i := range req.Laminates {
		l := &req.Laminates[i]
		var own method.Notes
		if l.Finish == nil {
			own.Warn(bareTaken)
		}
		if len(l.Layers) > 1 {
			l.Glue.TellAssumed(report, &own)
		}
		notes.MergeFor("laminates/"+strconv.Itoa(i), calledBy(l.Name, l.ID, "laminate", i), own)
	}
}

// pointed points an error of the physics at the members of the request.
func (r *YearInServiceRequest) pointed(err error) error {
	var names [][2]string
	for i := range r.Laminates {
		names = append(names, r.Laminates[i].names("laminates/"+strconv.Itoa(i)+"/")...)
	}
	return wire.Under("", pointed(err, r.Parts), names...)
}
