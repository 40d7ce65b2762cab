package readiness

import (
	"fmt"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Step is a step of the work.
type Step string

// Steps of the work in their order.
const (
	Resaw     Step = "resaw"     // saw the billet into leaves, which then rest
	Thickness Step = "thickness" // bring leaves or parts to final thickness
	Glue      Step = "glue"      // joint and glue
)

// Limits are what a step asks of the wood. A zero limit is not asked for; Above
// and Below are always asked. With both Rate and Trend the narrower counts. Each
// is 0 to 1, so 0 to 100 %MC or 100 % of the mass per day.
type Limits struct {
	Above    quantity.Moisture // MC at most this much above the EMC of the build room
	Below    quantity.Moisture // MC at most this much below it
	Gradient quantity.Moisture // core and shell at most this far apart
	Rate     float64           // change of mass per day, either way, as a share of the mass; for small stock
	Trend    quantity.Moisture // change of the mean MC over TrendSpan, either way; for thick stock
}

// TrendSpan is the time over which thick stock is watched for rest.
const TrendSpan = 14 * quantity.Day

// rateSpan is that of small stock, which is judged from day to day: the day before and the day
// after. It comes to rest within days, and two weeks would still tell of how it came there.
const rateSpan = 2 * quantity.Day

// smallStock is the thickness up to which a piece counts as small stock, which
// is judged by its change of mass from day to day. Own choice: leaves and plates.
const smallStock = 10 * quantity.Millimetre

// DefaultLimits returns the limits used for a step of small stock (leaves, thin
// parts) when the caller gives none. An unknown step has none.
//
// Accuracy: starting values of the trade, not a standard.
//
// Source: common practice, no source: gradient 1 to 2 %MC for thin stock and 3
// otherwise; within about 1 %MC of the room for gluing; 0.1 % of mass per day as
// in the conditioning clause of ASTM D4933 (from memory).
func DefaultLimits(s Step) Limits {
	switch s {
	case Resaw:
		return Limits{Above: 4 * quantity.PercentMC, Below: 4 * quantity.PercentMC, Gradient: 3 * quantity.PercentMC}
	case Thickness:
		return Limits{Above: 1.5 * quantity.PercentMC, Below: 1.5 * quantity.PercentMC, Gradient: 2 * quantity.PercentMC, Rate: 0.001}
	case Glue:
		return Limits{Above: 1 * quantity.PercentMC, Below: 1 * quantity.PercentMC, Gradient: 1.5 * quantity.PercentMC, Rate: 0.001}
	}
	return Limits{}
}

// LimitsFor returns the limits used for a step of stock of a thickness (above
// 0) when the caller gives none. Up to 10 mm they are those of DefaultLimits;
// above, rest is a change of at most 1 %MC (thickness) or 0.5 %MC (glue) over
// two weeks, because 0.1 % of mass per day is 1.5 %MC in two weeks and thick
// stock far from dry can be slower than that. An unknown step has none.
//
// Accuracy: as DefaultLimits.
//
// Source: common practice, no source ("no trend over two weeks larger than the
// seasonal swing"; the figures are our own choice).
func LimitsFor(s Step, thickness quantity.Length) Limits {
	limits := DefaultLimits(s)
	if thickness <= smallStock || limits.Rate == 0 {
		return limits
	}
	limits.Rate = 0
	switch s {
	case Thickness:
		limits.Trend = 1 * quantity.PercentMC
	case Glue:
		limits.Trend = 0.5 * quantity.PercentMC
	case Resaw:
	}
	return limits
}

// check refuses limits that mean nothing.
func (l Limits) check() error {
	for _, in := range [...]struct {
		name  string
		value float64
	}{{"above_pct", l.Above.Percent()}, {"below_pct", l.Below.Percent()}, {"gradient_pct", l.Gradient.Percent()}, {"rate_pct_per_day", l.Rate * 100}, {"trend_pct", l.Trend.Percent()}} {
		if !(in.value >= 0 && in.value <= 100) {
			return &method.Error{Code: method.OutOfRange, Input: in.name, Limit: method.Between(0, 100, ""), Detail: fmt.Sprintf("%s must be 0 to 100; got %g", in.name, in.value)}
		}
	}
	return nil
}

// span is the time over which the change is taken that is held against the limits.
func (l Limits) span() quantity.Duration {
	if l.Rate > 0 && l.Trend == 0 {
		return rateSpan
	}
	return TrendSpan
}

// rest returns the widest change of MC per day, a fraction, that the limits
// allow a piece of moisture content mc; asked is false when they allow any.
func (l Limits) rest(mc float64) (perDay float64, asked bool) {
	switch {
	case l.Rate > 0 && l.Trend > 0:
		return min(l.Rate*(1+mc), float64(l.Trend)/TrendSpan.Days()), true
	case l.Rate > 0:
		return l.Rate * (1 + mc), true
	case l.Trend > 0:
		return float64(l.Trend) / TrendSpan.Days(), true
	}
	return 0, false
}

// Steps returns the steps of the work in their order.
func Steps() []Step { return []Step{Resaw, Thickness, Glue} }
