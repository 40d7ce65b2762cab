package moisture

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

var gravityRow = method.Method{
	ID: "mc.specific-gravity", Chapter: "moisture",
	Summary:  "Specific gravity and density of wood at a moisture content",
	Equation: "G_M = G_b/(1 - S_v (1 - M/FSP)); density = G_M rho_w (1 + M)",
	Inputs: []method.Input{
		{Name: "mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "specific_gravity", Unit: "", Fitted: method.Range{Low: 0.25, High: 0.9}, Limit: method.Range{Low: 0.05, High: 1.4}},
		{Name: "volumetric_shrinkage_pct", Unit: "%", Fitted: method.Range{Low: 4, High: 22}, Limit: method.Range{Low: 0.1, High: 40}},
		{Name: "fibre_saturation_pct", Unit: "%MC", Fitted: method.Range{Low: 20, High: 35}, Limit: method.Range{Low: 10, High: 45}},
	},
	Accuracy: "specific gravity varies by 10 % (1 SD) between pieces of a species",
	Source:   "Wood Handbook FPL-GTR-190 ch. 4, with S_v = 0.265 G_b where the wood's own is not known",
	Checked:  method.Memory,
}

// Gravity is the specific gravity of a wood at a moisture content.
type Gravity struct {
	SpecificGravity float64 // ovendry mass over present volume, against water
	Density         float64 // present mass over present volume, kg/m3
	Notes           method.Notes
}

// SpecificGravityAt returns specific gravity and density (kg/m3) at mc (0 to
// 2.5) of a wood with basic specific gravity basic (0.05 to 1.4), which shrinks by
// volumetricShrinkage (fraction, 0.001 to 0.4; 0 takes 0.265 times basic) from
// fibreSaturation (0.10 to 0.45; 0 takes 0.30) down.
//
// Errors: out_of_range for mc_pct, specific_gravity, volumetric_shrinkage_pct,
// fibre_saturation_pct.
// Accuracy: specific gravity varies by 10 % between pieces.
// Source: Wood Handbook ch. 4 (from memory).
func SpecificGravityAt(basic float64, mc quantity.Moisture, volumetricShrinkage float64, fibreSaturation quantity.Moisture) (Gravity, error) {
	var g Gravity
	if volumetricShrinkage == 0 {
		volumetricShrinkage = wood.VolumetricOf(basic)
	}
	if fibreSaturation == 0 {
		fibreSaturation = sorption.NominalFibreSaturation
	}
	for _, in := range []struct {
		name  string
		value float64
	}{
		{"specific_gravity", basic}, {"mc_pct", mc.Percent()},
		{"volumetric_shrinkage_pct", 100 * volumetricShrinkage}, {"fibre_saturation_pct", fibreSaturation.Percent()},
	} {
		if err := g.Notes.Use(&gravityRow, in.name, in.value); err != nil {
			return Gravity{}, err
		}
	}
	dry := max(0, 1-float64(mc/fibreSaturation))
	g.SpecificGravity = basic / (1 - volumetricShrinkage*dry)
	g.Density = waterDensity * g.SpecificGravity * (1 + float64(mc))
	return g, nil
}
