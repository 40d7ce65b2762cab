package wire

import (
	"math"
	"slices"
	"strings"

	"latewood/woodphys/quantity"
)

// SaidTemperature is a temperature for people.
func (r Reporter) SaidTemperature(t quantity.Temperature) string { return t.Format(r.temperature) }

// SaidMass is a mass as a scale in a shop shows it, for people: grams or pounds.
func (r Reporter) SaidMass(m quantity.Mass) string {
	if r.mass == "kg" {
		return m.Format("g")
	}
	return m.Format(r.mass)
}

// SaidMasses is a span of masses as a scale in a shop shows it, for people.
func (r Reporter) SaidMasses(low, high quantity.Mass) string {
	if r.mass == "kg" {
		return MassSpan(low, high, "g")
	}
	return MassSpan(low, high, r.mass)
}

// MassSpan is a span of masses in a unit, for people, with the digits that its width leaves a
// meaning: to a power of ten of a tenth of the width at most, rounded into the span, so that what
// lies outside of it does so in words too.
func MassSpan(low, high quantity.Mass, unit string) string {
	from, known := low.In(unit)
	to, _ := high.In(unit)
	if !known || !(to > from) {
		return low.Format(unit) + " to " + high.Format(unit)
	}
	places := int(math.Ceil(1 - math.Log10(to-from)))
	step := math.Pow10(-places)
	said := func(v float64) string {
		return quantity.FormatNumber(v*step, max(places, 0)) + " " + quantity.Symbol(unit)
	}
	return said(math.Ceil(from/step-dust)) + " to " + said(math.Floor(to/step+dust))
}

// Roughly is a length of which only the size matters, as rules of the trade are told:
// whole millimetres; in inches halves, and whole ones from two on.
func (r Reporter) Roughly(l quantity.Length) string {
	v, _ := l.In(r.LengthUnit)
	if r.LengthUnit == "in" && v < 1.75 {
		return quantity.FormatNumber(math.Round(2*v)/2, 1) + " in"
	}
	return quantity.FormatNumber(v, 0) + " " + r.LengthUnit
}

// unitsSaid are the units of bands as a sentence has them, where it has others.
var unitsSaid = map[string]string{UnitMoisture: "%", UnitHumidity: "%"}

// Said is a quantity in a sentence, with the digits of the answer.
func (q Quantity) Said() string { return q.Text() + " " + q.Unit }

// Said is a band in a sentence, with the digits of the answer.
func (b Band) Said() string {
	unit, is := unitsSaid[b.Unit]
	if !is {
		unit = b.Unit
	}
	cells := strings.Split(string(b.AppendCells(nil)), ",")
	if cells[1] == cells[2] { // known exactly
		return cells[0] + " " + unit
	}
	return cells[0] + " " + unit + " (90 %: " + cells[1] + " " + unit + " to " + cells[2] + " " + unit + ")"
}

// inchUnits are the units that answers in inches speak.
var inchUnits = []string{"in", "ft", "lb", "oz", "F", "inHg", "psi"}

// Speaks reports whether an answer repeats a figure in the unit it was written in. A
// metric answer repeats all; one in inches no metric ones.
func (r Reporter) Speaks(unit string) bool {
	return r.LengthUnit != "in" || slices.Contains(inchUnits, quantity.Symbol(unit))
}

// Shown is the length as the caller wrote it, or in the unit of an answer that does
// not speak that one.
func (l *Length) Shown(r Reporter) string {
	if r.Speaks(l.Unit) {
		return l.SI.Format(l.Unit)
	}
	return l.SI.Format(r.LengthUnit)
}

// Given is the length as the caller wrote it, whatever unit the answer speaks: for what is called
// by it. Inches are told in fractions where they are some.
func (l *Length) Given() string {
	if quantity.Symbol(l.Unit) == "in" && isFraction(l.SI) {
		return said(inFractions(l.SI, finestFraction))
	}
	return l.SI.Format(l.Unit)
}

// Called is the length in the title of a drawing: as it was given on a screen, in the unit of the
// answer, or in its own where the answer speaks that one, on paper.
func (l *Length) Called(r Reporter, screen bool) string {
	if screen {
		return l.Given()
	}
	return l.Shown(r)
}

// RoughSpan is a span between two such lengths.
func (r Reporter) RoughSpan(low, high quantity.Length) string {
	return strings.TrimSuffix(r.Roughly(low), " "+r.LengthUnit) + "-" + r.Roughly(high)
}

// MassBand shows a mass with the ends of its band.
func (r Reporter) MassBand(b quantity.Band[quantity.Mass]) Band {
	value, low, high := r.Mass(b.Value), r.Mass(b.Low), r.Mass(b.High)
	return Band{Value: value.Value, Low: low.Value, High: high.Value, Unit: value.Unit}
}
