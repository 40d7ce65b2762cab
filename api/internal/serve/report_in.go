package serve

import (
	"slices"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// reporting is a request that says in which units it is answered.
type reporting interface{ System() string }

// inUnitsOf says the warnings in the units the request asks for. Those of the physics
// are worded in metric units.
func inUnitsOf(request any, warnings []method.Warning) []method.Warning {
	asks, is := request.(reporting)
	if !is || asks.System() != wire.InchLB {
		return warnings
	}
	said := slices.Clone(warnings)
	for i := range said {
		said[i].Detail = said[i].In(wire.ReportIn(wire.InchLB).Amount)
	}
	return said
}
