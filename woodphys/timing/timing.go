package timing

import (
	"context"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// Weigh answers the question.
//
// Errors: those of Lay as they are; of resaw.YieldOf as "yield/..."; of seasoning.Piece.Setup and
// seasoning.Foresee, with "mean_pct" and "sd_pct" for the start; of movement.Change and
// section.Gradient, with "leaf" and "leaf_width" for the sizes of the leaf and "room" for
// where it comes to rest; of drying.Constant as "room/...".
// Accuracy: that of the forecasts; the weighing is our own choice.
//
// Source: rows readiness.learn, readiness.ready-date, drying.slab and section.gradient.
func Weigh(ctx context.Context, q *Question) (*Answer, error) {
	w := &work{q: q, solver: drying.Solver{Work: q.Work}, sd: q.Moisture.SD}
	if w.sd == 0 {
		w.sd = seasoning.ReadSD(q.Moisture.Mean)
	}
	w.now = quantity.NormalBand(q.Moisture.Mean, w.sd)
	w.now.Low = max(w.now.Low, 0)
	a := &Answer{Now: w.now}
	w.notes.Merge(q.Rest.Notes)
	var err error
	if a.How, err = w.findProfile(ctx); err != nil {
		return nil, err
	}
	a.Shell, a.Core = w.cases.band(profile.shell, w.ownSD()), w.cases.band(profile.core, w.ownSD())
	w.ready = w.readyNow()
	for _, step := range []func(context.Context, *Answer) error{w.sawNow, w.dryWhole, w.scale} {
		if err := step(ctx, a); err != nil {
			return nil, err
		}
	}
	w.risks(a)
	a.Advised = weigh(w.ready, &a.SawNow, &a.DryWhole)
	a.Notes = w.notes
	return a, nil
}
