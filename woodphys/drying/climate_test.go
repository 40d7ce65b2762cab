package drying

import (
	"context"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// input returns code and input of a *method.Error.
func input(t require.TestingT, err error) (method.Code, string) {
	var e *method.Error
	require.True(t, errors.As(err, &e), "want a *method.Error, got %v", err)
	return e.Code, e.Input
}

// Each month keeps its mean, and the curve has no step in value or slope.
// Tolerance: the fixed number of sweeps and Simpson's rule, exact for quadratics.
func TestStationKeepsMonthlyMeans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := Normals{HasTemperature: true}
		for m := range 12 {
			n.Temperature[m] = quantity.Celsius(rapid.Float64Range(-20, 35).Draw(t, "c"))
			n.RH[m] = rapid.Float64Range(0.45, 0.7).Draw(t, "rh")
		}
		startDay := rapid.Float64Range(0, 365).Draw(t, "start")
		cl, err := Station(n, startDay)
		require.NoError(t, err)
		from, cursor := -startDay*day, 0
		for m, days := range daysOfMonth() {
			to := from + days*day
			edge := 1e-6 * day
			ca, sa, ha, _ := cl.at(from+edge, &cursor)
			cm, _, hm, _ := cl.at((from+to)/2, &cursor)
			cb, _, hb, _ := cl.at(to-edge, &cursor)
			assert.InDelta(t, n.Temperature[m].Celsius(), (ca+4*cm+cb)/6, 1e-4)
			assert.InDelta(t, n.RH[m], (ha+4*hm+hb)/6, 1e-6)
			before, sb, _, _ := cl.at(from-edge, &cursor)
			assert.InDelta(t, before, ca, 1e-4)
			assert.InDelta(t, sb*day, sa*day, 1e-4)
			from = to
		}
	})
}

func TestStationWithoutTemperatureIsRefused(t *testing.T) {
	n := madison()
	n.HasTemperature = false
	_, err := Station(n, 0)
	code, in := input(t, err)
	assert.Equal(t, method.Unsupported, code)
	assert.Equal(t, "station", in)
}

func TestClimateRefusals(t *testing.T) {
	nan := math.NaN()
	bad := madison()
	bad.RH[3] = nan
	cold := madison()
	cold.Temperature[11] = quantity.Celsius(-41)
	good, err := Station(madison(), 0)
	require.NoError(t, err)
	rows := []Reading{{0, quantity.Celsius(20), 0.5}, {100, quantity.Celsius(20), 0.5}}
	swapped := []Reading{rows[1], rows[0]}
	wet := []Reading{rows[0], {100, quantity.Celsius(20), 1.01}}
	for _, c := range []struct {
		name, in string
		try      func() (*Climate, error)
	}{
		{"NaN temperature", "temperature", func() (*Climate, error) { return Constant(quantity.Celsius(nan), 0.5) }},
		{"NaN humidity", "rh_pct", func() (*Climate, error) { return Constant(quantity.Celsius(20), nan) }},
		{"hot", "temperature", func() (*Climate, error) { return Constant(quantity.Celsius(80.1), 0.5) }},
		{"month humidity", "months/3/rh_pct", func() (*Climate, error) { return Station(bad, 0) }},
		{"month temperature", "months/11/temperature", func() (*Climate, error) { return Station(cold, 0) }},
		{"day of year", "day_of_year", func() (*Climate, error) { return Station(madison(), nan) }},
		{"no rows", "rows", func() (*Climate, error) { return Logged(nil) }},
		{"row order", "rows/1/time", func() (*Climate, error) { return Logged(swapped) }},
		{"row humidity", "rows/1/rh_pct", func() (*Climate, error) { return Logged(wet) }},
		{"heated", "temperature", func() (*Climate, error) { return Heated(good, quantity.Celsius(nan), new(quantity.Pressure)) }},
		{"added", "added_vapour", func() (*Climate, error) { return Heated(good, quantity.Celsius(20), new(quantity.Pressure(nan))) }},
	} {
		_, err := c.try()
		_, in := input(t, err)
		assert.Equal(t, c.in, in, c.name)
	}
}

// 5 degC, 80 % heated to 20 degC is 29.8 %RH (computed from Hyland-Wexler with
// another program; printed to 0.1).
func TestHeatedOutdoorAir(t *testing.T) {
	n := Normals{HasTemperature: true}
	for m := range 12 {
		n.Temperature[m], n.RH[m] = quantity.Celsius(5), 0.8
	}
	outdoor, err := Station(n, 40)
	require.NoError(t, err)
	indoor, err := Heated(outdoor, quantity.Celsius(20), new(quantity.Pressure))
	require.NoError(t, err)
	c, rh := indoor.At(100 * quantity.Day)
	assert.InDelta(t, 20, c.Celsius(), 1e-9)
	assert.InDelta(t, 0.298, rh, 0.0006)
	assert.Empty(t, indoor.Basis().Warnings)

	// On every day of the seasons the vapour pressure is kept, and no heater cools; the knots
	// cost less than 0.003.
	outdoor, err = Station(madison(), 77)
	require.NoError(t, err)
	indoor, err = Heated(outdoor, quantity.Celsius(20), new(quantity.Pressure))
	require.NoError(t, err)
	for d := range 365 {
		at := quantity.Duration(d) * quantity.Day
		t0, h0 := outdoor.At(at)
		t1, h1 := indoor.At(at)
		warm := max(20, t0.Celsius()+2)
		want := h0 * float64(air.SaturationPressureOverWater(t0)/air.SaturationPressureOverWater(quantity.Celsius(warm)))
		assert.InDelta(t, warm, t1.Celsius(), 0.3, "day %d", d)
		assert.InDelta(t, min(want, 1), h1, 0.003, "day %d", d)
	}
	damp, err := Heated(outdoor, quantity.Celsius(-8), new(quantity.Pressure(600)))
	require.NoError(t, err)
	assert.NotEmpty(t, damp.Basis().Warnings, "what people add to winter air at -8 degC condenses")
}

// A heater does not cool: at no place and time is the air of a heated room damper than that
// outdoors, but for the vapour of people, or cooler.
func TestHeatedAirIsNoDamperThanOutdoors(t *testing.T) {
	outdoor, err := Station(madison(), 0)
	require.NoError(t, err)
	for _, celsius := range []float64{-5, 5, 12, 18, 20, 22, 26, 40} {
		indoor, err := Heated(outdoor, quantity.Celsius(celsius), new(quantity.Pressure))
		require.NoError(t, err)
		for d := range 365 {
			t0, h0 := outdoor.At(quantity.Duration(d) * quantity.Day)
			t1, h1 := indoor.At(quantity.Duration(d) * quantity.Day)
			assert.GreaterOrEqual(t, t1.Celsius(), max(celsius, t0.Celsius())-1e-9, "%g C, day %d", celsius, d)
			assert.Less(t, h1, h0, "%g C, day %d", celsius, d)
		}
	}
}

func TestLogIsFollowedInStraightLines(t *testing.T) {
	cl, err := Logged([]Reading{{-100, quantity.Celsius(10), 0.4}, {0, quantity.Celsius(20), 0.5}, {400, quantity.Celsius(0), 0.9}})
	require.NoError(t, err)
	for at, want := range map[float64][2]float64{-500: {10, 0.4}, -50: {15, 0.45}, 0: {20, 0.5}, 200: {10, 0.7}, 400: {0, 0.9}, 900: {0, 0.9}} {
		c, rh := cl.At(quantity.Duration(at))
		assert.InDelta(t, want[0], c.Celsius(), 1e-9)
		assert.InDelta(t, want[1], rh, 1e-12)
	}
	job := seasonJob(t)
	job.Phases[0].Climate, job.Times = cl, nil
	var s Solver
	_, err = s.Run(context.Background(), &job)
	code, in := input(t, err)
	assert.Equal(t, method.Missing, code)
	assert.Equal(t, "phases/0/rows", in)
}

// Shed at a station, heated shop, room: the run goes through all three and the
// end lies at the EMC of the last, within the dead band.
func TestPhasesFollowOneAnother(t *testing.T) {
	outdoor, err := Station(madison(), 90)
	require.NoError(t, err)
	shop, err := Heated(outdoor, quantity.Celsius(18), new(quantity.Pressure(300)))
	require.NoError(t, err)
	room := mustConstant(t, 21, 0.45)
	job := Job{
		Transport: testTransport(t, 0.4), Thickness: 12 * quantity.Millimetre, Factor: 0.4, Initial: 0.6, Setting: Standard(),
		Phases: []Phase{
			{Length: 300 * quantity.Day, Climate: outdoor, Exposure: Shed()},
			{Length: 60 * quantity.Day, Climate: shop, Exposure: ClosedRoom()},
			{Length: 200 * quantity.Day, Climate: room, Exposure: ClosedRoom()},
		},
		Times: []quantity.Duration{0, 300 * quantity.Day, 360 * quantity.Day, 560 * quantity.Day},
	}
	var s Solver
	c, err := s.Run(context.Background(), &job)
	require.NoError(t, err)
	t.Logf("mean %.4f, shell %.4f, core %.4f; %d steps", c.Mean, c.Shell, c.Core, c.Steps)
	assert.InDelta(t, 0.6, float64(c.Mean[0]), 1e-12)
	assert.InDelta(t, 0.145, float64(c.Mean[1]), 0.02, "end of January in a shed at Madison")
	assert.Less(t, c.Mean[2], c.Mean[1])
	// EMC at 21 degC, 45 % is 8.45 %MC; the shop of late winter was drier, so the
	// wood comes from below and rests half a point under it
	assert.InDelta(t, 0.0845-0.005, float64(c.Mean[3]), 0.0005)
	assert.Less(t, c.Imbalance, 1e-10)
	assert.Contains(t, c.Notes.Basis, "drying.slab")
	assert.Contains(t, c.Notes.Basis, "drying.climate")
}

// Where the mean EMC of the hours is known, wood settles there and not at that of the mean
// air.
func TestStationKeepsTheMeanEMCOfTheHours(t *testing.T) {
	plain, hourly := madison(), madison()
	for m := range 12 {
		hourly.EMC[m] = 0.15
	}
	meanHumidity := func(n Normals) float64 {
		cl, err := Station(n, 0)
		require.NoError(t, err)
		sum, cursor := 0.0, 0
		for d := range 365 {
			_, _, h, _ := cl.at(float64(d)*day, &cursor)
			sum += h / 365
		}
		return sum
	}
	wanted := 0.0
	for m, days := range daysOfMonth() {
		h, err := sorption.HumidityFor(hourly.Temperature[m], 0.15, sorption.Middle, sorption.Curves{})
		require.NoError(t, err)
		wanted += h.RH.Value * days / 365
	}
	assert.InDelta(t, wanted, meanHumidity(hourly), 1e-3)
	assert.Greater(t, meanHumidity(hourly), meanHumidity(plain)+0.02)
	hourly.EMC[3] = 0.9 // no air holds wood so wet: the mean humidity of the month stays
	_, err := Station(hourly, 0)
	require.NoError(t, err)
}

// The vapour of people counts as far as the windows are shut, the usual one where none is
// told, and then that is said.
func TestVapourOfPeople(t *testing.T) {
	assert.InDelta(t, 300, VapourAt(-10, 300).Pascals(), 1e-9)
	assert.InDelta(t, 300, VapourAt(0, 300).Pascals(), 1e-9)
	assert.InDelta(t, 150, VapourAt(10, 300).Pascals(), 1e-9)
	assert.Zero(t, VapourAt(20, 300))
	assert.Zero(t, VapourAt(35, 300))
	frost, err := Constant(quantity.Celsius(-5), 0.8)
	require.NoError(t, err)
	usual, err := Heated(frost, quantity.Celsius(20), nil)
	require.NoError(t, err)
	told, err := Heated(frost, quantity.Celsius(20), new(UsualVapour))
	require.NoError(t, err)
	dry, err := Heated(frost, quantity.Celsius(20), new(quantity.Pressure))
	require.NoError(t, err)
	_, moist := usual.At(0)
	_, same := told.At(0)
	_, bare := dry.At(0)
	assert.InDelta(t, same, moist, 1e-12)
	assert.InDelta(t, UsualVapour.Pascals()/air.SaturationPressureOverWater(quantity.Celsius(20)).Pascals(), moist-bare, 1e-9)
	require.Len(t, usual.notes.Warnings, 1)
	assert.Equal(t, "added_vapour", usual.notes.Warnings[0].Input)
	assert.Empty(t, told.notes.Warnings)
}
