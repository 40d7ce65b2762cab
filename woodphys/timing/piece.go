package timing

import (
	"context"
	"math"
	"slices"
	"strings"

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

// body is what is forecast: the billet, or a leaf of it.
type body string

const (
	theBillet body = ""
	theLeaf   body = "leaf"
)

// lay is where the body lies: leaves may have a place of their own once they are sawn.
func (w *work) lay(of body) Lay {
	if of == theLeaf && w.q.LayLeaf != nil {
		return w.q.LayLeaf
	}
	return w.q.Lay
}

// noted notes what a forecast of the body rests on; the thickness of a leaf is the leaf's.
// What the air of the stays rests on is told by the forecast that begins today.
func (w *work) noted(of body, from quantity.Duration, notes method.Notes) {
	if from > 0 {
		notes.Warnings = slices.DeleteFunc(slices.Clone(notes.Warnings),
			func(w method.Warning) bool { return strings.HasPrefix(w.Input, "phases/") })
	}
	notes = notes.Renamed(startNames...)
	if of == theLeaf {
		notes = notes.Renamed([2]string{"thickness", "leaf"}, [2]string{"discrepancy_sd_pct", "leaf"})
	}
	w.notes.Merge(notes)
}

// laid is a piece of a thickness from a time on, with where it lies.
func (w *work) laid(of body, thickness quantity.Length, from quantity.Duration, start seasoning.Start) (seasoning.Piece, error) {
	piece, err := w.lay(of)(from)
	piece.Thickness, piece.Start = thickness, start
	return piece, err
}

// prior is a piece of a thickness from a time on, before its forecast.
func (w *work) prior(of body, thickness quantity.Length, from quantity.Duration, start seasoning.Start) (seasoning.Prior, error) {
	piece, err := w.laid(of, thickness, from, start)
	if err != nil {
		return seasoning.Prior{}, err
	}
	prior, err := piece.Setup()
	w.noted(of, from, prior.Notes)
	return prior, ofStart(err)
}

// piece is the forecast of a piece of a thickness from a time on.
func (w *work) piece(ctx context.Context, of body, thickness quantity.Length, from quantity.Duration,
	start seasoning.Start) (*seasoning.Outlook, error) {
	prior, err := w.prior(of, thickness, from, start)
	if err != nil {
		return nil, err
	}
	o, err := seasoning.Foresee(ctx, &prior)
	if err != nil {
		return nil, ofStart(err)
	}
	w.noted(of, from, o.Notes)
	return o, nil
}

// ofStart names the start of a piece as the moisture of the billet.
func ofStart(err error) error { return method.Renamed(err, startNames...) }

// startNames are the inputs of a start by what they are of the billet.
var startNames = [][2]string{{"start_mc_pct", "mean_pct"}, {"start_mc_sd_points", "sd_pct"}, {"start_sd_pct", "sd_pct"}}

// readyFor is when a piece is ready for a step.
func (w *work) readyFor(step readiness.Step, o *seasoning.Outlook) (readiness.ReadyDate, error) {
	date, err := o.Posterior.ReadyDate(w.limits(step, o.Setup.Thickness), o.Setup.TargetIn(w.q.Rest.Moisture, w.q.Rest.Room), 0, 0)
	w.noted(map[readiness.Step]body{readiness.Thickness: theLeaf}[step], 0, date.Notes)
	if step == readiness.Resaw && w.ready && !date.Median.Within { // as it was read, which the forecast is not so sure of
		date.Low, date.Median = readiness.Date{Within: true}, readiness.Date{Within: true}
	}
	return date, err
}
