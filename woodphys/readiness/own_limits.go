package readiness

import "latewood/woodphys/quantity"

// OwnLimits are limits of a step in place of the usual ones; what is nil stays as it
// usually is. Each is 0 to 1.
type OwnLimits struct {
	Step                          Step
	Above, Below, Gradient, Trend *quantity.Moisture
	Rate                          *float64 // share of the mass per day
}

// LimitsOf returns the limits of a step for stock of a thickness (above 0): those of
// LimitsFor with the maker's own in their place.
//
// Accuracy: as DefaultLimits.
//
// Source: as LimitsFor, or the maker.
func LimitsOf(s Step, thickness quantity.Length, own []OwnLimits) Limits {
	limits := LimitsFor(s, thickness)
	for i := range own {
		if own[i].Step != s {
			continue
		}
		for _, set := range []struct{ to, from *quantity.Moisture }{
			{&limits.Above, own[i].Above}, {&limits.Below, own[i].Below}, {&limits.Gradient,
				own[i].Gradient}, {&limits.Trend, own[i].Trend},
		} {
			if set.from != nil {
				*set.to = *set.from
			}
		}
		if own[i].Rate != nil {
			limits.Rate = *own[i].Rate
		}
	}
	return limits
}
