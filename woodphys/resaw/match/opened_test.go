package match_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// Pairs of planned stacks match as each pair by itself, and come in order of merit.
func TestOpenedPairsMatchAsByThemselves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var stacks []resaw.Opened
		var tags []int
		for range rapid.IntRange(0, 3).Draw(t, "stacks") {
			s := resaw.Opened{Opening: rapid.SampledFrom([]resaw.Opening{resaw.Bookmatch, resaw.SlipMatch}).Draw(t,
				"opening"),
				Width: 150 * onemm, CleanupShow: 0.5 * onemm}
			if rapid.Bool().Draw(t, "pith") {
				s.Pith = &resaw.Point{X: quantity.Length(rapid.Float64Range(-0.2, 0.4).Draw(t, "x")),
					Z: quantity.Length(rapid.Float64Range(-0.2, 0.3).Draw(t, "z"))}
			} else {
				angle := quantity.Angle(rapid.Float64Range(20, 90).Draw(t, "angle")) * quantity.Degree
				s.RingAngle = &angle
			}
			for n := range rapid.IntRange(1, 4).Draw(t, "pairs") {
				at := quantity.Length(n) * 14 * onemm // the next pair lies right behind
				s.Pairs = append(s.Pairs,
					resaw.OpenedPair{Tag: len(tags), First: resaw.LeafFaces{Front: at, Back: at + 5*onemm},
						Second: resaw.LeafFaces{Front: at + 7*onemm, Back: at + 12*onemm}})
				tags = append(tags, len(tags))
			}
			stacks = append(stacks, s)
		}
		out, err := match.Opened(stacks)
		require.NoError(t, err)
		var got []int
		for _, p := range out.Pairs {
			got = append(got, p.Tag)
		}
		assert.ElementsMatch(t, tags, got, "every pair once, and no pair of two halves that belong to others")
		assert.True(t, slices.IsSortedFunc(out.Pairs, func(a, b match.OpenedMatch) int {
			if a.Seam.Cured < b.Seam.Cured {
				return -1
			}
			return 0
		}))
		for i := range stacks {
			for _, pair := range stacks[i].Pairs {
				in := match.Input{Width: stacks[i].Width, CleanupShow: stacks[i].CleanupShow,
					Openings: []resaw.Opening{stacks[i].Opening},
					Leaves:   []resaw.LeafFaces{pair.First, pair.Second}, Rings: match.RingPosition{Pith: stacks[i].Pith}}
				if a := stacks[i].RingAngle; a != nil {
					in.Rings.Readings = []match.RingReading{{Angle: *a}}
				}
				l := matched(t, in).Pairs[0].Layouts[0]
				of := out.Pairs[slices.Index(got, pair.Tag)]
				assert.InDelta(t, l.Seams[l.Better].Score, of.Seam.Score, 1e-9)
				assert.InDelta(t, float64(l.Distance), float64(of.Distance), 1e-12)
			}
		}
	})
}
