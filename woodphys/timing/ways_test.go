package timing

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// What must hold whatever the moisture: the leaf is sooner ready than the billet, thicker
// when sawn now, and never more of it.
func TestTheWaysStandAsTheyMust(t *testing.T) {
	for _, mean := range []quantity.Moisture{0.18, 0.25, 0.40} {
		q := asked(t)
		q.Moisture.Mean = mean
		a := weighed(t, q)
		now, whole := &a.SawNow, &a.DryWhole
		require.True(t, now.Ready.Median.Within)
		require.True(t, whole.Ready.Median.Within)
		assert.Less(t, now.Ready.Median.At, whole.Ready.Median.At)
		assert.Less(t, whole.Saw.Median.At, whole.Ready.Median.At)
		assert.Zero(t, float64(now.Saw.Median.At))
		for _, d := range []readiness.ReadyDate{now.Ready, whole.Saw, whole.Ready} {
			assert.LessOrEqual(t, d.Low.At, d.Median.At)
			assert.LessOrEqual(t, d.Median.At, d.High.At)
		}
		assert.Greater(t, now.Cut.Leaf, whole.Cut.Leaf)
		assert.LessOrEqual(t, now.Cut.Leaves, whole.Cut.Leaves)
		assert.Equal(t, q.Billet.Thickness, now.Cut.Billet)
		assert.Less(t, whole.Cut.Billet, q.Billet.Thickness, "the billet shrinks while it dries whole")
		assert.Less(t, whole.Cut.Broad, q.Billet.Width)
		assert.InDelta(t, float64(now.Cut.Leaf), float64(q.Leaf.Dry+now.Cut.Extra+now.Cut.Oversize), 1e-12)
		assert.Zero(t, float64(whole.Cut.Extra), "a dry billet needs none for thick and thin")
		assert.Less(t, whole.SawAt.Value, now.SawAt.Value)

		// the course of the billet ends where that of its leaf begins
		require.NotEmpty(t, whole.Billet.Times)
		assert.Less(t, whole.Billet.Times[len(whole.Billet.Times)-1], whole.LeafFrom)
		assert.Equal(t, whole.Saw.Median.At, whole.LeafFrom)
		require.NotEmpty(t, whole.Leaf.Times)
		assert.Empty(t, now.Billet.Times)
	}
}

// A quartered leaf wanted 4.5 mm dry, with a tangential shrinkage of 7.5 % and fibre
// saturation at 30 %, for 8 %: sawn green at 4.7619 mm; 215 mm wide with 4.3 % radially:
// 222.0004 mm.
func TestOversizeOfALeafSawnGreen(t *testing.T) {
	q := asked(t)
	q.Wood = wood.Wood{Radial: wood.Published(0.043), Tangential: wood.Published(0.075), FibreSaturation: 0.30, SpecificGravity: wood.Published(0.5)}
	q.Moisture.Mean = 0.60
	q.Rest = seasoning.Rest{Moisture: quantity.NormalBand(0.08, quantity.Moisture(0))}
	q.Leaf.Dry, q.Part.Width, q.Leaf.Extra = 4.5*quantity.Millimetre, 215*quantity.Millimetre, 0
	c := weighed(t, q).SawNow.Cut
	assert.InDelta(t, 4.7619, c.Leaf.Millimetres(), 5e-5)
	assert.InDelta(t, 222.0004, c.Width.Millimetres(), 5e-5)
}

// Worked problem: a 50 mm billet takes 31.6 to 100 times as long as a 5 mm leaf.
func TestTimeScale(t *testing.T) {
	q := asked(t)
	q.Billet.Thickness, q.Moisture.Mean, q.Leaf.Extra = 50*quantity.Millimetre, 0.08, 0 // a leaf that no longer shrinks
	s := weighed(t, q).Scale
	assert.InDelta(t, 10, s.Thickness, 1e-9)
	assert.InDelta(t, 31.6, s.Low, 0.05)
	assert.InDelta(t, 100, s.High, 1e-9)
	assert.Greater(t, s.Computed, s.Low)
	assert.Less(t, s.Computed, s.High)
}

// Whatever has a middle and a band has the middle in it, also where both come by different
// ways: a thin leaf in a damp room, of which the rule of thickness knows nothing.
func TestMiddlesLieInTheirBands(t *testing.T) {
	for _, c := range []struct{ mm, leaf, mean, celsius, rh float64 }{
		{58, 5.2, 18, 15.4, 0.9766}, {58, 4.9, 25, 25, 0.30}, {120, 2, 40, 10, 0.85}, {26, 8, 12, 20, 0.45}, {150, 3, 9, 30, 0.70},
	} {
		q := asked(t)
		q.Billet.Thickness, q.Leaf.Dry, q.Leaf.Extra = quantity.Length(c.mm)*quantity.Millimetre, quantity.Length(c.leaf)*quantity.Millimetre, 0
		q.Moisture.Mean = quantity.Moisture(c.mean / 100)
		q.Room = seasoning.Room{Temperature: quantity.Celsius(c.celsius), RelativeHumidity: c.rh}
		var err error
		q.Rest, err = q.Room.At(seasoning.Branch(q.Moisture.Mean), sorption.Curves{})
		require.NoError(t, err)
		a := weighed(t, q)
		between := func(low, value, high float64, what string) {
			t.Helper()
			assert.LessOrEqual(t, low, value, "%s of %+v", what, c)
			assert.LessOrEqual(t, value, high, "%s of %+v", what, c)
		}
		between(a.Scale.Low, a.Scale.Computed, a.Scale.High, "time scale")
		between(float64(a.Now.Low), float64(a.Now.Value), float64(a.Now.High), "moisture")
		for _, way := range []Way{a.SawNow, a.DryWhole} {
			between(float64(way.SawAt.Low), float64(way.SawAt.Value), float64(way.SawAt.High), "moisture when sawn")
			for _, d := range []readiness.ReadyDate{way.Saw, way.Ready} {
				between(float64(d.Low.At), float64(d.Median.At), float64(d.High.At), "date")
			}
			if cup := way.Cut.Cup; cup != nil {
				between(float64(cup.Cup.Low), float64(cup.Cup.Value), float64(cup.Cup.High), "cup")
			}
		}
	}
}

// A shell far drier than the core keeps the billet from the saw, although its mean is
// within the limit; a limit of the maker's own may let it pass.
func TestGradientHoldsTheBilletBack(t *testing.T) {
	q := asked(t)
	q.Moisture = Moisture{Mean: 0.12, CoreOverShell: over(0.8)}
	even := weighed(t, q)
	assert.Equal(t, SawNow, even.Advised.Way)
	assert.Equal(t, []Reason{{Kind: ReasonReady}}, even.Advised.Reasons)
	assert.Zero(t, float64(even.SawNow.Cut.Extra), "leaves of a billet that is ready need only settle")
	assert.Equal(t, RiskSettle, even.SawNow.Risks[0].Kind)

	q.Moisture.CoreOverShell = over(5.4)
	steep := weighed(t, q)
	require.True(t, steep.DryWhole.Saw.Median.Within)
	assert.Greater(t, steep.DryWhole.Saw.Median.At, 3*quantity.Day)
	assert.LessOrEqual(t, steep.DryWhole.Saw.Low.At, steep.DryWhole.Saw.Median.At, "fast wood is sooner even")
	found := false
	for _, r := range steep.SawNow.Risks {
		if r.Kind == RiskApart {
			found = true
			assert.InDelta(t, 5.4, r.Points, 0.06)
		}
	}
	assert.True(t, found)

	q.Limits = []readiness.OwnLimits{{Step: readiness.Resaw, Gradient: over(0)}}
	assert.Equal(t, SawNow, weighed(t, q).Advised.Way, "not asked")
}

// Where nothing comes to rest near the target, no way ends within the forecast, and the
// billet is told at the limit that it would be sawn at.
func TestNoWayEnds(t *testing.T) {
	q := asked(t)
	damp, err := drying.Constant(quantity.Celsius(20), 0.85)
	require.NoError(t, err)
	q.Lay = func(from quantity.Duration) (seasoning.Piece, error) {
		return seasoning.Piece{Wood: q.Wood, RingAngle: q.RingAngle, Phases: []drying.Phase{{Length: q.Horizon - from, Climate: damp, Exposure: drying.ClosedRoom()}}}, nil
	}
	a := weighed(t, q)
	assert.Equal(t, NoWay, a.Advised.Way)
	assert.False(t, a.DryWhole.Saw.Median.Within)
	limit := readiness.LimitsFor(readiness.Resaw, q.Billet.Thickness).Above
	assert.InDelta(t, float64(q.Rest.Moisture.Value+limit), float64(a.DryWhole.SawAt.Value), 1e-12)
	assert.InDelta(t, 1, a.DryWhole.Ready.Never, 1e-12)
	assert.Nil(t, a.DryWhole.Cut.Cup, "nothing is known of its profile then")
	assert.Empty(t, a.DryWhole.Leaf.Times)
}

// Where the billet lies is asked from today on, and again from the day it is sawn.
func TestPlacesAreAskedForTheLeavesOfTheBillet(t *testing.T) {
	q := asked(t)
	lay := q.Lay
	var from []quantity.Duration
	q.Lay = func(at quantity.Duration) (seasoning.Piece, error) {
		from = append(from, at)
		return lay(at)
	}
	a := weighed(t, q)
	assert.Contains(t, from, a.DryWhole.Saw.Median.At)
	assert.Contains(t, from, quantity.Duration(0))
}

// The leaves are counted in the billet as it has shrunk, those as they come off the saw.
func TestLeavesAreCountedInTheShrunkBillet(t *testing.T) {
	q := asked(t)
	a := weighed(t, q)
	assert.InDelta(t, float64(q.Billet.Thickness), float64(a.SawNow.Cut.Billet), 1e-12)
	now, later := &a.SawNow.Cut, &a.DryWhole.Cut
	shrunk := func(is, was quantity.Length) float64 { return float64(is / was) }
	assert.Less(t, shrunk(later.Billet, q.Billet.Thickness), shrunk(later.Broad, q.Billet.Width), "quartersawn")
	for _, c := range []*Cut{now, later} {
		room := c.Billet - q.Saw.Facing + q.Saw.Kerf
		assert.Equal(t, int(room/(c.Leaf+q.Saw.Kerf)), c.Leaves)
		assert.Equal(t, c.Leaves/2, c.Sets)
		assert.Equal(t, c.Leaves%2, c.Odd)
	}
	thin := 40 * quantity.Millimetre
	q.Billet.FarThickness = &thin
	assert.Less(t, weighed(t, q).SawNow.Cut.Leaves, now.Leaves, "a wedge")
	assert.InDelta(t, 0.020, float64(*Shrunk{Thickness: 0.5, Width: 1}.of(q.Billet).FarThickness), 1e-12)
}

func TestPlacesAreHeard(t *testing.T) {
	broken := errors.New("place")
	q := asked(t)
	q.Lay = func(quantity.Duration) (seasoning.Piece, error) { return seasoning.Piece{}, broken }
	_, err := Weigh(t.Context(), q)
	require.ErrorIs(t, err, broken)
}

func TestErrorsNameTheQuestion(t *testing.T) {
	for input, spoil := range map[string]func(*Question){
		"wood":             func(q *Question) { q.Wood = wood.Wood{SpecificGravity: wood.Published(0.5)} },
		"mean_pct":         func(q *Question) { q.Moisture = Moisture{Mean: 2.6, CoreOverShell: over(0)} },
		"room":             func(q *Question) { q.Rest.Moisture = quantity.NormalBand(quantity.Moisture(math.NaN()), 0) },
		"room/temperature": func(q *Question) { q.Room.Temperature = quantity.Celsius(200) },
		"yield/leaf":       func(q *Question) { q.Leaf.Dry, q.Leaf.Extra = 1e-9, 0 },
		"yield/kerf":       func(q *Question) { q.Saw.Kerf = -1 },
		"end_seal":         func(q *Question) { q.Ends = "waxed" },
	} {
		q := asked(t)
		spoil(q)
		_, err := Weigh(t.Context(), q)
		var domain *method.Error
		require.ErrorAs(t, err, &domain, input)
		assert.Equal(t, input, domain.Input)
	}
}
