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

// FiguresRequest asks for the movement figures of a whole assembly.
type FiguresRequest struct {
	Room     *shelf.Room       `json:"room,omitempty" description:"the driest and the wettest state of each part are those of its year in this room; or give driest and wettest"`
	Driest   *shelf.Conditions `json:"driest_condition,omitempty" description:"with wettest_condition, in place of room: all parts come to rest here"`
	Wettest  *shelf.Conditions `json:"wettest_condition,omitempty"`
	MadeAt   *shelf.Conditions `json:"build_condition" validate:"required" description:"moisture content at the build, of all parts without their own; exactly one of mc_pct, air and green"`
	Parts    []ServicePart     `json:"parts" validate:"required,min=1,max=60,dive"`
	Pairs    []MeetingPair     `json:"pairs,omitempty" validate:"max=100,dive" description:"parts that meet with a clearance between them"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *FiguresRequest) System() string { return req.ReportIn }

// Light reports that no year is simulated.
func (req *FiguresRequest) Light() bool { return req.Room == nil }

// ComputeFigures answers the movement figures of a whole assembly.
func ComputeFigures(ctx context.Context, t *shelf.Tables, req *FiguresRequest) (*FiguresResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	room, noExtremes := req.extremes(t, report, &notes)
	read := partsOf(t, req.MadeAt, &notes)
	parts, noParts := read.read(req.Parts)
	var notSimulable error
	if req.Room != nil {
		notSimulable = read.simulable(parts)
	}
	meetings, noPairs := meetingsOf(req.Pairs, req.Parts)
	if err := errors.Join(noExtremes, noParts, notSimulable, noPairs); err != nil {
		return nil, notes, err
	}
	var air *inservice.Room
	if room != nil {
		air = room.Room
	} else if err := req.atRest(parts); err != nil {
		return nil, notes, err
	}
	season := inservice.Season{Work: shelf.Simulation(ctx)}
	figures, err := season.FiguresOf(ctx, air, pieces(parts), meetings)
	if err != nil {
		return nil, notes, req.pointed(err)
	}
	notes.Merge(figures.Notes)
	return describeFigures(room, parts, req.Pairs, &figures, report), notes, nil
}

// extremes reads where the driest and the wettest state come from; nil without
// a room.
func (req *FiguresRequest) extremes(t *shelf.Tables, report wire.Reporter, notes *method.Notes) (*lived, error) {
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
	_, dry := req.Driest.Moisture("driest_condition", false, &method.Notes{})
	_, wet := req.Wettest.Moisture("wettest_condition", false, &method.Notes{})
	return nil, errors.Join(dry, wet)
}

// atRest tells each part where it comes to rest.
func (req *FiguresRequest) atRest(parts []*part) (err error) {
	for _, p := range parts {
		if p.Driest, err = req.Driest.Moisture("driest_condition", p.Wood.LowerEMC, &p.Notes); err != nil {
			return err
		}
		if p.Wettest, err = req.Wettest.Moisture("wettest_condition", p.Wood.LowerEMC, &p.Notes); err != nil {
			return err
		}
		p.InAirs = req.Driest.InAir() && req.Wettest.InAir()
	}
	return nil
}

// pointed points an error of the physics at the members of the request.
func (req *FiguresRequest) pointed(err error) error {
	var names [][2]string
	for i := range req.Parts {
		names = append(names, [2]string{"parts/" + strconv.Itoa(i) + "/wettest", "/wettest_condition"})
	}
	for i := range req.Pairs {
		at := "pairs/" + strconv.Itoa(i) + "/"
		names = append(names, [2]string{at + "play_least", at + "least"}, [2]string{at + "play_most", at + "most"})
	}
	return wire.Under("", pointed(err, req.Parts), names...)
}
