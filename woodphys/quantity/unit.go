package quantity

import "strings"

// Dimension names what kind of quantity a unit measures.
type Dimension string

// Dimensions with units of their own.
const (
	DimensionLength      Dimension = "length"
	DimensionTemperature Dimension = "temperature"
	DimensionMass        Dimension = "mass"
	DimensionPressure    Dimension = "pressure"
	DimensionStiffness   Dimension = "stiffness" // of a material: a pressure with units of its own
)

// unit is one accepted unit: SI value = (number + before) * scale + after.
type unit struct {
	symbol    string
	dimension Dimension
	scale     float64
	before    float64
	after     float64
	decimals  int      // digits after the point when shown to a person
	aliases   []string // other spellings accepted on input
}

var units = []unit{
	{symbol: "mm", dimension: DimensionLength, scale: float64(Millimetre), decimals: 2, aliases: []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	{symbol: "cm", dimension: DimensionLength, scale: float64(Centimetre), decimals: 2, aliases: []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	{symbol: "m", dimension: DimensionLength, scale: float64(Metre), decimals: 3, aliases: []string{"metre", "metres", "meter", "meters"}},
	{symbol: "um", dimension: DimensionLength, scale: float64(Micrometre), decimals: 0, aliases: []string{"micrometre", "micrometres", "micrometer", "micrometers", "µm"}},
	{symbol: "in", dimension: DimensionLength, scale: float64(Inch), decimals: 4, aliases: []string{"inch", "inches", `"`}},
	{symbol: "ft", dimension: DimensionLength, scale: float64(Foot), decimals: 3, aliases: []string{"foot", "feet", "'"}},
	{symbol: "C", dimension: DimensionTemperature, scale: 1, after: zeroCelsius, decimals: 1, aliases: []string{"°C", "degC", "celsius"}},
	{symbol: "F", dimension: DimensionTemperature, scale: 5.0 / 9, before: -32, after: zeroCelsius, decimals: 1, aliases: []string{"°F", "degF", "fahrenheit"}},
	{symbol: "K", dimension: DimensionTemperature, scale: 1, decimals: 2, aliases: []string{"kelvin"}},
	{symbol: "kg", dimension: DimensionMass, scale: 1, decimals: 3, aliases: []string{"kilogram", "kilograms"}},
	{symbol: "g", dimension: DimensionMass, scale: float64(Gram), decimals: 1, aliases: []string{"gram", "grams"}},
	{symbol: "lb", dimension: DimensionMass, scale: float64(Pound), decimals: 3, aliases: []string{"lbs", "pound", "pounds"}},
	{symbol: "oz", dimension: DimensionMass, scale: float64(Ounce), decimals: 2, aliases: []string{"ounce", "ounces"}},
	{symbol: "hPa", dimension: DimensionPressure, scale: float64(Hectopascal), decimals: 1, aliases: []string{"mbar"}},
	{symbol: "Pa", dimension: DimensionPressure, scale: 1, decimals: 0, aliases: []string{"pascal", "pascals"}},
	{symbol: "kPa", dimension: DimensionPressure, scale: float64(Kilopascal), decimals: 3},
	{symbol: "inHg", dimension: DimensionPressure, scale: float64(InchOfMercury), decimals: 2},
	{symbol: "MPa", dimension: DimensionStiffness, scale: float64(Megapascal), decimals: 3, aliases: []string{"N/mm2", "N/mm²"}},
	{symbol: "GPa", dimension: DimensionStiffness, scale: 1000 * float64(Megapascal), decimals: 3},
	{symbol: "psi", dimension: DimensionStiffness, scale: float64(PoundPerSquareInch), decimals: 1},
}

// Units returns the symbols of the units of a dimension, the usual one first.
// An unknown dimension has none.
func Units(d Dimension) []string {
	var symbols []string
	for i := range units {
		if units[i].dimension == d {
			symbols = append(symbols, units[i].symbol)
		}
	}
	return symbols
}

// lookUp finds a unit of dimension d by its symbol or an alias. Symbols are
// exact because "K" and "k" differ; aliases are words, so their case is free.
func lookUp(d Dimension, text string) (*unit, bool) {
	for i := range units {
		u := &units[i]
		if u.dimension != d {
			continue
		}
		if u.symbol == text {
			return u, true
		}
		for _, alias := range u.aliases {
			if strings.EqualFold(alias, text) {
				return u, true
			}
		}
	}
	return nil, false
}

// dimensionOfPressure is the dimension that a symbol of pressures or stiffnesses has.
func dimensionOfPressure(symbol string) Dimension {
	if _, is := lookUp(DimensionStiffness, symbol); is {
		return DimensionStiffness
	}
	return DimensionPressure
}

func (u *unit) toSI(v float64) float64 { return (v+u.before)*u.scale + u.after }

func (u *unit) fromSI(v float64) float64 { return (v-u.after)/u.scale - u.before }

// Symbol returns the symbol of a unit of any dimension by its symbol or an alias, ""
// for a text that is no unit.
func Symbol(text string) string {
	for i := range units {
		if u, is := lookUp(units[i].dimension, text); is {
			return u.symbol
		}
	}
	return ""
}
