package drying

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// UsualVapour is the vapour of people and work in a heated room where none is told: the
// middle of 100 to 500 Pa. Common practice, no source; EN ISO 13788 (from memory) lets a
// dwelling with few people add up to 540 Pa.
const UsualVapour = 300 * quantity.Pascal

// openWindows is the temperature outdoors, in degC, from which the windows stand open: EN
// ISO 13788 (from memory).
const openWindows = 20.0

// VapourOfPeople returns the vapour that people and work add to a heated room with the
// windows shut, as a rise of vapour pressure: added, 0 to 3000 Pa, or UsualVapour where that
// is nil, which is noted for a row that has the input added_vapour.
//
// Errors: those of the row for added_vapour.
// Accuracy: that of the figure; rooms differ by 100 to 500 Pa (common practice, no source).
//
// Source: the caller, or UsualVapour.
func VapourOfPeople(added *quantity.Pressure, row *method.Method, notes *method.Notes) (quantity.Pressure, error) {
	vapour := UsualVapour
	if added != nil {
		vapour = *added
	} else {
		const said = "people and work are taken to add %s of vapour while the windows are shut; without them the room would be drier in winter"
		notes.Warn(method.Warning{Code: method.DefaultUsed, Method: row.ID, Input: "added_vapour",
			Detail: fmt.Sprintf(said, vapour.Format("hPa"))}.Saying(said, method.Amount{Value: vapour.Pascals(), Unit: "Pa"}))
	}
	return vapour, notes.Use(row, "added_vapour", vapour.Pascals())
}

// VapourAt returns what is left in a heated room of the vapour that people and work add with
// the windows shut (added, 0 to 3000 Pa) when it is outdoors degC outside: all of it at 0
// degC and below, nothing from 20 degC on, and in proportion between.
//
// Accuracy: a rule for the mean of many dwellings.
//
// Source: the moisture load of EN ISO 13788 (from memory).
func VapourAt(outdoors float64, added quantity.Pressure) quantity.Pressure {
	return added * quantity.Pressure(math.Min(math.Max((openWindows-outdoors)/openWindows, 0), 1))
}
