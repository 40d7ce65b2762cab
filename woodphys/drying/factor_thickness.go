package drying

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// How much faster thick stock dries than diffusion foretells: its factor goes with the
// thickness over 25.4 mm to this power, so that the time goes with the thickness to
// the power 1.45. Single figures want 0.48 (red oak in kilns, Tschernitz and Simpson 1979,
// recalled), 0.68 (8/4 against 4/4, Wengert, read) and 0.8 (mahogany in a solar dryer,
// ITF-2, read) for times that go with the power 1.52, 1.32 and 1.19. Stock thinner than
// that keeps its factor. The prototype took 0.45, with which the ratio of 51 to 25 mm is
// 2.93 in this solver.
const (
	thickPower   = 0.55
	thickPowerSD = 0.13
)

// FittedThickness is the stock that the paces were fitted on.
const FittedThickness = 25.4 * quantity.Millimetre

var rowThickness = method.Method{
	ID: "drying.thickness", Chapter: "drying",
	Summary:  "Drying factor for stock thicker than 25 mm",
	Equation: "k(L) = k max(1, L/25.4 mm)^n, n = 0.55 with SD 0.13; the spread of ln k grows by 0.13 ln(L/25.4 mm)",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 4, High: 102}, Limit: method.Range{Low: 0.5, High: 600}},
	},
	Accuracy: "50 mm stock takes 2.7 times as long as 25 mm in kilns and rooms; published: 2.28, 2.5 and 2.87",
	Source:   "Wengert, trade column (read, 2.5 times for 8/4 against 4/4); Research Paper ITF-2, 1966 (read, 2.28 for mahogany); Tschernitz and Simpson 1979 (from memory); the power is this project's fit to them", Checked: method.Memory,
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
	ratio := math.Log(max(1, float64(thickness/FittedThickness)))
	f.Median *= math.Exp(thickPower * ratio)
	f.SpreadLog = math.Hypot(f.SpreadLog, thickPowerSD*ratio)
	return f, nil
}
