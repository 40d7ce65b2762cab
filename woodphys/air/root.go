package air

import "math"

// risingRoot returns where the rising function f is zero between low and high,
// to 1e-10, by Newton's method that falls back to halving the
// bracket whenever a step would leave it. f returns its value and its slope; an
// inexact slope costs steps and not accuracy. When f does not change sign the
// nearer end is returned.
func risingRoot(low, high, start float64, f func(float64) (value, slope float64)) float64 {
	const tolerance = 1e-10
	x := start
	if !(x > low && x < high) {
		x = (low + high) / 2
	}
	for range 200 { // halving alone needs fewer than 60
		value, slope := f(x)
		switch {
		case value == 0:
			return x
		case value > 0:
			high = x
		default:
			low = x
		}
		next := x - value/slope
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= tolerance || high-low <= tolerance {
			return next
		}
		x = next
	}
	return x
}
