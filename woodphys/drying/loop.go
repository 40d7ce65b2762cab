package drying

import (
	"math"

	"latewood/woodphys/quantity"
)

// Loop are the edges of the sorption loop in an air: wood that holds more dries down to the
// wettest it can rest at, wood that holds less takes up to the driest, and between them
// nothing passes. Each 0 to 150 %MC; both 0: not known.
type Loop struct{ Driest, Wettest quantity.Moisture }

// Rest returns where a piece comes to rest that holds a moisture content (0 to 250 %MC).
//
// Accuracy: that of the edges.
//
// Source: the dead band of row drying.hysteresis.
func (l Loop) Rest(holds quantity.Moisture) quantity.Moisture {
	return min(max(holds, l.Driest), l.Wettest)
}

// MeanRest returns the mean of where pieces come to rest that hold a moisture content (0 to
// 250 %MC), normal with a standard deviation (0 to 50 %MC).
//
// Accuracy: as Rest.
//
// Source: as Rest; the mean of a normal number held between two bounds is the upper one less
// the integral of its distribution from the lower one on.
func (l Loop) MeanRest(holds, sd quantity.Moisture) quantity.Moisture {
	if sd == 0 {
		return l.Rest(holds)
	}
	below := func(edge quantity.Moisture) quantity.Moisture { // the integral of the distribution up to it
		z := float64((edge - holds) / sd)
		return sd * quantity.Moisture(z*0.5*math.Erfc(-z/math.Sqrt2)+math.Exp(-z*z/2)/math.Sqrt(2*math.Pi))
	}
	return l.Wettest - below(l.Wettest) + below(l.Driest)
}
