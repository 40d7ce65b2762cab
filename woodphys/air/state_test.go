package air

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// drawAir draws air from the whole domain that can exist: dry bulb, relative
// humidity and pressure with the vapour below the air pressure.
func drawAir(r *rapid.T) State {
	t := quantity.Celsius(rapid.Float64Range(-60, 120).Draw(r, "t"))
	p := quantity.Pressure(rapid.Float64Range(30e3, 110e3).Draw(r, "p"))
	most := math.Min(1, 0.95*float64(p/SaturationPressureOverWater(t)))
	s, err := FromRelativeHumidity(t, rapid.Float64Range(0, most).Draw(r, "rh"), p)
	require.NoError(r, err)
	return s
}

// fromHumidityRatio is the state of air at dry bulb t, humidity ratio w (kg of vapour
// per kg of dry air) and pressure p.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 20, solved for the vapour pressure.
func fromHumidityRatio(t quantity.Temperature, w float64, p quantity.Pressure) (State, error) {
	s, err := begin(t, p)
	if err != nil {
		return State{}, err
	}
	return s.with(p*quantity.Pressure(w/(molarRatio+w)), "humidity_ratio")
}

func same(r *rapid.T, want, got State) {
	assert.InDelta(r, want.RelativeHumidity, got.RelativeHumidity, 1e-8)
	assert.InDelta(r, float64(want.VapourPressure), float64(got.VapourPressure), 1e-6*(1+float64(want.VapourPressure)))
	assert.InDelta(r, want.HumidityRatio, got.HumidityRatio, 1e-6*(1+want.HumidityRatio))
}

func TestEveryMeasureLeadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawAir(r)
		back, err := fromHumidityRatio(s.DryBulb, s.HumidityRatio, s.Pressure)
		require.NoError(r, err)
		same(r, s, back)
		if dew, err := s.DewPoint(); err == nil {
			back, err := FromDewPoint(s.DryBulb, dew, s.Pressure)
			require.NoError(r, err)
			same(r, s, back)
		}
		if frost, ok, err := s.FrostPoint(); ok && err == nil {
			back, err := begin(s.DryBulb, s.Pressure)
			require.NoError(r, err)
			back, err = back.with(SaturationPressureOverIce(frost), "frost_point")
			require.NoError(r, err)
			same(r, s, back)
		}
	})
}

func TestDewPointExistsUnlessDry(t *testing.T) {
	driest := SaturationPressureOverWater(quantity.Kelvin(lowestPoint))
	assert.InDelta(t, 0.00365, driest.Pascals(), 0.00001) // Pa, at -100 degC
	rapid.Check(t, func(r *rapid.T) {
		s := drawAir(r)
		dew, err := s.DewPoint()
		if s.VapourPressure < driest {
			expect.Code(r, err, method.Unsupported, "dew_point")
			return
		}
		require.NoError(r, err)
		assert.LessOrEqual(r, dew.Celsius(), s.DryBulb.Celsius()+1e-7)
	})
}

func TestFrostPointAboveDewPointBelowZero(t *testing.T) {
	s, err := FromRelativeHumidity(quantity.Celsius(-10), 1, SeaLevelPressure)
	require.NoError(t, err)
	dew, err := s.DewPoint()
	require.NoError(t, err)
	assert.InDelta(t, -10, dew.Celsius(), 1e-6)
	frost, ok, err := s.FrostPoint()
	require.NoError(t, err)
	require.True(t, ok)
	// 286.56 Pa over water at -10 degC is ice saturation at -8.9 degC
	// (Magnus over ice of WMO-No. 8: t = 272.62 L/(22.46-L), L = ln(286.56/611.2)).
	l := math.Log(286.56 / 611.2)
	assert.InDelta(t, 272.62*l/(22.46-l), frost.Celsius(), 0.02)

	warm, err := FromRelativeHumidity(quantity.Celsius(20), 0.5, SeaLevelPressure)
	require.NoError(t, err)
	_, ok, err = warm.FrostPoint()
	require.NoError(t, err)
	assert.False(t, ok, "dew comes before frost")
	dry, err := FromRelativeHumidity(quantity.Celsius(20), 0, SeaLevelPressure)
	require.NoError(t, err)
	_, _, err = dry.FrostPoint()
	expect.Code(t, err, method.Unsupported, "frost_point")
}

func TestStateRefuses(t *testing.T) {
	c, p, nan := quantity.Celsius, quantity.Pressure(SeaLevelPressure), math.NaN()
	call := func(_ State, err error) error { return err }
	for name, x := range map[string]struct {
		err   error
		code  method.Code
		input string
	}{
		"too cold":          {call(FromRelativeHumidity(c(-60.1), 0.5, p)), method.OutOfRange, "temperature"},
		"NaN temperature":   {call(FromRelativeHumidity(c(nan), 0.5, p)), method.OutOfRange, "temperature"},
		"rh above 1":        {call(FromRelativeHumidity(c(20), 1.01, p)), method.OutOfRange, "rh_pct"},
		"rh NaN":            {call(FromRelativeHumidity(c(20), nan, p)), method.OutOfRange, "rh_pct"},
		"no pressure":       {call(FromRelativeHumidity(c(20), 0.5, 0)), method.OutOfRange, "pressure"},
		"infinite pressure": {call(FromRelativeHumidity(c(20), 0.5, quantity.Pressure(math.Inf(1)))), method.OutOfRange, "pressure"},
		"boiling":           {call(FromRelativeHumidity(c(110), 0.9, p)), method.Contradictory, "rh_pct"},
		"dew above dry":     {call(FromDewPoint(c(20), c(20.1), p)), method.Contradictory, "dew_point"},
		"dew NaN":           {call(FromDewPoint(c(20), c(nan), p)), method.OutOfRange, "dew_point"},
		"wet above dry":     {call(FromWetBulb(c(20), c(20.5), p, false)), method.Contradictory, "wet_bulb"},
		"wet far too low":   {call(FromWetBulb(c(20), c(2), p, false)), method.Contradictory, "wet_bulb"},
		"wet NaN":           {call(FromWetBulb(c(20), c(nan), p, false)), method.OutOfRange, "wet_bulb"},
		"ice above zero":    {call(FromWetBulb(c(20), c(10), p, true)), method.Contradictory, "ice_bulb"},
		"ice far above dry": {call(FromWetBulb(c(-10), c(-9), p, true)), method.Contradictory, "wet_bulb"},
		"boiling bulb":      {call(FromWetBulb(c(110), c(105), p, false)), method.Contradictory, "wet_bulb"},
	} {
		t.Run(name, func(t *testing.T) { expect.Code(t, x.err, x.code, x.input) })
	}
}

func TestStateNotesItsGround(t *testing.T) {
	warm, err := FromRelativeHumidity(quantity.Celsius(20), 0.5, SeaLevelPressure)
	require.NoError(t, err)
	assert.Equal(t, []string{"air.state", "air.saturation-water"}, warm.Notes.Basis)
	assert.Empty(t, warm.Notes.Warnings)
	cold, err := FromRelativeHumidity(quantity.Celsius(-50), 0.5, SeaLevelPressure)
	require.NoError(t, err)
	assert.Equal(t, []string{"air.state", "air.saturation-supercooled"}, cold.Notes.Basis)
	require.Len(t, cold.Notes.Warnings, 1)
	assert.Equal(t, method.OutsideFitted, cold.Notes.Warnings[0].Code)
}
