package sorption

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Curves are the sorption of one wood: its isotherms and its fibre saturation, which
// belong together. The zero Curves are those of ordinary wood.
type Curves struct {
	// Saturation is the fibre saturation at 20 degC, 0.10 to 0.45; 0 for ordinary wood.
	Saturation quantity.Moisture
	// SaturationSD is one standard deviation of it between trees, 0 to 0.10; 0 where the
	// wood has none of its own.
	SaturationSD quantity.Moisture
	// Factor is the EMC over that of these curves, 0.5 to 1.5; 0 counts as 1.
	Factor float64
}

// richSaturation is the fibre saturation of a wood rich in extractives that has no figure
// of its own, and its standard deviation: that at which its EMC lies 2 %MC (1 to 3) below
// that of ordinary wood at 80 % RH and 20 degC. 1 to 3 %MC is recalled from Wood Handbook
// ch. 4 and Skaar 1988.
const (
	richSaturation   = 25 * quantity.PercentMC
	richSaturationSD = 2.5 / quantity.Z90 * quantity.PercentMC
)

// CurvesOf returns the sorption of a wood.
//
// Accuracy: that of its fibre saturation.
//
// Source: the fields FibreSaturation, FibreSaturationSpread, LowerEMC and EMCFactor.
func CurvesOf(w *wood.Wood) Curves {
	c := Curves{Saturation: w.FibreSaturation, Factor: w.EMCFactor}
	switch {
	case w.FibreSaturation == 0 && w.LowerEMC:
		c.Saturation, c.SaturationSD = richSaturation, richSaturationSD
	case !w.SaturationGeneral:
		c.SaturationSD = w.FibreSaturationSpread / quantity.Z90
	}
	return c
}

// saturation is that at 20 degC.
func (c Curves) saturation() quantity.Moisture {
	if c.Saturation == 0 {
		return NominalFibreSaturation
	}
	return c.Saturation
}

// At returns the isotherm of the wood at t (held to -40 to 120 degC) on branch b. Water
// that is bound to the cell wall as a hydrate is that of ordinary wood; the dissolved
// water is less by so much that the curve ends below fibre saturation as that of ordinary
// wood does. Wood of 30 %MC and above is ordinary.
//
// Accuracy: see the row emc.wood.
//
// Source: row emc.wood.
func (c Curves) At(t quantity.Temperature, b Branch) Isotherm {
	i := NewIsotherm(t)
	i.dissolved = i.heldOf(c.saturation())
	i.scale *= BranchFactor(b, t)
	if c.Factor != 0 {
		i.scale *= c.Factor
	}
	return i
}

// heldOf is the share of the dissolved water that a wood of a fibre saturation holds: with
// H and D the hydrate and the dissolved water at 100 % RH, (H + d D)/(H + D) = F/30.
func (i *Isotherm) heldOf(saturation quantity.Moisture) float64 {
	share := min(float64(saturation/NominalFibreSaturation), 1)
	x := i.k
	hydrate, dissolved := x*(i.k1+2*i.k12*x)/(1+x*(i.k1+i.k12*x)), x/(1-x)
	return share - (1-share)*hydrate/dissolved
}

// perSaturation is how much the isotherm rises with the fibre saturation of the wood, in
// points per point, at relative humidity rh.
func (i *Isotherm) perSaturation(rh float64) float64 {
	x := i.k * min(max(rh, 0), 1)
	end := i.k
	hydrate, dissolved := end*(i.k1+2*i.k12*end)/(1+end*(i.k1+i.k12*end)), end/(1-end)
	// d (share of dissolved)/dF = (1 + H/D)/30, times the dissolved water there
	return i.scale * x / (1 - x) * (1 + hydrate/dissolved) / float64(NominalFibreSaturation)
}

// SaturationAt returns the fibre saturation of the wood at t (-40 to 120 degC).
//
// Errors: as FibreSaturation. Accuracy: as FibreSaturation.
//
// Source: FibreSaturation, as Stamm and Loughborough 1935.
func (c Curves) SaturationAt(t quantity.Temperature) (quantity.Moisture, error) {
	return FibreSaturation(t, c.saturation())
}
