package cut

import (
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// plate finds the plate of the table a part names.
func (r *reading) plate(part *PlanPart) (*species.Plate, error) {
	if part.Plate == "" {
		return nil, nil //nolint:nilnil // no plate is named
	}
	plate, known := r.t.Species.Plate(part.Plate)
	if !known {
		detail := "there is no plate called " + strconv.Quote(wire.Clipped(part.Plate))
		if near := r.t.Species.SuggestPlates(part.Plate, 5); len(near) > 0 {
			detail += "; did you mean " + strings.Join(near, ", ") + "?"
		} else {
			detail += "; GET /v1/part-sizes lists them"
		}
		return nil, &method.Error{Code: method.Unknown, Input: "plate", Detail: detail}
	}
	if part.Length != nil && part.Width != nil && part.Final != nil {
		return nil, wire.Contradictory("plate",
			"length, width and final_thickness replace all sizes of the plate; leave plate or some of them out")
	}
	return plate, nil
}

// fromPlate fills in what the table holds of a part, found at a place.
func (r *reading) fromPlate(part *PlanPart, plate *species.Plate, out *plan.PartKind, at string) {
	out.Length, _ = plate.Length.Get()
	out.Width, _ = plate.Width.Get()
	out.Final, _ = plate.Final.Get()
	final := plate.Final
	if strings.Contains(plate.Part, "carved") && part.Final == nil {
		out.Final, _ = plate.Rough.Get()
		final = plate.Rough
		detail := "a carved part is planned at the rough thickness of the table, " + shelf.Spoken(r.report, plate.Rough)
		if plate.Wedge() {
			detail += ", as a parallel piece; two halves split from one wedge take less wood"
		}
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/final_thickness", Detail: out.Name + ": " +
			detail})
	}
	if part.Length == nil {
		r.standIn(out.Name+", length", plate.Length)
	}
	if part.Width == nil {
		r.standIn(out.Name+", width", plate.Width)
	}
	if part.Final == nil {
		r.standIn(out.Name+", thickness", final)
	}
	least, known := plate.RingAngle.Least.Get()
	switch {
	case part.RingAngle != nil:
	case known:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/min_ring_angle_deg", Detail: out.Name +
			": makers tolerate no less than " +
			quantity.FormatNumber(least.Degrees(), 0) +
			" degrees at one edge; the plan holds no ring angle unless min_ring_angle_deg is given"})
	case plate.Quartered:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/min_ring_angle_deg", Detail: out.Name +
			": the quarter is preferred (common practice, no source); the plan holds no ring angle unless " +
			"least_ring_angle_deg is given"})
	}
}

// setOf settles how many pieces make a set and how they belong together.
func setOf(part *PlanPart, plate *species.Plate, out *plan.PartKind) {
	out.Match = plan.Match(part.Match)
	if out.Match == "" && plate != nil {
		out.Match = plan.MatchBook
		if plate.Matched == species.Unmatched {
			out.Match = plan.MatchNone
		}
	}
	switch {
	case part.Pieces != nil:
		out.Pieces = *part.Pieces
	case plate != nil:
		out.Pieces = plate.Pieces
	case out.Match == plan.MatchNone:
		out.Pieces = 1
	default:
		out.Pieces = 2
	}
	if out.Match == "" {
		out.Match = plan.MatchBook
	}
	if out.Pieces == 1 {
		out.Match = plan.MatchNone
	}
}

// tellSet warns of what was settled of a set without a word of the caller.
func (r *reading) tellSet(part *PlanPart, out *plan.PartKind, at string) {
	plate, _ := r.t.Species.Plate(part.Plate)
	taken := ""
	switch {
	case plate != nil && part.Match == "" && plate.Matched == species.EitherMatched && out.Pieces > 1:
		taken = "the table takes matched pieces or any; a set is taken as bookmatched"
	case plate != nil:
	case part.Match == "" && part.Pieces == nil:
		taken = "neither match nor pieces_per_set is given: a set is taken as a bookmatched pair, 2 pieces"
	case part.Pieces == nil:
		taken = "pieces_per_set is not given: a set is taken as " + wire.CountOf(out.Pieces, "piece")
	case part.Match == "" && out.Pieces > 1:
		taken = "match is not given: a set is taken as bookmatched"
	}
	if taken != "" {
		r.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: out.Name + ": " + taken})
	}
	if out.Match == plan.MatchNone && out.Pieces > 1 {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/match", Detail: out.Name +
			": the pieces of a set are neighbouring leaves of one blank, also with match none; order pieces that " +
			"need no neighbour with pieces_per_set 1"})
	}
}
