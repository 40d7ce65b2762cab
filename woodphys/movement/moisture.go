package movement

import (
	"math"

	"latewood/woodphys/quantity"
)

// dryness returns u = 1 - min(M, F)/F, the share of the total shrinkage that has
// happened at the moisture content m: 0 from fibre saturation up, 1 when
// ovendry, with the exact mean and variance of a normal M cut at F.
func dryness(m quantity.Band[quantity.Moisture], onset quantity.Moisture) uncertain {
	f, sd := float64(onset), float64(m.SD())
	gap := f - float64(m.Value)
	u := uncertain{value: math.Max(0, gap) / f}
	switch {
	case sd == 0:
	case gap > 4*sd: // nothing of it reaches fibre saturation
		u.sd = sd / f
	case gap < -6*sd: // all of it is above
	default:
		a := gap / sd
		below := math.Erfc(-a/math.Sqrt2) / 2              // Phi(a)
		density := math.Exp(-a*a/2) / math.Sqrt(2*math.Pi) // phi(a)
		mean := gap*below + sd*density                     // E[(F-M)+]
		square := (gap*gap+sd*sd)*below + gap*sd*density   // E[(F-M)+^2]
		u.bias = mean/f - u.value
		u.sd = math.Sqrt(math.Max(0, square-mean*mean)) / f
	}
	return u
}
