package seasoning

import (
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
// then.
//
// Accuracy: exact. Source: own choice.
func RestingSince(lain quantity.Duration) (since quantity.Duration, old bool) {
	if lain <= oldFrom {
		return 0, false
	}
	return lain - (LongestHorizon - aheadOfOld), true
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
