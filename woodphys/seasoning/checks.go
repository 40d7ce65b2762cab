package seasoning

import (
	"context"
	"slices"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

// Of the risk of checks: over how long from stacking it is looked at, and the largest
// drying factor that is simulated.
const (
	checksWithin = 120 * quantity.Day
	fastestDried = 20
	// underWay is from how long before a day on the days over which the loss is looked at are not
	// over on it.
	underWay = 2 * quantity.Day
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
	if o.Setup.StartMC < DriedBefore {
		return risk, false, nil
	}
	return o.checksFrom(ctx, 0, o.Factor.Band().High)
}

// checksFrom is the risk from a day on, of wood that is wet on it, and beside it that of a piece
// with the factor of a fast one.
func (o *Outlook) checksFrom(ctx context.Context, from quantity.Duration, fast float64) (risk drying.CheckRisk, known bool, err error) {
	safe := o.Setup.Wood.SafeDailyLoss
	if safe == 0 || from >= o.Posterior.Horizon() {
		return risk, false, nil
	}
	job, err := o.Middle()
	if err != nil {
		return risk, false, err
	}
	job.Ends = nil // what leaves through the ends strains no face
	end := min(from+checksWithin, o.Posterior.Horizon())
	for at := max(from-underWay, 0); at <= end; at += quantity.Day {
		job.Times = append(job.Times, at)
	}
	if len(job.Times) < 2 { // today is the last day of the forecast
		return risk, false, nil
	}
	var both [2]drying.CheckRisk
	for i, factor := range []float64{job.Factor, min(fast, fastestDried)} {
		job.Factor = factor
		course, err := o.solver.Run(ctx, &job)
		if err != nil {
			return risk, false, ofRun(err)
		}
		if both[i], err = drying.SurfaceCheckRisk(course, o.Setup.Thickness, safe); err != nil {
			return risk, false, err
		}
	}
	risk = both[0].Beside(both[1])
	if sunReaches(job.Phases, from, end) {
		risk.MindSun()
	}
	return risk, true, nil
}

// behindWalls are the exposures of rooms and kilns.
var behindWalls = []string{drying.ClosedRoom().Name, drying.Kiln().Name, drying.Dehumidifier().Name, drying.SolarKiln().Name}

// sunReaches reports that wood lies where sun and wind come to its faces at some time of a span: not
// in film, and not behind walls.
func sunReaches(phases []drying.Phase, from, to quantity.Duration) bool {
	begin := quantity.Duration(0)
	for i := range phases {
		p := &phases[i]
		end := begin + p.Length
		if end > from && begin < to && p.Exposure.CoatResistance == 0 && !slices.Contains(behindWalls, p.Exposure.Name) {
			return true
		}
		begin = end
	}
	return false
}
