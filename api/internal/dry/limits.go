package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// StepLimit replaces the usual limits of one step.
type StepLimit struct {
	Step     string   `json:"step" validate:"required,oneof=resaw thickness glue" description:"of the work"`
	Above    *float64 `json:"max_above_mc_points,omitempty" validate:"omitempty,gt=0,lte=50" description:"moisture content above the target that is still ready. Left out: the usual one of the step"`
	Below    *float64 `json:"max_below_mc_points,omitempty" validate:"omitempty,gt=0,lte=50" description:"moisture content below the target that is still ready. Left out: the usual one of the step"`
	Gradient *float64 `json:"max_gradient_mc_points,omitempty" validate:"omitempty,gte=0,lte=50" description:"between core and shell; 0: not asked. Left out: the usual one of the step"`
	Rate     *float64 `json:"max_mass_change_pct_per_day,omitempty" validate:"omitempty,gte=0,lte=10" description:"change of weight in percent of the mass a day; 0: not asked. Left out: the usual one of the step"`
	Trend    *float64 `json:"max_trend_mc_points,omitempty" validate:"omitempty,gte=0,lte=20" description:"change of moisture content in two weeks; 0: not asked. Left out: the usual one of the step"`
}

// ownLimits are the limits in place of the usual ones.
func ownLimits(list []StepLimit) []readiness.OwnLimits {
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
	{"above_pct", "step_limits"}, {"below_pct", "step_limits"}, {"gradient_pct", "step_limits"},
	{"rate_pct_per_day", "step_limits"}, {"trend_pct", "step_limits"},
}
