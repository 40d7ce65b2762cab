package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
	"latewood/woodphys/wood"
)

// parts reads what is wanted of some billets.
func (r *reading) parts(req []PlanPart, of billetsRead) ([]plan.PartKind, error) {
	var parts []plan.PartKind
	var all []error
	names := map[string]bool{}
	for i := range req {
		part := &req[i]
		out, err := r.part(part, i, of)
		if out.Name == "" { // of a plate that is not known
			out.Name = "part " + strconv.Itoa(i+1)
		}
		if names[out.Name] {
			err = errors.Join(err, wire.Contradictory("name",
				"another part is called "+out.Name+"; give each a name of its own"))
		}
		names[out.Name] = true
		if err == nil {
			r.tellSet(part, &out, place("parts", i))
		}
		switch {
		case part.Worth != nil:
			out.Worth = int64(*part.Worth)
		case len(req) == 1:
			out.Worth = 1
		default:
			err = errors.Join(err, wire.Missing("worth",
				"with several parts each needs its worth, to be weighed against the others"))
		}
		all = append(all, wire.Under(place("parts", i), err))
		parts = append(parts, out)
	}
	return parts, errors.Join(all...)
}

// part reads what is wanted of the i-th part.
func (r *reading) part(part *PlanPart, i int, of billetsRead) (plan.PartKind, error) {
	at := place("parts", i)
	out := plan.PartKind{Name: part.Name, Most: part.Most}
	plate, err := r.plate(part)
	if err != nil {
		return out, err
	}
	var all []error
	if plate != nil {
		if out.Name == "" {
			out.Name = plate.Instrument + " " + plate.Part
		}
		r.fromPlate(part, plate, &out, at)
	}
	if out.Name == "" {
		out.Name = "part " + strconv.Itoa(i+1)
	}
	for _, one := range []struct {
		name  string
		given *wire.Length
		to    *quantity.Length
	}{{"length", part.Length, &out.Length}, {"width", part.Width, &out.Width},
		{"final_thickness", part.Final, &out.Final}} {
		switch {
		case one.given != nil:
			*one.to = one.given.SI
		case plate == nil:
			all = append(all, wire.Missing(one.name, "give "+one.name+", or a plate of the table"))
		}
	}
	setOf(part, plate, &out)
	if out.Flatness = shelf.LengthOrNone(part.Flatness); part.Flatness == nil {
		out.Flatness, _ = r.t.Losses.Flatness.Get()
		r.standIn("flatness of a leaf", r.t.Losses.Flatness)
		r.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "parts",
			Detail: shelf.Spoken(r.report, r.t.Losses.Flatness) +
				" is allowed for flattening each leaf of a part that has no flatness of its own; defaults_used has the " +
				"source"})
	}
	if part.RingAngle != nil {
		out.LeastRingAngle = quantity.Angle(*part.RingAngle) * quantity.Degree
	}
	if part.Runout != nil {
		out.MostRunoutOneIn = *part.Runout
	}
	if part.Least != nil {
		out.Least = *part.Least
	}
	if out.Most != nil && *out.Most < out.Least {
		all = append(all, &method.Error{Code: method.Contradictory, Input: "most", Limit: "at least " +
			strconv.Itoa(out.Least), Detail: "most is less than least"})
	}
	if err := errors.Join(all...); err != nil {
		return out, err
	}
	if err := r.oversize(part, &out, at, of); err != nil {
		return out, err
	}
	return out, r.fitsSomewhere(part, &out, of.all)
}

// driesAt is the ring angle that a part, found at a place, is taken to dry at: its own,
// or what the chapter takes, which is told where it is a guess.
func (r *reading) driesAt(part *PlanPart, out *plan.PartKind, at string, billets []plan.Billet) quantity.Angle {
	if part.DriesAtDeg != nil {
		return quantity.Angle(*part.DriesAtDeg) * quantity.Degree
	}
	angle, from := plan.DriesAt(out.LeastRingAngle, billets)
	because := "quartersawn, whose thickness shrinks most"
	switch from {
	case plan.AngleOfBillets:
		return angle
	case plan.AngleOfPart:
		because = "the least ring angle it asks for"
	case plan.AngleQuarter:
	}
	r.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at + "/shrinkage_ring_angle_deg", Detail: out.Name +
		": the billets do not state one ring angle for all; the shrinkage still to come is that of rings at " +
		quantity.FormatNumber(angle.Degrees(), 2) + " degrees to the face, " + because +
		"; shrinkage_ring_angle_deg changes it"})
	return angle
}

// oversize adds the shrinkage still to come to thickness and width: the largest
// among the woods of the billets.
func (r *reading) oversize(part *PlanPart, out *plan.PartKind, at string, of billetsRead) error {
	drying, err := shelf.DryingOf(part.SawnAtPct, part.DriedToPct)
	if err != nil {
		return err
	}
	if drying == nil {
		if part.DriesAtDeg != nil {
			return wire.Missing("sawn_at_pct", "dries_at_ring_angle_deg goes with sawn_at_pct and dried_to_pct")
		}
		return nil
	}
	drying.RingAngle = r.driesAt(part, out, at, of.all)
	var woods []*wood.Wood
	several := false
	for _, w := range of.woods {
		if w == nil {
			break
		}
		several = several || w != of.woods[0]
		woods = append(woods, &w.Value)
	}
	notes, err := out.AllowForDrying(*drying, woods)
	if err != nil {
		return wire.Under("", err, shelf.MovedBetween...)
	}
	if len(woods) < len(of.woods) {
		return shelf.NoWoodToDry()
	}
	r.notes.Merge(notes)
	if several {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/sawn_at_pct",
			Detail: "the billets are of several woods; the largest shrinkage among them is allowed for in all"})
	}
	return nil
}

// fitsSomewhere refuses a part that is larger than every billet.
func (r *reading) fitsSomewhere(part *PlanPart, out *plan.PartKind, billets []plan.Billet) error {
	var long, wide, thick quantity.Length
	for i := range billets {
		b := &billets[i]
		long, wide, thick = max(long, b.Length), max(wide, widest(b)), max(thick, thickest(b))
	}
	var all []error
	for _, one := range []struct {
		name       string
		given      *wire.Length
		size, most quantity.Length
		more       string
	}{
		{"length", part.Length, out.Length, long, "longer"}, {"width", part.Width, out.Width, wide, "wider"},
		{"final_thickness", part.Final, out.Final, thick, "thicker"},
	} {
		if one.size <= one.most {
			continue
		}
		member, unit := "plate", r.report.LengthUnit
		if one.given != nil {
			member, unit = one.name, one.given.Unit
		}
		is, limit := one.size.Over(one.most, unit)
		all = append(all, &method.Error{Code: method.Contradictory, Input: member, Limit: "at most " + limit,
			Detail: out.Name + " is " + one.more + " than every billet (" + is + " against " + limit + ")"})
	}
	return errors.Join(all...)
}
