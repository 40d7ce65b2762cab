package moisture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func pin(percent, celsius float64) moisture.PinReading {
	return moisture.PinReading{
		Reading: quantity.Moisture(percent / 100), WoodTemperature: quantity.Celsius(celsius), TemperatureKnown: true,
		SpeciesA: 1, SpeciesKnown: true, Depth: 0.21, DepthKnown: true,
	}
}

// The equation of Pfaff and Garrahan 1986 evaluated independently: a reading of
// 12 is 14.26 at 0 degC and 10.54 at 40 degC.
func TestFromPinMeter(t *testing.T) {
	for celsius, want := range map[float64]float64{0: 14.26, 40: 10.54} {
		e, err := moisture.FromPinMeter(pin(12, celsius))
		require.NoError(t, err)
		assert.InDelta(t, want, e.MC.Value.Percent(), 0.01)
		assert.InDelta(t, 1.75, e.SD.Percent(), 1e-9)
		assert.Equal(t, moisture.Mean, e.Place)
	}
}

// The handbook's rule, 0.5 %MC per 5.6 degC, more when colder, from its neutral
// point: within 0.6 %MC for 8 to 14 % at 0 to 40 degC, as the row says.
func TestPinMeterAgainstTheHandbookRule(t *testing.T) {
	worst := 0.0
	for reading := 8.0; reading <= 14; reading++ {
		for celsius := 0.0; celsius <= 40; celsius += 2 {
			e, err := moisture.FromPinMeter(pin(reading, celsius))
			require.NoError(t, err)
			rule := reading + 0.5*(22.5-celsius)/5.6
			worst = math.Max(worst, math.Abs(e.MC.Value.Percent()-rule))
		}
	}
	t.Logf("largest departure from the rule %.2f %%MC", worst)
	assert.Less(t, worst, 0.6)
	for _, celsius := range []float64{22, 23} { // neutral at 22 to 23
		e, err := moisture.FromPinMeter(pin(12, celsius))
		require.NoError(t, err)
		assert.InDelta(t, 12, e.MC.Value.Percent(), 0.1)
	}
	// 11.2 degC colder adds 1.0.
	warm, err := moisture.FromPinMeter(pin(12, 22.5))
	require.NoError(t, err)
	cold, err := moisture.FromPinMeter(pin(12, 22.5-11.2))
	require.NoError(t, err)
	assert.InDelta(t, 1.0, (cold.MC.Value - warm.MC.Value).Percent(), 0.1)
}

func TestPinMeterUncertainty(t *testing.T) {
	sd := func(change func(*moisture.PinReading)) (float64, moisture.Estimate) {
		r := pin(12, 20)
		change(&r)
		e, err := moisture.FromPinMeter(r)
		require.NoError(t, err)
		return e.SD.Percent(), e
	}
	v, _ := sd(func(*moisture.PinReading) {})
	assert.InDelta(t, 1.75, v, 1e-9)
	v, e := sd(func(r *moisture.PinReading) { r.SpeciesKnown = false })
	assert.InDelta(t, 3, v, 1e-9)
	assert.True(t, expect.Warned(e.Notes, method.DefaultUsed))
	v, e = sd(func(r *moisture.PinReading) { r.TemperatureKnown = false })
	assert.InDelta(t, math.Hypot(1.75, 0.5), v, 1e-9)
	assert.True(t, expect.Warned(e.Notes, method.DefaultUsed))
	v, e = sd(func(r *moisture.PinReading) { r.DepthKnown = false })
	assert.InDelta(t, 2.75, v, 1e-9)
	assert.Equal(t, moisture.Spot, e.Place)
	v, e = sd(func(r *moisture.PinReading) { r.Reading = 0.40 })
	assert.InDelta(t, 1.75+0.4*15, v, 1e-9)
	assert.True(t, expect.Warned(e.Notes, method.OutsideFitted))
	v, e = sd(func(r *moisture.PinReading) { r.Reading = 0.05 })
	assert.InDelta(t, 2.75, v, 1e-9)
	assert.True(t, expect.Warned(e.Notes, method.OutsideFitted))
	for depth, place := range map[float64]moisture.Place{0.05: moisture.Shell, moisture.MeanDepth: moisture.Mean, 0.35: moisture.Spot, 0.5: moisture.Core} {
		_, e = sd(func(r *moisture.PinReading) { r.Depth = depth })
		assert.Equal(t, place, e.Place)
	}
	// (MC_DF - b)/a
	plain, err := moisture.FromPinMeter(pin(12, 20))
	require.NoError(t, err)
	_, e = sd(func(r *moisture.PinReading) { r.SpeciesA, r.SpeciesB = 1.1, 0.01 })
	assert.InDelta(t, (plain.MC.Value.Percent()-1)/1.1, e.MC.Value.Percent(), 1e-12)
}

// Mean of a parabola over the thickness stands where 1 - (1-2x)^2 = 2/3.
func TestMeanDepth(t *testing.T) {
	x := 1 - 2*moisture.MeanDepth
	assert.InDelta(t, 2.0/3, 1-x*x, 1e-12)
	assert.InDelta(t, 0.211, moisture.MeanDepth, 0.0005) // published figure
}

func TestMetersRefuse(t *testing.T) {
	for input, change := range map[string]func(*moisture.PinReading, float64){
		"reading_pct":      func(r *moisture.PinReading, v float64) { r.Reading = quantity.Moisture(v) },
		"wood_temperature": func(r *moisture.PinReading, v float64) { r.WoodTemperature = quantity.Celsius(v * 100) },
		"species_a":        func(r *moisture.PinReading, v float64) { r.SpeciesA = v * 10 },
		"species_b_pct":    func(r *moisture.PinReading, v float64) { r.SpeciesB = quantity.Moisture(v) },
		"depth_fraction":   func(r *moisture.PinReading, v float64) { r.Depth = v },
	} {
		for _, bad := range []float64{math.NaN(), math.Inf(1), -0.9, 0.9} {
			r := pin(12, 20)
			change(&r, bad)
			_, err := moisture.FromPinMeter(r)
			expect.Code(t, err, method.OutOfRange, input)
		}
	}
	r := pin(6, 40)
	r.SpeciesB = 0.14
	_, err := moisture.FromPinMeter(r)
	expect.Code(t, err, method.Contradictory, "species_b_pct")
	_, err = moisture.FromPinlessMeter(quantity.Moisture(math.NaN()), true)
	expect.Code(t, err, method.OutOfRange, "reading_pct")
	set, err := moisture.FromPinlessMeter(0.11, true)
	require.NoError(t, err)
	assert.InDelta(t, 2.5, set.SD.Percent(), 1e-12)
	unset, err := moisture.FromPinlessMeter(0.30, false)
	require.NoError(t, err)
	assert.InDelta(t, 4+0.4*5, unset.SD.Percent(), 1e-12)
}
