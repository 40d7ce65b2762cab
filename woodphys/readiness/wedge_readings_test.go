package readiness

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// The same figure read where a wedge is thick, halfway and where it is thin says rising things of
// the whole; where the place is not told the whole is less sure, and that is told. Where the wedge
// is even all say the same.
func TestReadingsOfAWedgeAreOfTheirPlace(t *testing.T) {
	s := billet(t)
	s.Edges = &Edges{Thin: Edge{Thickness: 15 * quantity.Millimetre, Faster: 1.2}, Thick: Edge{Thickness: 70 * quantity.Millimetre, Faster: 0.9}}
	ask := func(mc quantity.Moisture, day float64, at ...WedgePlace) (Observation, method.Notes) {
		q := HistoryQuestion{Setup: s, Observations: []Observation{{Kind: Sample, At: quantity.Duration(day) * quantity.Day, MC: mc, SD: 0.01}}}
		if len(at) > 0 {
			q.TakenAt = map[int]WedgePlace{0: at[0]}
		}
		var notes method.Notes
		list, err := q.onWedge(context.Background(), &notes)
		require.NoError(t, err)
		assert.Equal(t, mc, q.Observations[0].MC, "what was asked stays")
		return list[0], notes
	}
	thick, _ := ask(0.25, 120, AtThickest)
	half, none := ask(0.25, 120, AtHalfway)
	thin, _ := ask(0.25, 120, AtThinnest)
	anywhere, told := ask(0.25, 120, "")
	whole, _ := ask(0.25, 120)
	assert.Less(t, thick.MC, half.MC-0.02)
	assert.Less(t, half.MC, thin.MC-0.02)
	assert.Equal(t, quantity.Moisture(0.25), anywhere.MC)
	assert.Greater(t, float64(anywhere.SD), 1.5*float64(half.SD))
	require.Len(t, told.Warnings, 1)
	assert.Equal(t, "observations/0", told.Warnings[0].Input)
	assert.Contains(t, told.Warnings[0].Detail, "Say taken_at")
	assert.Empty(t, none.Warnings)
	assert.Equal(t, 0.01, float64(whole.SD), "a reading of the whole")

	s.Thickness = 12 * quantity.Millimetre
	s.Edges = &Edges{Thin: Edge{Thickness: 8 * quantity.Millimetre, Faster: 1}, Thick: Edge{Thickness: 16 * quantity.Millimetre, Faster: 1}}
	for _, at := range []WedgePlace{AtThinnest, AtHalfway, AtThickest, ""} {
		dry, notes := ask(0.085, 1000, at)
		assert.InDelta(t, 0.085, float64(dry.MC), 0.006, "%s: long in the shop", at)
		assert.Less(t, float64(dry.SD), 0.013, at)
		assert.Empty(t, notes.Warnings)
	}
}
