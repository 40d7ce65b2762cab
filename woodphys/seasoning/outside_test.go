package seasoning_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/wood"
)

// outsideCase is a published drying time that fitted nothing.
type outsideCase struct {
	name         string
	days         float64
	paceOf       string // wood whose fitted pace is taken; empty: that of the group
	gravity      float64
	mm, from, to float64
	station      string  // else the air below
	c, rh        float64 // of the place
	exposure     drying.Exposure
	listing      wood.Listing
	group        wood.Group // by botany; broadleaved where none is given
}

// The cases of which the assumptions are those that stood beside them before the law was
// changed (air, specific gravity, start), and one more, fixed before the first run: a yard
// pile is a wide pile, the stack of a trial is a small one. Sources: Skolmen 1964, PSW-49
// (Hilo); Kaba and others 2022 (Ethiopia); the seasoning of gmelina at Bonga, 2020; Albues
// and others 2024 (teak); abstracts, read.
func outsideCases() []outsideCase {
	yard, trial := drying.OpenStack(), drying.Shed()
	teak := func(name string, from, to float64) outsideCase {
		return outsideCase{name: name, days: 57, gravity: 0.55, mm: 30, from: from, to: to, c: 27, rh: 0.45, exposure: trial, listing: wood.ListedImported}
	}
	return []outsideCase{
		{name: "robusta eucalyptus at Hilo", days: 76, gravity: 0.60, mm: 25.4, from: 90, to: 20, station: "hilo-hi", exposure: yard, listing: wood.ListedImported},
		{name: "the same as jarrah", days: 76, gravity: 0.67, mm: 25.4, from: 80, to: 20, station: "hilo-hi", exposure: yard, listing: wood.ListedImported},
		{name: "Caribbean pine as loblolly", days: 61, paceOf: "pine-loblolly", gravity: 0.60, mm: 30, from: 78.2, to: 17, c: 17, rh: 0.60, exposure: trial, listing: wood.ListedSoftwood},
		{name: "Caribbean pine by its own", days: 61, gravity: 0.60, mm: 30, from: 78.2, to: 17, c: 17, rh: 0.60, exposure: trial, listing: wood.ListedImported, group: wood.Softwood},
		{name: "gmelina", days: 210, gravity: 0.40, mm: 30, from: 143.8, to: 12.5, c: 20, rh: 0.60, exposure: trial, listing: wood.ListedImported},
		teak("teak, second clone", 64.9, 9.8), teak("teak, first clone", 79.3, 10.8), teak("teak from seed", 60.1, 11.6),
	}
}

// All eight lie inside the 90 % band; it was hoped that the middle of six would be within
// 1.6 times, and that of five is (the other three: 1.64 times for Caribbean pine by its own
// row, 1.9 for a clone of teak, 0.61 for gmelina). The assumptions stay as they were fixed;
// since then the Caribbean pine is taken as the conifer that it is, which brought it from
// 1.77 to 1.64. The mean of the pines, drawn to that of the conifers, would bring it within
// 1.6, but of the 64 woods with published times it foretells those left out worse than the
// mean of the conifers does (../drying/AGREEMENT.md), so it is not taken.
func TestOutsideTheSample(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	held, middles := 0, 0
	for _, c := range outsideCases() {
		w := wood.Wood{SpecificGravity: wood.Published(c.gravity), FibreSaturation: 0.30, Listing: c.listing, Group: c.group}
		if row, ok := tables.Wood(c.paceOf); ok {
			w.Pace = wood.Pace{Factor: row.DryingFactor.Factor.Or(0), Misfit: row.DryingFactor.Misfit}
		}
		air, err := drying.Constant(quantity.Celsius(c.c), c.rh)
		require.NoError(t, err)
		if c.station != "" {
			air = station(t, c.station, 151)
		}
		p := seasoning.Piece{Wood: w, Thickness: quantity.Length(c.mm) * quantity.Millimetre, RingAngle: drying.UsualRingAngle,
			Start:  seasoning.Start{MC: quantity.Moisture(c.from / 100), SD: 0.001},
			Phases: []drying.Phase{{Length: 1200 * quantity.Day, Climate: air, Exposure: c.exposure}}}
		reached, err := foresee(t, p).Posterior.Reaches(readiness.Target{Mean: quantity.Moisture(c.to / 100)}, 0, readiness.OfMean)
		require.NoError(t, err)
		early, middle, late := reached.Early.Days(), reached.Middle.Days(), reached.Late.Days()
		inside, near := c.days >= early && c.days <= late, math.Abs(math.Log(middle/c.days)) <= math.Log(1.6)
		if inside {
			held++
		}
		if near {
			middles++
		}
		t.Logf("%-28s %4.0f days; %.0f (%.0f to %.0f) foretold, inside %v, within 1.6 %v", c.name, c.days, middle, early, late, inside, near)
	}
	assert.GreaterOrEqual(t, held, 7)
	assert.GreaterOrEqual(t, middles, 5)
}
