package wire_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

func TestRoughLengths(t *testing.T) {
	metric, inch := wire.ReportIn(wire.Metric), wire.ReportIn(wire.InchLB)
	for _, c := range []struct {
		mm       float64
		mmSays   string
		inchSays string
	}{
		{10, "10 mm", "0.5 in"}, {25, "25 mm", "1 in"}, {25.4, "25 mm", "1 in"}, {38, "38 mm", "1.5 in"}, {44, "44 mm", "1.5 in"},
		{50, "50 mm", "2 in"}, {75, "75 mm", "3 in"}, {100, "100 mm", "4 in"}, {300, "300 mm", "12 in"},
	} {
		l := quantity.Length(c.mm) * quantity.Millimetre
		assert.Equal(t, c.mmSays, metric.Roughly(l))
		assert.Equal(t, c.inchSays, inch.Roughly(l))
	}
	assert.Equal(t, "50-75 mm", metric.RoughSpan(50*quantity.Millimetre, 75*quantity.Millimetre))
	assert.Equal(t, "2-3 in", inch.RoughSpan(50*quantity.Millimetre, 75*quantity.Millimetre))
}

func TestWordsOfAReporter(t *testing.T) {
	metric, inch := wire.ReportIn(wire.Metric), wire.ReportIn(wire.InchLB)
	assert.Equal(t, "20 C", metric.SaidTemperature(quantity.Celsius(20)))
	assert.Equal(t, "68 F", inch.SaidTemperature(quantity.Celsius(20)))
	assert.Equal(t, "4290 g", metric.SaidMass(4.29))
	assert.Equal(t, "9.458 lb", inch.SaidMass(4.29))
	assert.Equal(t, "10070 g to 10190 g", metric.SaidMasses(10.0664, 10.1921))
	assert.Equal(t, "22.2 lb to 22.46 lb", inch.SaidMasses(10.0664, 10.1921))
	band := inch.MassBand(quantity.Band[quantity.Mass]{Value: quantity.Pound, Low: quantity.Pound / 2, High: 2 * quantity.Pound})
	assert.Equal(t, wire.Band{Value: 1, Low: 0.5, High: 2, Unit: "lb"}, band)
}

// A span of masses has the digits that its width leaves a meaning, whatever the unit, and is never
// told wider than it is.
func TestSpanOfMasses(t *testing.T) {
	kg := quantity.Kilogram
	for _, c := range []struct {
		low, high quantity.Mass
		unit      string
		said      string
	}{
		{10.0664 * kg, 10.1921 * kg, "kg", "10.07 kg to 10.19 kg"},
		{10.0664 * kg, 10.1921 * kg, "g", "10070 g to 10190 g"},
		{0.0461 * kg, 0.0653 * kg, "g", "47 g to 65 g"},
		{0.0461 * kg, 0.0463 * kg, "g", "46.1 g to 46.3 g"},
		{1200 * kg, 4700 * kg, "kg", "1200 kg to 4700 kg"},
		{1234 * kg, 4777 * kg, "kg", "1300 kg to 4700 kg"},
		{5 * kg, 5 * kg, "kg", "5 kg to 5 kg"},
		{5 * kg, 6 * kg, "kilograms", "5 kg to 6 kg"},
	} {
		assert.Equal(t, c.said, wire.MassSpan(c.low, c.high, c.unit))
	}
}

// A metric answer repeats every unit as it was written, one in inches no metric one.
func TestWhatAnAnswerRepeats(t *testing.T) {
	metric, inch := wire.ReportIn(wire.Metric), wire.ReportIn(wire.InchLB)
	for _, d := range []quantity.Dimension{quantity.DimensionLength, quantity.DimensionMass, quantity.DimensionTemperature, quantity.DimensionPressure} {
		for _, unit := range quantity.Units(d) {
			assert.True(t, metric.Speaks(unit), unit)
		}
	}
	for unit, speaks := range map[string]bool{
		"in": true, "inches": true, `"`: true, "ft": true, "lb": true, "pounds": true, "oz": true, "F": true, "inHg": true,
		"mm": false, "millimetres": false, "cm": false, "m": false, "kg": false, "g": false, "C": false, "K": false, "hPa": false, "": false,
	} {
		assert.Equal(t, speaks, inch.Speaks(unit), unit)
	}
	two := &wire.Length{SI: 2 * quantity.Inch, Unit: "in"}
	assert.Equal(t, "2 in", two.Shown(metric), "as the caller wrote it")
	assert.Equal(t, "2 in", two.Shown(inch))
	mm := &wire.Length{SI: 50.8 * quantity.Millimetre, Unit: "mm"}
	assert.Equal(t, "50.8 mm", mm.Shown(metric))
	assert.Equal(t, "2 in", mm.Shown(inch))
}

// A title on a screen has lengths as they were sent, inches in fractions; one on paper those of
// the answer.
func TestLengthsInTitles(t *testing.T) {
	inch := wire.ReportIn(wire.InchLB)
	for want, l := range map[string]*wire.Length{
		"40 mm":    {SI: 40 * quantity.Millimetre, Unit: "mm"},
		"45 cm":    {SI: 450 * quantity.Millimetre, Unit: "cm"},
		"9 1/2 in": {SI: 9.5 * quantity.Inch, Unit: "inches"},
		"3/16 in":  {SI: 0.1875 * quantity.Inch, Unit: "in"},
		"0.1 in":   {SI: 0.1 * quantity.Inch, Unit: "in"},
		"2 ft":     {SI: 24 * quantity.Inch, Unit: "ft"},
	} {
		assert.Equal(t, want, l.Given())
		assert.Equal(t, want, l.Called(inch, true))
		assert.Equal(t, l.Shown(inch), l.Called(inch, false))
	}
}
