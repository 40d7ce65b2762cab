package api

import (
	"latewood/woodphys/quantity"
)

func fromPercent(pct float64) quantity.Moisture { return quantity.Moisture(pct / 100) }
