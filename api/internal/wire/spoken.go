package wire

import (
	"latewood/woodphys/quantity"
)

// SpokenTemperature writes a temperature for people.
func (r Reporter) SpokenTemperature(t quantity.Temperature) string { return t.Format(r.temperature) }

// degrees writes a difference of temperatures, in kelvin, for people.
func (r Reporter) degrees(kelvin float64) string {
	if r.temperature == "F" {
		kelvin *= 1.8
	}
	return quantity.FormatNumber(kelvin, 1) + " " + r.temperature
}

// FewMillimetres is a length that only says of which order it is.
func (r Reporter) FewMillimetres() string {
	if r.LengthUnit == "in" {
		return "a fraction of an inch"
	}
	return "a few millimetres"
}

// LongLength shows a length in the long unit.
func (r Reporter) LongLength(l quantity.Length) Quantity {
	v, _ := l.In(r.LongUnit)
	return Quantity{Value: v, Unit: r.LongUnit}
}

// Stress shows a stress or a stiffness.
func (r Reporter) Stress(p quantity.Pressure) Quantity {
	v, _ := p.In(r.stress)
	return Quantity{Value: v, Unit: r.stress}
}

// StressBand shows a stress with the ends of its band.
func (r Reporter) StressBand(b quantity.Band[quantity.Pressure]) Band {
	v, _ := b.Value.In(r.stress)
	low, _ := b.Low.In(r.stress)
	high, _ := b.High.In(r.stress)
	return Band{v, low, high, r.stress}
}
