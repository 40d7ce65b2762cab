package api

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// amount writes a length, a temperature, a mass or a pressure of a warning for
// people; false for all else.
func (r reporter) amount(a method.Amount) (string, bool) {
	switch a.Unit {
	case "mm":
		return (quantity.Length(a.Value) * quantity.Millimetre).Format(r.length), true
	case "m":
		return (quantity.Length(a.Value) * quantity.Metre).Format(r.large), true
	case "C":
		return quantity.Celsius(a.Value).Format(r.temperature), true
	case "g":
		return (quantity.Mass(a.Value) * quantity.Gram).Format(r.mass), true
	case "Pa":
		return quantity.Pressure(a.Value).Format(r.pressure), true
	}
	return "", false
}
