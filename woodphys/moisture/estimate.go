package moisture

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Limits of a moisture content in %MC. The sapwood of light woods holds over
// 200 % (Wood Handbook table 4-1: western redcedar 249 %).
const (
	lowestMC  = 0.0
	highestMC = 250.0
)

var moistureRange = method.Range{Low: lowestMC, High: highestMC}

// Place says what part of the thickness an estimate speaks for.
type Place string

// Parts of the thickness.
const (
	Mean  Place = "mean"  // the whole section
	Core  Place = "core"  // the middle of the thickness
	Shell Place = "shell" // near a face
	Spot  Place = "spot"  // somewhere; the depth is not known
)

// Estimate is a moisture content with its uncertainty.
type Estimate struct {
	MC    quantity.Band[quantity.Moisture] // 90 % band, cut at 0 and at 250 %MC
	SD    quantity.Moisture                // standard deviation before the cut
	How   string                           // id of the method
	Place Place                            // what part of the thickness it speaks for
	// Section means that it is of a section cut out and oven-dried.
	Section bool
	// Remark says for people what else the reading tells; empty where it is nothing.
	Remark string
	Notes  method.Notes
}

var statedRow = method.Method{
	ID: "mc.stated", Chapter: "moisture",
	Summary:  "A moisture content and standard deviation stated by the caller",
	Equation: "MC, SD as given",
	Inputs: []method.Input{
		{Name: "mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "sd_pct", Unit: "%MC", Fitted: method.Range{Low: 0.05, High: 20}, Limit: method.Range{Low: 0.01, High: 100}},
	},
	Accuracy: "as the caller states",
	Source:   "the caller",
	Checked:  method.Practice,
}

// Stated returns the estimate a caller brings along: mc from 0 to 2.5 (0 to
// 250 %MC) with standard deviation sd from 0.0001 to 1. It speaks for the mean
// of the section.
//
// Errors: out_of_range for mc_pct or sd_pct.
// Accuracy: as stated by the caller.
// Source: none beyond the caller, whose figures are passed on.
func Stated(mc, sd quantity.Moisture) (Estimate, error) {
	e := Estimate{How: statedRow.ID, Place: Mean}
	if err := e.Notes.Use(&statedRow, "mc_pct", mc.Percent()); err != nil {
		return Estimate{}, err
	}
	if err := e.Notes.Use(&statedRow, "sd_pct", sd.Percent()); err != nil {
		return Estimate{}, err
	}
	e.set(mc, sd)
	return e, nil
}

// set fills value, SD and band.
func (e *Estimate) set(mc, sd quantity.Moisture) {
	e.SD = sd
	e.MC = quantity.NormalBand(mc, sd).Clamp(lowestMC/100, highestMC/100)
}

// checkBand checks a moisture band against a row: the value by the row's
// range, the ends by their order.
func checkBand(n *method.Notes, row *method.Method, input string, b quantity.Band[quantity.Moisture]) error {
	if err := n.Use(row, input, b.Value.Percent()); err != nil {
		return err
	}
	if !(b.Low <= b.Value && b.Value <= b.High) || math.IsInf(float64(b.High-b.Low), 0) { // also catches NaN
		return &method.Error{
			Code: method.Contradictory, Input: input,
			Detail: "the band of " + input + " must hold its value: low <= value <= high",
		}
	}
	return nil
}

func hypot(values ...float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v * v
	}
	return math.Sqrt(sum)
}
