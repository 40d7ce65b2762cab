package readiness

import (
	"math"
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
)

// slip is a slip of the pen or of the unit.
type slip struct {
	mend float64 // logarithm of what the figure has to be multiplied by to be right
	text string
}

// slipsOf returns the slips that a figure may have come about by. written is the number as
// the maker wrote it, or else value stands for it.
func slipsOf(written string, value float64, mass bool) []slip {
	if written == "" {
		written = strconv.FormatFloat(value, 'g', 4, 64)
	}
	list := []slip{}
	add := func(factor float64, text string) { list = append(list, slip{math.Log(factor), text}) }
	if mass {
		kg, oz := float64(quantity.Pound), float64(quantity.Ounce)
		add(kg, "It looks as if pounds were read as kilograms")
		add(1/kg, "It looks as if kilograms were read as pounds")
		add(oz*1000, "It looks as if ounces were read as grams")
		add(1/(oz*1000), "It looks as if grams were read as ounces")
		add(1000, "It looks as if kilograms were read as grams")
		add(0.001, "It looks as if grams were read as kilograms")
	}
	add(10, "It looks as if the decimal point slipped by one place")
	add(0.1, "It looks as if the decimal point slipped by one place")
	given, err := strconv.ParseFloat(written, 64)
	if err == nil && given > 0 {
		for _, other := range swaps(written) {
			if v, err := strconv.ParseFloat(other, 64); err == nil && v > 0 {
				add(v/given, "It looks as if two digits were swapped: "+other+" for "+written)
			}
		}
	}
	return list
}

// slipOf returns the one slip that turns a contradictory figure into one
// the others expect, or "" when none or several do, or when the band is too wide
// to tell. y is the logarithm of the figure, band that of what is expected; written and value
// as in slipsOf.
func slipOf(written string, y, value float64, band quantity.Band[float64], mass bool) string {
	fits := ""
	for _, one := range slipsOf(written, value, mass) {
		// clear only when the band is narrow against what the slip explains
		if at := y + one.mend; at >= band.Low && at <= band.High && band.High-band.Low < 0.7*math.Abs(one.mend) {
			if fits != "" {
				return ""
			}
			fits = one.text
		}
	}
	return fits
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
