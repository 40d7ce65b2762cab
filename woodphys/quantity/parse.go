package quantity

import (
	"errors"
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

// ParseLength returns the length written in text, such as "52 mm", "1.2 m", "52,5 mm",
// "2 1/16 in", "42½ in", `3' 6"`, "3 ft 6 in" or, in quarters of an inch as sawn timber is
// sold, "8/4". The error is a *ParseError; a text that can be read in two ways, such as
// "1,234 mm", is one, and its reason names both.
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

// ParseMass returns the mass written in text, such as "3.2 lb", "24 lb 7 oz" or "1450 g".
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

// ParseNumber returns the number written in text without a unit, such as "12.5", "12,5" or
// "2 1/16". The error says why it is none, also of one that can be read in two ways, "1,234".
func ParseNumber(text string) (float64, error) {
	plain := strings.TrimSpace(plainer.Replace(text))
	if len(plain) > maxText {
		return 0, errors.New("longer than " + strconv.Itoa(maxText) + " characters")
	}
	v, reason := parseNumber(plain)
	if reason != "" {
		return 0, errors.New(reason)
	}
	return v, nil
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
