package moisture

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Limits of a mass in grams, from a shaving to a log.
var massRange = method.Range{Low: 1e-3, High: 1e8}

var resolutionRange = method.Range{Low: 0, High: 1e6}

// defaultResolution is the scale division taken when none is given, as a share
// of the mass: weighing for moisture needs a scale that reads 0.1 % or better
// (common practice, household drying guide).
const defaultResolution = 0.001

// Weighing is a mass read on a scale and the smallest division of that scale.
// A zero Resolution means not known: 0.1 % of the mass is taken, with a warning.
type Weighing struct {
	Mass       quantity.Mass // 1 mg to 100 t
	Resolution quantity.Mass // 0 to 1 t
}

// Known is a weighing at a moment when the moisture content was known too, with
// its 90 % band (all three ends equal when it is taken as exact).
type Known struct {
	Weighing
	MC quantity.Band[quantity.Moisture]
}

// massInputs are the row inputs of one weighing.
func massInputs(name string) []method.Input {
	return []method.Input{
		{Name: name, Unit: "g", Fitted: massRange, Limit: massRange},
		{Name: name + "_resolution", Unit: "g", Fitted: resolutionRange, Limit: resolutionRange},
	}
}

// relativeSD checks w through the row under name and returns the standard
// deviation of the reading as a share of its mass: a reading is uniform within
// one division d, so its SD is d/sqrt(12).
func (w Weighing) relativeSD(n *method.Notes, row *method.Method, name string) (float64, error) {
	if err := n.Use(row, name, w.Mass.Grams()); err != nil {
		return 0, err
	}
	if err := n.Use(row, name+"_resolution", w.Resolution.Grams()); err != nil {
		return 0, err
	}
	share := float64(w.Resolution / w.Mass)
	if w.Resolution == 0 {
		share = defaultResolution
		n.Warn(method.Warning{
			Code: method.DefaultUsed, Method: row.ID, Input: name + "_resolution",
			Detail: "the scale's division was not given; 0.1 % of the mass is taken",
		})
	}
	if share > 1 {
		return 0, &method.Error{
			Code: method.Contradictory, Input: name + "_resolution", Limit: method.AtMost(w.Mass.AtMost("g")),
			Detail: "the scale's division is larger than the mass weighed on it",
		}
	}
	return share / math.Sqrt(12), nil
}

// division returns the scale division, known or taken.
func (w Weighing) division() quantity.Mass {
	if w.Resolution > 0 {
		return w.Resolution
	}
	return defaultResolution * w.Mass
}
