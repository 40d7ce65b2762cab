package wire

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Amount writes a length, a temperature or a difference of two, a mass, a pressure or a
// stress of a warning for people; false for all else.
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
	case "K": // a difference
		return r.degrees(a.Value), true
	case "MPa":
		return (quantity.Pressure(a.Value) * quantity.Megapascal).Format(r.stress), true
	case "Pa":
		return quantity.Pressure(a.Value).Format(r.pressure), true
	}
	return "", false
}
