package readiness

import "latewood/woodphys/quantity"

// Step is a step of the work.
type Step string

// Steps of the work in their order.
const (
	Resaw     Step = "resaw"     // saw the billet into leaves, which then rest
	Thickness Step = "thickness" // bring leaves or parts to final thickness
	Glue      Step = "glue"      // joint and glue
)

// Limits are what a step asks of the wood. A zero limit is not asked for.
type Limits struct {
	Above    quantity.Moisture // MC at most this much above the EMC of the build room
	Below    quantity.Moisture // MC at most this much below it
	Gradient quantity.Moisture // core and shell at most this far apart
	Rate     float64           // change of mass per day, either way, as a share of the mass
}

// DefaultLimits returns the limits used for a step when the caller gives none.
// An unknown step has none.
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

// Steps returns the steps of the work in their order.
func Steps() []Step { return []Step{Resaw, Thickness, Glue} }
