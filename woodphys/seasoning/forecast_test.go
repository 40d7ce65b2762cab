package seasoning_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// restAt is where the wood comes to rest in the room of the tests.
func restAt(t *testing.T, rh float64) seasoning.Rest {
	t.Helper()
	room := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: rh}
	rest, err := room.At(sorption.Desorption, sorption.Curves{})
	require.NoError(t, err)
	return rest
}

func TestForecast(t *testing.T) {
	q := seasoning.Question{Piece: board(t), Rest: restAt(t, 0.45), Width: 80 * quantity.Millimetre, Ends: drying.SealedLate, Length: 1 * quantity.Metre,
		Stackings: [][]drying.Phase{inShop(t, 0.45, 1825), inShop(t, 0.30, 1825)}}
	a, err := seasoning.Forecast(t.Context(), &q)
	require.NoError(t, err)

	assert.Equal(t, q.Rest.Moisture.Value+seasoning.UsualWithin, a.DryAt)
	require.NotEmpty(t, a.Course.Times)
	last := len(a.Course.Times) - 1
	assert.Zero(t, float64(a.Course.Times[0]))
	assert.InDelta(t, 1825, a.Course.Times[last].Days(), 1e-6)
	assert.Less(t, a.Course.Mean[last].Value, a.Course.Mean[0].Value-0.4)

	for _, r := range []struct{ early, middle, late quantity.Duration }{{a.Mean.Early, a.Mean.Middle, a.Mean.Late}, {a.Core.Early, a.Core.Middle, a.Core.Late}} {
		assert.LessOrEqual(t, r.early, r.middle)
		assert.LessOrEqual(t, r.middle, r.late)
	}
	assert.Less(t, a.Mean.Middle, a.Core.Middle, "the core is the last to dry")

	// the same stays again are the piece itself; a drier room is sooner
	require.Len(t, a.ByStacking, 2)
	require.Len(t, a.ByThickness, 6)
	own := a.ByThickness[3]
	assert.Equal(t, q.Piece.Thickness, own.Thickness)
	assert.Equal(t, own.Dry, a.ByStacking[0])
	assert.Less(t, a.ByStacking[1].At, a.ByStacking[0].At)
	for i := 1; i < len(a.ByThickness); i++ {
		assert.Greater(t, a.ByThickness[i].Thickness, a.ByThickness[i-1].Thickness)
		if a.ByThickness[i].Dry.Known {
			assert.Greater(t, a.ByThickness[i].Dry.At, a.ByThickness[i-1].Dry.At, "a thicker piece never dries faster")
		}
	}

	require.NotNil(t, a.Checks)
	assert.Greater(t, a.Checks.Ratio, 0.0)
	require.NotNil(t, a.Edges)
	assert.Less(t, a.Edges.Dry.At, a.Edges.Wide.At, "a narrow piece dries through its edges too")
	assert.InDelta(t, float64(a.Edges.Dry.At/a.Edges.Wide.At), a.Edges.Share, 1e-12)
	require.NotNil(t, a.Ends)
	assert.Equal(t, 100*quantity.Millimetre, a.Ends.Reach.High)
	assert.Greater(t, a.Ends.Ahead, quantity.Length(0))
	assert.Less(t, a.Ends.Ahead, q.Length/2)
	assert.InDelta(t, 120, a.Ends.After.Days(), 1e-9)
	assert.Subset(t, a.Notes.Basis, []string{"emc.band", "drying.factor", "readiness.learn", "drying.check-risk", "drying.rectangle", "drying.ends"})
	assert.Equal(t, "emc.hailwood-horrobin", a.Notes.Basis[0], "where it comes to rest comes first")

	// what is not asked for is not answered
	q.Width, q.Ends, q.Stackings = 0, "", nil
	q.Piece.Start = seasoning.Start{MC: 0.20}
	a, err = seasoning.Forecast(t.Context(), &q)
	require.NoError(t, err)
	assert.Nil(t, a.Edges)
	assert.Nil(t, a.Ends)
	assert.Nil(t, a.Checks, "checks start in wet wood")
	assert.Empty(t, a.ByStacking)
}

// In air that keeps it above its target the piece never gets there, and the answer says
// how dry it does get.
func TestNeverDryEnough(t *testing.T) {
	q := seasoning.Question{Piece: board(t), Rest: restAt(t, 0.30)}
	q.Piece.Phases = inShop(t, 0.75, 400)
	a, err := seasoning.Forecast(t.Context(), &q)
	require.NoError(t, err)
	assert.False(t, a.Enough)
	damp := restAt(t, 0.75)
	assert.InDelta(t, damp.Moisture.Value.Percent(), a.Lowest.Percent(), 0.3, "ten years there, and not the 400 days asked for")
	assert.InDelta(t, 1, a.Mean.Never, 1e-9)
	for _, row := range a.ByThickness {
		assert.False(t, row.Dry.Known)
	}
}

// Peck 1957, FPL 2086: sugar maple of 25 mm in Upper Michigan takes 40 to 205 days from
// green to 20 %, by the month of stacking. The factor was fitted to the two ends.
func TestMonthsOfUpperMichigan(t *testing.T) {
	p := board(t)
	p.Thickness = drying.FittedThickness
	stays := func(day float64) []drying.Phase {
		return []drying.Phase{{Length: 730 * quantity.Day, Climate: station(t, "sault-ste-marie-mi", day), Exposure: drying.OpenStack()}}
	}
	p.Phases = stays(0)
	var stackings [][]drying.Phase
	for month := range 12 {
		stackings = append(stackings, stays(14+30.4*float64(month)))
	}
	months, err := foresee(t, p).ByMonth(t.Context(), stackings, 0.20)
	require.NoError(t, err)
	least, most := months[0].At, months[0].At
	for _, m := range months {
		require.True(t, m.Known)
		least, most = min(least, m.At), max(most, m.At)
	}
	assert.InEpsilon(t, 40, least.Days(), 0.15)
	assert.InEpsilon(t, 205, most.Days(), 0.15)
	assert.Less(t, months[5].At, months[0].At, "June dries faster than January")
}

// Checks are looked at in wet wood of which a safe loss is known, of the middle forecast and
// beside it at the fast end of the band of its factor.
func TestSurfaceChecks(t *testing.T) {
	p := board(t)
	risk := func() (drying.CheckRisk, bool) {
		risk, known, err := foresee(t, p).SurfaceChecks(t.Context())
		require.NoError(t, err)
		return risk, known
	}
	p.Factor = drying.Factor{Median: 0.2, SpreadLog: 0.2}
	slow, known := risk()
	require.True(t, known)
	p.Factor.SpreadLog = 0.6
	unsure, _ := risk()
	assert.InDelta(t, slow.Ratio, unsure.Ratio, 1e-9)
	assert.Greater(t, unsure.Fast, slow.Fast, "a fast piece is told beside it")
	assert.Greater(t, slow.Fast, slow.Ratio)
	p.Factor.Median = 1
	fast, _ := risk()
	assert.Greater(t, fast.Ratio, unsure.Ratio)
	p.Wood.SafeDailyLoss = 0
	_, known = risk()
	assert.False(t, known)
	p = board(t)
	p.Start = seasoning.Start{MC: seasoning.DriedBefore - 0.001}
	_, known = risk()
	assert.False(t, known)
}

// A square dries much sooner than a wide board, a board ten times as wide as it is thick
// hardly.
func TestEdges(t *testing.T) {
	o := foresee(t, board(t))
	share := func(width quantity.Length) float64 {
		e, err := o.Edges(t.Context(), width, drying.UsualRingAngle, 0.12)
		require.NoError(t, err)
		return e.Share
	}
	square, plank := share(50*quantity.Millimetre), share(500*quantity.Millimetre)
	assert.Less(t, square, 0.65)
	assert.Greater(t, plank, 0.9)
	assert.LessOrEqual(t, plank, 1.0)
	_, err := o.Edges(t.Context(), -1, 0, 0.12)
	assert.Contains(t, faults(t, err), "width")
}

// Bare ends run further ahead than sealed ones; without a length only what they lose is
// known.
func TestEnds(t *testing.T) {
	o := foresee(t, board(t))
	ahead := func(seal drying.EndSeal) quantity.Length {
		e, err := o.Ends(t.Context(), seal, 1*quantity.Metre)
		require.NoError(t, err)
		return e.Ahead
	}
	assert.Greater(t, ahead(drying.BareEnds), ahead(drying.SealedLate))
	assert.Greater(t, ahead(drying.SealedLate), ahead(drying.SealedFresh))
	e, err := o.Ends(t.Context(), drying.BareEnds, 0)
	require.NoError(t, err)
	assert.Zero(t, float64(e.Ahead))
	assert.Equal(t, 300*quantity.Millimetre, e.Reach.Inside)
	_, err = o.Ends(t.Context(), "waxed", 0)
	assert.Equal(t, map[string]method.Code{"end_seal": method.Unknown}, faults(t, err))
}

// What a run refuses is told as an input of the piece.
func TestRunsNameThePiece(t *testing.T) {
	p := board(t)
	p.Start = seasoning.Start{MC: 1.6}
	prior, err := p.Setup()
	require.NoError(t, err)
	_, err = seasoning.Foresee(t.Context(), &prior)
	assert.Equal(t, map[string]method.Code{"start_mc_pct": method.OutOfRange}, faults(t, err))
	p = board(t)
	p.Work = &drying.Work{Most: 1000}
	_, err = seasoning.Forecast(t.Context(), &seasoning.Question{Piece: p, Rest: restAt(t, 0.45)})
	for _, code := range faults(t, err) {
		assert.Equal(t, method.TooMuchWork, code)
	}
}

// A piece in its own build room comes to rest there: the target is on the side that it
// comes from, and what the room's air really is holds for both.
func TestReadyInItsOwnRoom(t *testing.T) {
	p := board(t)
	p.Thickness, p.Start = 25*quantity.Millimetre, seasoning.Start{MC: 0.18}
	room := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.45}
	rest, err := room.For(0.18, 0, sorption.CurvesOf(&p.Wood))
	require.NoError(t, err)
	a, err := seasoning.Forecast(t.Context(), &seasoning.Question{Piece: p, Rest: rest})
	require.NoError(t, err)
	t.Logf("%.0f days (%.0f to %.0f), never %.3f", a.Mean.Middle.Days(), a.Mean.Early.Days(), a.Mean.Late.Days(), a.Mean.Never)
	assert.Less(t, a.Mean.Never, 0.02)
	assert.Less(t, a.Mean.Late, 365*quantity.Day)
}

// Wood drier than its target takes up moisture, and reaches it from below.
func TestReachesFromBelow(t *testing.T) {
	p := board(t)
	p.Thickness, p.Start, p.Phases = 27*quantity.Millimetre, seasoning.Start{MC: 0.04, SD: 0.003}, inShop(t, 0.60, 1825)
	room := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.60}
	rest, err := room.For(0.04, 0, sorption.Curves{})
	require.NoError(t, err)
	a, err := seasoning.Forecast(t.Context(), &seasoning.Question{Piece: p, Rest: rest})
	require.NoError(t, err)
	t.Logf("rest %.1f; %.0f days (%.0f to %.0f)", rest.Moisture.Value.Percent(), a.Mean.Middle.Days(), a.Mean.Early.Days(), a.Mean.Late.Days())
	assert.Greater(t, a.Mean.Early, 10*quantity.Day)
	assert.Less(t, a.Mean.Never, 0.05)
	for _, row := range a.ByThickness {
		assert.Greater(t, row.Dry.At, quantity.Duration(0))
	}
	// and past it where the place is damp
	p.Phases = inShop(t, 0.85, 1825)
	a, err = seasoning.Forecast(t.Context(), &seasoning.Question{Piece: p, Rest: rest})
	require.NoError(t, err)
	said := false
	for _, w := range a.Notes.Warnings {
		said = said || w.Input == "target_pct"
	}
	assert.True(t, said, "it does not stay there")
}
