package movement

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var diamondingRow = method.Method{
	ID: "movement.diamonding", Chapter: "movement",
	Summary:  "Change of a square corner whose sides lie at an angle to the rings (diamonding)",
	Equation: "g = (e_T - e_R) sin 2a, e the relative change of tangential and radial dimensions",
	Inputs: []method.Input{
		{Name: "from_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "to_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
	},
	Accuracy: "radial and tangential shrinkage taken to vary by 15 % (1 SD) each, independently, which is the wider way",
	Source:   "rotation of plane strain",
	Checked:  method.Derived,
}

// Diamond is the change of a corner that was square.
type Diamond struct {
	Angle quantity.Band[quantity.Angle] // size of the change; positive on drying
	Notes method.Notes
}

// Diamonding returns by how much a corner that is square at the moisture content
// from departs from a right angle at to (bands in 0 to 2.5), where the rings
// meet one side at ringAngle (0 to 90 degrees, standard deviation sd). None at
// 0 and 90, most at 45. Uses the total shrinkage.
//
// Errors: out_of_range for from_mc_pct, to_mc_pct, ring_angle_deg,
// ring_angle_sd_deg, figures of the wood; unsupported without radial and
// tangential shrinkage.
// Accuracy: linear form, short of the exact corner by about the mean shrinkage
// (5 % of the angle); 90 % band by the delta method.
// Source: rotation of plane strain, derived.
func Diamonding(ringAngle, sd quantity.Angle, from, to quantity.Band[quantity.Moisture], wood Wood) (Diamond, error) {
	var out Diamond
	out.Notes.Rest(&diamondingRow)
	if !wood.Radial.Known || !wood.Tangential.Known {
		return Diamond{}, &method.Error{Code: method.Unsupported, Input: "wood", Detail: "diamonding needs both the radial and the tangential shrinkage"}
	}
	if err := WidthAt(ringAngle, sd).check(&out.Notes); err != nil {
		return Diamond{}, err
	}
	t, err := prepare(&out.Notes, Tangential(), from, to, &wood)
	if err != nil {
		return Diamond{}, err
	}
	r, err := prepare(&out.Notes, Radial(), from, to, &wood)
	if err != nil {
		return Diamond{}, err
	}
	et, er := byShrinkage(t.s, t.from, t.to), byShrinkage(r.s, r.from, r.to)
	sine, cosine := math.Sincos(2 * float64(ringAngle))
	difference := er.value - et.value // positive on drying
	spread := math.Hypot(et.sd, er.sd)
	sdAngle := float64(sd) * 2 * cosine * difference
	band := quantity.NormalBand(quantity.Angle(difference*sine), quantity.Angle(math.Hypot(spread*sine, sdAngle)))
	out.Angle = band
	return out, nil
}
