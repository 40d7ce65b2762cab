package sawlog

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// check refuses what cannot be.
func (q *Question) check(notes *method.Notes) error {
	w := &q.Wanted
	mm := func(name string, v quantity.Length) error { return notes.Use(rowPlan, name, tidy(v.Millimetres())) }
	if err := firstOf(q.Log.check(notes), mm("kerf", q.Kerf), mm("crosscut_kerf", q.Crosscut), mm("thickness", w.Thickness),
		mm("thin_edge", w.ThinEdge), mm("min_width", w.MinWidth), mm("max_width", w.MaxWidth), mm("end_trim", w.EndTrim),
		notes.Use(rowPlan, "min_ring_angle_deg", tidy(w.MinRingAngle.Degrees())),
		notes.Use(rowPlan, "turn_deg", tidy(q.Turn.Degrees()))); err != nil {
		return err
	}
	if q.PithClearance != nil {
		if err := mm("pith_clearance", *q.PithClearance); err != nil {
			return err
		}
	}
	if w.Length != 0 {
		if err := notes.Use(rowPlan, "billet_length", tidy(w.Length.Metres())); err != nil {
			return err
		}
	}
	switch q.Pattern {
	case ThroughAndThrough, Quartered, Wedges:
	default:
		return &method.Error{Code: method.Unknown, Input: "pattern", Detail: "there is no such pattern",
			Limit: method.OneOf(ThroughAndThrough, Quartered, Wedges)}
	}
	if w.ThinEdge > w.Thickness {
		return conflict("thin_edge", "the thin edge is thicker than the thick one")
	}
	if w.MaxWidth > 0 && w.MaxWidth < w.MinWidth {
		return conflict("max_width", "the greatest width is less than the least")
	}
	if q.SapwoodOut && q.Log.small() <= 2*q.Log.Sapwood {
		return conflict("sapwood_thickness", "the sapwood leaves no heartwood at the small end")
	}
	return nil
}

// bolts are the lengths that the log is crosscut into: one where no length is wanted.
func (q *Question) bolts(plan *Plan) error {
	l, w := &q.Log, &q.Wanted
	if w.Length == 0 {
		if 2*w.EndTrim >= l.Length {
			return conflict("end_trim", "the trims of both ends leave nothing of the log")
		}
		plan.Bolts = []Bolt{{Length: l.Length, Log: *l}}
		return nil
	}
	each := w.Length + 2*w.EndTrim
	n := int((l.Length + q.Crosscut + dust) / (each + q.Crosscut)) // an exact fit loses no bolt
	if n == 0 {
		return conflict("billet_length", "the log is too short for one billet and the trims of both its ends")
	}
	if n > MostBillets {
		return &method.Error{Code: method.TooMuchWork, Input: "billet_length", Detail: "the log gives too many lengths"}
	}
	for i := range n {
		from := quantity.Length(i) * (each + q.Crosscut)
		plan.Bolts = append(plan.Bolts, Bolt{From: from, Length: each,
			Log: l.part(float64(from/l.Length), min(1, float64((from+each)/l.Length)))})
	}
	return nil
}
