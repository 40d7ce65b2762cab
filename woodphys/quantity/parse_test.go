package quantity_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
)

// lengths are the forms a maker writes. The metres are worked by hand from the
// exact inch of 25.4 mm; 1e-15 relative is the last digit of a float64 or two.
var lengths = []struct {
	text   string
	metres float64
}{
	{"52 mm", 0.052}, {"52mm", 0.052}, {"  52  mm  ", 0.052}, {"5.2 cm", 0.052}, {"0.052 m", 0.052}, {"52000 um", 0.052}, {"52000 µm", 0.052},
	{"1.2 m", 1.2}, {"+1.2 m", 1.2}, {"-1.2 m", -1.2}, {"- 1/2 in", -0.0127}, {"1.2 metres", 1.2}, {"1.2 Meters", 1.2}, {".5 m", 0.5}, {"5. mm", 0.005},
	{"1e3 mm", 1}, {"1E-3 m", 0.001}, {"2.5e+1 mm", 0.025}, {"0 mm", 0},
	{"9 in", 0.2286}, {"9 inches", 0.2286}, {"1 inch", 0.0254}, {`9"`, 0.2286}, {`9 "`, 0.2286}, {"2 ft", 0.6096}, {"2 feet", 0.6096}, {"1 foot", 0.3048}, {"2'", 0.6096},
	{"7/8 in", 0.022225}, {"2 1/16 in", 0.0523875}, {"2-1/16 in", 0.0523875}, {`2-1/16"`, 0.0523875}, {"-2 1/16 in", -0.0523875}, {"+2 1/16 in", 0.0523875},
	{"1 / 64 in", 0.000396875}, {"33/32 in", 0.02619375}, {"3 0/4 in", 0.0762},
}

func TestParseLength(t *testing.T) {
	for _, row := range lengths {
		got, err := quantity.ParseLength(row.text)
		require.NoError(t, err, row.text)
		assert.InDelta(t, row.metres, got.Metres(), 1e-15*math.Max(1, math.Abs(row.metres)), row.text)
	}
}

func TestParseOtherDimensions(t *testing.T) {
	for text, kelvin := range map[string]float64{
		"21 C": 294.15, "21 °C": 294.15, "21°C": 294.15, "21 degC": 294.15, "21 Celsius": 294.15, "-4.5 C": 268.65, "-40 C": 233.15, "-40 F": 233.15,
		"70 F": 294.26111111111111, "70 °F": 294.26111111111111, "32 F": 273.15, "212 Fahrenheit": 373.15, "294 K": 294, "0 kelvin": 0, "-459.67 F": 0,
	} {
		got, err := quantity.ParseTemperature(text)
		require.NoError(t, err, text)
		assert.InDelta(t, kelvin, got.Kelvin(), 1e-12, text)
	}
	for text, kg := range map[string]float64{
		"3.2 lb": 1.451495584, "3 1/5 lbs": 1.451495584, "1450 g": 1.45, "1.45 kg": 1.45, "16 oz": 0.45359237, "1 pound": 0.45359237, "1 Ounce": 0.028349523125, "2 grams": 0.002,
	} {
		got, err := quantity.ParseMass(text)
		require.NoError(t, err, text)
		assert.InDelta(t, kg, got.Kilograms(), 1e-15, text)
	}
	for text, pa := range map[string]float64{
		"101325 Pa": 101325, "1013.25 hPa": 101325, "1013.25 mbar": 101325, "101.325 kPa": 101325, "29.92 inHg": 101320.75888,
	} {
		got, err := quantity.ParsePressure(text)
		require.NoError(t, err, text)
		assert.InDelta(t, pa, got.Pascals(), 1e-9, text)
	}
	for text, pa := range map[string]float64{
		"0.101325 MPa": 101325, "11 GPa": 11e9, "11000 N/mm2": 11e9, "9000 N/mm²": 9e9, "14.7 psi": 101352.9322095696,
	} {
		got, err := quantity.ParseStiffness(text)
		require.NoError(t, err, text)
		assert.InEpsilon(t, pa, got.Pascals(), 1e-12, text)
	}
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for text, reason := range map[string]string{
		"": "empty", "   ": "empty", "mm": "no number in it", "NaN mm": "no number in it", "Inf m": "no number in it", "52": "the unit is missing", "2 1/16": "the unit is missing",
		"52 kg": `"kg" is not a unit of length`, "52 C": `"C" is not a unit of length`, "52 furlongs": `"furlongs" is not a unit`, "52 MM": `"MM" is not a unit`, "5 M": `"M" is not a unit`,
		"1,200 mm": "may be 1200 or 1.200", "1,20,5 mm": "is not a number", "5 2 mm": "is not a number", "five 5 mm": "is not a number", "0x10 mm": "is not a number", "1_000 mm": "is not a number",
		"--5 mm": "is not a number", "1e mm": `"e mm" is not a unit`, "1.2.3 mm": "is not a number", "1e999 mm": "too large", "-1e999 m": "too large",
		"2 1/0 in": "0 below the line", "1/0 in": "0 below the line", "1.5/2 in": "two whole numbers", "1/2.5 in": "two whole numbers", "1/2/3 in": "two whole numbers", "/2 in": "two whole numbers", "2 - 1/16 in": "two whole numbers", "1/ in": `"/ in" is not a unit`,
		"1.5 1/2 in": "whole number", "2 1/1000000000000 in": "two whole numbers", "- - 1/2 in": "whole number",
		strings.Repeat("1", 70) + " mm": "longer than 64 characters",
	} {
		got, err := quantity.ParseLength(text)
		var parse *quantity.ParseError
		require.True(t, errors.As(err, &parse), "%q gave %v", text, got)
		assert.Contains(t, parse.Reason, reason, text)
		assert.Equal(t, quantity.DimensionLength, parse.Dimension)
		assert.Equal(t, quantity.Units(quantity.DimensionLength), parse.Units)
		assert.Contains(t, err.Error(), "is not a length")
		assert.LessOrEqual(t, len(parse.Text), 64)
		assert.Zero(t, got)
	}
}

func TestValueWithUnit(t *testing.T) {
	l, err := quantity.LengthOf(2.0625, "in")
	require.NoError(t, err)
	assert.InDelta(t, 0.0523875, l.Metres(), 1e-16)
	k, err := quantity.TemperatureOf(70, "°F")
	require.NoError(t, err)
	assert.InDelta(t, 294.26111111111111, k.Kelvin(), 1e-12)
	m, err := quantity.MassOf(1, "lb")
	require.NoError(t, err)
	assert.InDelta(t, 0.45359237, m.Kilograms(), 1e-16)
	p, err := quantity.PressureOf(1, "hPa")
	require.NoError(t, err)
	assert.InDelta(t, 100, p.Pascals(), 1e-12)
	for _, bad := range []struct {
		value  float64
		unit   string
		reason string
	}{
		{math.NaN(), "mm", "finite"}, {math.Inf(1), "mm", "finite"}, {math.Inf(-1), "m", "finite"}, {1, "", "unit is missing"}, {1, "kg", "is not a unit of length"}, {1, " mm", "is not a unit of length"},
	} {
		_, err := quantity.LengthOf(bad.value, bad.unit)
		var parse *quantity.ParseError
		require.True(t, errors.As(err, &parse), "%v %q", bad.value, bad.unit)
		assert.Contains(t, parse.Reason, bad.reason)
	}
	_, err = quantity.MassOf(1, "mm")
	require.Error(t, err)
	_, err = quantity.StiffnessOf(math.MaxFloat64, "MPa")
	assert.ErrorContains(t, err, "too large")
}

// The unit symbols of a dimension and their spellings do not mean two things.
func TestUnits(t *testing.T) {
	assert.Equal(t, []string{"mm", "cm", "m", "um", "in", "ft"}, quantity.Units(quantity.DimensionLength))
	assert.Equal(t, "C", quantity.Units(quantity.DimensionTemperature)[0])
	assert.Equal(t, "kg", quantity.Units(quantity.DimensionMass)[0])
	assert.Equal(t, "hPa", quantity.Units(quantity.DimensionPressure)[0])
	assert.Equal(t, "MPa", quantity.Units(quantity.DimensionStiffness)[0])
	assert.Empty(t, quantity.Units("colour"))
}

// What is written in any unit comes back in that unit.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "value")
		unit := rapid.SampledFrom(quantity.Units(quantity.DimensionLength)).Draw(t, "unit")
		written := fmt.Sprintf("%v %s", v, unit)
		l, err := quantity.ParseLength(written)
		require.NoError(t, err, written)
		back, ok := l.In(unit)
		require.True(t, ok)
		assert.InDelta(t, v, back, 1e-12*math.Max(1, math.Abs(v)), written)
		same, err := quantity.LengthOf(v, unit)
		require.NoError(t, err)
		assert.Equal(t, same, l, "the text and the pair are read alike")
	})
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-273, 1000).Draw(t, "celsius")
		k, err := quantity.ParseTemperature(fmt.Sprintf("%v C", c))
		require.NoError(t, err)
		f, _ := k.In("F")
		again, err := quantity.TemperatureOf(f, "F")
		require.NoError(t, err)
		assert.InDelta(t, c, again.Celsius(), 1e-9)
		assert.InDelta(t, c*9/5+32, f, 1e-9)
	})
	rapid.Check(t, func(t *rapid.T) {
		whole, top, bottom := rapid.IntRange(0, 99).Draw(t, "whole"), rapid.IntRange(0, 63).Draw(t, "top"), rapid.SampledFrom([]int{2, 4, 8, 16, 32, 64}).Draw(t, "bottom")
		want := (float64(whole) + float64(top)/float64(bottom)) * 0.0254
		for _, form := range []string{"%d %d/%d in", "%d-%d/%d in", `%d %d/%d"`} {
			got, err := quantity.ParseLength(fmt.Sprintf(form, whole, top, bottom))
			require.NoError(t, err)
			assert.InDelta(t, want, got.Metres(), 1e-15)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, row := range lengths {
		f.Add(row.text)
	}
	for _, text := range []string{"", "mm", "1e999 mm", "-/ in", "2 1/0 in", "\x00", "1/1/1 in", "٣ mm", "½ in", "1e308 m", "9999999999/1 in", "3' 6\"", "24 lb 7 oz", "8/4", "1,234 mm", "1.234,5 mm", "' \"", "½½ in", "3' 6' 2\""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := quantity.ParseLength(text)
		if !quantity.Finite(l.Metres()) {
			t.Errorf("%q is %v", text, l)
		}
		var parse *quantity.ParseError
		if err != nil && (!errors.As(err, &parse) || parse.Reason == "" || l != 0) {
			t.Errorf("%q: %v, %v", text, l, err)
		}
		for _, other := range []func() (float64, error){
			func() (float64, error) { v, err := quantity.ParseTemperature(text); return v.Kelvin(), err },
			func() (float64, error) { v, err := quantity.ParseMass(text); return v.Kilograms(), err },
			func() (float64, error) { v, err := quantity.ParsePressure(text); return v.Pascals(), err },
		} {
			if v, err := other(); !quantity.Finite(v) || err != nil && v != 0 {
				t.Errorf("%q: %v, %v", text, v, err)
			}
		}
	})
}

func TestSymbol(t *testing.T) {
	for text, want := range map[string]string{"mm": "mm", "millimetres": "mm", `"`: "in", "lbs": "lb", "pounds": "lb", "C": "C", "celsius": "C", "mbar": "hPa", "": "", "cubit": ""} {
		assert.Equal(t, want, quantity.Symbol(text), text)
	}
}
