package quantity_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
)

// The international yard and pound agreement (1959) and the definition of the
// board foot are exact; one unit in the last place is what a float64 loses.
func TestExactDefinitions(t *testing.T) {
	const last = 3e-16
	assert.InEpsilon(t, 0.0254, float64(quantity.Inch), last)
	assert.InEpsilon(t, 0.3048, float64(quantity.Foot), last)
	assert.InEpsilon(t, 0.45359237, float64(quantity.Pound), last)
	assert.InEpsilon(t, 0.028349523125, float64(quantity.Ounce), last)
	assert.InEpsilon(t, 0.002359737216, float64(quantity.BoardFoot), last)
	assert.InDelta(t, 423.776000657, quantity.CubicMetre.BoardFeet(), 1e-9)
	assert.InEpsilon(t, math.Pi/180, float64(quantity.Degree), last)
	assert.InEpsilon(t, 101325/14.695948775513449, float64(quantity.PoundPerSquareInch), 1e-12, "1 atm is 14.695 948 775 513 psi; the constant has 13 digits")
	assert.InDelta(t, 1, float64(quantity.Metre), 0)
	assert.InDelta(t, 86400, float64(quantity.Day), 0)
	assert.InDelta(t, 7, quantity.Week.Days(), 0)
	assert.InDelta(t, 3600, quantity.Hour.Seconds(), 0)
	// A billet of 1 by 12 in by 8 ft is 8 board feet.
	billet := quantity.Volume(quantity.Inch * 12 * quantity.Inch * 8 * quantity.Foot)
	assert.InDelta(t, 8, billet.BoardFeet(), 1e-12)
	assert.InDelta(t, 0.018877897728, billet.CubicMetres(), 1e-15)
}

func TestGetters(t *testing.T) {
	l := 52 * quantity.Millimetre
	assert.InDelta(t, 0.052, l.Metres(), 1e-17)
	assert.InDelta(t, 52, l.Millimetres(), 1e-14)
	assert.InDelta(t, 1000, quantity.Kilogram.Grams(), 0)
	assert.InDelta(t, 1, quantity.Kilogram.Kilograms(), 0)
	assert.InDelta(t, 101325, quantity.Pressure(101325).Pascals(), 0)
	a := 30 * quantity.Degree
	assert.InDelta(t, 30, a.Degrees(), 1e-14)
	assert.InDelta(t, 0.5, a.Sin(), 1e-15)
	assert.InDelta(t, math.Sqrt(3)/2, a.Cos(), 1e-15)
	assert.InDelta(t, 1/math.Sqrt(3), a.Tan(), 1e-15)
}

// Fixed points of the scales; the two agree at -40.
func TestTemperature(t *testing.T) {
	for _, row := range []struct{ c, f, k float64 }{{0, 32, 273.15}, {100, 212, 373.15}, {-40, -40, 233.15}, {-273.15, -459.67, 0}, {37, 98.6, 310.15}} {
		fahrenheit, err := quantity.TemperatureOf(row.f, "F")
		require.NoError(t, err)
		for _, temperature := range []quantity.Temperature{quantity.Celsius(row.c), fahrenheit, quantity.Kelvin(row.k)} {
			f, known := temperature.In("F")
			assert.True(t, known)
			assert.InDelta(t, row.c, temperature.Celsius(), 1e-12)
			assert.InDelta(t, row.f, f, 1e-12)
			assert.InDelta(t, row.k, temperature.Kelvin(), 1e-12)
		}
	}
	warm := quantity.Celsius(20).Add(5)
	assert.InDelta(t, 25, warm.Celsius(), 1e-12)
	assert.True(t, quantity.Celsius(20).Less(warm))
	assert.False(t, warm.Less(warm))
}

func TestMoistureBases(t *testing.T) {
	// Forest products texts: 50 % of the wet mass is 100 % of the ovendry mass.
	assert.InDelta(t, 0.5, (100 * quantity.PercentMC).WetBasis(), 1e-16)
	rapid.Check(t, func(t *rapid.T) {
		m := quantity.Moisture(rapid.Float64Range(0, 2.5).Draw(t, "mc"))
		assert.InDelta(t, float64(m), m.WetBasis()/(1-m.WetBasis()), 1e-14)
		assert.LessOrEqual(t, m.WetBasis(), float64(m), "the wet basis is the smaller figure")
	})
}

// A value that a maker wrote comes back as written, not with the dust of a
// conversion; and a value that is not round is left as it is.
func TestValuesSettle(t *testing.T) {
	for _, tenths := range []int{1, 3, 7, 52, 121, 605, 1213, 24999} {
		v := float64(tenths) / 10
		l, err := quantity.LengthOf(v, "mm")
		require.NoError(t, err)
		back, ok := l.In("mm")
		require.True(t, ok)
		assert.Equal(t, fmt.Sprint(v), fmt.Sprint(back))
	}
	mm, _ := quantity.Length(0.0052).In("mm")
	assert.Equal(t, "5.2", fmt.Sprint(mm))
	f, _ := quantity.Celsius(20).In("F")
	assert.Equal(t, "68", fmt.Sprint(f))
	warm, err := quantity.TemperatureOf(70, "F")
	require.NoError(t, err)
	c, _ := warm.In("C")
	assert.InDelta(t, 190.0/9, c, 1e-12)
	lb, _ := (5 * quantity.Pound).In("lb")
	assert.Equal(t, "5", fmt.Sprint(lb))
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e9, 1e9).Draw(t, "metres")
		unit := rapid.SampledFrom([]string{"mm", "in", "m", "ft"}).Draw(t, "unit")
		got, ok := quantity.Length(v).In(unit)
		require.True(t, ok)
		back, err := quantity.LengthOf(got, unit)
		require.NoError(t, err)
		assert.InDelta(t, v, back.Metres(), 2e-13+1e-15*math.Abs(v), "never moved by more than 1e-13 of a unit")
	})
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64, 0} {
		got, ok := quantity.Length(v).In("m")
		assert.True(t, ok)
		assert.Equal(t, fmt.Sprint(v), fmt.Sprint(math.Max(got, v)), "%v", v)
	}
}

func TestInRefusesForeignUnits(t *testing.T) {
	for _, symbol := range []string{"", "kg", "C", "furlong", "MM"} {
		_, ok := quantity.Metre.In(symbol)
		assert.False(t, ok, symbol)
	}
	_, ok := quantity.Kilogram.In("mm")
	assert.False(t, ok)
	_, ok = quantity.Celsius(1).In("kg")
	assert.False(t, ok)
	hPa, ok := quantity.Pressure(101325).In("hPa")
	assert.True(t, ok)
	assert.Equal(t, "1013.25", fmt.Sprint(hPa))
}

func TestFormat(t *testing.T) {
	for want, got := range map[string]string{
		"52 mm": (52 * quantity.Millimetre).Format("mm"), "2.0625 in": (2.0625 * quantity.Inch).Format("in"), "0.052 m": (52 * quantity.Millimetre).Format("furlong"),
		"5.08 cm": (2 * quantity.Inch).Format("cm"), "2 ft": (24 * quantity.Inch).Format("ft"), "0 mm": quantity.Length(-1e-9).Format("mm"), "-1.5 mm": (-1.5 * quantity.Millimetre).Format("mm"),
		"21.1 C": quantity.Celsius(21.11).Format("C"), "70 F": quantity.Celsius(190.0 / 9).Format("F"), "273.15 K": quantity.Celsius(0).Format("mm"),
		"1.45 kg": (1450 * quantity.Gram).Format("kg"), "1450 g": (1450 * quantity.Gram).Format("g"), "3.2 lb": (3.2 * quantity.Pound).Format("lb"),
		"1013.3 hPa": quantity.Pressure(101330).Format("hPa"), "101325 Pa": quantity.Pressure(101325).Format(""), "29.92 inHg": (29.92 * quantity.InchOfMercury).Format("inHg"),
	} {
		assert.Equal(t, want, got)
	}
	for want, got := range map[string]string{
		"0": quantity.FormatNumber(-0.0001, 3), "1": quantity.FormatNumber(1, 3), "1.5": quantity.FormatNumber(1.50, 3), "100": quantity.FormatNumber(100, 0), "-2.25": quantity.FormatNumber(-2.25, 2), "0.3": quantity.FormatNumber(0.1+0.2, 12),
	} {
		assert.Equal(t, want, got)
	}
}

// What is shown to people can be read back, within the digits shown.
func TestFormatIsReadable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := quantity.Length(rapid.Float64Range(-100, 100).Draw(t, "metres"))
		unit := rapid.SampledFrom(quantity.Units(quantity.DimensionLength)).Draw(t, "unit")
		back, err := quantity.ParseLength(l.Format(unit))
		require.NoError(t, err)
		assert.InDelta(t, l.Metres(), back.Metres(), 0.0005000001, "half of the last digit of a metre, the coarsest")
	})
}

func TestBand(t *testing.T) {
	// 0.95 quantile of the standard normal distribution, as in any table.
	assert.InDelta(t, quantity.Coverage, math.Erf(quantity.Z90/math.Sqrt2), 1e-15)
	b := quantity.NormalBand(10*quantity.PercentMC, 1*quantity.PercentMC)
	assert.InDelta(t, 0.1-0.016448536269514722, float64(b.Low), 1e-16)
	assert.InDelta(t, 0.1+0.016448536269514722, float64(b.High), 1e-16)
	c := b.Clamp(0.09, 0.11)
	assert.Equal(t, quantity.Band[quantity.Moisture]{Value: b.Value, Low: 0.09, High: 0.11}, c)
	assert.Equal(t, quantity.Band[quantity.Length]{Value: 2, Low: 2, High: 2}, quantity.Band[quantity.Length]{Value: 1, Low: 0, High: 1.5}.Clamp(2, 3))
	rapid.Check(t, func(t *rapid.T) {
		mean, sd := rapid.Float64Range(-1e3, 1e3).Draw(t, "mean"), rapid.Float64Range(0, 1e3).Draw(t, "sd")
		b := quantity.NormalBand(mean, sd)
		assert.LessOrEqual(t, b.Low, b.Value)
		assert.LessOrEqual(t, b.Value, b.High)
		assert.InDelta(t, sd, b.SD(), 1e-11)
	})
}

func TestFinite(t *testing.T) {
	assert.True(t, quantity.Finite(0))
	assert.True(t, quantity.Finite(math.MaxFloat64))
	assert.False(t, quantity.Finite(math.NaN()))
	assert.False(t, quantity.Finite(math.Inf(1)))
	assert.False(t, quantity.Finite(math.Inf(-1)))
}

func ExampleParseLength() {
	l, err := quantity.ParseLength("2 1/16 in")
	fmt.Println(l.Format("mm"), err)
	_, err = quantity.ParseLength("52 kg")
	fmt.Println(err)
	// Output:
	// 52.39 mm <nil>
	// "52 kg" is not a length: "kg" is not a unit of length; units: mm, cm, m, um, in, ft
}
