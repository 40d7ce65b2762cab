package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/plan"
)

// billetsRead are the billets of a request with the wood of each; nil where no species
// is given.
type billetsRead struct {
	all   []plan.Billet
	woods []*shelf.Wood
}

// billets reads what was measured of the billets.
func (r *reading) billets(req *ResawRequest) (billetsRead, error) {
	var out billetsRead
	var all []error
	names := map[string]bool{}
	for i := range req.Billets {
		b := &req.Billets[i]
		one, w, err := r.billet(b, req.Wood)
		if b.Name != "" && names[b.Name] {
			err = errors.Join(err, wire.Contradictory("name", "another billet has this name"))
		}
		names[b.Name] = true
		if one.Name == "" {
			one.Name = "billet " + strconv.Itoa(i+1)
		}
		all = append(all, wire.Under(place("billets", i), err))
		out.all, out.woods = append(out.all, one), append(out.woods, w)
	}
	return out, errors.Join(all...)
}

// billet reads one billet; shared is the wood of billets that name none.
func (r *reading) billet(b *PlanBillet, shared *shelf.WoodAsked) (plan.Billet, *shelf.Wood, error) {
	asked := b.Wood
	if asked == nil {
		asked = shared
	}
	w, err := r.t.OptionalWood(asked, r.notes)
	if b.Wood == nil {
		err = wire.OfRequest(err)
	}
	all := []error{err}
	if b.MCSD != nil && b.MC == nil {
		all = append(all, wire.Missing("mc_pct", "mc_sd_points goes with mc_pct"))
	}
	if b.MC != nil && asked == nil {
		all = append(all, wire.Missing("wood", "a mass needs the wood"))
	}
	out := plan.Billet{
		Name: b.Name, Length: b.Length.SI, Width: b.Width.SI, Thickness: b.Thickness.SI,
		WidthEnd: shelf.OptionalLength(b.WidthEnd), ThicknessEnd: shelf.OptionalLength(b.ThickEnd),
		ThicknessFarEdge: shelf.OptionalLength(b.ThickFar),
		Cup:              shelf.LengthOrNone(b.Cup), Bow: shelf.LengthOrNone(b.Bow), Twist: shelf.LengthOrNone(b.Twist),
		Packed: b.Packed, RunoutOneIn: b.Runout,
	}
	r.facing(b, &out)
	all = append(all, r.trims(b, &out), fits(b, &out))
	for i := range b.Zones {
		z, err := zoneOf(&b.Zones[i], &out, r.report)
		all = append(all, wire.Under(place("zones", i), err))
		out.Zones = append(out.Zones, z)
	}
	if b.Rings != nil {
		all = append(all, wire.Under("rings", r.rings(b.Rings, &out)))
	}
	return out, w, errors.Join(all...)
}

// facing of the two outside faces: half of the usual loss each.
func (r *reading) facing(b *PlanBillet, out *plan.Billet) {
	usual, _ := r.t.Losses.Facing.Get()
	out.FacingFace1, out.FacingFar = shelf.LengthOr(b.FacingFace1, usual/2), shelf.LengthOr(b.FacingFar, usual/2)
	if b.FacingFace1 == nil || b.FacingFar == nil {
		r.standIn("facing, both outside faces", r.t.Losses.Facing)
		r.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "facing_face_1",
			Detail: (usual / 2).Format(r.report.LengthUnit) +
				" is taken off each outside face that has no facing of its own (common practice, no source)"})
	}
}

// trims of the two ends, as given or by how they were sealed.
func (r *reading) trims(b *PlanBillet, out *plan.Billet) error {
	out.TrimStart, out.TrimEnd = shelf.LengthOrNone(b.TrimStart), shelf.LengthOrNone(b.TrimEnd)
	switch {
	case b.Ends == "" && b.TrimStart == nil && b.TrimEnd == nil:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: "end_trim_start",
			Detail: "no end trim is taken where none is given; give end_trim_start and end_trim_end, or ends"})
		return nil
	case b.Ends == "":
		return nil
	case b.TrimStart != nil && b.TrimEnd != nil:
		return wire.Contradictory("ends", "give ends, or end_trim_start and end_trim_end, not all of them")
	}
	row, known := r.t.Species.EndTrim(b.Ends)
	if !known {
		detail := "there is no end trim called " + strconv.Quote(wire.Clipped(b.Ends)) + "; there are"
		for _, e := range r.t.Species.EndTrims() {
			detail += " " + e.ID
		}
		return &method.Error{Code: method.Unknown, Input: "ends", Detail: detail}
	}
	each := row.Each.High
	if !each.Known() {
		each = row.Each.Low
	}
	trim, _ := each.Get()
	r.standIn("end trim, "+shelf.NameIn(r.report, row.Name), each)
	out.TrimStart, out.TrimEnd = shelf.LengthOr(b.TrimStart, trim), shelf.LengthOr(b.TrimEnd, trim)
	return nil
}

// fits refuses trims and facings that leave nothing.
func fits(b *PlanBillet, out *plan.Billet) error {
	var all []error
	if out.TrimStart+out.TrimEnd >= out.Length {
		member := "end_trim_start"
		if b.TrimStart == nil {
			member = "ends"
		}
		all = append(all, &method.Error{Code: method.Contradictory, Input: member, Limit: "together less than " +
			b.Length.SI.AtMost(b.Length.Unit),
			Detail: "the end trims leave nothing of the length of " + b.Length.SI.Format(b.Length.Unit)})
	}
	thick := thickest(out)
	if out.FacingFace1+out.FacingFar >= thick {
		all = append(all, &method.Error{Code: method.Contradictory, Input: "facing_face_1",
			Limit:  "together less than " + thick.AtMost(b.Thickness.Unit),
			Detail: "the facings leave nothing of the thickness of " + thick.Format(b.Thickness.Unit)})
	}
	return errors.Join(all...)
}
