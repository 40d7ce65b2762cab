package cut

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// partsRead are the parts of a request with the ids by which the answer calls them.
type partsRead struct {
	all      []plan.PartKind
	ids      []string
	read     []shelf.PartRead
	finished []plan.Size // as they were asked for
	seamless []bool      // by the table their sets are not glued edge to edge
}

// parts reads what is wanted of some billets.
func (r *reading) parts(req *ResawPlanRequest, of billetsRead) (partsRead, error) {
	var out partsRead
	var all []error
	var ids ids
	for i := range req.Parts {
		part := &req.Parts[i]
		one, read, err := r.part(part, i, req.Billets, of)
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
		out.all, out.ids, out.read = append(out.all, one), append(out.ids, id), append(out.read, read)
		out.finished = append(out.finished, plan.Size{Length: read.Length, Width: read.Width, Final: read.Final})
		out.seamless = append(out.seamless, read.Row != nil && !read.Row.Joined())
	}
	return out, errors.Join(all...)
}

// part reads what is wanted of the i-th part.
func (r *reading) part(part *shelf.Part, i int, billets []shelf.Billet, of billetsRead) (plan.PartKind, shelf.PartRead, error) {
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
		err = errors.Join(err, &method.Error{Code: method.Contradictory, Input: "max_sets", Limit: method.AtLeast(float64(out.Least), ""),
			Detail: "max_sets is less than min_sets; it must be at least " + strconv.Itoa(out.Least)})
	}
	if err != nil {
		return out, read, err
	}
	if out.From, err = r.comesFrom(part, at, of); err != nil {
		return out, read, err
	}
	if err := r.oversize(part, &out, at, billets, of); err != nil {
		return out, read, err
	}
	part.TellSet(r.bench, at, &read)
	if out.Match == plan.MatchNone && out.Pieces > 1 {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/match", Subject: out.Name, Detail: out.Name +
			": the pieces of a set are neighbouring leaves of one blank, also with match none; order pieces that " +
			"need no neighbour with pieces_per_set 1"})
	}
	return out, read, nil
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
// the billets that the part may come from.
func (r *reading) oversize(part *shelf.Part, out *plan.PartKind, at string, billets []shelf.Billet, of billetsRead) error {
	if part.FinalCondition == nil {
		return nil
	}
	var all []resaw.Drying
	var from []plan.Billet
	var which []int
	several := false
	for i := range billets {
		if !out.MayComeFrom(i) {
			continue
		}
		d, err := part.Shrinks(&billets[i], place("billets", i), of.woods[i], r.notes)
		if err != nil {
			return err
		}
		several = several || len(all) > 0 && (of.woods[i] != of.woods[which[0]] || d.From != all[0].From)
		all, from, which = append(all, *d), append(from, of.all[i]), append(which, i)
	}
	angles, width, swells := part.ShrinksAt(r.bench, at, out.Name, out, from), out.Width, 0
	for i := range all {
		if all[i].To > all[i].From {
			swells++
			continue
		}
		notes, err := out.AllowForDrying(all[i], angles[i], width)
		if err != nil {
			return wire.Under("", err, shelf.MovedBetween(place("billets", which[i]))...)
		}
		first := which[slices.IndexFunc(which, func(k int) bool { return of.woods[k] == of.woods[which[i]] })]
		r.notes.MergeFor(place("billets", first)+"/wood", of.woods[first].Common, method.Notes{Basis: notes.Basis, Warnings: atWhole(notes.Warnings)})
	}
	if swells == len(all) && swells > 0 {
		wettest := slices.MaxFunc(all, func(a, b resaw.Drying) int { return cmp.Compare(a.From, b.From) })
		return shelf.Swells(wettest.From)
	}
	if several {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/final_condition",
			Detail: "the billets differ in wood or moisture content; the largest shrinkage among them is allowed for in all"})
	}
	return nil
}

// atWhole are warnings that point at the whole of what they are told of.
func atWhole(warnings []method.Warning) []method.Warning {
	out := slices.Clone(warnings)
	for i := range out {
		out[i].Input = ""
	}
	return out
}

// comesFrom are the billets that a part, found at a place, may come from; nil for all. Errors
// point below the part.
func (r *reading) comesFrom(part *shelf.Part, at string, of billetsRead) ([]int, error) {
	var own method.Notes
	wood, err := r.t.OptionalWood(part.Wood, &own)
	var all []error
	if err != nil {
		all = append(all, err)
	}
	for i, id := range part.Billets {
		if !slices.Contains(of.ids, id) {
			all = append(all, &method.Error{Code: method.Unknown, Input: place("billets", i), Limit: method.OneOf(of.ids...),
				Detail: "there is no billet with the id " + id + "; there are " + strings.Join(of.ids, ", ")})
		}
	}
	if len(all) > 0 || part.Wood == nil && len(part.Billets) == 0 {
		return nil, errors.Join(all...)
	}
	from := []int{}
	for i, id := range of.ids {
		named := len(part.Billets) == 0 || slices.Contains(part.Billets, id)
		if named && (part.Wood == nil || wood.Covers(of.woods[i])) {
			from = append(from, i)
		}
	}
	if len(from) == 0 {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/wood", Subject: part.Label(at),
			Detail: "no billet that this part may come from is of the wood that it asks for"})
	}
	return from, nil
}
