package sawlog_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// Diameters that look like a slip are asked about; those of a usual log are not.
func TestTaperIsAskedAbout(t *testing.T) {
	for _, c := range []struct {
		length, start, end float64 // mm
		asks               bool
	}{
		{2438, 254, 406, true}, // 10 in at the butt, 16 in at the top
		{2438, 406, 254, true}, // 6 in on 8 ft
		{2438, 406, 380, false},
		{2438, 400, 406, false}, // a rule over bark
		{2438, 400, 412, true},
		{300, 400, 365, false}, // a short piece of a flared butt
		{300, 400, 350, true},
		{6000, 600, 300, false},
	} {
		mm := func(v float64) quantity.Length { return quantity.Length(v) * quantity.Millimetre }
		plan, err := sawlog.Saw(sawlog.Question{Log: sawlog.Log{Length: mm(c.length), Start: mm(c.start), End: mm(c.end)},
			Pattern: sawlog.ThroughAndThrough, Kerf: mm(3), Wanted: sawlog.Wanted{Thickness: mm(50), MinWidth: mm(100)}})
		require.NoError(t, err)
		assert.Equal(t, c.asks, expect.Warned(plan.Notes, method.CheckInput), "%v", c)
	}
}

// Bark of 20 mm on a log of 400 mm is 1 - (360/400)^2 of it; a peeled log has none.
func TestBarkShare(t *testing.T) {
	log := sawlog.Log{Length: 1, Start: 400 * quantity.Millimetre, End: 400 * quantity.Millimetre, Bark: 20 * quantity.Millimetre}
	assert.InDelta(t, 0.19, log.BarkShare(), 1e-12)
	log.Half = true
	assert.InDelta(t, 0.19, log.BarkShare(), 1e-12)
	log.Bark = 0
	assert.Zero(t, log.BarkShare())
}
