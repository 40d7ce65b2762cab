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

// SurfaceChecks returns the fastest loss of the piece over three days against what the wood
// takes, of the middle forecast and beside it of a fast piece; known is false where no safe loss of the wood is known, and for wood that
// starts so dry that the time when checks start has passed.
//
// Errors: those of drying.Solver.Run and drying.SurfaceCheckRisk.
// Accuracy: an index that runs high, because the air of a station is drier than that
// inside a pile.
//
// Source: row drying.check-risk.
func (o *Outlook) SurfaceChecks(ctx context.Context) (risk drying.CheckRisk, known bool, err error) {
	safe := o.Setup.Wood.SafeDailyLoss
	if safe == 0 || o.Setup.StartMC < DriedBefore {
		return risk, false, nil
	}
	job, err := o.Middle()
	if err != nil {
		return risk, false, err
	}
	span := min(checksWithin, o.Posterior.Horizon())
	for at := quantity.Duration(0); at <= span; at += quantity.Day {
		job.Times = append(job.Times, at)
	}
	var both [2]drying.CheckRisk
	for i, factor := range []float64{job.Factor, min(o.Factor.Band().High, fastestDried)} {
		job.Factor = factor
		course, err := o.solver.Run(ctx, &job)
		if err != nil {
			return risk, false, ofRun(err)
		}
		if both[i], err = drying.SurfaceCheckRisk(course, o.Setup.Thickness, safe); err != nil {
			return risk, false, err
		}
	}
	return both[0].Beside(both[1]), true, nil
}
