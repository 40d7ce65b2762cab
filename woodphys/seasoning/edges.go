package seasoning

import (
	"context"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Edges compares a piece with a board so wide that its edges do not count.
type Edges struct {
	Wide, Dry Reached // when the mean is dry, of the wide board and of the piece
	Share     float64 // of the time of the wide board; 0 where either is not known
	Notes     method.Notes
}

// Edges returns how much sooner a piece of a width (1 to 600 mm) dries than a wide
// board, its rings at ringAngle (0 to 90 degrees) to that width: single runs in one and
// in two dimensions of the middle forecast, without the sorption loop.
//
// Errors: those of drying.Solver.Run and drying.Rectangle.Run ("width").
// Accuracy: as drying.Rectangle.
//
// Source: rows drying.slab and drying.rectangle.
func (o *Outlook) Edges(ctx context.Context, width quantity.Length, ringAngle quantity.Angle,
	dry quantity.Moisture) (Edges, error) {
	job, err := o.Middle()
	if err != nil {
		return Edges{}, err
	}
	job.History, job.Ends = drying.NoHysteresis, nil // edges alone
	wide, err := o.dryAt(ctx, &job, dry)
	if err != nil {
		return Edges{}, err
	}
	// the two directions carry the ring angle themselves
	job.Factor /= drying.DirectionFactor(float64(ringAngle))
	section := drying.Rectangle{Work: o.Setup.Work}
	course, err := section.Run(ctx, &drying.RectangleJob{Job: job, Width: width, RingAngle: ringAngle})
	if err != nil {
		return Edges{}, ofRun(err)
	}
	e := Edges{Wide: wide, Dry: Reached{course.ReachedAt, course.Reached}, Notes: course.Notes}
	if e.Dry.Known && wide.Known && wide.At.Days() > 0 {
		e.Share = e.Dry.At.Days() / wide.At.Days()
	}
	return e, nil
}
