package readiness

import (
	"math"

	"latewood/woodphys/quantity"
)

// Without a forecast a weight is held against the one before. Own choice, no source: a month in a
// shed takes less than a tenth from stacked wood, green wood loses at most about six tenths in all,
// and no weather adds a tenth.
const (
	mostMonthlyLoss = 0.1
	leastLeft       = 0.4
	mostGain        = 0.1
	month           = 30 * quantity.Day
)

// AfterWeight returns between what masses a piece is to be expected of which only its last weight
// (above 0) is known, so long (0 or more) after that; the middle is that weight.
//
// Errors: none.
// Accuracy: a guess, to tell slips by: wood that is turned into a kiln may lose more.
//
// Source: own choice.
func AfterWeight(last quantity.Mass, elapsed quantity.Duration) Foreseen {
	left := max(leastLeft, math.Pow(1-mostMonthlyLoss, math.Max(1, float64(elapsed/month))))
	least, most := quantity.Mass(left)*last, (1+mostGain)*last
	return Foreseen{Mass: quantity.Band[quantity.Mass]{Value: last, Low: least, High: most}, Least: least, Most: most}
}

// Doubted is what is odd about a weight.
type Doubted struct {
	Below bool   // it is less than was to be expected, not more
	Slip  string // the one slip of the pen or of the unit that would explain it; empty for none
}

// Doubts reports a weight (above 0) that lies outside of what is foreseen, with the slip that
// would explain it; unit is the one that it was written in.
//
// Errors: none; a unit that is none of a mass names no slip.
// Accuracy: one of about a thousand right weights is doubted, where the forecast is right.
//
// Source: own choice, as Foreseen.
func (f *Foreseen) Doubts(m quantity.Mass, unit string) (d Doubted, odd bool) {
	if m >= f.Least && m <= f.Most {
		return d, false
	}
	d.Below = m < f.Least
	if value, is := m.In(unit); is {
		band := quantity.Band[float64]{Low: math.Log(float64(f.Least)), High: math.Log(float64(f.Most))}
		d.Slip = slipOf("", math.Log(float64(m)), value, band, true)
	}
	return d, true
}
