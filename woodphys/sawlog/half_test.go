package sawlog_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// A slab whose two sides beside the pith are too narrow gives no billet, and is sawn all the
// same: seven slabs of which one gives none have a cut between every two.
func TestTheSlabOfThePithIsCutOnBothSides(t *testing.T) {
	around := 12 * mm
	plan := saw(t, sawlog.Question{Log: straight(), Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm, PithClearance: &around,
		Wanted: sawlog.Wanted{Thickness: 50 * mm, MinWidth: 200 * mm}})
	bolt := &plan.Bolts[0]
	require.Len(t, plan.Billets, 5)
	require.Equal(t, 1, bolt.Empty)
	require.Len(t, bolt.Cuts, 7)
	for i := 1; i < len(bolt.Cuts); i++ {
		assert.InDelta(t, 53, (bolt.Cuts[i].From.Z - bolt.Cuts[i-1].From.Z).Millimetres(), 1e-9)
	}
}

// A pith that went with the other half by a few millimetres loses no billet: the flat face is
// there, and is not cut again.
func TestAHalfLogIsSawnFromItsFlatFace(t *testing.T) {
	for _, pattern := range []sawlog.Pattern{sawlog.Quartered, sawlog.Wedges} {
		q := sawlog.Question{Log: straight(), Pattern: pattern, Kerf: 3 * mm, Wanted: sawlog.Wanted{Thickness: 50 * mm, MinWidth: 60 * mm}}
		q.Log.Half = true
		level := saw(t, q)
		require.NotEmpty(t, level.Billets)
		q.Log.Pith.Z = -3 * mm
		above := saw(t, q)
		assert.Len(t, above.Billets, len(level.Billets), "%s", pattern)
		for _, c := range above.Bolts[0].Cuts {
			assert.Positive(t, max(c.From.Z, c.To.Z), "%s: no cut along the flat face", pattern)
		}
	}
}

// A wedge split to a point ends at the pith, which has no ring: its rings stand as steep as at the
// bark, 90 degrees less the angle of its sector.
func TestAWedgeToAPointStandsSteep(t *testing.T) {
	q := sawlog.Question{Log: straight(), Pattern: sawlog.Wedges,
		Wanted: sawlog.Wanted{Thickness: 60 * mm, MinWidth: 100 * mm, MinRingAngle: 60 * quantity.Degree}}
	plan := saw(t, q)
	require.Len(t, plan.Billets, 16)
	for i := range plan.Billets {
		assert.InDelta(t, 67.5, plan.Billets[i].LeastAngle.Degrees(), 1e-6)
	}
	// Halves, quarters, eighths, sixteenths: 1 + 2 + 4 + 8 splits, the first from side to side.
	cuts := plan.Bolts[0].Cuts
	require.Len(t, cuts, 15)
	assert.InDelta(t, 400, (cuts[0].To.Y - cuts[0].From.Y).Millimetres(), 1e-6)
	assert.InDelta(t, 0, cuts[1].To.Y.Millimetres(), 1e-6, "then square to it")
}
