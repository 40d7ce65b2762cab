package match_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// farther is the largest miss between two faces about a pith, found line by line: each of
// 4000 lines of the first face is followed round its circle to the second.
func farther(px, pz, za, zb, low, high float64) (most float64, found bool) {
	for i := range 4001 {
		x := low + (high-low)*float64(i)/4000
		radius := math.Hypot(x-px, za-pz)
		if below := math.Abs(zb - pz); below <= radius {
			side := 1.0
			if x < px {
				side = -1
			}
			there := px + side*math.Sqrt(radius*radius-below*below)
			most, found = math.Max(most, math.Abs(there-x)), true
		}
	}
	return most, found
}

// The largest miss that is told is that of all lines of the face, and lies where it is told.
func TestLargestMissOverTheFace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		px, pz := draw("px", -150, 400), draw("pz", -60, 120)
		in := match.Input{Width: 250 * quantity.Millimetre, Count: 3, Leaf: quantity.Length(draw("leaf", 3, 12)) * quantity.Millimetre,
			Kerf: 2 * quantity.Millimetre, SeamEdge: quantity.Length(draw("edge", 0, 20)) * quantity.Millimetre,
			Rings: match.RingPosition{Pith: &resaw.Point{X: quantity.Length(px) * quantity.Millimetre, Z: quantity.Length(pz) * quantity.Millimetre}}}
		matched, err := match.Halves(in)
		require.NoError(t, err)
		for i := range matched.Pairs {
			for j := range matched.Pairs[i].Layouts {
				l := &matched.Pairs[i].Layouts[j]
				za, zb := l.ShowA.Millimetres(), l.ShowB.Millimetres()
				low, high := in.SeamEdge.Millimetres(), 250-in.SeamEdge.Millimetres()
				most, found := farther(px, pz, za, zb, low, high)
				if l.Largest == nil {
					require.False(t, found)
					continue
				}
				told := math.Abs(l.Largest.Shift.Millimetres())
				require.GreaterOrEqual(t, told, most-1e-6)
				// A line between two of the 4000 may miss by a little more.
				bare := math.Sqrt(math.Abs((za - zb) * (za + zb - 2*pz)))
				require.LessOrEqual(t, told, most+math.Sqrt(2*bare*0.0625+0.01)+0.0625)
				x := l.Largest.X.Millimetres()
				radius, there := math.Hypot(x-px, za-pz), x+l.Largest.Shift.Millimetres()
				require.InDelta(t, radius, math.Hypot(there-px, zb-pz), 1e-6, "the same ring on both faces")
				require.GreaterOrEqual(t, x, low-1e-9)
				require.LessOrEqual(t, x, high+1e-9)
			}
		}
	})
}

// A pith 6 mm behind the face of a bookmatched pair: at the mid-plane the line at the near
// edge misses by some millimetres, and a line over the pith by far more.
func TestMissNearThePithByHand(t *testing.T) {
	mm := quantity.Millimetre
	matched, err := match.Halves(match.Input{Width: 200 * mm, Count: 2, Leaf: 4 * mm, Kerf: 2 * mm, Openings: []resaw.Opening{resaw.WrongWay},
		Rings: match.RingPosition{Pith: &resaw.Point{X: 60 * mm, Z: 20 * mm}}})
	require.NoError(t, err)
	l := &matched.Pairs[0].Layouts[0]
	// Faces at 0 and 10: a line of the first right over the pith has radius 20, and crosses the
	// second sqrt(400 - 100) = 17.32 mm aside.
	require.NotNil(t, l.Largest)
	assert.InDelta(t, math.Sqrt(300), l.Largest.Shift.Millimetres(), 1e-9)
	assert.InDelta(t, 60, l.Largest.X.Millimetres(), 1e-9)
	assert.InDelta(t, 2*math.Sqrt(300), l.Largest.Unpaired.Millimetres(), 1e-9)
	// The line of the first leaf that meets the near edge has radius^2 = 3600 + 400; on the
	// second face it crosses at 60 - sqrt(4000 - 100). That of the second leaf: 3600 + 100, and
	// 60 - sqrt(3700 - 400) on the first.
	assert.InDelta(t, -math.Sqrt(3300)+60-0, math.Abs(l.Seams[0].AtEdge.Millimetres()), 1e-9)
	assert.NotEmpty(t, matched.Notes.Warnings)
}

// Figure is opened as a mirror: slip-matches of figured wood are ranked last and not chosen,
// unless nothing else is asked for.
func TestFigureIsNotSlipped(t *testing.T) {
	lean := 6 * quantity.Degree
	in := match.Input{Width: 184 * quantity.Millimetre, Count: 4, Leaf: 9.5 * quantity.Millimetre, Kerf: 0.8 * quantity.Millimetre,
		CleanupShow: 0.8 * quantity.Millimetre, BandLean: &lean, Rings: match.RingPosition{Readings: []match.RingReading{{Angle: 15 * quantity.Degree}}}}
	matched, err := match.Halves(in)
	require.NoError(t, err)
	slipped := false
	for _, r := range matched.Ranked {
		require.False(t, slipped && r.Opening != resaw.SlipMatch, "slip-matches come last")
		slipped = slipped || r.Opening == resaw.SlipMatch
	}
	for _, c := range matched.Chosen {
		assert.Equal(t, resaw.Bookmatch, c.Opening)
	}
	in.BandLean, in.SpareWidth = nil, 5*quantity.Millimetre
	plain, err := match.Halves(in)
	require.NoError(t, err)
	assert.Equal(t, resaw.SlipMatch, plain.Chosen[0].Opening, "plain wood at 15 degrees misses by more than may be trimmed, and slips better")
	in.BandLean, in.Openings = &lean, []resaw.Opening{resaw.SlipMatch}
	asked, err := match.Halves(in)
	require.NoError(t, err)
	assert.Equal(t, resaw.SlipMatch, asked.Chosen[0].Opening)
}
