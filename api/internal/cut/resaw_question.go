package cut

import (
	"errors"
	"slices"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/plan"
)

// planAsked is a request as the planner takes it, with what the answer needs besides.
type planAsked struct {
	plan.Question
	billets, saws, parts []string       // ids by which the answer calls them
	woods                []*shelf.Wood  // of each billet; nil where none is named
	weighed              []method.Notes // what the figures that the mass of each billet rests on are worth
	small                []string       // names of the small parts
	partsRead            []shelf.PartRead
	finished             []plan.Size // of the parts as they were asked for
	seamless             []bool      // parts whose sets are not glued edge to edge
}

// question turns the request into that of the planner. Everything that is wrong is
// told at once.
func (r *reading) question(req *ResawPlanRequest) (*planAsked, error) {
	billets, err := r.billets(req)
	saws, noSaws := r.saws(req.Saws, billets.all)
	if err = errors.Join(err, noSaws); err != nil { // against billets that are wrong, parts are not held
		return nil, errors.Join(err, r.partsAlone(req), templateFits(req, billets.ids), req.checkFraction())
	}
	parts, err := r.parts(req, billets)
	if err := errors.Join(err, templateFits(req, billets.ids), req.checkFraction()); err != nil {
		return nil, err
	}
	asked := &planAsked{woods: billets.woods, billets: billets.ids, saws: saws.ids, parts: parts.ids,
		partsRead: parts.read, finished: parts.finished, seamless: parts.seamless}
	asked.Billets, asked.Saws, asked.Parts = billets.all, saws.all, parts.all
	if step := req.step(); step > 0 {
		exactly := asked.Request
		asked.Exact, asked.Request = &exactly, asked.InSteps(step)
	}
	asked.Work, asked.Memory = plan.UsualWork, plan.UsualMemory
	if req.Work != nil {
		asked.Work = int64(*req.Work)
	}
	if v := req.Varies; v != nil {
		asked.Varies = &plan.Variation{KerfSD: shelf.LengthOrNone(v.KerfSD), WanderSD: shelf.LengthOrNone(v.WanderSD)}
		if v.Hidden != nil {
			asked.Varies.HiddenFault = *v.Hidden
		}
	}
	r.smallParts(asked)
	return asked, r.weights(req, asked)
}

// partsAlone is what is wrong with the parts, whatever they are to be had from.
func (r *reading) partsAlone(req *ResawPlanRequest) error {
	var all []error
	for i := range req.Parts {
		_, err := req.Parts[i].Read(r.bench, place("parts", i), "")
		all = append(all, wire.Under(place("parts", i), err))
	}
	return errors.Join(all...)
}

// templateFits refuses the template of a billet that is not there.
func templateFits(req *ResawPlanRequest, billets []string) error {
	if id := req.Template; id != "" && !slices.Contains(billets, id) {
		return &method.Error{Code: method.Unknown, Input: "template_billet", Limit: method.OneOf(billets...),
			Detail: "there is no billet with the id " + id + "; there are " + strings.Join(billets, ", ")}
	}
	return nil
}

// weights are what the mass of each billet follows from: nothing where wood or
// condition is not given.
func (r *reading) weights(req *ResawPlanRequest, asked *planAsked) error {
	asked.Weights, asked.weighed = make([]*plan.Weight, len(req.Billets)), make([]method.Notes, len(req.Billets))
	for i := range req.Billets {
		b, w := &req.Billets[i], asked.woods[i]
		if w == nil || b.Condition == nil {
			continue
		}
		if _, err := w.BasicGravity(&asked.weighed[i]); err != nil {
			return wire.Under(place("billets", i), err, [2]string{"specific_gravity", "wood/specific_gravity"})
		}
		w.VolumetricShrinkage(&asked.weighed[i])
		mc, sd, err := b.Condition.ValueAndSD(place("billets", i)+"/condition", w, r.notes)
		if err != nil {
			return err
		}
		asked.Weights[i] = &plan.Weight{Wood: w.Value, MC: mc, SD: sd}
	}
	return nil
}

// smallParts are those of the table that odd and spoiled leaves may be good for.
func (r *reading) smallParts(asked *planAsked) {
	for _, id := range []string{"guitar-headplate", "guitar-tail-wedge", "guitar-bridge-plate", "guitar-binding"} {
		plate, known := r.t.Species.Plate(id)
		if !known {
			continue
		}
		var s plan.Size
		s.Length, _ = plate.Length.Get()
		s.Width, _ = plate.Width.Get()
		s.Final, _ = plate.Final.Get()
		asked.Small, asked.small = append(asked.Small, s), append(asked.small, plate.Part)
	}
}

// tellUnused warns of what of billets, saws and parts has no bearing on the plan.
func tellUnused(req *ResawPlanRequest, asked *planAsked, notes *method.Notes) {
	var n shelf.NotUsed
	dries := slices.ContainsFunc(req.Parts, func(p shelf.Part) bool { return p.FinalCondition != nil })
	for i := range req.Billets {
		used := []string{"wood", "length", "width", "thickness", "end_width", "end_thickness", "far_thickness", "trim",
			"facing_face_1", "facing_face_2", "cup", "bow", "twist", "twist_packed", "zones", "rings/pith",
			"rings/readings", "rings/chord", "rings/angle_deg", "rings/pith_side", "grain/runout_one_in"}
		if dries || asked.Weights[i] != nil {
			used = append(used, "condition")
		}
		n.Look(place("billets", i), &req.Billets[i], used...)
	}
	for i := range req.Parts {
		used := []string{"part_size", "wood", "billets", "length", "width", "final_thickness", "thin_edge", "sawn_thickness", "pieces_per_set", "match",
			"min_ring_angle_deg", "max_runout_one_in", "min_sets", "max_sets", "set_value", "final_condition"}
		if req.Parts[i].SawnThickness == nil {
			used = append(used, "flattening")
		}
		if req.Parts[i].FinalCondition != nil {
			used = append(used, "shrinkage_ring_angle_deg")
		}
		n.Look(place("parts", i), &req.Parts[i], used...)
	}
	n.Tell(notes)
}
