package sawlog_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// A wedge of n sectors that is cut off towards the pith at a width w from the bark is as
// thick there as the sector is: a tan(360/n) less the kerf, at a from the pith.
func TestWedgesOfAGreatestWidth(t *testing.T) {
	q := sawlog.Question{Log: straight(), Pattern: sawlog.Wedges, Kerf: 3 * mm,
		Wanted: sawlog.Wanted{Thickness: 50 * mm, MinWidth: 80 * mm}}
	whole := saw(t, q)
	q.Wanted.MaxWidth = 120 * mm
	cut := saw(t, q)
	require.NotEmpty(t, cut.Billets)
	require.Equal(t, len(whole.Billets), len(cut.Billets), "as many, each as thick at the bark")
	angle := 2 * math.Pi / float64(cut.Bolts[0].Sectors)
	for i := range cut.Billets {
		b := &cut.Billets[i]
		require.Greater(t, whole.Billets[i].Width, 120*mm)
		assert.InDelta(t, 120, b.Width.Millimetres(), 1e-6)
		assert.InDelta(t, whole.Billets[i].Thickness.Millimetres(), b.Thickness.Millimetres(), 1e-9)
		assert.InDelta(t, (b.Thickness - b.FarThickness).Millimetres(), 120*math.Tan(angle), 1e-6)
	}
	q.Wanted.MaxWidth = 300 * mm
	assert.Equal(t, whole.Billets, saw(t, q).Billets, "none is as wide")
	q.Wanted.MaxWidth = quantity.Length(0.5) * q.Wanted.MinWidth
	_, err := sawlog.Saw(q)
	require.Error(t, err)
}
