package quantity

import (
	"math"
	"strconv"
)

// In returns l measured in the unit with that symbol; ok is false for a symbol
// that is not a unit of length.
func (l Length) In(symbol string) (value float64, ok bool) {
	return in(DimensionLength, float64(l), symbol)
}

// In returns t measured in the unit with that symbol; ok is false for a symbol
// that is not a unit of temperature.
func (t Temperature) In(symbol string) (value float64, ok bool) {
	return in(DimensionTemperature, t.kelvin, symbol)
}

// In returns m measured in the unit with that symbol; ok is false for a symbol
// that is not a unit of mass.
func (m Mass) In(symbol string) (value float64, ok bool) {
	return in(DimensionMass, float64(m), symbol)
}

// In returns p measured in the unit with that symbol; ok is false for a symbol
// that is not a unit of pressure or of stiffness.
func (p Pressure) In(symbol string) (value float64, ok bool) {
	return in(dimensionOfPressure(symbol), float64(p), symbol)
}

// Format returns l for people in the unit with that symbol, rounded to what a
// shop can measure and without trailing zeros: "52 mm", "2.0625 in". An
// unknown symbol is replaced by "m".
func (l Length) Format(symbol string) string {
	return format(DimensionLength, float64(l), symbol, "m")
}

// Format returns t for people: "21.1 C". An unknown symbol is replaced by "K".
func (t Temperature) Format(symbol string) string {
	return format(DimensionTemperature, t.kelvin, symbol, "K")
}

// Format returns m for people: "1.45 kg". An unknown symbol is replaced by "kg".
func (m Mass) Format(symbol string) string {
	return format(DimensionMass, float64(m), symbol, "kg")
}

// Format returns p for people: "1013.2 hPa". An unknown symbol is replaced by "Pa".
func (p Pressure) Format(symbol string) string {
	return format(dimensionOfPressure(symbol), float64(p), symbol, "Pa")
}

// FormatNumber returns v rounded to the given decimals, without trailing zeros
// and without a negative zero. decimals from 0 to 12.
func FormatNumber(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if decimals > 0 {
		end := len(text)
		for text[end-1] == '0' {
			end--
		}
		if text[end-1] == '.' {
			end--
		}
		text = text[:end]
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// Rounded returns v rounded to the given decimals, from 0 to 12: the number that
// FormatNumber writes.
func Rounded(v float64, decimals int) float64 {
	near, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', decimals, 64), 64)
	switch {
	case err != nil: // no number
		return v
	case near == 0: // and no negative one
		return 0
	}
	return near
}

// RoundedUp is Rounded for a lower limit: the least such number that is no less than v, but for
// a billionth of its last digit.
func RoundedUp(v float64, decimals int) float64 {
	step := math.Pow10(decimals)
	return Rounded(math.Ceil(v*step-1e-9)/step, decimals)
}

// RoundedDown is Rounded for an upper limit, as RoundedUp is for a lower one.
func RoundedDown(v float64, decimals int) float64 { return 0 - RoundedUp(-v, decimals) }

func in(d Dimension, si float64, symbol string) (float64, bool) {
	u, ok := lookUp(d, symbol)
	if !ok {
		return 0, false
	}
	return settle(u.fromSI(si)), true
}

// Tidy removes the last-digit dust of a conversion to the unit a number is shown
// in: 14.499999999999998 becomes 14.5. Any number; one closer than 1e-13 of a unit
// to a whole number of billionths is taken for it, every other keeps its digits.
func Tidy(v float64) float64 { return settle(v) }

// settle removes the last-digit dust of a unit conversion: 5.199999999999999
// becomes 5.2. A value closer than 1e-13 of a unit to a whole number of
// billionths of the unit is taken for it; every other keeps all its digits.
func settle(v float64) float64 {
	const grid, dust = 1e9, 1e-4
	if !(math.Abs(v) < 1e5) { // beyond it the grid is finer than the number
		return v
	}
	if near := math.Round(v * grid); math.Abs(v*grid-near) < dust {
		return near / grid
	}
	return v
}

func format(d Dimension, si float64, symbol, fallback string) string {
	u, ok := lookUp(d, symbol)
	if !ok {
		u, _ = lookUp(d, fallback)
	}
	return FormatNumber(u.fromSI(si), u.decimals) + " " + u.symbol
}

// Finite reports whether v is a number that is neither infinite nor NaN.
func Finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
