package moisture

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

const (
	// waterDensity in kg/m3, the reference of specific gravity.
	waterDensity = 1000.0
	// specificGravityCV is the coefficient of variation of specific gravity
	// within a species, about 10 %. Wood Handbook, from memory.
	specificGravityCV = 0.10
	// volumeCV is the SD of a volume from a tape and a rule, as a share. Own choice.
	volumeCV = 0.01
	// leastSensitivity: 1 - S_v (1 + 1/FSP) is how fast density rises with MC
	// below fibre saturation; under this the wood swells as fast as it gains
	// mass and its density says nothing. Own choice.
	leastSensitivity = 0.15
	// impossibleSD: a result this many SDs outside 0 to saturation is refused.
	impossibleSD = 3.0
)

var densityRow = method.Method{
	ID: "mc.density", Chapter: "moisture",
	Summary:  "Moisture content from mass, present volume and basic specific gravity",
	Equation: "m/(V rho_w) = G_b (1 + M)/(1 - S_v (1 - M/FSP)); above fibre saturation m/(V rho_w) = G_b (1 + M)",
	Inputs: []method.Input{
		{Name: "mass", Unit: "g", Fitted: massRange, Limit: massRange},
		{Name: "volume", Unit: "cm3", Fitted: method.Range{Low: 10, High: 1e7}, Limit: method.Range{Low: 0.01, High: 1e9}},
		{Name: "specific_gravity", Unit: "", Fitted: method.Range{Low: 0.25, High: 0.9}, Limit: method.Range{Low: 0.05, High: 1.4}},
		{Name: "specific_gravity_cv", Unit: "", Fitted: method.Range{Low: 0.005, High: 0.2}, Limit: method.Range{Low: 0, High: 0.5}},
		{Name: "volumetric_shrinkage_pct", Unit: "%", Fitted: method.Range{Low: 4, High: 22}, Limit: method.Range{Low: 0.1, High: 40}},
		{Name: "fibre_saturation_pct", Unit: "%MC", Fitted: method.Range{Low: 20, High: 35}, Limit: method.Range{Low: 10, High: 45}},
	},
	Accuracy: "about +/-20 %MC near 10 %MC from a species mean (10 % variation of specific gravity); a few %MC with the piece's own",
	Source:   "Wood Handbook FPL-GTR-190 ch. 4, specific gravity against moisture content; ch. 5 variation",
	Checked:  method.Memory,
}

// Body is a piece of wood by mass and size.
type Body struct {
	Mass   quantity.Mass   // 1 mg to 100 t
	Volume quantity.Volume // now, not when green; 0.01 cm3 to 1000 m3
	// SpecificGravity is basic: ovendry mass over green volume, 0.05 to 1.4.
	SpecificGravity float64
	// SpecificGravityCV is its standard deviation as a share; 0 takes the 10 %
	// of a species mean; at most 0.5.
	SpecificGravityCV float64
	// VolumetricShrinkage green to ovendry as a fraction, 0.001 to 0.40; 0 when not
	// known.
	VolumetricShrinkage float64
	// FibreSaturation, 0.10 to 0.45; 0 takes 30 %MC.
	FibreSaturation quantity.Moisture
}

// FromDensity returns the moisture content that makes a piece of this size
// weigh this much. It is a coarse method, because pieces of one species differ
// in density by about 10 % and below fibre saturation wood swells while it gains
// water: good for telling green from dry, not for telling ready from nearly
// ready. The equation is linear fractional in M, so it is solved exactly.
//
// Errors: out_of_range for mass, volume, specific_gravity, specific_gravity_cv,
// volumetric_shrinkage_pct, fibre_saturation_pct; contradictory for a piece too
// light or too heavy for the wood; unsupported when the density of this wood
// hardly changes with moisture.
// Accuracy: see the row; the SD follows from the specific gravity's and a
// volume good to 1 %.
// Source: Wood Handbook ch. 4 and 5 (from memory).
func FromDensity(b Body) (Estimate, error) {
	e := Estimate{How: densityRow.ID, Place: Mean}
	b, err := b.complete(&e.Notes)
	if err != nil {
		return Estimate{}, err
	}
	s, f, g := b.VolumetricShrinkage, float64(b.FibreSaturation), b.SpecificGravity
	rho := float64(b.Mass) / float64(b.Volume) / waterDensity
	relative := hypot(b.SpecificGravityCV, volumeCV)

	m := rho/g - 1 // above fibre saturation
	slope := rho / g
	if m < f {
		if 1-s*(1+1/f) < leastSensitivity {
			return Estimate{}, &method.Error{Code: method.Unsupported, Input: "volumetric_shrinkage_pct", Detail: "this wood swells almost as fast as it gains water, so its density does not tell its moisture content"}
		}
		m = (rho*(1-s) - g) / (g - rho*s/f) // solved for M; rho*s/f < g by the check above
		// dM/dln(rho): 1/(1/(1+M) - (S/F)/(1 - S(1 - M/F)))
		at := math.Max(m, 0)
		slope = 1 / (1/(1+at) - (s/f)/(1-s*(1-at/f)))
	}
	sd := slope * relative
	most := float64(wood.MostMoisture(g))
	if m < -impossibleSD*sd || m > most+impossibleSD*sd {
		return Estimate{}, &method.Error{
			Code: method.Contradictory, Input: "mass",
			Detail: fmt.Sprintf("a density of %.0f kg/m3 does not fit a wood of basic specific gravity %.2f at any moisture content from 0 to %.0f %%MC; check species, size and weight", rho*waterDensity, g, 100*most),
		}
	}
	e.Notes.Warn(method.Warning{Code: method.Assumption, Method: densityRow.ID, Input: "specific_gravity", Detail: fmt.Sprintf("pieces of one wood differ in density; the standard deviation here is %.0f %%MC. An ovendry section of the same piece is far better", 100*sd)})
	e.set(quantity.Moisture(math.Min(math.Max(m, 0), most)), quantity.Moisture(sd))
	return e, nil
}

// complete checks b and fills what was not given.
func (b Body) complete(n *method.Notes) (Body, error) {
	use := func(value float64, input string) error { return n.Use(&densityRow, input, value) }
	if err := use(b.Mass.Grams(), "mass"); err != nil {
		return b, err
	}
	if err := use(float64(b.Volume)*1e6, "volume"); err != nil {
		return b, err
	}
	if err := use(b.SpecificGravity, "specific_gravity"); err != nil {
		return b, err
	}
	fill := func(input, detail string) {
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: densityRow.ID, Input: input, Detail: detail})
	}
	if b.SpecificGravityCV == 0 {
		b.SpecificGravityCV = specificGravityCV
		fill("specific_gravity_cv", "10 % variation of specific gravity within the species is taken")
	} else if err := use(b.SpecificGravityCV, "specific_gravity_cv"); err != nil {
		return b, err
	}
	if b.VolumetricShrinkage == 0 {
		b.VolumetricShrinkage = wood.VolumetricOf(b.SpecificGravity)
		fill("volumetric_shrinkage_pct", "the wood's volumetric shrinkage was not given; 0.265 of its specific gravity is taken (Wood Handbook ch. 4)")
	} else if err := use(100*b.VolumetricShrinkage, "volumetric_shrinkage_pct"); err != nil {
		return b, err
	}
	if b.FibreSaturation == 0 {
		b.FibreSaturation = sorption.NominalFibreSaturation
		fill("fibre_saturation_pct", "fibre saturation at 30 %MC is taken")
	} else if err := use(b.FibreSaturation.Percent(), "fibre_saturation_pct"); err != nil {
		return b, err
	}
	return b, nil
}
