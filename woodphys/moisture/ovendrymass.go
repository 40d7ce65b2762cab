package moisture

import (
	"fmt"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var ovendryMassRow = method.Method{
	ID: "mc.ovendry-mass", Chapter: "moisture",
	Summary:  "Ovendry mass of a whole piece from a weight at a known moisture content",
	Equation: "OD = W/(1 + MC); dOD/OD = dMC/(1 + MC)",
	Inputs: slices.Concat(
		massInputs("mass"),
		[]method.Input{{Name: "mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange}},
	),
	Accuracy: "that of the known moisture content and the scale",
	Source:   "Wengert, sample board formulas (trade column)",
	Checked:  method.Read,
}

// Ovendry is the ovendry mass of a piece.
type Ovendry struct {
	Mass  quantity.Band[quantity.Mass]
	Notes method.Notes
}

// OvendryMass returns the ovendry mass of a piece from one weighing at a known
// moisture content (0 to 2.5), be it the start of drying or a later moment when
// an oven section or a trusted reading became available.
//
// Errors: out_of_range for mass or mc_pct; contradictory for a broken band.
// Accuracy: error propagation of the moisture content and the scale.
// Source: Wengert, sample board formulas (read).
func OvendryMass(known Known) (Ovendry, error) {
	var o Ovendry
	scale, err := known.relativeSD(&o.Notes, &ovendryMassRow, "mass")
	if err != nil {
		return Ovendry{}, err
	}
	if err := checkBand(&o.Notes, &ovendryMassRow, "mc_pct", known.MC); err != nil {
		return Ovendry{}, err
	}
	total := 1 + float64(known.MC.Value)
	mass := known.Mass / quantity.Mass(total) // OD = W/(1 + MC)
	sd := mass * quantity.Mass(hypot(float64(known.MC.SD())/total, scale))
	o.Mass = quantity.NormalBand(mass, sd).Clamp(0, known.Mass)
	return o, nil
}

// ReviseOvendry returns the ovendry mass that the first and a later known
// moisture content of the same piece give together, weighted by the inverse of
// their variances. Neither band may be exact, or there is nothing to weigh.
//
// Errors: those of OvendryMass with the input named first/... or later/...;
// contradictory, naming the later one, when the two differ by more than chance
// allows (1 % level).
// Accuracy: smaller than either alone, for independent determinations.
// Source: Wengert, sample board formulas (read); inverse-variance weighting,
// derived.
func ReviseOvendry(first, later Known) (Ovendry, error) {
	a, err := OvendryMass(first)
	if err != nil {
		return Ovendry{}, prefix(err, "first/")
	}
	b, err := OvendryMass(later)
	if err != nil {
		return Ovendry{}, prefix(err, "later/")
	}
	va, vb := float64(a.Mass.SD()), float64(b.Mass.SD())
	va, vb = va*va, vb*vb
	difference := float64(b.Mass.Value - a.Mass.Value)
	if p := chiSquareSurvival(difference*difference/(va+vb), 1); p < contradictionLevel {
		return Ovendry{}, &method.Error{
			Code: method.Contradictory, Input: "later/mc_pct",
			Detail: fmt.Sprintf("the first weighing implies an ovendry mass of %s and the later one %s, further apart than their uncertainties allow",
				a.Mass.Value.Format("g"), b.Mass.Value.Format("g")),
		}
	}
	mean := (float64(a.Mass.Value)/va + float64(b.Mass.Value)/vb) / (1/va + 1/vb)
	sd := math.Sqrt(1 / (1/va + 1/vb))
	out := Ovendry{Mass: quantity.NormalBand(quantity.Mass(mean), quantity.Mass(sd))}
	out.Notes.Merge(a.Notes)
	out.Notes.Merge(b.Notes)
	return out, nil
}
