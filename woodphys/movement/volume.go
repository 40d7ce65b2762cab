package movement

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var volumeRow = method.Method{
	ID: "movement.volume", Chapter: "movement",
	Summary:  "Change of volume from the volumetric shrinkage",
	Equation: "V_F/V_I = (1 - S_v (1 - M_F/FSP))/(1 - S_v (1 - M_I/FSP)); S_v = 1 - (1 - S_R)(1 - S_T) where not known",
	Inputs: []method.Input{
		{Name: "from_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "to_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "volume", Unit: "cm3", Fitted: method.Range{Low: 1e-3, High: 1e9}, Limit: method.Range{Low: 1e-6, High: 1e12}},
		{Name: "volumetric_pct", Unit: "%", Fitted: method.Range{Low: 3, High: 25}, Limit: method.Range{Low: 0.1, High: 50}},
		{Name: "radial_pct", Unit: "%", Fitted: shrinkageFitted, Limit: shrinkageLimit},
		{Name: "tangential_pct", Unit: "%", Fitted: shrinkageFitted, Limit: shrinkageLimit},
		onsetInput,
	},
	Accuracy: "pieces of a species vary by 15 % (1 SD)",
	Source:   "Wood Handbook FPL-GTR-190 ch. 4, tables 4-3 and 4-4",
	Checked:  method.Memory,
}

// VolumeMovement is the change of a volume. Positive is swelling.
type VolumeMovement struct {
	Change    quantity.Band[quantity.Volume]
	Strain    quantity.Band[float64]
	Shrinkage float64 // volumetric, green to ovendry, as used
	Notes     method.Notes
}

// VolumeChange returns how far volume (at the moisture content from) changes when
// the wood comes to the moisture content to, bands in 0 to 2.5; volume 0.001 mm3 to
// 1 000 000 m3. Where the
// published volumetric shrinkage and the product of radial and tangential differ
// by more than 15 %, as they do in some rows of the tables, a Disagreement is
// noted and the band holds both.
//
// Errors: out_of_range for volume, from_mc_pct, to_mc_pct, volumetric_pct,
// radial_pct, tangential_pct, fibre_saturation_pct; contradictory for a broken
// band; unsupported without any figure to use.
// Accuracy: 90 % band of 15 % variation and both moisture contents.
// Source: Wood Handbook ch. 4 (from memory).
func VolumeChange(volume quantity.Volume, from, to quantity.Band[quantity.Moisture], wood Wood) (VolumeMovement, error) {
	var out VolumeMovement
	if err := out.Notes.Use(&volumeRow, "volume", float64(volume)*1e6); err != nil {
		return VolumeMovement{}, err
	}
	if err := checkBand(&out.Notes, &volumeRow, "from_mc_pct", from); err != nil {
		return VolumeMovement{}, err
	}
	if err := checkBand(&out.Notes, &volumeRow, "to_mc_pct", to); err != nil {
		return VolumeMovement{}, err
	}
	onset, err := wood.onset(&out.Notes, &volumeRow)
	if err != nil {
		return VolumeMovement{}, err
	}
	if err := figure(&out.Notes, &volumeRow, "volumetric_pct", wood.Volumetric, 100); err != nil {
		return VolumeMovement{}, err
	}
	product, hasProduct, err := productShrinkage(&out.Notes, &wood)
	if err != nil {
		return VolumeMovement{}, err
	}
	ui, uf := dryness(from, onset), dryness(to, onset)
	strain := func(s float64) quantity.Band[float64] {
		return byShrinkage(uncertain{value: s, sd: shrinkageCV * s}, ui, uf).band()
	}
	switch {
	case wood.Volumetric.Known:
		out.Shrinkage = wood.Volumetric.Value
		out.Strain = strain(out.Shrinkage)
		if hasProduct && math.Max(product, out.Shrinkage) > (1+disagreementShare)*math.Min(product, out.Shrinkage) {
			out.Strain = union(out.Strain, strain(product))
			out.Notes.Warn(method.Warning{Code: method.Disagreement, Method: volumeRow.ID, Input: "volumetric_pct", Detail: fmt.Sprintf(
				"the published volumetric shrinkage is %.1f %% and radial and tangential together give %.1f %%; the band holds both", 100*out.Shrinkage, 100*product)})
		}
	case hasProduct:
		out.Shrinkage = product
		out.Strain = strain(product)
		out.Notes.Warn(method.Warning{Code: method.DefaultUsed, Method: volumeRow.ID, Input: "volumetric_pct", Detail: "the volumetric shrinkage is not known; radial and tangential together are used"})
	default:
		return VolumeMovement{}, &method.Error{Code: method.Unsupported, Input: "wood", Detail: "neither the volumetric nor both the radial and tangential shrinkage of this wood are known"}
	}
	v := func(x float64) quantity.Volume { return quantity.Volume(x) * volume }
	out.Change = quantity.Band[quantity.Volume]{Value: v(out.Strain.Value), Low: v(out.Strain.Low), High: v(out.Strain.High)}
	return out, nil
}

// productShrinkage returns 1 - (1 - S_R)(1 - S_T), leaving out the small
// longitudinal shrinkage.
func productShrinkage(n *method.Notes, wood *Wood) (s float64, known bool, err error) {
	if !wood.Radial.Known || !wood.Tangential.Known {
		return 0, false, nil
	}
	if err := figure(n, &volumeRow, "radial_pct", wood.Radial, 100); err != nil {
		return 0, false, err
	}
	if err := figure(n, &volumeRow, "tangential_pct", wood.Tangential, 100); err != nil {
		return 0, false, err
	}
	return 1 - (1-wood.Radial.Value)*(1-wood.Tangential.Value), true, nil
}
