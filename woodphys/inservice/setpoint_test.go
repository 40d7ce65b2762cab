package inservice_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/quantity"
)

// A room that is heated to 20 C and held between 40 and 55 % RH never leaves either, at any
// place of the tables, any day of the year.
func TestRoomKeepsItsSetPoints(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	rooms, held := 0, 0
	for _, s := range tables.Stations() {
		year, complete := s.Year()
		if !complete {
			continue
		}
		n := drying.Normals{HasTemperature: true}
		for m := range year {
			n.Temperature[m], n.RH[m] = year[m].Temperature, year[m].RelativeHumidity
		}
		room, err := inservice.Indoors(n, inservice.Heating{To: quantity.Celsius(20), Least: 0.40, Most: 0.55})
		require.NoError(t, err, s.ID)
		rooms++
		for d := 0.0; d <= 365; d += 2.3 {
			at, rh := room.At(quantity.Duration(d) * quantity.Day)
			require.GreaterOrEqual(t, at.Celsius(), 20-1e-9, s.ID)
			require.GreaterOrEqual(t, rh, 0.40-1e-12, s.ID)
			require.LessOrEqual(t, rh, 0.55+1e-12, s.ID)
			if rh == 0.40 || rh == 0.55 {
				held++
			}
		}
	}
	assert.Greater(t, rooms, 600)
	assert.Greater(t, held, 3000, "the set-points are reached")
}

// Under cover the room is the air outdoors as it is, and a thin bare part goes where it goes.
func TestUnderCoverIsOutdoors(t *testing.T) {
	n := drying.Normals{HasTemperature: true}
	for m := range 12 {
		n.Temperature[m], n.RH[m] = quantity.Celsius(8-12*math.Cos(float64(m)*math.Pi/6)), 0.75+0.05*math.Cos(float64(m)*math.Pi/6)
	}
	room, err := inservice.UnderCover(n)
	require.NoError(t, err)
	assert.True(t, room.Repeats())
	assert.Equal(t, 365*quantity.Day, room.Span())
	assert.NotEmpty(t, room.Notes().Warnings, "rain and sun are told")
	station, err := drying.Station(n, 0)
	require.NoError(t, err)
	for d := quantity.Duration(0); d < 365*quantity.Day; d += 10 * quantity.Day {
		at, rh := room.At(d)
		outside, humid := station.At(d)
		require.Equal(t, outside, at)
		require.Equal(t, humid, rh)
	}
	_, err = inservice.UnderCover(drying.Normals{})
	require.Error(t, err)
}
