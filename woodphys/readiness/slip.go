package readiness

import (
	"math"
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
)

// slipOf returns the one slip of the pen that turns a contradictory figure into one
// the others expect, or "" when none or several do, or when the band is too wide
// to tell. y is the logarithm of the figure, band that of what is expected; written
// is the number as the maker wrote it, or else value stands for it.
func slipOf(written string, y, value float64, band quantity.Band[float64], mass bool) string {
	if written == "" {
		written = strconv.FormatFloat(value, 'g', 4, 64)
	}
	var fits []string
	try := func(factor float64, text string) {
		shift := math.Log(factor)
		// clear only when the band is narrow against what the slip explains
		if at := y + shift; at >= band.Low && at <= band.High && band.High-band.Low < 0.7*math.Abs(shift) {
			fits = append(fits, text)
		}
	}
	if mass {
		kg, oz := float64(quantity.Pound), float64(quantity.Ounce)
		try(kg, "It looks as if pounds were read as kilograms")
		try(1/kg, "It looks as if kilograms were read as pounds")
		try(oz*1000, "It looks as if ounces were read as grams")
		try(1/(oz*1000), "It looks as if grams were read as ounces")
		try(1000, "It looks as if kilograms were read as grams")
		try(0.001, "It looks as if grams were read as kilograms")
	}
	try(10, "It looks as if the decimal point slipped by one place")
	try(0.1, "It looks as if the decimal point slipped by one place")
	given, err := strconv.ParseFloat(written, 64)
	if err == nil && given > 0 {
		for _, other := range swaps(written) {
			if v, err := strconv.ParseFloat(other, 64); err == nil && v > 0 {
				try(v/given, "It looks as if two digits were swapped: "+other+" for "+written)
			}
		}
	}
	if len(fits) != 1 {
		return ""
	}
	return fits[0]
}

// swaps returns the numbers with two neighbouring digits of text exchanged.
func swaps(text string) []string {
	var list []string
	digits := []byte(text)
	last := -1
	for i, c := range digits {
		if c < '0' || c > '9' {
			if c != '.' {
				break // an exponent or something stranger
			}
			continue
		}
		if last >= 0 && digits[last] != c {
			digits[last], digits[i] = digits[i], digits[last]
			list = append(list, strings.TrimSpace(string(digits)))
			digits[last], digits[i] = digits[i], digits[last]
		}
		last = i
	}
	return list
}
