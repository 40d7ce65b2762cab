package drawing

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Numbers stay with their units and with what they count, and no word is left alone
// on the last line.
func TestWrappedKeepsNumbersTogether(t *testing.T) {
	const caption = "end grain at 1 in; pith -2.347 in from the near edge, 1.0875 in below face 1"
	for width := 150.0; width < 500; width++ {
		lines := Wrapped(caption, 9, width)
		assert.Equal(t, caption, strings.Join(lines, " "))
		for _, line := range lines {
			assert.LessOrEqual(t, TextWidth(line, 9), width)
			words := strings.Fields(line)
			assert.False(t, words[0] == "in" || words[0] == "in;", "a unit begins a line: %q", line)
			assert.NotEqual(t, "face", words[len(words)-1], line)
		}
		assert.GreaterOrEqual(t, len(strings.Fields(lines[len(lines)-1])), 2)
	}
	assert.Equal(t, []string{"alone"}, Wrapped("alone", 10, 5))
	assert.Empty(t, Wrapped("  ", 10, 5))
}

func TestWrappedLosesNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.SampledFrom([]string{"12", "mm", "face", "1", "a", "sets", "of", "backs,", "3.5", "%", "to"})).Draw(t, "words")
		width := rapid.Float64Range(5, 200).Draw(t, "width")
		lines := Wrapped(strings.Join(words, " "), 10, width)
		assert.Equal(t, strings.Join(words, " "), strings.Join(lines, " "))
		for _, line := range lines {
			assert.True(t, TextWidth(line, 10) <= width || !strings.Contains(line, " "), line)
		}
	})
}

// Labels moved apart keep their order, their distance and the room where it is enough.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.SliceOf(rapid.Float64Range(0, 100)).Draw(t, "places")
		slices.Sort(places)
		out := Spread(places, 10, 0, 100)
		for i := range out {
			assert.GreaterOrEqual(t, out[i], -1e-9)
			if len(out) <= 11 {
				assert.LessOrEqual(t, out[i], 100+1e-9)
			}
			if i > 0 {
				assert.GreaterOrEqual(t, out[i]-out[i-1], 10-1e-9)
			}
		}
	})
	assert.Equal(t, []float64{5, 50}, Spread([]float64{5, 50}, 10, 0, 100), "nothing moves without need")
}
