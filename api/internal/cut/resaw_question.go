package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/plan"
)

// planAsked is a request as the planner takes it, with what the answer needs besides.
type planAsked struct {
	plan.Question
	woods   []*shelf.Wood  // of each billet; nil where no species is given
	weighed []method.Notes // what the figures that the mass of each billet rests on are worth
	small   []string       // names of the small parts
}

// question turns the request into that of the planner. Everything that is wrong is
// told at once.
func (r *reading) question(req *ResawRequest) (*planAsked, error) {
	billets, err := r.billets(req)
	saws, noSaws := r.saws(req.Saws, billets.all)
	if err = errors.Join(err, noSaws); err != nil { // against billets that are wrong, parts are not held
		return nil, errors.Join(err, templateFits(req))
	}
	parts, err := r.parts(req.Parts, billets)
	if err := errors.Join(err, templateFits(req)); err != nil {
		return nil, err
	}
	asked := &planAsked{woods: billets.woods}
	asked.Billets, asked.Saws, asked.Parts = billets.all, saws, parts
	asked.Work, asked.Memory = plan.UsualWork, plan.UsualMemory
	if req.Work != nil {
		asked.Work = int64(*req.Work)
	}
	if v := req.Chance; v != nil {
		asked.Varies = &plan.Variation{KerfSD: shelf.LengthOrNone(v.KerfSD), WanderSD: shelf.LengthOrNone(v.WanderSD)}
		if v.Hidden != nil {
			asked.Varies.HiddenFault = *v.Hidden / 100
		}
	}
	r.smallParts(asked)
	return asked, r.weights(req, asked)
}

// templateFits refuses the template of a billet that is not there.
func templateFits(req *ResawRequest) error {
	if n := req.Template; n != nil && *n > len(req.Billets) {
		return &method.Error{Code: method.OutOfRange, Input: "template_billet", Limit: "1 to " +
			strconv.Itoa(len(req.Billets)), Detail: "there is no billet " + strconv.Itoa(*n)}
	}
	return nil
}

// weights are what the mass of each billet follows from: nothing where species or
// moisture is not given.
func (r *reading) weights(req *ResawRequest, asked *planAsked) error {
	asked.Weights, asked.weighed = make([]*plan.Weight, len(req.Billets)), make([]method.Notes, len(req.Billets))
	for i := range req.Billets {
		b, w := &req.Billets[i], asked.woods[i]
		if w == nil || b.MC == nil {
			continue
		}
		if _, err := w.BasicGravity(&asked.weighed[i]); err != nil {
			return wire.Under(place("billets", i), err, [2]string{"specific_gravity", "wood/specific_gravity"})
		}
		w.VolumetricShrinkage(&asked.weighed[i])
		one := &plan.Weight{Wood: w.Value, MC: wire.FromPercent(*b.MC)}
		if b.MCSD != nil {
			one.SD = wire.FromPercent(*b.MCSD)
		}
		asked.Weights[i] = one
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
