package shelf

import "slices"

// figureNames are the figures of a wood by the names of the tables, with what requests and
// answers call them: where a request takes a figure, by the name of its member.
var figureNames = map[string]string{
	"radial": "radial_shrinkage_pct", "tangential": "tangential_shrinkage_pct", "volumetric": "volumetric_shrinkage_pct",
	"longitudinal": "longitudinal_shrinkage_pct", "coefficient_radial": "radial_coefficient",
	"coefficient_tangential": "tangential_coefficient", "coefficient_fibre_saturation": "coefficient_fibre_saturation_mc_pct",
	"swelling_radial": "radial_swelling_pct_per_point", "swelling_tangential": "tangential_swelling_pct_per_point",
	"swelling_volumetric": "volumetric_swelling_pct_per_point",
	"radial_to_12":        "radial_shrinkage_to_12_pct", "tangential_to_12": "tangential_shrinkage_to_12_pct",
	"radial_to_17": "radial_shrinkage_to_17_pct", "tangential_to_17": "tangential_shrinkage_to_17_pct",
	"specific_gravity_green": "specific_gravity", "modulus_of_elasticity_12": "modulus_of_elasticity",
	"green_heartwood": "green_heartwood_mc_pct", "green_sapwood": "green_sapwood_mc_pct", "green_stem": "green_stem_mc_pct",
	"fibre_saturation": "fibre_saturation_mc_pct", "safe_daily_loss": "safe_mc_points_per_day",
}

// FigureName is what requests and answers call a figure of the tables.
func FigureName(name string) string {
	if told, is := figureNames[name]; is {
		return told
	}
	return name
}

// MovementFigures are the values of a wood that a movement rests on, by the names of the
// tables.
var MovementFigures = []string{"radial", "tangential", "longitudinal", "coefficient_radial", "coefficient_tangential",
	"coefficient_fibre_saturation", "fibre_saturation", "swelling_radial", "swelling_tangential", "swelling_volumetric"}

// Beside are the movement figures with others.
func Beside(more ...string) []string { return slices.Concat(more, MovementFigures) }
