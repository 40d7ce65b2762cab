package timing

import (
	"context"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// leastStart is the driest start of a forecast, in percent.
const leastStart = 1

// starting is the start of a forecast at a moisture content. It goes through percent, in
// which a start is told, so that the same forecast asked for by its figures is the same
// to the last digit.
func starting(mc, sd quantity.Moisture) seasoning.Start {
	return seasoning.Start{MC: quantity.Moisture(math.Max(mc.Percent(), leastStart) / 100),
		SD: quantity.Moisture(sd.Percent() / 100)}
}

// leaves is where leaves lie once they are sawn.
func (w *work) leaves() Lay {
	if w.q.LayLeaf != nil {
		return w.q.LayLeaf
	}
	return w.q.Lay
}

// prior is a piece of a thickness from a time on, before its forecast.
func (w *work) prior(lay Lay, thickness quantity.Length, from quantity.Duration, start seasoning.Start) (seasoning.Prior, error) {
	piece, err := lay(from)
	if err != nil {
		return seasoning.Prior{}, err
	}
	piece.Thickness, piece.Start = thickness, start
	prior, err := piece.Setup()
	w.notes.Merge(prior.Notes)
	return prior, ofStart(err)
}

// piece is the forecast of a piece of a thickness from a time on.
func (w *work) piece(ctx context.Context, lay Lay, thickness quantity.Length, from quantity.Duration,
	start seasoning.Start) (*seasoning.Outlook, error) {
	prior, err := w.prior(lay, thickness, from, start)
	if err != nil {
		return nil, err
	}
	o, err := seasoning.Foresee(ctx, &prior)
	if err != nil {
		return nil, ofStart(err)
	}
	w.notes.Merge(o.Notes)
	return o, nil
}

// ofStart names the start of a piece as the moisture of the billet.
func ofStart(err error) error {
	return method.Renamed(err, [2]string{"start_mc_pct", "mean_pct"}, [2]string{"start_mc_sd_points", "sd_pct"})
}

// readyFor is when a piece is first ready for a step.
func (w *work) readyFor(step readiness.Step, o *seasoning.Outlook) (readiness.ReadyDate, error) {
	date, err := o.Posterior.ReadyDate(w.limits(step, o.Setup.Thickness), o.Setup.TargetIn(w.q.Rest.Moisture, w.q.Rest.Room), 0, 0)
	w.notes.Merge(date.Notes)
	return date, err
}
