package air

import (
	"math"

	"latewood/woodphys/quantity"
)

// SaturationPressureOverWater returns the vapour pressure of saturated air over
// liquid water, supercooled below 0 degC, so that relative humidity means what
// instruments report. t from -100 to 200 degC; it checks nothing, for solvers, and
// a NaN gives a NaN.
//
// Accuracy: 0.03 % from 0 to 200 degC against the printed table; below 0 degC
// see the package comment (0.1 % at -20, 0.7 % at -40 degC).
//
// Source: Hyland and Wexler 1983, ASHRAE Fundamentals 2017 ch. 1 eq. 6 (from
// memory); continued below 0 degC.
func SaturationPressureOverWater(t quantity.Temperature) quantity.Pressure {
	return quantity.Pressure(math.Exp(logWater(t.Kelvin())))
}

// SaturationPressureOverIce returns the vapour pressure of saturated air over ice,
// t from -100 to 0.01 degC. It checks nothing, for solvers, and a NaN gives a NaN.
//
// Accuracy: 0.03 % against the printed table.
//
// Source: Hyland and Wexler 1983, ASHRAE Fundamentals 2017 ch. 1 eq. 5 (from memory).
func SaturationPressureOverIce(t quantity.Temperature) quantity.Pressure {
	return quantity.Pressure(math.Exp(logIce(t.Kelvin())))
}

// logWater is ln p of eq. 6, ASHRAE Fundamentals 2017 ch. 1, p in Pa, T in K.
func logWater(k float64) float64 {
	return -5800.2206/k + 1.3914993 + k*(-0.048640239+k*(4.1764768e-5-k*1.4452093e-8)) + 6.5459673*math.Log(k)
}

// slopeWater is d ln p / dT of logWater, per K.
func slopeWater(k float64) float64 {
	return 5800.2206/(k*k) - 0.048640239 + k*(2*4.1764768e-5-k*3*1.4452093e-8) + 6.5459673/k
}

// logIce is ln p of eq. 5, ASHRAE Fundamentals 2017 ch. 1, p in Pa, T in K.
func logIce(k float64) float64 {
	return -5674.5359/k + 6.3925247 +
		k*(-9.677843e-3+k*(6.2215701e-7+k*(2.0747825e-9-k*9.484024e-13))) + 4.1635019*math.Log(k)
}

// slopeIce is d ln p / dT of logIce, per K.
func slopeIce(k float64) float64 {
	return 5674.5359/(k*k) - 9.677843e-3 +
		k*(2*6.2215701e-7+k*(3*2.0747825e-9-k*4*9.484024e-13)) + 4.1635019/k
}
