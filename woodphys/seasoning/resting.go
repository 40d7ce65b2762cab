package seasoning

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// oldFrom is how long wood has lain from when on its forecast no longer begins with its
// stacking: a forecast lasts no longer than LongestHorizon, and is to look ahead for a season.
// Own choice.
const oldFrom = LongestHorizon - 90*quantity.Day

// RestingSince returns when the forecast of wood that has lain for a time begins, from the day of
// stacking on: 0, or so late that it lasts to the usual end; old wood is at rest where it lies
// then, unless it StillDries.
//
// Accuracy: exact. Source: own choice.
func RestingSince(lain quantity.Duration) (since quantity.Duration, old bool) {
	if lain <= oldFrom {
		return 0, false
	}
	return lain - (LongestHorizon - aheadOfOld), true
}

// stillDries is by how much wood that is at rest gets drier in a year at most. Own choice.
const stillDries = 0.5 * quantity.PercentMC

// longestLain is how long a run may be.
const longestLain = 100 * 365 * quantity.Day

// StillDries reports that of pieces like this one a slow one, at the end of its 90 % band, is not at
// rest after a time (1 to 100 years; longer counts as that) in the first of its places: thick wood, or wrapped.
//
// Errors: those of Setup and of drying.Solver.Run.
// Accuracy: a rule of thumb; that of one run, coarse.
//
// Source: row drying.slab; at which loss a year wood is at rest is our own choice.
func (p *Piece) StillDries(ctx context.Context, lain quantity.Duration) (bool, error) {
	lain = min(lain, longestLain)
	prior, err := p.Setup()
	if err != nil || len(p.Phases) == 0 || p.Phases[0].Climate.End() < lain {
		return false, err
	}
	job, err := prior.Middle()
	if err != nil {
		return false, err
	}
	const year = 365 * quantity.Day
	job.Factor *= math.Exp(-quantity.Z90 * prior.Setup.FactorLogSD)
	job.Pace *= math.Exp(-quantity.Z90 * prior.Setup.PaceLogSD)
	first := p.Phases[0]
	first.Length = lain
	job.Phases, job.Times = []drying.Phase{first}, []quantity.Duration{lain - year, lain}
	solver := drying.Solver{Work: p.Work}
	course, err := solver.Run(ctx, &job)
	if err != nil {
		return false, ofRun(err)
	}
	return course.Mean[0]-course.Mean[1] > stillDries, nil
}

// restingSpread is how far wood of an unknown past may lie from what its air keeps it at, as a
// standard deviation. Own choice.
const restingSpread = 1.5 * quantity.PercentMC

// Resting returns the moisture content of a piece that has lain long in a place, at a time: that
// which the air of a year keeps it at; curves are the sorption of the wood.
//
// Accuracy: its spread is that of the air over a year and of what is not known of the piece.
//
// Source: sorption.Curves.At, in the middle of the loop, over twelve months.
func Resting(air *drying.Climate, curves sorption.Curves) Start {
	const months = 12
	sum, squares := 0.0, 0.0
	for i := range months {
		t, rh := air.At(min(quantity.Duration(i)*365*quantity.Day/months, air.End()))
		mc := float64(curves.At(t, sorption.Middle).At(min(rh, sorption.HighestSurfaceHumidity)))
		sum += mc / months
		squares += mc * mc / months
	}
	year := math.Sqrt(max(squares-sum*sum, 0))
	return Start{MC: quantity.Moisture(max(sum, float64(driestTarget))), SD: quantity.Moisture(math.Hypot(year, float64(restingSpread)))}
}
