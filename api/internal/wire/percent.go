package wire

import (
	"latewood/woodphys/quantity"
)

func FromPercent(pct float64) quantity.Moisture { return quantity.Moisture(pct / 100) }
