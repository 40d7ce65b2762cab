package sorption

import (
	"math"

	"latewood/woodphys/quantity"
)

// HighestSurfaceHumidity is the relative humidity (fraction) to which the air
// at a bare wood surface is held before it is turned into a moisture content.
// Chosen: the isotherm was fitted up to about this humidity and is steep above.
const HighestSurfaceHumidity = 0.98

// Isotherm is the sorption curve of wood at one temperature. Its methods check
// nothing and are meant for solvers: relative humidity outside 0 to 1 is held
// at the nearer end, a NaN gives a NaN. The zero value is not usable.
type Isotherm struct {
	k, k1, k12 float64 // K, K1 and K1 K2
	scale      float64 // 18/W times the factor of the branch: Moisture per unit of the bracket
	dissolved  float64 // share of the dissolved water that the wood holds, 1 for ordinary wood
}

// NewIsotherm returns the middle curve of ordinary wood at t. Outside -40 to 120 degC the
// nearer end is used. Below the lowest temperature of table 4-2 the curve of that
// temperature rises as ColdRise says.
//
// Accuracy: as Isotherm.At.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5 with its coefficients for degC; in the cold
// FPL-GTR-282 eq. 4-6 for the rise.
func NewIsotherm(t quantity.Temperature) Isotherm {
	c := min(max(t.Celsius(), lowestC), highestC)
	curve := celsiusSet(max(c, coldestTabledC))
	curve.scale *= ColdRise(t)
	return curve
}

// celsiusSet holds the coefficients for t in degC, Wood Handbook FPL-GTR-190 p. 4-4.
func celsiusSet(t float64) Isotherm {
	w := 349 + t*(1.29+t*0.0135)
	k := 0.805 + t*(0.000736-t*0.00000273)
	k1 := 6.27 + t*(-0.00938-t*0.000303)
	k2 := 1.91 + t*(0.0407-t*0.000293)
	return Isotherm{k: k, k1: k1, k12: k1 * k2, scale: 18 / w, dissolved: 1}
}

// At returns the equilibrium moisture content at relative humidity rh, a
// fraction from 0 to 1: the moisture content at which wood neither gains nor loses
// moisture. It is fitted over 0 to 100 degC. At rh = 1 the middle curve gives 28.8
// %MC at 20 degC, a little below the nominal fibre saturation of 30; for a bare
// surface use Surface.
//
// Accuracy: 0.06 %MC against the printed table (rounding); about 1 %MC between
// species; +/-8 % of the value when the history of the piece is unknown.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5.
func (i Isotherm) At(rh float64) quantity.Moisture {
	x := i.k * min(max(rh, 0), 1)
	// eq. 4-5: x/(1-x) + (K1 x + 2 K1 K2 x^2)/(1 + K1 x + K1 K2 x^2)
	return quantity.Moisture(i.scale * (i.dissolved*x/(1-x) + x*(i.k1+2*i.k12*x)/(1+x*(i.k1+i.k12*x))))
}

// Surface returns At(rh) with rh held to HighestSurfaceHumidity: the moisture
// content of a bare surface in air of that humidity.
//
// Accuracy: as At; the cut at 98 % RH is a choice.
//
// Source: Wood Handbook FPL-GTR-190 eq. 4-5.
func (i Isotherm) Surface(rh float64) quantity.Moisture {
	return i.At(min(rh, HighestSurfaceHumidity))
}

// Slope returns the derivative of At with respect to relative humidity
// (fraction of ovendry mass per unit of rh), for rh from 0 to 1. It is positive.
//
// Accuracy: exact for the equation.
//
// Source: derivative of Wood Handbook eq. 4-5.
func (i Isotherm) Slope(rh float64) float64 {
	x := i.k * min(max(rh, 0), 1)
	d := 1 + x*(i.k1+i.k12*x)
	// The quotient rule on the second term collapses to
	// (K1 + 4 K1 K2 x + K1^2 K2 x^2)/d^2.
	return i.scale * i.k * (i.dissolved/((1-x)*(1-x)) + (i.k1+x*(4*i.k12+x*i.k1*i.k12))/(d*d))
}

// Inverse returns the relative humidity, 0 to 1, at which At gives m, to 1e-12.
// Below At(0) = 0 it returns 0 and above At(1) it returns 1.
//
// Accuracy: of the inversion 1e-12; 1 %MC between species is 5 to 7 %RH from
// 20 to 60 % RH, 4 at 70 and 2 at 90 % RH.
//
// Source: eq. 4-5 multiplied out is a cubic in x = K H with one root between 0
// and K; it is found by Newton's method inside that bracket, which is both
// faster and more accurate than the closed form of a cubic.
func (i Isotherm) Inverse(m quantity.Moisture) float64 {
	if math.IsNaN(float64(m)) {
		return math.NaN()
	}
	if m <= 0 {
		return 0
	}
	if m >= i.At(1) {
		return 1
	}
	c := float64(m) / i.scale
	// with d the share of dissolved water:
	// -c + x [(d+K1) - c(K1-1)] + x^2 [(d-1) K1 + 2 K1K2 - c(K1K2-K1)] + x^3 K1K2 (c+d-2) = 0
	d := i.dissolved
	a1 := (d + i.k1) - c*(i.k1-1)
	a2 := (d-1)*i.k1 + 2*i.k12 - c*(i.k12-i.k1)
	a3 := i.k12 * (c + d - 2)
	low, high := 0.0, i.k
	x := c / (d + c) // exact for the dissolved water alone, so it bounds the root from above
	if x >= high {
		x = high / 2
	}
	for range 100 { // halving alone needs about 45
		value := -c + x*(a1+x*(a2+x*a3))
		if value > 0 {
			high = x
		} else {
			low = x
		}
		next := x - value/(a1+x*(2*a2+x*3*a3))
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		step := math.Abs(next - x)
		x = next
		if step <= 1e-14 {
			break
		}
	}
	return min(x/i.k, 1)
}
