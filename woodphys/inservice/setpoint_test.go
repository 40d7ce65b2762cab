package inservice_test

import (
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
