package wire

import (
	"latewood/woodphys/quantity"
)

// FromPercent is a moisture content in percent of the ovendry mass.
func FromPercent(pct float64) quantity.Moisture { return quantity.Moisture(pct / 100) }
