package wire

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Amount writes a length, a temperature, a mass or a pressure of a warning for
// people; false for all else.
func (r Reporter) Amount(a method.Amount) (string, bool) {
	switch a.Unit {
	case "mm":
		return (quantity.Length(a.Value) * quantity.Millimetre).Format(r.LengthUnit), true
	case "m":
		return (quantity.Length(a.Value) * quantity.Metre).Format(r.LongUnit), true
	case "C":
		return quantity.Celsius(a.Value).Format(r.temperature), true
	case "g":
		return (quantity.Mass(a.Value) * quantity.Gram).Format(r.mass), true
	case "Pa":
		return quantity.Pressure(a.Value).Format(r.pressure), true
	}
	return "", false
}
