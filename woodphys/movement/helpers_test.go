package movement_test

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

type band = quantity.Band[quantity.Moisture]

// exact is a moisture content in %MC without uncertainty.
func exact(percent float64) band { return about(percent, 0) }

// about is a moisture content in %MC with a standard deviation in %MC.
func about(percent, sd float64) band {
	return quantity.NormalBand(quantity.Moisture(percent/100), quantity.Moisture(sd/100))
}

// recalled is a figure that is recalled from its source and not re-read.
func recalled(v float64) wood.Figure {
	return wood.Figure{Value: v, Known: true, Recalled: true}
}

// redOak: shrinkage of northern red oak, table 4-3, from memory; C of commercial
// red oak, table 13-5, read.
func redOak() wood.Wood {
	return wood.Wood{
		Radial: recalled(0.040), Tangential: recalled(0.086), Volumetric: recalled(0.137),
		CoefficientRadial: wood.Published(0.00158), CoefficientTangential: wood.Published(0.00369),
		CoefficientFibreSaturation: 0.30,
	}
}

// sitka: table 4-3 and 13-5, from memory.
func sitka() wood.Wood {
	return wood.Wood{
		Radial: recalled(0.043), Tangential: recalled(0.075), Volumetric: recalled(0.115),
		CoefficientRadial: recalled(0.00148), CoefficientTangential: recalled(0.00263),
		CoefficientFibreSaturation: 0.30,
	}
}

// mahogany: shrinkage of table 4-4 (read), coefficients of table 13-5 (memory); they disagree.
func mahogany() wood.Wood {
	return wood.Wood{
		Radial: wood.Published(0.030), Tangential: wood.Published(0.041), Volumetric: wood.Published(0.078),
		CoefficientRadial: recalled(0.00172), CoefficientTangential: recalled(0.00238),
	}
}

func only(st float64) wood.Wood {
	return wood.Wood{Tangential: wood.Published(st), FibreSaturation: 0.30}
}

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

func isNaN(v float64) bool { return math.IsNaN(v) }
