package readiness

import (
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// sample is a value of a member of the ensemble and its weight.
type sample struct{ value, weight float64 }

// quantiles writes the values below which the shares of probability lie, rising
// shares from 0 to 1, by straight lines between the middles of the sorted
// weights. It sorts s. An empty sample gives NaN.
func quantiles(s []sample, shares []float64, out []float64) {
	slices.SortFunc(s, func(a, b sample) int {
		switch {
		case a.value < b.value:
			return -1
		case a.value > b.value:
			return 1
		}
		return 0
	})
	total := 0.0
	for i := range s {
		total += s[i].weight
	}
	k, before, lastMid, lastValue := 0, 0.0, 0.0, math.NaN()
	for i := range s {
		if !(s[i].weight > 0) {
			continue
		}
		mid := (before + s[i].weight/2) / total
		before += s[i].weight
		for k < len(shares) && shares[k] <= mid {
			switch {
			case math.IsNaN(lastValue):
				out[k] = s[i].value
			default:
				out[k] = min(lastValue+(s[i].value-lastValue)*(shares[k]-lastMid)/(mid-lastMid), s[i].value) // rounding leads no further
			}
			k++
		}
		lastMid, lastValue = mid, s[i].value
	}
	for ; k < len(shares); k++ {
		out[k] = lastValue
	}
}

var bandShares = [3]float64{(1 - quantity.Coverage) / 2, 0.5, (1 + quantity.Coverage) / 2}

// bandOf returns the median and the 90 % band of a sample. It sorts s.
func bandOf[T ~float64](s []sample) quantity.Band[T] {
	var q [3]float64
	quantiles(s, bandShares[:], q[:])
	return quantity.Band[T]{Value: T(q[1]), Low: T(q[0]), High: T(q[2])}
}
