package seasoning

import (
	"context"
	"slices"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Judged is a piece judged by its history, with the harm that is ahead of it.
type Judged struct {
	*readiness.HistoryAnswer
	Checks  *drying.CheckRisk // nil where it is not known, or the piece is no longer so wet
	Defects []Defect          // to be looked out for, of what is ahead alone
}

// Judge judges a piece by its history and its readings as readiness.JudgeHistory does, and where
// it still is wet says what harm may come of how it goes on drying.
//
// Errors: those of readiness.JudgeHistory and of Outlook.SurfaceChecks.
// Accuracy: as each of them; the harm is that of one run, as wood of the middle of what the
// readings taught.
//
// Source: rows readiness.learn and drying.check-risk; the rules of harm are common practice.
func Judge(ctx context.Context, piece *Piece, q *readiness.HistoryQuestion) (*Judged, error) {
	a, err := readiness.JudgeHistory(ctx, q)
	if err != nil {
		return nil, err
	}
	out := &Judged{HistoryAnswer: a}
	if a.Now.Mean.Value < DriedBefore && a.Now.Core.Value < honeycombCore {
		return out, nil
	}
	switch err := out.ahead(ctx, piece, q); {
	case tooMuch(err): // the answer itself took all of it
		out.Notes.Warn(method.Warning{Code: method.NotComputed, Input: "horizon_days",
			Detail: "whether it dries too fast from today on was not looked at: the forecast itself took all the work that is allowed"})
	case err != nil:
		return nil, method.Renamed(err, [2]string{"mc_pct", "start_mc_pct"})
	}
	return out, nil
}

// tooMuch reports the error of a run that would take more work than is left.
func tooMuch(err error) bool {
	e, is := err.(*method.Error) //nolint:errorlint // made by a chapter, never wrapped
	return is && e.Code == method.TooMuchWork
}

// ahead looks at what comes from today on, of the piece as its readings have it.
func (j *Judged) ahead(ctx context.Context, piece *Piece, q *readiness.HistoryQuestion) error {
	p, learned := *piece, j.Posterior
	p.Thickness = q.Setup.Thickness // of a wedge, as what it is dried
	o := &Outlook{Prior: Prior{Setup: q.Setup}, Posterior: learned, solver: drying.Solver{Work: q.Setup.Work}}
	o.Setup.Factor, o.Setup.Pace, o.Setup.StartMC = learned.Factor.Value, learned.Pace.Value, learned.StartMC.Value
	course, err := o.watch(ctx, &p)
	if err != nil {
		return err
	}
	j.Defects = p.defects(course.from(q.Today), caseStress(&p, course))
	risk, known, err := o.checksWhileWet(ctx, q.Today, j.Now.Mean.Value, learned.Factor.High)
	if known {
		j.Notes.Merge(risk.Notes)
		j.Checks = &risk
	}
	return err
}

// Spoils returns the risk of surface checks, as SurfaceChecks does, and the harm that spoils wood
// which dries too fast or too hot: honeycomb, collapse and casehardening.
//
// Errors: those of SurfaceChecks.
// Accuracy: as SurfaceChecks; the harm goes by rules of the trade.
//
// Source: row drying.check-risk; the rules of harm are common practice.
func (o *Outlook) Spoils(ctx context.Context, p *Piece) (risk drying.CheckRisk, known bool, list []Defect, err error) {
	if o.Setup.StartMC < DriedBefore {
		return risk, false, nil, nil
	}
	course, err := o.watch(ctx, p)
	if err != nil {
		return risk, false, nil, err
	}
	list = slices.DeleteFunc(p.defects(course, caseStress(p, course)), func(d Defect) bool {
		return d.Kind != Honeycomb && d.Kind != Collapse && d.Kind != Casehardening
	})
	risk, known, err = o.checksWhileWet(ctx, 0, o.Setup.StartMC, o.Factor.Band().High)
	return risk, known, list, err
}

// checksWhileWet is the risk of surface checks from a day on, on which the wood holds so much in
// the mean; fast is the factor of a fast piece. Of wood that is drier the time in which checks start
// has passed.
func (o *Outlook) checksWhileWet(ctx context.Context, from quantity.Duration, holds quantity.Moisture,
	fast float64) (risk drying.CheckRisk, known bool, err error) {
	if holds < DriedBefore {
		return risk, false, nil
	}
	return o.checksFrom(ctx, from, fast)
}
