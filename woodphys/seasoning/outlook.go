package seasoning

import (
	"context"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Outlook is the forecast of a piece.
type Outlook struct {
	Prior
	Posterior *readiness.Posterior
	solver    drying.Solver // of its single runs
	// damp, when above 0, is what a piece that starts drier has to come up to.
	damp quantity.Moisture
}

// Foresee returns the forecast of a piece that nobody has read or weighed.
//
// Errors: those of readiness.Learn; "start_mc_pct" and "start_mc_sd_points" for the start.
// Accuracy: that of readiness.Learn.
//
// Source: row readiness.learn.
func Foresee(ctx context.Context, prior *Prior) (*Outlook, error) {
	o := &Outlook{Prior: *prior, solver: drying.Solver{Work: prior.Setup.Work}}
	posterior, err := readiness.Learn(ctx, prior.Setup, nil)
	if err != nil {
		return nil, ofRun(err)
	}
	o.Posterior, o.Notes = posterior, method.Notes{}
	o.Notes.Merge(prior.Notes)
	o.Notes.Merge(posterior.Notes)
	return o, nil
}

// Middle returns the single run of the middle forecast, coarse, to be changed and run.
//
// Errors: those of drying.NewTransport.
// Accuracy: as drying.Coarse.
//
// Source: row drying.slab.
func (p *Prior) Middle() (drying.Job, error) {
	transport, err := drying.NewTransport(p.Setup.Wood)
	if err != nil {
		return drying.Job{}, ofRun(err)
	}
	return drying.Job{Transport: transport, Thickness: p.Setup.Thickness, Factor: p.Setup.Factor, Pace: p.Setup.Pace, Initial: p.Setup.StartMC,
		History: p.Setup.History, Ends: p.Setup.Ends, Phases: p.Setup.Phases, Setting: drying.Coarse()}, nil
}

// ofRun names the inputs of a run as those of the piece.
func ofRun(err error) error { return method.Renamed(err, [2]string{"mc_pct", "start_mc_pct"}) }
