package cut

import (
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// standIn notes a figure of the tables that stood in, once.
func (p *planner) standIn(name string, size species.Size) {
	l, _ := size.Get()
	q := p.length(l)
	one := shelf.Provenance{Name: name, Value: q.Value, Unit: q.Unit, Source: size.Source, Checked: string(size.Checked)}
	for _, known := range p.usual.All {
		if known == one {
			return
		}
	}
	p.usual.All = append(p.usual.All, one)
}

func (p *planner) parts() error {
	var all []error
	names := map[string]bool{}
	for i := range p.req.Parts {
		part := &p.req.Parts[i]
		out, err := p.part(part, i)
		if out.Name == "" { // of a plate that is not known
			out.Name = "part " + strconv.Itoa(i+1)
		}
		if names[out.Name] {
			err = errors.Join(err, wire.Contradictory("name", "another part is called "+out.Name+"; give each a name of its own"))
		}
		names[out.Name] = true
		if err == nil {
			p.tellSet(part, &out, place("parts", i))
		}
		switch {
		case part.Worth != nil:
			out.Worth = int64(*part.Worth)
		case len(p.req.Parts) == 1:
			out.Worth = 1
		default:
			err = errors.Join(err, wire.Missing("worth", "with several parts each needs its worth, to be weighed against the others"))
		}
		all = append(all, wire.Under(place("parts", i), err))
		p.asked.Parts = append(p.asked.Parts, out)
		p.plates = append(p.plates, part.Plate)
	}
	return errors.Join(all...)
}

// part reads what is wanted of the i-th part.
func (p *planner) part(part *PlanPart, i int) (plan.PartKind, error) {
	at := place("parts", i)
	out := plan.PartKind{Name: part.Name, Most: part.Most}
	plate, err := p.plate(part)
	if err != nil {
		return out, err
	}
	var all []error
	if plate != nil {
		if out.Name == "" {
			out.Name = plate.Instrument + " " + plate.Part
		}
		p.fromPlate(part, plate, &out, at)
	}
	if out.Name == "" {
		out.Name = "part " + strconv.Itoa(i+1)
	}
	for _, one := range []struct {
		name  string
		given *wire.Length
		to    *quantity.Length
	}{{"length", part.Length, &out.Length}, {"width", part.Width, &out.Width}, {"final_thickness", part.Final, &out.Final}} {
		switch {
		case one.given != nil:
			*one.to = one.given.SI
		case plate == nil:
			all = append(all, wire.Missing(one.name, "give "+one.name+", or a plate of the table"))
		}
	}
	p.setOf(part, plate, &out)
	if out.Flatness = shelf.LengthOrNone(part.Flatness); part.Flatness == nil {
		out.Flatness, _ = p.t.Losses.Flatness.Get()
		p.standIn("flatness of a leaf", p.t.Losses.Flatness)
		p.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "parts", Detail: shelf.Spoken(p.report, p.t.Losses.Flatness) + " is allowed for flattening each leaf of a part that has no flatness of its own; stand_ins has the source"})
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
		all = append(all, &method.Error{Code: method.Contradictory, Input: "most", Limit: "at least " + strconv.Itoa(out.Least), Detail: "most is less than least"})
	}
	if err := errors.Join(all...); err != nil {
		return out, err
	}
	if err := p.oversize(part, &out, at); err != nil {
		return out, err
	}
	return out, p.fitsSomewhere(part, &out)
}

// plate finds the plate of the table a part names.
func (p *planner) plate(part *PlanPart) (*species.Plate, error) {
	if part.Plate == "" {
		return nil, nil //nolint:nilnil // no plate is named
	}
	plate, known := p.t.Species.Plate(part.Plate)
	if !known {
		detail := "there is no plate called " + strconv.Quote(wire.Clipped(part.Plate))
		if near := p.t.Species.SuggestPlates(part.Plate, 5); len(near) > 0 {
			detail += "; did you mean " + strings.Join(near, ", ") + "?"
		} else {
			detail += "; GET /v1/plates lists them"
		}
		return nil, &method.Error{Code: method.Unknown, Input: "plate", Detail: detail}
	}
	if part.Length != nil && part.Width != nil && part.Final != nil {
		return nil, wire.Contradictory("plate", "length, width and final_thickness replace all sizes of the plate; leave plate or some of them out")
	}
	return plate, nil
}

// fromPlate fills in what the table holds of a part, found at a place.
func (p *planner) fromPlate(part *PlanPart, plate *species.Plate, out *plan.PartKind, at string) {
	out.Length, _ = plate.Length.Get()
	out.Width, _ = plate.Width.Get()
	out.Final, _ = plate.Final.Get()
	final := plate.Final
	if strings.Contains(plate.Part, "carved") && part.Final == nil {
		out.Final, _ = plate.Rough.Get()
		final = plate.Rough
		detail := "a carved part is planned at the rough thickness of the table, " + shelf.Spoken(p.report, plate.Rough)
		if plate.Wedge() {
			detail += ", as a parallel piece; two halves split from one wedge take less wood"
		}
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/final_thickness", Detail: out.Name + ": " + detail})
	}
	if part.Length == nil {
		p.standIn(out.Name+", length", plate.Length)
	}
	if part.Width == nil {
		p.standIn(out.Name+", width", plate.Width)
	}
	if part.Final == nil {
		p.standIn(out.Name+", thickness", final)
	}
	least, known := plate.RingAngle.Least.Get()
	switch {
	case part.RingAngle != nil:
	case known:
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/least_ring_angle_deg", Detail: out.Name + ": makers tolerate no less than " +
			quantity.FormatNumber(least.Degrees(), 0) + " degrees at one edge; the plan holds no ring angle unless least_ring_angle_deg is given"})
	case plate.Quartered:
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/least_ring_angle_deg", Detail: out.Name +
			": the quarter is preferred (common practice, no source); the plan holds no ring angle unless least_ring_angle_deg is given"})
	}
}

// setOf settles how many pieces make a set and how they belong together.
func (p *planner) setOf(part *PlanPart, plate *species.Plate, out *plan.PartKind) {
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
func (p *planner) tellSet(part *PlanPart, out *plan.PartKind, at string) {
	plate, _ := p.t.Species.Plate(part.Plate)
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
		p.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: out.Name + ": " + taken})
	}
	if out.Match == plan.MatchNone && out.Pieces > 1 {
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/match", Detail: out.Name + ": the pieces of a set are neighbouring leaves of one blank, also with match none; order pieces that need no neighbour with pieces_per_set 1"})
	}
}

// driesAt is the ring angle that a part, found at a place, is taken to dry at: its own,
// else that of the billets where all state the same, else the least it asks for,
// else the quarter. The last two are guesses, and told.
func (p *planner) driesAt(part *PlanPart, out *plan.PartKind, at string) float64 {
	if part.DriesAtDeg != nil {
		return *part.DriesAtDeg
	}
	if angle, known := p.ringAngleOfAll(); known {
		return quantity.Tidy(angle.Degrees())
	}
	angle, because := 90.0, "quartersawn, whose thickness shrinks most"
	if part.RingAngle != nil && *part.RingAngle > 0 {
		angle, because = *part.RingAngle, "the least ring angle it asks for"
	}
	p.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at + "/dries_at_ring_angle_deg", Detail: out.Name + ": the billets do not state one ring angle for all; the shrinkage still to come is that of rings at " +
		quantity.FormatNumber(angle, 2) + " degrees to the face, " + because + "; dries_at_ring_angle_deg changes it"})
	return angle
}

// ringAngleOfAll is the ring angle that all billets state alike.
func (p *planner) ringAngleOfAll() (quantity.Angle, bool) {
	first := p.asked.Billets[0].RingAngle
	for i := range p.asked.Billets {
		if angle := p.asked.Billets[i].RingAngle; first == nil || angle == nil || *angle != *first {
			return 0, false
		}
	}
	return *first, true
}

// oversize adds the shrinkage still to come to thickness and width: the largest
// among the woods of the billets.
func (p *planner) oversize(part *PlanPart, out *plan.PartKind, at string) error {
	if part.SawnAtPct == nil && part.DriedToPct == nil {
		if part.DriesAtDeg != nil {
			return wire.Missing("sawn_at_pct", "dries_at_ring_angle_deg goes with sawn_at_pct and dried_to_pct")
		}
		return nil
	}
	angle := p.driesAt(part, out, at)
	a := &shelf.Allowances{SawnAtPct: part.SawnAtPct, DriedToPct: part.DriedToPct, RingAngle: &angle}
	width := out.Width
	several := false
	for i, w := range p.woods {
		more, err := a.Oversize(quantity.Metre, w, p.notes)
		if err != nil {
			return wire.Under("", err, [2]string{"wood", "/species"})
		}
		several = several || i > 0 && w != p.woods[0]
		out.Shrinkage = max(out.Shrinkage, float64(more/(quantity.Metre+more)))
		wider, err := p.wider(a, width, w)
		if err != nil {
			return err
		}
		out.Width = max(out.Width, wider)
	}
	if several {
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/sawn_at_pct", Detail: "the billets are of several woods; the largest shrinkage among them is allowed for in all"})
	}
	return nil
}

// wider is the width to saw so that a width is left when the leaf is dry.
func (p *planner) wider(a *shelf.Allowances, width quantity.Length, w *shelf.Wood) (quantity.Length, error) {
	from, to := quantity.NormalBand(wire.FromPercent(*a.SawnAtPct), 0), quantity.NormalBand(wire.FromPercent(*a.DriedToPct), 0)
	m, err := movement.Change(quantity.Metre, movement.WidthAt(quantity.Angle(*a.RingAngle)*quantity.Degree, 0), from, to, w.Value)
	if err != nil {
		return 0, wire.Under("", err, [2]string{"from_mc_pct", "sawn_at_pct"}, [2]string{"to_mc_pct", "dried_to_pct"}, [2]string{"wood", "/species"})
	}
	p.notes.Merge(m.Notes)
	return width / quantity.Length(1+m.Strain.Value), nil
}

// fitsSomewhere refuses a part that is larger than every billet.
func (p *planner) fitsSomewhere(part *PlanPart, out *plan.PartKind) error {
	var longest, widest, thickest quantity.Length
	for i := range p.asked.Billets {
		b := &p.asked.Billets[i]
		longest = max(longest, b.Length)
		widest = max(widest, b.Width, orLength(b.WidthEnd))
		thickest = max(thickest, b.Thickness, orLength(b.ThicknessEnd), orLength(b.ThicknessFarEdge))
	}
	var all []error
	for _, one := range []struct {
		name       string
		given      *wire.Length
		size, most quantity.Length
		more       string
	}{
		{"length", part.Length, out.Length, longest, "longer"}, {"width", part.Width, out.Width, widest, "wider"},
		{"final_thickness", part.Final, out.Final, thickest, "thicker"},
	} {
		if one.size <= one.most {
			continue
		}
		member, unit := "plate", "mm"
		if one.given != nil {
			member, unit = one.name, one.given.Unit
		}
		is, limit := one.size.Over(one.most, unit)
		all = append(all, &method.Error{Code: method.Contradictory, Input: member, Limit: "at most " + limit,
			Detail: out.Name + " is " + one.more + " than every billet (" + is + " against " + limit + ")"})
	}
	return errors.Join(all...)
}

// room refuses parts so small that the wood would give more leaves than an answer
// can hold: by volume, each leaf with its cut.
func (p *planner) room() error {
	volume := 0.0
	for i := range p.asked.Billets {
		b := &p.asked.Billets[i]
		volume += float64(b.Length) * float64(max(b.Width, orLength(b.WidthEnd))) * float64(max(b.Thickness, orLength(b.ThicknessEnd), orLength(b.ThicknessFarEdge)))
	}
	var all []error
	for i := range p.asked.Parts {
		part := &p.asked.Parts[i]
		thin := quantity.Length(1e9)
		for j := range p.asked.Saws {
			s := &p.asked.Saws[j]
			thin = min(thin, part.On(s).Sum()+s.Resaw+s.Reface)
		}
		if volume/(float64(part.Length)*float64(part.Width)*float64(thin)) > mostLeaves {
			all = append(all, &method.Error{Code: method.TooMuchWork, Input: place("parts", i), Limit: "at most " + strconv.Itoa(mostLeaves) + " leaves",
				Detail: part.Name + " is so small that the wood could give more than " + strconv.Itoa(mostLeaves) + " leaves; ask for fewer billets or larger parts"})
		}
	}
	return errors.Join(all...)
}
