package inservice_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// madison is the outdoor air of Madison WI: monthly means of temperature
// 1981-2010 and of relative humidity, NOAA NCEI Comparative Climatic Data 2018
// (read), as in the station table.
func madison() drying.Normals {
	n := drying.Normals{HasTemperature: true, RH: [12]float64{.74, .73, .71, .665, .67, .69, .705, .74, .74, .715, .74, .765}}
	for i, c := range []float64{-7.3, -4.9, 1.1, 8.1, 14.1, 19.4, 21.8, 20.7, 16.1, 9.4, 2.3, -5.0} {
		n.Temperature[i] = quantity.Celsius(c)
	}
	return n
}

func heatedRoom(tb testing.TB) *inservice.Room {
	tb.Helper()
	room, err := inservice.Indoors(madison(), inservice.Heating{To: quantity.Celsius(20)})
	require.NoError(tb, err)
	return room
}

func twoSeasons(tb testing.TB, t, low, high float64) *inservice.Room {
	tb.Helper()
	room, err := inservice.TwoSeasons(quantity.Celsius(t), low, quantity.Celsius(t), high, 1)
	require.NoError(tb, err)
	return room
}

func finish(tb testing.TB, name string) inservice.Finish {
	tb.Helper()
	f, err := inservice.FinishNamed(name)
	require.NoError(tb, err)
	return f
}

// partOf is a part of a wood with G 0.4 and the factor given.
func partOf(tb testing.TB, mm, factor float64, outside, inside inservice.Finish) *inservice.Part {
	tb.Helper()
	tr, err := drying.NewTransport(wood.Wood{SpecificGravity: wood.Published(0.4)})
	require.NoError(tb, err)
	return &inservice.Part{Transport: tr, Thickness: quantity.Length(mm) * quantity.Millimetre, Factor: factor, FactorSpread: 0.34, Faces: [2]inservice.Finish{outside, inside}}
}

func yearOf(tb testing.TB, room *inservice.Room, part *inservice.Part) inservice.Year {
	tb.Helper()
	var s inservice.Season
	y, err := s.YearOf(tb.Context(), room, part)
	require.NoError(tb, err)
	return y
}

// swing is wet minus dry in %MC.
func swing(y *inservice.Year) float64 { return (y.Wet.Mean.Value - y.Dry.Mean.Value).Percent() }
