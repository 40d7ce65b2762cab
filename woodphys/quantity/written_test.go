package quantity_test

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
)

// inSI reads a text of any dimension.
func inSI(t require.TestingT, dimension, text string) (float64, error) {
	switch quantity.Dimension(dimension) {
	case quantity.DimensionLength:
		v, err := quantity.ParseLength(text)
		return v.Metres(), err
	case quantity.DimensionTemperature:
		v, err := quantity.ParseTemperature(text)
		return v.Kelvin(), err
	case quantity.DimensionMass:
		v, err := quantity.ParseMass(text)
		return v.Kilograms(), err
	case quantity.DimensionPressure:
		v, err := quantity.ParsePressure(text)
		return v.Pascals(), err
	case quantity.DimensionStiffness:
		v, err := quantity.ParseStiffness(text)
		return v.Pascals(), err
	}
	require.Fail(t, "no such dimension", dimension)
	return 0, nil
}

// What people write is read as the table says; the front page reads the same table.
func TestWrittenAsThePageReadsIt(t *testing.T) {
	text, err := os.ReadFile("../../testdata/written/quantities.csv")
	require.NoError(t, err)
	rows := 0
	for _, line := range strings.Split(string(text), "\n") {
		cells := strings.Split(line, ";")
		if line == "" || line[0] == '#' || cells[0] == "text" {
			continue
		}
		rows++
		require.Len(t, cells, 3, line)
		got, err := inSI(t, cells[1], cells[0])
		if reason, refused := strings.CutPrefix(cells[2], "!"); refused {
			assert.ErrorContains(t, err, reason, line)
			continue
		}
		want, numberErr := strconv.ParseFloat(cells[2], 64)
		require.NoError(t, numberErr, line)
		require.NoError(t, err, line)
		assert.InDelta(t, want, got, 1e-12*math.Max(1, math.Abs(want)), line)
	}
	assert.Greater(t, rows, 50)
}

// Feet with inches and pounds with ounces are the sum of both, whatever the form.
func TestTwoUnitsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet, sixteenths := rapid.IntRange(0, 40).Draw(t, "feet"), rapid.IntRange(1, 191).Draw(t, "sixteenths")
		want := float64(feet)*0.3048 + float64(sixteenths)/16*0.0254
		for _, form := range []string{"%d' %d/16\"", "%d ft %d/16 in", "%d'-%d/16", "%d feet %d/16 inches", "%d′ %d⁄16″"} {
			got, err := quantity.ParseLength(fmt.Sprintf(form, feet, sixteenths))
			require.NoError(t, err, form)
			assert.InDelta(t, want, got.Metres(), 1e-12, form)
		}
		pounds, ounces := rapid.IntRange(0, 300).Draw(t, "pounds"), rapid.IntRange(0, 15).Draw(t, "ounces")
		got, err := quantity.ParseMass(fmt.Sprintf("%d lb %d oz", pounds, ounces))
		require.NoError(t, err)
		assert.InDelta(t, (float64(pounds)+float64(ounces)/16)*0.45359237, got.Kilograms(), 1e-12)
	})
}

// A decimal comma is a decimal point, but for three digits behind it.
func TestDecimalComma(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		written := strconv.FormatFloat(rapid.Float64Range(-1e4, 1e4).Draw(t, "value"), 'f', rapid.SampledFrom([]int{1, 2, 4, 5}).Draw(t, "digits"), 64) + " mm"
		point, err := quantity.ParseLength(written)
		require.NoError(t, err)
		comma, err := quantity.ParseLength(strings.Replace(written, ".", ",", 1))
		require.NoError(t, err)
		assert.Equal(t, point, comma)
	})
}

func TestUnitWritten(t *testing.T) {
	for text, want := range map[string]string{
		"52 mm": "mm", `3"`: "in", "3″": "in", "8/4": "in", "3' 6\"": "ft", "1 metre": "m", "52": "", "": "", "5 cubits": "", "½ in": "in",
	} {
		assert.Equal(t, want, quantity.UnitWritten(quantity.DimensionLength, text), text)
	}
	assert.Equal(t, "lb", quantity.UnitWritten(quantity.DimensionMass, "24 lb 7 oz"))
	assert.Equal(t, "MPa", quantity.UnitWritten(quantity.DimensionStiffness, "9000 N/mm2"))
	assert.Equal(t, "C", quantity.UnitWritten(quantity.DimensionTemperature, "20 °C"))
}
