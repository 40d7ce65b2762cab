package wire

import (
	"math"

	"latewood/woodphys/quantity"
)

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

// RoughStress is a stress of which only the order matters, for people: two digits.
func (r Reporter) RoughStress(p quantity.Pressure) string {
	v, _ := p.In(r.stress)
	step := 1.0
	if v > 0 {
		step = math.Pow(10, math.Floor(math.Log10(v))-1)
	}
	decimals := max(0, int(-math.Round(math.Log10(step))))
	return quantity.FormatNumber(math.Round(v/step)*step, decimals) + " " + r.stress
}

// StressBand shows a stress with the ends of its band.
func (r Reporter) StressBand(b quantity.Band[quantity.Pressure]) Band {
	v, _ := b.Value.In(r.stress)
	low, _ := b.Low.In(r.stress)
	high, _ := b.High.In(r.stress)
	return Band{v, low, high, r.stress}
}
