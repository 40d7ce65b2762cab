package drawing

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Broken lines are never wider than the width, lose no letter, and are those of Wrapped where no
// word is too wide.
func TestBrokenHoldsTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringMatching(`[a-zA-Z]{1,60}( [a-z0-9]{1,30}){0,6}`).Draw(t, "words")
		width := rapid.Float64Range(30, 300).Draw(t, "width")
		lines := Broken(words, 11, width)
		assert.Equal(t, strings.ReplaceAll(words, " ", ""), strings.ReplaceAll(strings.Join(lines, ""), " ", ""))
		fits := true
		for _, line := range lines {
			assert.LessOrEqual(t, TextWidth(line, 11), width, line)
		}
		for _, word := range strings.Fields(words) {
			fits = fits && TextWidth(word, 11) <= width
		}
		if fits {
			assert.Equal(t, Wrapped(words, 11, width), lines)
		}
	})
	assert.Equal(t, []string{"W"}, Broken("W", 11, 1), "a letter wider than a line")
}

// What is shortened tells the whole, to one who points at it and to one who taps.
func TestTextWithinTellsTheWhole(t *testing.T) {
	d := &Sheet{Width: 100, Height: 20}
	d.TextWithin(0, 10, 11, FromLeft, 60, "a name <of> some length")
	d.TextWithin(0, 20, 11, FromLeft, 60, "short")
	text := string(d.SVG())
	assert.Contains(t, text, `...<title>a name &lt;of&gt; some length</title></text>`)
	assert.Contains(t, text, `data-told="yes"><title>a name &lt;of&gt; some length</title>`)
	assert.Contains(t, text, `>short</text>`)
	assert.Equal(t, 3, strings.Count(text, "<title"), "that of the drawing, and two of what was shortened")
}

// A figure stands on the line of its name, or below it where both find no room.
func TestFiguresStandWithinTheColumn(t *testing.T) {
	places := func(width int, figure string) (name, value Point) {
		c := ColumnOf(width, "", "")
		c.Figures([][2]string{{"thickness in the middle", figure}})
		return c.shapes[0].points[0], c.shapes[1].points[0]
	}
	name, value := places(800, "29.66 mm (29.5 to 29.81)")
	assert.InDelta(t, name.Y, value.Y, 0)
	name, value = places(240, "29.66 mm (29.5 to 29.81)")
	assert.Greater(t, value.Y, name.Y)
}

func TestTakenTakesAPlaceOnce(t *testing.T) {
	var taken Taken
	assert.True(t, taken.Take(TextBox(10, 10, 11, FromLeft, "12")))
	assert.False(t, taken.Take(TextBox(20, 12, 11, Centred, "13")))
	assert.True(t, taken.Take(TextBox(10, 30, 11, FromLeft, "13")))
	assert.Len(t, taken, 2)
}
