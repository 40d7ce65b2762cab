package sawlog_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// A log too bent for a billet over its whole length is told to be crosscut: billets of that
// length are had, and in one part less there is none.
func TestBentLogsAreCrosscutShorter(t *testing.T) {
	const mm = quantity.Millimetre
	told := 0
	for _, pattern := range []sawlog.Pattern{sawlog.ThroughAndThrough, sawlog.Quartered, sawlog.Wedges} {
		for _, sweep := range []float64{200, 350, 600} {
			q := sawlog.Question{Pattern: pattern, Kerf: 3 * mm, Crosscut: 8 * mm,
				Log:    sawlog.Log{Length: 3 * quantity.Metre, Start: 450 * mm, End: 400 * mm, Sweep: quantity.Length(sweep) * mm},
				Wanted: sawlog.Wanted{Thickness: 50 * mm, MinWidth: 150 * mm, EndTrim: 25 * mm}}
			plan, err := sawlog.Saw(q)
			require.NoError(t, err)
			if len(plan.Billets) > 0 {
				assert.Nil(t, plan.Shorter)
				continue
			}
			require.NotNil(t, plan.Shorter, "%s, sweep of %g mm", pattern, sweep)
			told++
			of := func(parts int) int {
				each := (q.Log.Length - quantity.Length(parts-1)*q.Crosscut) / quantity.Length(parts)
				other := q
				other.Wanted.Length = each - 2*q.Wanted.EndTrim
				shorter, err := sawlog.Saw(other)
				require.NoError(t, err)
				require.Len(t, shorter.Bolts, parts)
				return len(shorter.Billets)
			}
			assert.Equal(t, plan.Shorter.Billets, of(plan.Shorter.Lengths))
			if plan.Shorter.Lengths > 2 {
				assert.Zero(t, of(plan.Shorter.Lengths-1))
			}
		}
	}
	assert.GreaterOrEqual(t, told, 5)
}

// Where no section of the log is large enough, nothing shorter is told.
func TestNoShorterLengthMakesALogThicker(t *testing.T) {
	const mm = quantity.Millimetre
	plan, err := sawlog.Saw(sawlog.Question{Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm,
		Log:    sawlog.Log{Length: 2 * quantity.Metre, Start: 200 * mm, End: 180 * mm, Sweep: 50 * mm},
		Wanted: sawlog.Wanted{Thickness: 80 * mm, MinWidth: 190 * mm}})
	require.NoError(t, err)
	assert.Empty(t, plan.Billets)
	assert.Nil(t, plan.Shorter)
}
