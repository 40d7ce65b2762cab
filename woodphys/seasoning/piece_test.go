package seasoning_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Wood that dries from green comes to rest on the drying side; wood that was dry before
// anywhere between both sides.
func TestRestInARoom(t *testing.T) {
	assert.Equal(t, sorption.Desorption, seasoning.Branch(0), "green")
	assert.Equal(t, sorption.Desorption, seasoning.Branch(seasoning.DriedBefore))
	assert.Equal(t, sorption.Middle, seasoning.Branch(seasoning.DriedBefore-1e-9))

	room := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.45, Notes: method.Notes{Basis: []string{"air"}}}
	rests := map[sorption.Branch]seasoning.Rest{}
	for _, b := range []sorption.Branch{sorption.Middle, sorption.Desorption} {
		rest, err := room.At(b, sorption.Curves{})
		require.NoError(t, err)
		emc, err := sorption.EquilibriumBand(room.Temperature, room.RelativeHumidity, b, sorption.Curves{})
		require.NoError(t, err)
		assert.Equal(t, emc.Moisture, rest.Moisture)
		assert.Equal(t, "air", rest.Notes.Basis[0], "how the air was come by comes first")
		rests[b] = rest
	}
	assert.Greater(t, rests[sorption.Desorption].Moisture.Value, rests[sorption.Middle].Moisture.Value)

	for _, rh := range []float64{0.023, 0.1, 0.45, 0.9, 1} {
		air := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: rh}
		for _, start := range []quantity.Moisture{0, 0.01, 0.1, 0.24, 0.26} {
			rest, err := air.For(start, 0, sorption.Curves{})
			require.NoError(t, err)
			loop := rest.Room.Loop
			assert.GreaterOrEqual(t, loop.Driest, 0.5*quantity.PercentMC, "the least that a piece is judged by: %v, %v", rh, start)
			assert.LessOrEqual(t, loop.Wettest, 30*quantity.PercentMC, "and the most: %v, %v", rh, start)
			assert.Equal(t, rest.Moisture.Value, loop.Rest(rest.Moisture.Value), "where it rests nothing passes: %v, %v", rh, start)
			assert.InDelta(t, float64(loop.Rest(0.6)), float64(loop.Wettest), 0)
		}
	}

	fraction := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.0045}
	_, err := fraction.At(sorption.Middle, sorption.Curves{})
	assert.Equal(t, map[string]method.Code{"rh_pct": method.OutOfRange}, faults(t, err))
	hot := seasoning.Room{Temperature: quantity.Celsius(500), RelativeHumidity: 0.5}
	_, err = hot.At(sorption.Middle, sorption.Curves{})
	assert.Contains(t, faults(t, err), "temperature")
}

// Green wood starts as wet as its stem, give or take a fifth, and never
// wetter than the diffusion takes.
func TestStartOfAPiece(t *testing.T) {
	p := board(t)
	prior, err := p.Setup()
	require.NoError(t, err)
	assert.InDelta(t, 57.4, prior.Setup.StartMC.Percent(), 1e-9, "the stem of sugar maple")
	assert.InDelta(t, 0.2, float64(prior.Setup.StartSD/prior.Setup.StartMC), 1e-12)
	assert.Equal(t, drying.FromGreen, prior.Setup.History)
	require.Len(t, prior.Notes.Warnings, 1)
	assert.Equal(t, "start_mc_pct", prior.Notes.Warnings[0].Input)

	p.Wood.Green = 2.5
	prior, err = p.Setup()
	require.NoError(t, err)
	assert.Equal(t, seasoning.Wettest, prior.Setup.StartMC)

	for _, c := range []struct {
		start   seasoning.Start
		sd      float64 // %MC
		history drying.History
	}{
		{seasoning.Start{MC: 0.60}, 1.8, drying.FromGreen},
		{seasoning.Start{MC: 0.20}, 1, drying.Unknown}, // 3 % of it is less than a point
		{seasoning.Start{MC: 0.60, SD: 0.05}, 5, drying.FromGreen},
	} {
		p.Start = c.start
		prior, err = p.Setup()
		require.NoError(t, err)
		assert.Equal(t, c.start.MC, prior.Setup.StartMC)
		assert.InDelta(t, c.sd, prior.Setup.StartSD.Percent(), 1e-9)
		assert.Equal(t, c.history, prior.Setup.History)
		assert.Empty(t, prior.Notes.Warnings)
	}
	assert.InDelta(t, 3, seasoning.ReadSD(1).Percent(), 1e-9)
	assert.InDelta(t, 1, seasoning.ReadSD(0.05).Percent(), 1e-9)
}

// All that is wrong is told at once, in the order of the answer.
func TestSetupTellsAllThatIsWrong(t *testing.T) {
	p := board(t)
	p.Wood = wood.Wood{}
	_, err := p.Setup()
	assert.Equal(t, map[string]method.Code{"specific_gravity": method.MissingData, "start_mc_pct": method.Missing}, faults(t, err))
	p.Start.SD = 0.01
	_, err = p.Setup()
	assert.Equal(t, map[string]method.Code{"specific_gravity": method.MissingData, "start_mc_sd_points": method.Contradictory}, faults(t, err))
	p = board(t)
	p.Thickness = 0
	_, err = p.Setup()
	assert.Equal(t, map[string]method.Code{"thickness": method.OutOfRange}, faults(t, err))
}

// The factor is that of the wood for thickness and rings, or the one that is given.
func TestFactorOfThePiece(t *testing.T) {
	p := board(t)
	prior, err := p.Setup()
	require.NoError(t, err)
	want, err := drying.FactorOf(&p.Wood, p.Thickness, p.RingAngle, drying.Factor{})
	require.NoError(t, err)
	assert.InDelta(t, want.Median, prior.Setup.Factor, 0)
	assert.InDelta(t, want.SpreadLog, prior.Setup.FactorLogSD, 0)
	p.Factor = drying.Factor{Median: 0.7, SpreadLog: 0.2}
	prior, err = p.Setup()
	require.NoError(t, err)
	assert.Equal(t, drying.Given, prior.Factor.How)
	assert.InEpsilon(t, 0.7, prior.Setup.Factor, 1e-12, "rings at 45 degrees leave it as it is")
	assert.InDelta(t, math.Exp(quantity.Z90*0.2)*0.7, prior.Factor.Band().High, 1e-9)
}
