package movement

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

const (
	// UsualOnset is where the handbook's formulas let shrinkage start.
	UsualOnset = sorption.NominalFibreSaturation
	// shrinkageCV is the coefficient of variation of shrinkage between pieces
	// of a species, about 15 %. Wood Handbook ch. 4, from memory.
	shrinkageCV = 0.15
	// longitudinalShrinkage: 0.1 to 0.2 % green to ovendry for normal wood
	// (Wood Handbook GTR-190 p. 4-5, read as quoted); the middle.
	longitudinalShrinkage = 0.0015
	// longitudinalCV is wide on purpose, own choice: the 90 % band is 0.03 to 0.27 %.
	longitudinalCV = 0.5
)

var (
	moistureRange   = method.Range{Low: 0, High: 250}
	shrinkageFitted = method.Range{Low: 1, High: 16}
	shrinkageLimit  = method.Range{Low: 0.01, High: 40}
	lengthRange     = method.Range{Low: 1e-3, High: 1e6}
	onsetInput      = method.Input{Name: "fibre_saturation_pct", Unit: "%MC", Fitted: method.Range{Low: 15, High: 40}, Limit: method.Range{Low: 10, High: 45}}
)

// onsetOf returns the moisture content at which shrinkage starts.
func onsetOf(w *wood.Wood, n *method.Notes, row *method.Method) (quantity.Moisture, error) {
	f := w.Onset()
	if f == 0 {
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: row.ID, Input: "fibre_saturation_pct", Detail: "shrinkage is taken to start at 30 %MC, as in the handbook's formulas"})
		return UsualOnset, nil
	}
	return f, n.Use(row, "fibre_saturation_pct", percent(f))
}

// figure checks a known figure under its name, in the unit of the row.
func figure(n *method.Notes, row *method.Method, input string, f wood.Figure, scale float64) error {
	if !f.Known {
		return nil
	}
	f.Doubt(row, input, n)
	return n.Use(row, input, f.Value*scale)
}

// checkBand checks a moisture band: its value by the row, its ends by order.
func checkBand(n *method.Notes, row *method.Method, input string, b quantity.Band[quantity.Moisture]) error {
	if err := n.Use(row, input, percent(b.Value)); err != nil {
		return err
	}
	if b.Low <= b.Value && b.Value <= b.High && b.Low >= -furthest && b.High <= furthest { // false for NaN
		return nil
	}
	return &method.Error{Code: method.Contradictory, Input: input, Detail: "the band of " + input + " must hold its value, low <= value <= high, with ends within 1000 %MC"}
}

// furthest is how far the ends of a moisture band may lie, 1000 %MC either way; wide
// enough for any honest SD, and nothing overflows.
const furthest = 10

// percent returns m in %MC without the last-digit dust of the conversion, so
// that 14 %MC (0.14*100 = 14.000000000000002) lies within 6 to 14.
func percent(m quantity.Moisture) float64 { return math.Round(m.Percent()*1e9) / 1e9 }
