package moisture

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Weight is the mass of a piece that was not weighed.
type Weight struct {
	Mass  quantity.Band[quantity.Mass]
	Notes method.Notes
}

// WeightOf returns the mass of a volume (as it is now) of a wood, of which the basic
// specific gravity is known, at a moisture content mc known to a standard deviation
// sd; both 0 to 2.5. The band is 90 %: pieces of one wood differ in density by 10 %,
// and its moisture content strays.
//
// Errors: as SpecificGravityAt. Accuracy: the band; the two are taken as independent.
//
// Source: SpecificGravityAt; Wood Handbook, about 10 % (from memory).
func WeightOf(volume quantity.Volume, w wood.Wood, mc, sd quantity.Moisture) (Weight, error) {
	var out Weight
	at := func(mc quantity.Moisture) (float64, error) {
		g, err := SpecificGravityAt(w.SpecificGravity.Value, mc, w.Volumetric.Value, w.FibreSaturation)
		out.Notes.Merge(g.Notes)
		return g.Density, err
	}
	density, err := at(mc)
	if err != nil {
		return Weight{}, err
	}
	share := 0.0
	if sd > 0 {
		wetter, err := at(min(quantity.Moisture(moistureRange.High/100), mc+sd))
		if err != nil {
			return Weight{}, err
		}
		share = wetter/density - 1
	}
	value := quantity.Mass(density * float64(volume))
	// The two add as independent shares.
	out.Mass = quantity.NormalBand(value, value*quantity.Mass(math.Hypot(w.SpecificGravity.Varied(specificGravityCV), share)))
	return out, nil
}

// Together returns the mass of several pieces whose densities stray together, as those
// of one tree do: their bands add up end by end.
//
// Accuracy: an upper bound of the band of pieces that stray apart.
//
// Source: derived by arithmetic.
func Together(pieces ...quantity.Band[quantity.Mass]) quantity.Band[quantity.Mass] {
	var sum quantity.Band[quantity.Mass]
	for _, m := range pieces {
		sum = quantity.Band[quantity.Mass]{Value: sum.Value + m.Value, Low: sum.Low + m.Low, High: sum.High + m.High}
	}
	return sum
}
