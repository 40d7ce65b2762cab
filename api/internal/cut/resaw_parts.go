package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// partsRead are the parts of a request with the ids by which the answer calls them.
type partsRead struct {
	all []plan.PartKind
	ids []string
}

// parts reads what is wanted of some billets.
func (r *reading) parts(req *ResawPlanRequest, of billetsRead) (partsRead, error) {
	var out partsRead
	var all []error
	var ids ids
	for i := range req.Parts {
		part := &req.Parts[i]
		one, err := r.part(part, i, req.Billets, of)
		id, taken := ids.of(part.ID, i, "part")
		err = errors.Join(err, taken)
		switch {
		case part.SetValue != nil:
			one.Worth = int64(*part.SetValue)
		case len(req.Parts) == 1:
			one.Worth = 1
		default:
			err = errors.Join(err, wire.Missing("set_value",
				"with several parts each needs its set_value, to be weighed against the others"))
		}
		all = append(all, wire.Under(place("parts", i), err))
		out.all, out.ids = append(out.all, one), append(out.ids, id)
	}
	return out, errors.Join(all...)
}

// part reads what is wanted of the i-th part.
func (r *reading) part(part *shelf.Part, i int, billets []shelf.Billet, of billetsRead) (plan.PartKind, error) {
	at := place("parts", i)
	read, err := part.Read(r.bench, at, "part "+strconv.Itoa(i+1))
	out := plan.PartKind{Name: read.Label, Length: read.Length, Width: read.Width, Final: read.Final,
		ThinEdge: read.ThinEdge, Flatness: read.Flattening, Pieces: read.Pieces, Match: plan.Match(read.Match), Most: part.MaxSets}
	if read.Sawn > 0 {
		out.Final, out.AsSawn = read.Sawn, true
	}
	if read.ThinEdge > 0 && part.ThinEdge == nil {
		r.bench.Usual.Note(read.Label+", thin edge", read.Row.ThinEdge)
	}
	if read.Row != nil {
		r.tellRings(part, &read, at)
	}
	if part.MinRingAngle != nil {
		out.LeastRingAngle = quantity.Angle(*part.MinRingAngle) * quantity.Degree
	}
	if part.MaxRunout != nil {
		out.MostRunoutOneIn = *part.MaxRunout
	}
	if part.MinSets != nil {
		out.Least = *part.MinSets
	}
	if out.Most != nil && *out.Most < out.Least {
		err = errors.Join(err, &method.Error{Code: method.Contradictory, Input: "max_sets", Limit: "at least " +
			strconv.Itoa(out.Least), Detail: "max_sets is less than min_sets"})
	}
	if err != nil {
		return out, err
	}
	if err := r.oversize(part, &out, at, billets, of); err != nil {
		return out, err
	}
	part.TellSet(r.bench, at, &read)
	if out.Match == plan.MatchNone && out.Pieces > 1 {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/match", Subject: out.Name, Detail: out.Name +
			": the pieces of a set are neighbouring leaves of one blank, also with match none; order pieces that " +
			"need no neighbour with pieces_per_set 1"})
	}
	return out, nil
}

// tellRings warns of the ring angle that makers want of a part of the table, found at a
// place, where the caller asks for none.
func (r *reading) tellRings(part *shelf.Part, read *shelf.PartRead, at string) {
	least, known := read.Row.RingAngle.Least.Get()
	switch {
	case part.MinRingAngle != nil:
	case known:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/min_ring_angle_deg", Subject: read.Label,
			Detail: read.Label +
				": makers tolerate no less than " +
				quantity.FormatNumber(least.Degrees(), 0) +
				" degrees at one edge; the plan holds no ring angle unless min_ring_angle_deg is given"})
	case read.Row.Quartered:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/min_ring_angle_deg", Subject: read.Label,
			Detail: read.Label +
				": the quarter is preferred (common practice, no source); the plan holds no ring angle unless " +
				"min_ring_angle_deg is given"})
	}
}

// oversize adds the shrinkage still to come to thickness and width: the largest among
// the billets.
func (r *reading) oversize(part *shelf.Part, out *plan.PartKind, at string, billets []shelf.Billet, of billetsRead) error {
	if part.FinalCondition == nil {
		return nil
	}
	var all []resaw.Drying
	several := false
	for i := range billets {
		d, err := part.Shrinks(&billets[i], place("billets", i), of.woods[i], r.notes)
		if err != nil {
			return err
		}
		several = several || i > 0 && (of.woods[i] != of.woods[0] || d.From != all[0].From)
		all = append(all, *d)
	}
	angle, width, swells := part.ShrinksAt(r.bench, at, out.Name, of.all), out.Width, 0
	for i := range all {
		if all[i].To > all[i].From {
			swells++
			continue
		}
		all[i].RingAngle = angle
		notes, err := out.AllowForDrying(all[i], width)
		if err != nil {
			return wire.Under("", err, shelf.MovedBetween(place("billets", i))...)
		}
		r.notes.Merge(notes)
	}
	if swells == len(all) {
		return shelf.Swells()
	}
	if several {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/final_condition",
			Detail: "the billets differ in wood or moisture content; the largest shrinkage among them is allowed for in all"})
	}
	return nil
}
