package drying

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// hourly is a year of hours with a day cycle and a season.
func hourly(hours int) []Reading {
	rows := make([]Reading, hours)
	for i := range rows {
		day, season := math.Sin(2*math.Pi*float64(i)/24), math.Sin(2*math.Pi*float64(i)/8760)
		rows[i] = Reading{Time: quantity.Duration(i) * quantity.Hour, Temperature: quantity.Celsius(10 + 6*day + 9*season), RH: 0.7 - 0.2*day - 0.05*season}
	}
	return rows
}

// A board does not feel the averaging: mean and core stay within 0.4 %MC of a
// run on the hours themselves.
func TestAveragedKeepsTheCourseOfABoard(t *testing.T) {
	rows := hourly(8760)
	averaged := Averaged(rows, 400)
	require.LessOrEqual(t, len(averaged), 400)
	assert.Equal(t, rows[0], averaged[0])
	assert.Equal(t, rows[len(rows)-1], averaged[len(averaged)-1])
	transport, err := NewTransport(wood.Wood{SpecificGravity: wood.Published(0.5)})
	require.NoError(t, err)
	run := func(rows []Reading) Course {
		climate, err := Logged(rows)
		require.NoError(t, err)
		var s Solver
		job := Job{Transport: transport, Thickness: 40 * quantity.Millimetre, Factor: 0.4, Initial: 0.6, History: NoHysteresis, Setting: Coarse(),
			Phases: []Phase{{Length: 360 * quantity.Day, Climate: climate, Exposure: OpenStack()}}}
		for d := 30; d <= 360; d += 30 {
			job.Times = append(job.Times, quantity.Duration(d)*quantity.Day)
		}
		c, err := s.Run(context.Background(), &job)
		require.NoError(t, err)
		return c
	}
	fine, coarse := run(rows), run(averaged)
	for i := range fine.Mean {
		assert.InDelta(t, fine.Mean[i].Percent(), coarse.Mean[i].Percent(), 0.4, "mean after %d months", i+1)
		assert.InDelta(t, fine.Core[i].Percent(), coarse.Core[i].Percent(), 0.4, "core after %d months", i+1)
	}
}

func TestAveragedLeavesShortRecords(t *testing.T) {
	rows := hourly(48)
	assert.Equal(t, rows, Averaged(rows, 400))
	assert.Equal(t, rows, Averaged(rows, 2))
}

// A short record is followed as it is, a long one averaged; what is wrong with it is told
// of the record as it was given.
func TestFollowed(t *testing.T) {
	record := func(n int) []Reading {
		var rows []Reading
		for i := range n {
			rows = append(rows, Reading{Time: quantity.Duration(i) * quantity.Hour, Temperature: quantity.Celsius(20), RH: 0.5})
		}
		return rows
	}
	for n, want := range map[int]int{mostFollowed: mostFollowed, mostFollowed + 1: mostFollowed, 3000: mostFollowed} {
		climate, rows, err := Followed(record(n))
		require.NoError(t, err)
		assert.Equal(t, want, rows)
		assert.InDelta(t, float64(n-1)/24, climate.End().Days(), 1e-9, "it covers the same time")
	}
	wrong := record(1000)
	wrong[700].RH = 2
	_, _, err := Followed(wrong)
	_, in := input(t, err)
	assert.Equal(t, "rows/700/rh_pct", in)
}
