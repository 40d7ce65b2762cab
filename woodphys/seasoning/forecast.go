package seasoning

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Question is what is asked of a piece.
type Question struct {
	Piece  Piece
	Rest   Rest              // where it comes to rest
	Within quantity.Moisture // it counts as dry this close above that, 0.001 to 0.05; 0: UsualWithin
	// Stackings are the same stays from other days on, each with its phases.
	Stackings [][]drying.Phase
	Width     quantity.Length // 1 to 600 mm; 0: its edges are not asked about
	Ends      drying.EndSeal  // empty: its ends are not asked about
	Length    quantity.Length // with Ends, 50 mm to 12 m; 0: not known
}

// UsualWithin is how close above its target wood counts as dry. Common practice.
const UsualWithin = 1 * quantity.PercentMC

// Answer is what the forecast says.
type Answer struct {
	Prior
	DryAt quantity.Moisture
	// Damp is what a piece that starts drier has to come up to; 0 for one that does not.
	Damp quantity.Moisture
	// Leaves is where it ends that is dry on the way and no longer at the end; 0 for one that is.
	Leaves      quantity.Moisture
	Course      readiness.Course
	Mean, Core  readiness.Reached // when the whole thickness and its middle fifth are dry
	Thickest    readiness.Reached // when a wedge is dry where it is thickest; of a board as Mean
	Lowest      quantity.Moisture // how dry it ever gets
	Enough      bool              // that is dry
	ByStacking  []Reached         // of each of the stackings asked for
	ByThickness []ThicknessRow
	Checks      *drying.CheckRisk // nil where it is not known or has passed
	Edges       *Edges            // nil where it was not asked for
	Ends        *Ends             // nil where it was not asked for
	Defects     []Defect          // to be looked out for
	Stress      *CaseStress       // nil where no schedule was told
}

// Forecast answers the question.
//
// Errors: those of Piece.Setup, Foresee, readiness.Posterior.Reaches ("target_pct",
// "target_sd_pct") and of the methods of Outlook.
// Accuracy: as each of them.
//
// Source: each of them.
func Forecast(ctx context.Context, q *Question) (*Answer, error) {
	prior, err := q.Piece.Setup()
	if err != nil {
		return nil, err
	}
	o, err := Foresee(ctx, &prior)
	if err != nil {
		return nil, err
	}
	within := q.Within
	if within == 0 {
		within = UsualWithin
	}
	a := &Answer{Prior: o.Prior, DryAt: q.Rest.Moisture.Value + within}
	if from := q.Rest.Moisture.Value - within; o.Setup.StartMC < from {
		o.damp, a.Damp = from, from // it takes up moisture on its way
	}
	a.Notes = method.Notes{}
	a.Notes.Merge(q.Rest.Notes)
	a.Notes.Merge(o.Notes)
	for _, answer := range []func(context.Context, *Outlook, *Question) error{a.dates, a.tables, a.beside} {
		if err := answer(ctx, o, q); err != nil {
			return nil, err
		}
	}
	return a, nil
}

// dates are the course and when it is dry.
func (a *Answer) dates(_ context.Context, o *Outlook, q *Question) (err error) {
	if a.Course, err = o.Posterior.Whole(); err != nil {
		return err
	}
	target, above := o.Setup.TargetIn(q.Rest.Moisture, q.Rest.Room), a.DryAt-q.Rest.Moisture.Value
	if a.Mean, err = o.Posterior.Reaches(target, above, readiness.OfMean); err != nil {
		return err
	}
	if a.Core, err = o.Posterior.Reaches(target, above, readiness.OfCore); err != nil {
		return err
	}
	if a.Thickest, err = o.Posterior.Reaches(target, above, readiness.OfThick); err != nil {
		return err
	}
	if last := a.Course.Mean[len(a.Course.Mean)-1].Value; !math.IsInf(float64(a.Mean.Middle), 1) && last > a.DryAt {
		a.Leaves = last
		a.Notes.Warn(method.Warning{Code: method.Disagreement, Method: "readiness.learn", Input: "target_pct",
			Detail: "the wood passes its target and does not stay there: by the end of the forecast it is at " +
				quantity.FormatNumber(last.Percent(), 1) + " %; take it out of its last place when it is dry"})
	}
	return nil
}

// tables compare the piece with others.
func (a *Answer) tables(ctx context.Context, o *Outlook, q *Question) (err error) {
	if a.Lowest, err = o.Lowest(ctx); err != nil {
		return err
	}
	a.Enough = a.Lowest <= a.DryAt
	if a.ByStacking, err = o.ByMonth(ctx, q.Stackings, a.DryAt); err != nil {
		return err
	}
	a.ByThickness, err = o.ByThickness(ctx, a.DryAt)
	return err
}

// beside is what happens at faces, edges and ends.
func (a *Answer) beside(ctx context.Context, o *Outlook, q *Question) error {
	course, err := o.watch(ctx, &q.Piece)
	if err != nil {
		return err
	}
	a.Stress = caseStress(&q.Piece, course)
	a.Defects = q.Piece.defects(course, a.Stress)
	risk, known, err := o.SurfaceChecks(ctx)
	if err != nil {
		return err
	}
	if known {
		a.Notes.Merge(risk.Notes)
		a.Checks = &risk
	}
	if q.Width != 0 {
		edges, err := o.Edges(ctx, q.Width, q.Piece.RingAngle, a.DryAt)
		if err != nil {
			return err
		}
		a.Notes.Merge(edges.Notes)
		a.Edges = &edges
	}
	if q.Ends == "" {
		return nil
	}
	ends, err := o.Ends(ctx, q.Ends, q.Length)
	if err != nil {
		return err
	}
	a.Notes.Merge(ends.Notes)
	a.Ends = &ends
	return nil
}
