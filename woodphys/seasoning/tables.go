package seasoning

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

// Reached is when a single run is dry.
type Reached struct {
	At    quantity.Duration // since stacking
	Known bool              // false: not within the forecast
}

// ThicknessRow is when the same piece would be dry in another thickness.
type ThicknessRow struct {
	Thickness quantity.Length
	Dry       Reached
}

// lowestEvery is how closely the lowest moisture content is looked for.
const lowestEvery = 5 * quantity.Day

// thinnestDried is the thinnest stock that is simulated.
const thinnestDried = 0.5 * quantity.Millimetre

// thicknessShares are the thicknesses beside that of the piece.
var thicknessShares = [...]float64{0.25, 0.5, 0.75, 1, 1.5, 2}

// Lowest returns how dry the piece ever gets: the lowest mean of the middle forecast,
// run on in the last place for ten years from stacking if the air there is known so long.
//
// Errors: those of drying.Solver.Run.
// Accuracy: as drying.Coarse, looked at every five days.
//
// Source: row drying.slab.
func (o *Outlook) Lowest(ctx context.Context) (quantity.Moisture, error) {
	job, err := o.Middle()
	if err != nil {
		return 0, err
	}
	last := len(job.Phases) - 1
	before := quantity.Duration(0)
	for _, p := range job.Phases[:last] {
		before += p.Length
	}
	total := before + job.Phases[last].Length
	if end := job.Phases[last].Climate.End(); end > total {
		phases := append([]drying.Phase{}, job.Phases...)
		phases[last].Length = min(LongestHorizon, end) - before
		job.Phases, total = phases, min(LongestHorizon, end)
	}
	for at := quantity.Duration(0); at <= total; at += lowestEvery {
		job.Times = append(job.Times, at)
	}
	course, err := o.solver.Run(ctx, &job)
	if err != nil {
		return 0, ofRun(err)
	}
	lowest := quantity.Moisture(math.Inf(1))
	for _, m := range course.Mean {
		lowest = min(lowest, m)
	}
	return lowest, nil
}

// dryAt is when the mean of the job comes down to dry, or up to damp where it starts below.
func (o *Outlook) dryAt(ctx context.Context, job *drying.Job, dry quantity.Moisture) (Reached, error) {
	if o.damp > 0 {
		return o.dampAt(ctx, job)
	}
	job.StopAt = dry
	course, err := o.solver.Run(ctx, job)
	if err != nil {
		return Reached{}, ofRun(err)
	}
	return Reached{course.ReachedAt, course.Reached}, nil
}

// dampAt is when the mean of the job comes up to damp, looked at every five days.
func (o *Outlook) dampAt(ctx context.Context, job *drying.Job) (Reached, error) {
	run, total := *job, quantity.Duration(0)
	for i := range run.Phases {
		total += run.Phases[i].Length
	}
	run.Times, run.StopAt = nil, 0
	for at := quantity.Duration(0); at <= total; at += lowestEvery {
		run.Times = append(run.Times, at)
	}
	course, err := o.solver.Run(ctx, &run)
	if err != nil {
		return Reached{}, ofRun(err)
	}
	for i, m := range course.Mean {
		if m >= o.damp {
			return Reached{course.Times[i], true}, nil
		}
	}
	return Reached{}, nil
}

// ByMonth returns when the mean of the middle forecast is dry for each of several
// stackings: the stays of each, from its own day on.
//
// Errors: those of drying.Solver.Run.
// Accuracy: as drying.Coarse.
//
// Source: row drying.slab.
func (o *Outlook) ByMonth(ctx context.Context, stackings [][]drying.Phase, dry quantity.Moisture) ([]Reached, error) {
	job, err := o.Middle()
	if err != nil {
		return nil, err
	}
	rows := make([]Reached, 0, len(stackings))
	for _, phases := range stackings {
		job.Phases = phases
		row, err := o.dryAt(ctx, &job, dry)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// ByThickness returns when the mean of the middle forecast is dry for the piece and for
// thicknesses from a quarter of its own to twice that.
//
// Errors: those of drying.Solver.Run and drying.ForThickness.
// Accuracy: as drying.Coarse, and the rule of thickness.
//
// Source: rows drying.slab and drying.thickness.
func (o *Outlook) ByThickness(ctx context.Context, dry quantity.Moisture) ([]ThicknessRow, error) {
	job, err := o.Middle()
	if err != nil {
		return nil, err
	}
	var rows []ThicknessRow
	for _, share := range thicknessShares {
		job.Thickness = o.Setup.Thickness * quantity.Length(share)
		if job.Thickness < thinnestDried {
			continue
		}
		if job.Factor, err = o.Factor.AtThickness(o.Setup.Thickness, job.Thickness); err != nil {
			return nil, err
		}
		at, err := o.dryAt(ctx, &job, dry)
		if err != nil {
			return nil, err
		}
		rows = append(rows, ThicknessRow{job.Thickness, at})
	}
	return rows, nil
}
