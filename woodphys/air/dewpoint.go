package air

import (
	"math"

	"latewood/woodphys/quantity"
)

// lowestPoint and highestPoint bound every dew and frost point, in K: -100 and
// 200 degC, the ends of the saturation equations.
const lowestPoint, highestPoint = 173.15, 473.15

// DewPointOf returns the temperature at which air of vapour pressure e is
// saturated over liquid water (supercooled below 0 degC), the exact inverse of
// SaturationPressureOverWater to 1e-9 K. It checks nothing, for solvers: outside
// the pressures of -100 to 200 degC the nearer end is returned, and a NaN gives
// a NaN.
//
// Accuracy: of the inversion 1e-9 K; of the pressure as SaturationPressureOverWater.
//
// Source: inversion by Newton's method of ASHRAE Fundamentals 2017 ch. 1 eq. 6.
func DewPointOf(e quantity.Pressure) quantity.Temperature {
	return saturatedAt(e, logWater, slopeWater, 17.62, 243.12, highestPoint)
}

// FrostPointOf returns the temperature at which air of vapour pressure e is
// saturated over ice, the exact inverse of SaturationPressureOverIce to 1e-9 K.
// It checks nothing: outside the pressures of -100 to 0.01 degC the nearer end
// is returned, and a NaN gives a NaN.
//
// Accuracy: of the inversion 1e-9 K; of the pressure as SaturationPressureOverIce.
//
// Source: inversion by Newton's method of ASHRAE Fundamentals 2017 ch. 1 eq. 5.
func FrostPointOf(e quantity.Pressure) quantity.Temperature {
	return saturatedAt(e, logIce, slopeIce, 22.46, 272.62, triplePoint)
}

// saturatedAt solves logP(T) = ln e. The start is the Magnus form of WMO-No. 8,
// e = 611.2 exp(a t/(b+t)), which is within 1 K in the range of weather.
func saturatedAt(e quantity.Pressure, logP, slope func(float64) float64, a, b, high float64) quantity.Temperature {
	if math.IsNaN(float64(e)) {
		return quantity.Kelvin(math.NaN())
	}
	want := math.Log(math.Max(float64(e), 0)) // -Inf at e = 0: the low end
	if want <= logP(lowestPoint) {
		return quantity.Kelvin(lowestPoint)
	}
	if want >= logP(high) {
		return quantity.Kelvin(high)
	}
	l := want - math.Log(611.2)
	start := freezing + b*l/(a-l)
	k := risingRoot(lowestPoint, high, start, func(k float64) (float64, float64) {
		return logP(k) - want, slope(k)
	})
	return quantity.Kelvin(k)
}
