package sorption

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Margins of the printed curve.
const (
	// speciesMargin is the half width of the 90 % band between ordinary woods:
	// "the table serves all species to about 1 %MC" (from memory). Read as a 90 %
	// half width at 12 %MC and above, and as the same share of the value below.
	speciesMargin     = 1 * quantity.PercentMC
	speciesMarginFrom = 12 * quantity.PercentMC

	// shapeFromRH is the humidity from which down the band of a wood that holds less than
	// ordinary wood reaches the ordinary curve: where its water is lost was seen in damp air
	// only. Own choice.
	shapeFromRH = 0.60
)

// Equilibrium is the EMC of a piece of wood with its 90 % band.
type Equilibrium struct {
	Moisture quantity.Band[quantity.Moisture]
	Forms    []EquationResult // what each published equation gives for this wood
	Notes    method.Notes
}

// UncertaintySD returns the standard deviation of the EMC of one piece of
// ordinary wood about the curve value m at temperature t: 0.61 %MC between
// species (a 90 % band of +/-1 %MC, in proportion below 12 %MC), and on Middle,
// where the history is unknown, a uniform spread between the two branches as well
// (+/-8 % of m at room temperature).
//
// It checks nothing; m from 0 to fibre saturation.
// Accuracy: an estimate from rules in the literature, not a measured scatter.
//
// Source: margins as in the registry row emc.band; combined as independent.
func UncertaintySD(m quantity.Moisture, b Branch, t quantity.Temperature) quantity.Moisture {
	species := float64(speciesMargin) / quantity.Z90 * min(float64(m/speciesMarginFrom), 1)
	if b == Desorption || b == Adsorption {
		return quantity.Moisture(species)
	}
	// a uniform spread of half width h has the standard deviation h/sqrt(3)
	history := float64(m) * (BranchFactor(Desorption, t) - 1) / math.Sqrt(3)
	return quantity.Moisture(math.Hypot(species, history))
}

// EquilibriumBand returns the EMC of one piece of wood with its 90 % band in
// air of temperature t (-40 to 120 degC) and relative humidity rh (fraction 0 to
// 1, held to 0.98 with a warning), on branch b; c is the sorption of the wood. The band
// covers the scatter between woods or that of the wood's own fibre saturation, what the
// published equations differ by, and on Middle the unknown history; it does not cover an
// error in the humidity.
//
// Errors: *method.Error with input "temperature", "rh_pct" or "branch", and
// "fibre_saturation_pct" of the wood.
// Accuracy: that is its band.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5 and FPL-GTR-282 eq. 4-6 with BranchFactor,
// Curves and UncertaintySD.
func EquilibriumBand(t quantity.Temperature, rh float64, b Branch, c Curves) (Equilibrium, error) {
	var answer Equilibrium
	notes := &answer.Notes
	if err := checkAir(notes, t, rh, b); err != nil {
		return Equilibrium{}, err
	}
	if rh > HighestSurfaceHumidity {
		rh = HighestSurfaceHumidity
		notes.Warn(method.Warning{Code: method.Assumption, Method: rowEMC.ID, Input: "rh_pct",
			Detail: fmt.Sprintf("air above %.0f %% RH is treated as %.0f %% RH; the curve is steep and poorly known there", 100*HighestSurfaceHumidity, 100*HighestSurfaceHumidity)})
	}
	if err := c.note(notes); err != nil {
		return Equilibrium{}, err
	}
	curve := c.At(t, b)
	m := curve.At(rh)
	if err := notes.Use(&rowBand, "mc_pct", m.Percent()); err != nil {
		return Equilibrium{}, err
	}
	ordinary := NewBranchIsotherm(t, b).At(rh)
	share := 1.0
	if own := NewIsotherm(t).At(rh); own > 0 {
		share = float64(m / own)
	}
	answer.Forms = byEquation(t, rh, share)
	if c.Factor != 0 {
		ordinary *= quantity.Moisture(c.Factor)
	}
	band := quantity.NormalBand(m, c.spread(&curve, t, rh, b, ordinary, answer.Forms))
	band.Low = max(band.Low, 0)
	answer.Moisture = band
	return answer, nil
}

// checkAir checks the air by the rows that it uses.
func checkAir(notes *method.Notes, t quantity.Temperature, rh float64, b Branch) error {
	if err := notes.Use(&rowEMC, "temperature", t.Celsius()); err != nil {
		return err
	}
	if err := notes.Use(&rowEMC, "rh_pct", rh*100); err != nil {
		return err
	}
	if b != Middle && b != Desorption && b != Adsorption {
		return &method.Error{Code: method.Unknown, Input: "branch", Limit: method.OneOf("middle", "desorption", "adsorption"),
			Detail: "branch must be middle, desorption or adsorption"}
	}
	notes.Rest(&rowPower)
	if b == Middle {
		return nil
	}
	return notes.Use(&rowHysteresis, "temperature", t.Celsius())
}

// note notes the row of a wood that holds less than ordinary wood.
func (c Curves) note(notes *method.Notes) error {
	if c.saturation() == NominalFibreSaturation {
		return nil
	}
	return notes.Use(&rowWood, "fibre_saturation_pct", quantity.Tidy(c.saturation().Percent()))
}

// spread is the standard deviation of the EMC of one piece.
func (c Curves) spread(curve *Isotherm, t quantity.Temperature, rh float64, b Branch, ordinary quantity.Moisture, forms []EquationResult) quantity.Moisture {
	m := curve.At(rh)
	woods := float64(UncertaintySD(m, Desorption, t)) // between woods alone
	trees := float64(c.SaturationSD) * curve.perSaturation(rh)
	history := 0.0
	if b == Middle {
		history = float64(m) * (BranchFactor(Desorption, t) - 1) / math.Sqrt(3)
	}
	equations := float64(spreadOfEquations(forms, m))
	sure := min((1-rh)/(1-shapeFromRH), 1)
	shape := max(float64(ordinary-m), 0) * sure / quantity.Z90
	return quantity.Moisture(math.Sqrt(math.Pow(max(woods, trees), 2) + history*history + equations*equations + shape*shape))
}
