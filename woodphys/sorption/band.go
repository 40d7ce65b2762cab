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

	// The EMC of woods rich in extractives lies 1 to 3 %MC lower at high humidity
	// (from memory). Assumed reached at 80 % RH and falling in a straight line to
	// nothing at 0 % RH.
	lowerLeast, lowerMid, lowerMost = 1 * quantity.PercentMC, 2 * quantity.PercentMC, 3 * quantity.PercentMC
	lowerFullRH                     = 0.80
	lowerUnknownRH                  = 0.60 // from here down the band holds ordinary wood as well; own choice
)

// Equilibrium is the EMC of a piece of wood with its 90 % band.
type Equilibrium struct {
	Moisture quantity.Band[quantity.Moisture]
	Notes    method.Notes
}

// LowerEMC returns the 90 % band of the EMC of a wood rich in extractives
// (mahogany, redwood, rosewoods, teak) in air of relative humidity rh (fraction
// 0 to 1) in which an ordinary wood settles at m: lower by 2 %MC (1 to 3) from
// 80 % RH up, and by proportionally less below, at most half of m. Below 80 % RH
// nothing is published, so the upper end of the band goes back to m itself, fully
// from 60 % RH down.
//
// It checks nothing; rh is held to 0 to 1.
// Accuracy: that is its band. The straight line below 80 % RH is an assumption.
//
// Source: 1 to 3 %MC lower at high humidity, recalled from Wood Handbook ch. 4
// and Skaar 1988.
func LowerEMC(m quantity.Moisture, rh float64) quantity.Band[quantity.Moisture] {
	share := quantity.Moisture(min(max(rh, 0)/lowerFullRH, 1))
	less := func(points quantity.Moisture) quantity.Moisture { return max(m-points*share, m/2) }
	sure := quantity.Moisture(min(max((rh-lowerUnknownRH)/(lowerFullRH-lowerUnknownRH), 0), 1))
	return quantity.Band[quantity.Moisture]{Value: less(lowerMid), Low: less(lowerMost), High: less(lowerLeast * sure)}
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
// 1, held to 0.98 with a warning), on branch b; lowerEMC marks a wood rich in
// extractives. The band covers the scatter between species, and on Middle the
// unknown history; it does not cover an error in the humidity.
//
// Errors: *method.Error with input "temperature", "rh_pct" or "branch".
// Accuracy: that is its band.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5 with BranchFactor, LowerEMC and UncertaintySD.
func EquilibriumBand(t quantity.Temperature, rh float64, b Branch, lowerEMC bool) (Equilibrium, error) {
	var answer Equilibrium
	notes := &answer.Notes
	if err := notes.Use(&rowEMC, "temperature", t.Celsius()); err != nil {
		return Equilibrium{}, err
	}
	if err := notes.Use(&rowEMC, "rh_pct", rh*100); err != nil {
		return Equilibrium{}, err
	}
	if b != Middle && b != Desorption && b != Adsorption {
		return Equilibrium{}, &method.Error{Code: method.Unknown, Input: "branch", Limit: "middle, desorption, adsorption",
			Detail: "branch must be middle, desorption or adsorption"}
	}
	if rh > HighestSurfaceHumidity {
		rh = HighestSurfaceHumidity
		notes.Warn(method.Warning{Code: method.Assumption, Method: rowEMC.ID, Input: "rh_pct",
			Detail: fmt.Sprintf("air above %.0f %% RH is treated as %.0f %% RH; the curve is steep and poorly known there", 100*HighestSurfaceHumidity, 100*HighestSurfaceHumidity)})
	}
	if b != Middle {
		if err := notes.Use(&rowHysteresis, "temperature", t.Celsius()); err != nil {
			return Equilibrium{}, err
		}
	}
	m := NewBranchIsotherm(t, b).At(rh)
	if err := notes.Use(&rowBand, "mc_pct", m.Percent()); err != nil {
		return Equilibrium{}, err
	}
	sd := UncertaintySD(m, b, t)
	if lowerEMC {
		if err := notes.Use(&rowLower, "rh_pct", rh*100); err != nil {
			return Equilibrium{}, err
		}
		lower := LowerEMC(m, rh)
		m = lower.Value
		sd = quantity.Moisture(math.Hypot(float64(sd), float64(lower.SD())))
	}
	band := quantity.NormalBand(m, sd)
	band.Low = max(band.Low, 0)
	answer.Moisture = band
	return answer, nil
}
