package shelf

import (
	"latewood/api/internal/wire"
)

// WoodNames are what a request calls the figures of a wood, by the names that the
// chapters give them, below the place at, which is empty or ends in a slash.
func WoodNames(at string) [][2]string {
	names := make([][2]string, 0, 12)
	for _, one := range [...][2]string{
		{"radial_pct", "radial_shrinkage_pct"}, {"tangential_pct", "tangential_shrinkage_pct"},
		{"fibre_saturation_pct", "fibre_saturation_mc_pct"}, {"specific_gravity", "specific_gravity"},
		{"longitudinal_pct", "longitudinal_shrinkage_pct"},
		{"coefficient_radial", "radial_coefficient"}, {"coefficient_tangential", "tangential_coefficient"},
		{"differential_radial", "radial_swelling_pct_per_point"}, {"differential_tangential", "tangential_swelling_pct_per_point"},
		{"swelling_volumetric", "volumetric_swelling_pct_per_point"},
		{"group", "group"}, {"modulus_of_elasticity", "modulus_of_elasticity"},
	} {
		names = append(names, [2]string{at + one[0], at + "wood/" + one[1]})
	}
	return names
}

// MovementError points at the members of a request that says from, to and its own wood.
func MovementError(err error) error {
	return wire.Under("", err, append(WoodNames(""), [2]string{"from_mc_pct", "from_condition"},
		[2]string{"to_mc_pct", "to_condition"})...)
}

// Below are names of members of what stands at a place, as paths from above it.
func Below(place string, names ...string) []string {
	all := make([]string, 0, len(names))
	for _, name := range names {
		all = append(all, place+"/"+name)
	}
	return all
}

// WoodInMovement are the members of a wood that a movement rests on.
var WoodInMovement = []string{"species", "any", "radial_shrinkage_pct", "tangential_shrinkage_pct",
	"longitudinal_shrinkage_pct", "radial_coefficient", "tangential_coefficient", "radial_swelling_pct_per_point",
	"tangential_swelling_pct_per_point", "volumetric_swelling_pct_per_point", "fibre_saturation_mc_pct", "rich_in_extractives"}
