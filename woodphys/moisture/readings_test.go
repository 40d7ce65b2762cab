package moisture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func pins(percent, depth float64) moisture.PinReading {
	return moisture.PinReading{Reading: quantity.Moisture(percent / 100), SpeciesA: 1, SpeciesKnown: true, WoodTemperature: quantity.Celsius(22.5), TemperatureKnown: true, Depth: depth, DepthKnown: true}
}

func figure(percent, sd float64) moisture.Figure {
	return moisture.Figure{MC: quantity.Moisture(percent / 100), SD: quantity.Moisture(sd / 100)}
}

// Readings of the mean are combined, those of shell and core compared, each in its place.
func TestReadAllSortsByPlace(t *testing.T) {
	r, err := moisture.ReadAll([]moisture.Reading{pins(10, 0.05), figure(12, 1), pins(16, 0.5), figure(12.5, 1)})
	require.NoError(t, err)
	require.Len(t, r.All, 4)
	assert.Equal(t, []moisture.Place{moisture.Shell, moisture.Mean, moisture.Core, moisture.Mean}, []moisture.Place{r.All[0].Place, r.All[1].Place, r.All[2].Place, r.All[3].Place})
	require.NotNil(t, r.Combined)
	assert.InDelta(t, 12.25, r.Combined.MC.Value.Percent(), 1e-9, "of the two figures alone")
	require.NotNil(t, r.Gradient)
	assert.Equal(t, moisture.CoreWetter, r.Gradient.Sense)

	alone, err := moisture.ReadAll([]moisture.Reading{pins(10, 0.05)})
	require.NoError(t, err)
	assert.Nil(t, alone.Combined)
	assert.Nil(t, alone.Gradient)
}

// Errors name the reading by its number in the list: all that fail at once, and the odd
// one out where they cannot all be true.
func TestReadAllNamesTheReading(t *testing.T) {
	_, err := moisture.ReadAll([]moisture.Reading{figure(12, 1), figure(-1, 1), moisture.PinlessReading{Reading: 0.9}})
	several, ok := err.(interface{ Unwrap() []error })
	require.True(t, ok)
	require.Len(t, several.Unwrap(), 2)
	expect.Code(t, several.Unwrap()[0], method.OutOfRange, "readings/1/mc_pct")
	expect.Code(t, several.Unwrap()[1], method.OutOfRange, "readings/2/reading_pct")

	_, err = moisture.ReadAll([]moisture.Reading{pins(10, 0.05), figure(8, 0.5), figure(20, 0.5)})
	expect.Code(t, err, method.Contradictory, "readings/2")
}

// A piece takes the figures of its wood, unless it has its own gravity.
func TestSizedTakesItsWood(t *testing.T) {
	w := wood.Wood{Name: "spruce", SpecificGravity: wood.Figure{Value: 0.37, Known: true, Recalled: true, How: "recalled"}, Volumetric: wood.Published(0.115), FibreSaturation: 0.29}
	body := moisture.Body{Mass: 0.448, Volume: 0.931e-3}
	of, err := moisture.Sized{Body: body, Wood: &w}.Estimate()
	require.NoError(t, err)
	assert.Equal(t, "specific gravity of spruce is recalled", of.Notes.Warnings[0].Detail)
	body.SpecificGravity, body.VolumetricShrinkage, body.FibreSaturation = 0.37, 0.115, 0.29
	want, err := moisture.FromDensity(body)
	require.NoError(t, err)
	assert.Equal(t, want.MC, of.MC)

	_, err = moisture.Sized{Body: moisture.Body{Mass: 1, Volume: 1e-3}}.Estimate()
	expect.Code(t, err, method.Missing, "specific_gravity")
	_, err = moisture.Sized{Body: moisture.Body{Mass: 1, Volume: 1e-3}, Wood: &wood.Wood{}}.Estimate()
	expect.Code(t, err, method.MissingData, "specific_gravity")
}

func TestSampleRemarksOnAClaim(t *testing.T) {
	claimed := 11.8 * quantity.PercentMC // the wet-basis figure of 8.5 to 7.5
	e, err := moisture.Sample{Wet: grams(85, 0.1), Ovendry: grams(75, 0.1), Claimed: &claimed}.Estimate()
	require.NoError(t, err)
	assert.Contains(t, e.Remark, "wet-basis")
	plain, err := moisture.Sample{Wet: grams(85, 0.1), Ovendry: grams(75, 0.1)}.Estimate()
	require.NoError(t, err)
	assert.Empty(t, plain.Remark)
	assert.Equal(t, plain.MC, e.MC)
}

func TestInCondition(t *testing.T) {
	mc, sd, rh := 12*quantity.PercentMC, 1*quantity.PercentMC, 0.5
	exact, err := moisture.InCondition(moisture.Condition{MC: &mc}, nil)
	require.NoError(t, err)
	assert.Equal(t, exact.MC.Low, exact.MC.High)
	assert.True(t, expect.Warned(exact.Notes, method.DefaultUsed))
	spread, err := moisture.InCondition(moisture.Condition{MC: &mc, SD: &sd}, nil)
	require.NoError(t, err)
	assert.Equal(t, about(12, 1), spread.MC)
	green, err := moisture.InCondition(moisture.Condition{Green: true}, nil)
	require.NoError(t, err)
	assert.Greater(t, green.MC.Low, 30*quantity.PercentMC)
	inAir := moisture.Condition{Air: &air.Measured{DryBulb: quantity.Celsius(21), RH: &rh}}
	ordinary, err := moisture.InCondition(inAir, nil)
	require.NoError(t, err)
	rich, err := moisture.InCondition(inAir, &wood.Wood{Name: "rich", FibreSaturation: 0.24})
	require.NoError(t, err)
	assert.Less(t, rich.MC.Value, ordinary.MC.Value)

	_, err = moisture.InCondition(moisture.Condition{}, nil)
	expect.Code(t, err, method.Missing, "")
	_, err = moisture.InCondition(moisture.Condition{MC: &mc, Green: true}, nil)
	expect.Code(t, err, method.Contradictory, "")
	_, err = moisture.InCondition(moisture.Condition{SD: &sd, Green: true}, nil)
	expect.Code(t, err, method.Contradictory, "sd_pct")
	_, err = moisture.InCondition(moisture.Condition{Air: &air.Measured{DryBulb: quantity.Celsius(21)}}, nil)
	expect.Code(t, err, method.Missing, "air")

	assert.Equal(t, about(12, 3), moisture.KnownTo(mc, 0), "that of a pin meter")
	assert.InDelta(t, 0.25, moisture.DepthShare(0.03, 0.04), 1e-12)
}
