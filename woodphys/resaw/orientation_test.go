package resaw_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
	"latewood/woodphys/resaw/plan"
)

func TestPithFoundFromItsOwnAngles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pith := resaw.Point{X: quantity.Length(rapid.Float64Range(-0.3, 0.6).Draw(t, "xp")), Z: quantity.Length(rapid.Float64Range(0.01, 0.3).Draw(t, "zp"))}
		side := quantity.Length(rapid.SampledFrom([]float64{-1, 1}).Draw(t, "side"))
		x1 := pith.X + side*quantity.Length(rapid.Float64Range(0.005, 0.1).Draw(t, "near"))
		x2 := pith.X + side*quantity.Length(rapid.Float64Range(0.12, 0.4).Draw(t, "far"))
		a1, a2 := resaw.RingAngleAt(resaw.Point{X: x1}, pith), resaw.RingAngleAt(resaw.Point{X: x2}, pith)
		f, err := resaw.PithFromAngles(x1, a1, x2, a2)
		require.NoError(t, err)
		if f.OnQuarter {
			return
		}
		assert.InDelta(t, float64(pith.Z), float64(f.Depth), 1e-6)
		assert.InDelta(t, float64(pith.X), float64(f.X), 1e-6)
	})
	f, err := resaw.PithFromAngles(0, 90*quantity.Degree, 0.2, 89.8*quantity.Degree)
	require.NoError(t, err)
	assert.True(t, f.OnQuarter)
	_, err = resaw.PithFromAngles(0, quantity.Degree, 0.2, quantity.Degree)
	assertError(t, err, method.Contradictory, "ring_angle_2")
}

func TestMethodsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range slices.Concat(match.Methods(), resaw.Methods(), plan.Methods()) {
		assert.False(t, seen[m.ID], "%s stands twice", m.ID)
		seen[m.ID] = true
		assert.Equal(t, "resaw", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
	}
	assert.GreaterOrEqual(t, len(seen), 13)
}

func ExampleLeaves() {
	const mm = quantity.Millimetre
	y, _ := resaw.Leaves(resaw.Cut{Thickness: 60 * mm, Facing: 2 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm, FarFaceFinished: true})
	fmt.Printf("%d leaves, %d cuts, %.1f mm left: %s, offcut %.1f mm\n", y.Leaves, y.Cuts, y.LeftOver.Millimetres(), y.Remainder, y.Offcut.Millimetres())
	fmt.Printf("one more leaf needs %.1f mm more, or a kerf of at most %.2f mm\n", y.OneMore.ShortBy.Millimetres(), y.OneMore.KerfAtMost.Millimetres())
	// Output:
	// 9 leaves, 8 cuts, 5.5 mm left: one_more_cut, offcut 4.0 mm
	// one more leaf needs 0.5 mm more, or a kerf of at most 1.44 mm
}
