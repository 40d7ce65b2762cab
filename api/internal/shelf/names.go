package shelf

import (
	"latewood/api/internal/wire"
)

// WoodNames are what a request calls the figures of a wood, by the names that the
// chapters give them, below the place at, which is empty or ends in a slash; own says
// that the wood is the caller's.
func WoodNames(at string, own bool) [][2]string {
	names := make([][2]string, 0, 6)
	for _, one := range [...][2]string{
		{"radial_pct", "wood/radial_shrinkage_pct"}, {"tangential_pct", "wood/tangential_shrinkage_pct"},
		{"fibre_saturation_pct", "wood/fibre_saturation_mc_pct"}, {"specific_gravity", "wood/specific_gravity"},
	} {
		names = append(names, [2]string{at + one[0], at + one[1]})
	}
	if !own {
		names = append(names, [2]string{at + "wood", at + "species"})
	}
	return names
}

// MovementError points at the members of a request that says from, to and its own wood.
func MovementError(err error) error {
	return wire.Under("", err, append(WoodNames("", true), [2]string{"from_mc_pct", "from_condition"},
		[2]string{"to_mc_pct", "to_condition"})...)
}
