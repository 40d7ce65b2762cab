package drying

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// What the drying time of thick stock is published to go with: the thickness to
// the power 1.32 (8/4 against 4/4, Wengert, read) or 1.52 (red oak, Tschernitz and
// Simpson 1979, recalled), where diffusion alone gives 2.
const (
	publishedLow, publishedHigh = 1.32, 2.0
	thicknessMiddle             = (publishedLow + publishedHigh) / 2
	// thicknessSD lets the exponent range over the published figures and pure
	// diffusion with 90 %.
	thicknessSD = (publishedHigh - publishedLow) / (2 * quantity.Z90)
)

// FittedThickness is the stock that the factors were fitted on.
const FittedThickness = 25.4 * quantity.Millimetre

var rowThickness = method.Method{
	ID: "drying.thickness", Chapter: "drying",
	Summary:  "Drying factor for stock of another thickness than the 25 mm it was fitted on",
	Equation: "k(L) = k (L/25.4 mm)^(2 - n), n = 1.66 with SD 0.21; the spread of ln k grows by 0.21 |ln(L/25.4 mm)|",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 25, High: 52}, Limit: method.Range{Low: 0.5, High: 600}},
	},
	Accuracy: "the exponents 1.32 and 1.52 are for sawn boards of 25 to 52 mm in kilns and yards; pure diffusion gives 2. The middle of 1.32 and 2 is used",
	Source:   "Wengert, trade column (read, 2.5 times for 8/4 against 4/4); Tschernitz and Simpson 1979 (from memory)", Checked: method.Memory,
}

// ForThickness returns the drying factor f for stock of a thickness (0.5 to 600
// mm): thicker stock dries faster than diffusion with the factor of 25 mm boards
// foretells, and how much is uncertain.
//
// Errors: *method.Error with input "thickness".
// Accuracy: that of the row; the spread grows with the distance from 25 mm.
//
// Source: row drying.thickness.
func ForThickness(f Factor, thickness quantity.Length) (Factor, error) {
	if err := f.Notes.Use(&rowThickness, "thickness", thickness.Millimetres()); err != nil {
		return Factor{}, err
	}
	ratio := math.Log(float64(thickness / FittedThickness))
	f.Median *= math.Exp((2 - thicknessMiddle) * ratio)
	f.SpreadLog = math.Hypot(f.SpreadLog, thicknessSD*ratio)
	return f, nil
}
