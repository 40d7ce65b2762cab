package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// StepLimits replaces the usual limits of one step.
type StepLimits struct {
	Step     string   `json:"step" validate:"required,oneof=resaw thickness glue"`
	Above    *float64 `json:"max_above_mc_points,omitempty" validate:"omitempty,gt=0,lte=50" description:"points above the target"`
	Below    *float64 `json:"max_below_mc_points,omitempty" validate:"omitempty,gt=0,lte=50" description:"points below the target"`
	Gradient *float64 `json:"max_gradient_mc_points,omitempty" validate:"omitempty,gte=0,lte=50" description:"points between core and shell; 0: not asked"`
	Rate     *float64 `json:"max_mass_change_pct_per_day,omitempty" validate:"omitempty,gte=0,lte=10" description:"change of weight, percent of the mass per day; 0: not asked"`
	Trend    *float64 `json:"max_trend_mc_points,omitempty" validate:"omitempty,gte=0,lte=20" description:"points of moisture content over two weeks; 0: not asked"`
}

// ownLimits are the limits in place of the usual ones.
func ownLimits(list []StepLimits) []readiness.OwnLimits {
	points := func(pct *float64) *quantity.Moisture {
		if pct == nil {
			return nil
		}
		m := wire.FromPercent(*pct)
		return &m
	}
	var all []readiness.OwnLimits
	for i := range list {
		l := &list[i]
		own := readiness.OwnLimits{Step: readiness.Step(l.Step), Above: points(l.Above), Below: points(l.Below),
			Gradient: points(l.Gradient), Trend: points(l.Trend)}
		if l.Rate != nil {
			rate := *l.Rate / 100
			own.Rate = &rate
		}
		all = append(all, own)
	}
	return all
}

// twice is the error of limits that are given twice for a step.
func twice(place, step string) error {
	return wire.Contradictory(place, "the limits of "+step+" are given twice")
}

// limitNames are the inputs of limits; the members of a request say which step they are
// of, an error does not.
var limitNames = [][2]string{
	{"above_pct", "limits"}, {"below_pct", "limits"}, {"gradient_pct", "limits"},
	{"rate_pct_per_day", "limits"}, {"trend_pct", "limits"},
}
