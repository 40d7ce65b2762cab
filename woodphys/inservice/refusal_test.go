package inservice_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

var noPressure = quantity.Pressure(math.NaN())

func refused(t *testing.T, err error, code method.Code, input string) {
	t.Helper()
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, code, domain.Code)
	assert.Equal(t, input, domain.Input)
	assert.NotEmpty(t, domain.Detail)
}

func TestRoomsRefuse(t *testing.T) {
	indoors := func(h inservice.Heating) error { _, err := inservice.Indoors(madison(), h); return err }
	twenty := quantity.Celsius(20)
	for _, nan := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		refused(t, indoors(inservice.Heating{To: quantity.Kelvin(nan)}), method.OutOfRange, "heated_to")
		refused(t, indoors(inservice.Heating{To: twenty, Added: &noPressure}), method.OutOfRange, "added_vapour")
		refused(t, indoors(inservice.Heating{To: twenty, Least: nan}), method.OutOfRange, "least_rh_pct")
		refused(t, indoors(inservice.Heating{To: twenty, Most: nan}), method.OutOfRange, "most_rh_pct")
		_, err := inservice.TwoSeasons(twenty, nan, twenty, 0.5, 1)
		refused(t, err, method.OutOfRange, "winter/rh_pct")
		_, err = inservice.TwoSeasons(twenty, 0.3, quantity.Kelvin(nan), 0.5, 1)
		refused(t, err, method.OutOfRange, "summer/temperature")
		_, err = heatedRoom(t).Weekly(nan)
		refused(t, err, method.OutOfRange, "weekly_swing_pct")
		n := madison()
		n.RH[3] = nan
		_, err = inservice.Indoors(n, inservice.Heating{To: twenty})
		refused(t, err, method.OutOfRange, "months/3/rh_pct")
		_, err = inservice.Recorded([]drying.Reading{{Time: 0, Temperature: twenty, RH: 0.4}, {Time: quantity.Day, Temperature: twenty, RH: nan}})
		refused(t, err, method.OutOfRange, "rows/1/rh_pct")
		_, err = inservice.OwnFinish("own", nan)
		refused(t, err, method.OutOfRange, "finish_resistance")
	}
	refused(t, indoors(inservice.Heating{To: twenty, Least: 0.6, Most: 0.5}), method.Contradictory, "most_rh_pct")
	_, err := inservice.TwoSeasons(twenty, 0.3, twenty, 0.5, 13)
	refused(t, err, method.OutOfRange, "winter_month")
	n := madison()
	n.HasTemperature = false
	_, err = inservice.Indoors(n, inservice.Heating{To: twenty})
	refused(t, err, method.Unsupported, "station")
	_, err = inservice.Recorded(nil)
	refused(t, err, method.OutOfRange, "rows")
	_, err = inservice.FinishNamed("paint")
	refused(t, err, method.Unknown, "finish")
	record, err := inservice.Recorded([]drying.Reading{{Time: 0, Temperature: twenty, RH: 0.4}, {Time: quantity.Day, Temperature: twenty, RH: 0.5}})
	require.NoError(t, err)
	_, err = record.Weekly(0.05)
	refused(t, err, method.Contradictory, "weekly_swing_pct")
}

func TestPartsRefuse(t *testing.T) {
	var s inservice.Season
	room := heatedRoom(t)
	try := func(change func(*inservice.Part)) error {
		part := partOf(t, 3, 0.4, finish(t, "varnish"), finish(t, "bare"))
		change(part)
		_, err := s.YearOf(t.Context(), room, part)
		return err
	}
	refused(t, try(func(p *inservice.Part) { p.Transport = nil }), method.Missing, "wood")
	for _, v := range []float64{math.NaN(), math.Inf(1), -1} {
		refused(t, try(func(p *inservice.Part) { p.Thickness = quantity.Length(v) }), method.OutOfRange, "thickness")
		refused(t, try(func(p *inservice.Part) { p.Factor = v }), method.OutOfRange, "drying_factor")
		refused(t, try(func(p *inservice.Part) { p.FactorSpread = v }), method.OutOfRange, "drying_factor_spread")
		refused(t, try(func(p *inservice.Part) { p.Faces[1].Resistance = v }), method.OutOfRange, "finish/inside")
		refused(t, try(func(p *inservice.Part) { p.Faces[0].SpreadLog = v }), method.OutOfRange, "finish/outside")
	}
	refused(t, try(func(p *inservice.Part) { p.Faces[0] = finish(t, "impermeable"); p.Faces[1] = p.Faces[0] }), method.Contradictory, "finish")
	_, err := inservice.HeldStrain(quantity.Band[float64]{Value: math.NaN()}, quantity.Band[float64]{})
	refused(t, err, method.OutOfRange, "strain_pct")
	_, err = inservice.AirToBuild(quantity.Moisture(math.NaN()), 0.1, 0, nil, sorption.Curves{})
	refused(t, err, method.OutOfRange, "mc_pct")
}

// A record of a year repeats; a short one is told as it is, with a warning.
func TestRecords(t *testing.T) {
	rows := func(days int) []drying.Reading {
		var all []drying.Reading
		for d := range days {
			temperature, rh := heatedRoom(t).At(quantity.Duration(d) * quantity.Day)
			all = append(all, drying.Reading{Time: quantity.Duration(d+7) * quantity.Day, Temperature: temperature, RH: rh})
		}
		return all
	}
	bare := finish(t, "bare")
	part := partOf(t, 6, 0.4, bare, bare)
	whole, err := inservice.Recorded(rows(364))
	require.NoError(t, err)
	assert.True(t, whole.Repeats())
	assert.InDelta(t, 365, whole.Span().Days(), 1e-9)
	recorded, monthly := yearOf(t, whole, part), yearOf(t, heatedRoom(t), part)
	assert.InDelta(t, monthly.Dry.Mean.Value.Percent(), recorded.Dry.Mean.Value.Percent(), 0.05, "the same air, as a record")
	assert.InDelta(t, monthly.Wet.Mean.Value.Percent(), recorded.Wet.Mean.Value.Percent(), 0.05)

	short, err := inservice.Recorded(rows(60))
	require.NoError(t, err)
	assert.False(t, short.Repeats())
	assert.InDelta(t, 59, short.Span().Days(), 1e-9)
	require.Len(t, short.Notes().Warnings, 1)
	y := yearOf(t, short, part)
	assert.Equal(t, short.Span(), y.Times[len(y.Times)-1])
	assert.Equal(t, 1, y.Years)

	long, err := inservice.Recorded(rows(500))
	require.NoError(t, err)
	assert.True(t, long.Repeats())
	require.Len(t, long.Notes().Warnings, 1)
}

// Every row is used by the code that it describes.
func TestRowsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range inservice.Methods() {
		assert.Equal(t, "inservice", m.Chapter)
		assert.NotEmpty(t, m.Source, m.ID)
		assert.NotEmpty(t, m.Accuracy, m.ID)
		seen[m.ID] = true
	}
	y := yearOf(t, heatedRoom(t), partOf(t, 3, 0.4, finish(t, "varnish"), finish(t, "bare")))
	for _, id := range []string{"inservice.room", "inservice.year", "inservice.finish", "inservice.two-faces"} {
		assert.Contains(t, y.Notes.Basis, id)
		assert.True(t, seen[id])
	}
}

// A closed face lets nothing pass, which is no extrapolation of how little does.
func TestAClosedFaceIsNoExtrapolation(t *testing.T) {
	y := yearOf(t, twoSeasons(t, 20, 0.25, 0.65), partOf(t, 20, 0.4, finish(t, "varnish"), finish(t, "impermeable")))
	for _, w := range y.Notes.Warnings {
		assert.NotEqual(t, method.OutsideFitted, w.Code, w.Detail)
	}
}
