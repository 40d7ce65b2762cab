package seasoning

import (
	"context"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

// Of the risk of checks: over how long from stacking it is looked at, and the largest
// drying factor that is simulated.
const (
	checksWithin = 120 * quantity.Day
	fastestDried = 20
)

// SurfaceChecks returns the fastest daily loss of a fast piece against what the wood
// takes; known is false where no safe loss of the wood is known, and for wood that
// starts so dry that the time when checks start has passed.
//
// Errors: those of drying.Solver.Run and drying.SurfaceCheckRisk.
// Accuracy: an index that runs high, because the air of a station is drier than that
// inside a pile.
//
// Source: row drying.check-risk; the drying factor is the fast end of its band.
func (o *Outlook) SurfaceChecks(ctx context.Context) (risk drying.CheckRisk, known bool, err error) {
	safe := o.Setup.Wood.SafeDailyLoss
	if safe == 0 || o.Setup.StartMC < DriedBefore {
		return risk, false, nil
	}
	job, err := o.Middle()
	if err != nil {
		return risk, false, err
	}
	job.Factor = min(o.Factor.Band().High, fastestDried) // the fast end of the band is what may crack
	span := min(checksWithin, o.Posterior.Horizon())
	for at := quantity.Duration(0); at <= span; at += quantity.Day {
		job.Times = append(job.Times, at)
	}
	course, err := o.solver.Run(ctx, &job)
	if err != nil {
		return risk, false, ofRun(err)
	}
	risk, err = drying.SurfaceCheckRisk(course, o.Setup.Thickness, safe)
	return risk, err == nil, err
}
