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
	band := inch.MassBand(quantity.Band[quantity.Mass]{Value: quantity.Pound, Low: quantity.Pound / 2, High: 2 * quantity.Pound})
	assert.Equal(t, wire.Band{Value: 1, Low: 0.5, High: 2, Unit: "lb"}, band)
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
