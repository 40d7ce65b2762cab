package readiness

import "math"

// within returns the probability that a normal variable lies between low and
// high; with no spread it is 0 or 1.
func within(mean, sd, low, high float64) float64 {
	if !(sd > 0) {
		if mean >= low && mean <= high {
			return 1
		}
		return 0
	}
	return max(phi((high-mean)/sd)-phi((low-mean)/sd), 0) // a wedge can be wider apart than the limits
}

// phi is the standard normal distribution function.
func phi(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// chiSquareTail returns the probability that a chi-square variable with df
// degrees of freedom exceeds x, within about 0.001.
//
// Source: Wilson and Hilferty 1931 (from memory).
func chiSquareTail(x float64, df int) float64 {
	if df <= 0 {
		return 1
	}
	c := 2 / (9 * float64(df))
	return 1 - phi((math.Cbrt(x/float64(df))-(1-c))/math.Sqrt(c))
}
