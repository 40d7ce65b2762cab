package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParseError says why a text or a value with a unit is not a quantity.
type ParseError struct {
	Text      string    // what was given
	Dimension Dimension // what was wanted
	Reason    string    // what is wrong with it, for people
	Units     []string  // the units that would do
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("%s is not a %s: %s; units: %s", strconv.Quote(e.Text), e.Dimension, e.Reason, strings.Join(e.Units, ", "))
}

// maxText is the longest text parsed as a quantity, in bytes.
const maxText = 64

// ParseLength returns the length written in text, such as "52 mm", "1.2 m",
// "2 1/16 in", "2-1/16 in" or `9"`. The error is a *ParseError.
func ParseLength(text string) (Length, error) {
	v, err := parse(DimensionLength, text)
	return Length(v), err
}

// ParseTemperature returns the temperature written in text, such as "21 C",
// "-4.5 C", "70 F" or "294 K". The error is a *ParseError.
func ParseTemperature(text string) (Temperature, error) {
	v, err := parse(DimensionTemperature, text)
	return Temperature{v}, err
}

// ParseMass returns the mass written in text, such as "3.2 lb" or "1450 g".
// The error is a *ParseError.
func ParseMass(text string) (Mass, error) {
	v, err := parse(DimensionMass, text)
	return Mass(v), err
}

// ParsePressure returns the pressure written in text, such as "1013 hPa". The
// error is a *ParseError.
func ParsePressure(text string) (Pressure, error) {
	v, err := parse(DimensionPressure, text)
	return Pressure(v), err
}

// ParseStiffness returns the stiffness written in text, such as "11000 MPa". The
// error is a *ParseError.
func ParseStiffness(text string) (Pressure, error) {
	v, err := parse(DimensionStiffness, text)
	return Pressure(v), err
}

// LengthOf returns value measured in unit, for example 52 and "mm". The error
// is a *ParseError.
func LengthOf(value float64, unit string) (Length, error) {
	v, err := of(DimensionLength, value, unit)
	return Length(v), err
}

// TemperatureOf returns value measured in unit. The error is a *ParseError.
func TemperatureOf(value float64, unit string) (Temperature, error) {
	v, err := of(DimensionTemperature, value, unit)
	return Temperature{v}, err
}

// MassOf returns value measured in unit. The error is a *ParseError.
func MassOf(value float64, unit string) (Mass, error) {
	v, err := of(DimensionMass, value, unit)
	return Mass(v), err
}

// PressureOf returns value measured in unit. The error is a *ParseError.
func PressureOf(value float64, unit string) (Pressure, error) {
	v, err := of(DimensionPressure, value, unit)
	return Pressure(v), err
}

// StiffnessOf returns value measured in unit, for example 11 and "GPa". The error is a
// *ParseError.
func StiffnessOf(value float64, unit string) (Pressure, error) {
	v, err := of(DimensionStiffness, value, unit)
	return Pressure(v), err
}

func of(d Dimension, value float64, symbol string) (float64, error) {
	fail := func(reason string) (float64, error) {
		text := strconv.FormatFloat(value, 'g', -1, 64) + " " + symbol
		return 0, &ParseError{Text: text, Dimension: d, Reason: reason, Units: Units(d)}
	}
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return fail("the value must be a finite number")
	}
	if symbol == "" {
		return fail("the unit is missing")
	}
	u, ok := lookUp(d, symbol)
	if !ok {
		return fail(strconv.Quote(symbol) + " is not a unit of " + string(d))
	}
	si := u.toSI(value)
	if math.IsInf(si, 0) {
		return fail("the value is too large")
	}
	return si, nil
}

// perSquareMillimetre ends the one unit whose last sign is a digit.
const perSquareMillimetre = "/mm2"

func parse(d Dimension, text string) (float64, error) {
	fail := func(reason string) (float64, error) {
		return 0, &ParseError{Text: text, Dimension: d, Reason: reason, Units: Units(d)}
	}
	if len(text) > maxText {
		text = text[:maxText]
		return fail("longer than " + strconv.Itoa(maxText) + " characters")
	}
	trimmed := strings.TrimSpace(text)
	if trimmed == "" {
		return fail("empty")
	}
	whole := strings.TrimSuffix(trimmed, perSquareMillimetre)
	split := strings.LastIndexAny(whole, "0123456789.") + 1
	number, symbol := strings.TrimSpace(trimmed[:split]), strings.TrimSpace(trimmed[split:])
	if number == "" {
		return fail("no number in it")
	}
	if symbol == "" {
		return fail(`the unit is missing, write for example "` + number + " " + Units(d)[0] + `"`)
	}
	u, ok := lookUp(d, symbol)
	if !ok {
		return fail(strconv.Quote(symbol) + " is not a unit of " + string(d))
	}
	value, reason := parseNumber(number)
	if reason != "" {
		return fail(reason)
	}
	si := u.toSI(value)
	if math.IsInf(si, 0) {
		return fail("the value is too large")
	}
	return si, nil
}

// parseNumber reads a decimal ("52", "-4.5", "1e3"), a fraction ("7/8") or a
// whole number and a fraction ("2 1/16", "2-1/16"). A reason other than ""
// says why it could not.
func parseNumber(text string) (value float64, reason string) {
	slash := strings.IndexByte(text, '/')
	if slash < 0 {
		return parseDecimal(text)
	}
	head := strings.TrimSpace(text[:slash])
	sign := 1.0
	switch {
	case strings.HasPrefix(head, "-"):
		sign, head = -1, strings.TrimSpace(head[1:])
	case strings.HasPrefix(head, "+"):
		head = strings.TrimSpace(head[1:])
	}
	whole := 0.0
	if gap := strings.IndexAny(head, " -"); gap >= 0 {
		w, ok := parseWhole(head[:gap])
		if !ok {
			return 0, "before a fraction stands a whole number, as in 2 1/16"
		}
		whole, head = w, strings.TrimSpace(head[gap+1:])
	}
	top, okTop := parseWhole(head)
	bottom, okBottom := parseWhole(strings.TrimSpace(text[slash+1:]))
	switch {
	case !okTop || !okBottom:
		return 0, "a fraction is two whole numbers, as in 2 1/16"
	case bottom == 0:
		return 0, "a fraction cannot have 0 below the line"
	}
	return sign * (whole + top/bottom), ""
}

func parseDecimal(text string) (value float64, reason string) {
	for _, c := range text {
		if !strings.ContainsRune("0123456789.+-eE", c) {
			if c == ',' {
				return 0, "write the decimal point as a point, without thousands separators"
			}
			return 0, strconv.Quote(text) + " is not a number"
		}
	}
	value, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil && math.IsInf(value, 0):
		return 0, "the value is too large"
	case err != nil:
		return 0, strconv.Quote(text) + " is not a number"
	}
	return value, ""
}

func parseWhole(text string) (float64, bool) {
	if text == "" || len(text) > 9 {
		return 0, false
	}
	n := 0.0
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return 0, false
		}
		n = n*10 + float64(text[i]-'0')
	}
	return n, true
}
