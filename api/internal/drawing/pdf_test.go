package drawing_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/asking"
	"latewood/api/internal/drawing"
)

// pointsOf are millimetres in points of type.
func pointsOf(mm float64) float64 { return mm / 25.4 * 72 }

// Pages have the size of the paper, and a bar comes out as long as it says.
func TestTilesAtTrueScale(t *testing.T) {
	for paper, count := range map[drawing.Paper]int{
		drawing.A4:     3 * 2, // windows of 186 x 265 mm that overlap by 10 mm
		drawing.Letter: 3 * 3, // 191.9 x 247.4 mm
	} {
		d := &drawing.Sheet{Width: 400, Height: 500, Title: "a sheet"}
		d.Rectangle(10, 10, 100, 2, `fill="#000" stroke="none"`)
		for x := 5.0; x < 400; x += 10 { // a rule along the top
			d.Line(x, 20, x, 25, drawing.Thin)
		}
		text, err := drawing.Tiled(d, paper, drawing.Bar{Length: 100, Words: "100 mm"})
		require.NoError(t, err)
		pages := asking.Printed(t, text)
		require.Len(t, pages, count)
		first := pages[0]
		assert.InDelta(t, pointsOf(paper.Width), first.Width, 0.01)
		assert.InDelta(t, pointsOf(paper.Height), first.Height, 0.01)
		for i, page := range pages {
			bars := 0
			for _, box := range page.Filled {
				if math.Abs(box[2]-pointsOf(100)) < 0.02 && math.Abs(math.Abs(box[3])-pointsOf(2)) < 0.02 {
					bars++
				}
			}
			want := 1
			if i == 0 {
				want = 2 // that of the sheet itself
			}
			assert.Equal(t, want, bars, "page %d", i+1)
			assert.Contains(t, strings.Join(page.Words, "\n"), "100 mm")
		}
		assert.InDelta(t, pointsOf(drawing.PaperMargin+10), first.Filled[0][0], 0.01)
	}
}

// Whatever the size of a sheet, each mark of it shows whole on one page at least, in its
// place, and neighbours show the same strip.
func TestTilesShowEverything(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		wide, high := rapid.Float64Range(30, 700).Draw(rt, "width"), rapid.Float64Range(30, 700).Draw(rt, "height")
		x, y := rapid.Float64Range(0, wide-9).Draw(rt, "x"), rapid.Float64Range(0, high-9).Draw(rt, "y")
		d := &drawing.Sheet{Width: wide, Height: high}
		d.Rectangle(x, y, 8.5, 8.5, `fill="#000" stroke="none"`)
		text, err := drawing.Tiled(d, drawing.A4, drawing.Bar{Length: 100, Words: "100 mm"})
		require.NoError(rt, err)
		whole := 0
		for _, page := range asking.Printed(t, text) {
			for _, box := range page.Filled {
				if math.Abs(box[2]-pointsOf(8.5)) > 0.02 {
					continue
				}
				left, top := box[0], page.Height-box[1]
				edge, foot := pointsOf(drawing.PaperMargin), pointsOf(drawing.PaperMargin+8)
				if left >= edge-0.02 && left+box[2] <= page.Width-edge+0.02 && top >= edge-0.02 &&
					top+pointsOf(8.5) <= page.Height-foot+0.02 {
					whole++
				}
			}
		}
		assert.Positive(rt, whole)
	})
}

// A sheet that runs on is parted only where it may be.
func TestFlowedBreaksBetweenThings(t *testing.T) {
	d := &drawing.Sheet{Width: 600, Height: 3000, Title: "long"}
	for y := 0.0; y < 3000; y += 100 {
		d.MayBreak(y)
		d.Text(10, y+50, 10, drawing.FromLeft, "thing")
	}
	text, err := drawing.Flowed(d, drawing.A4)
	require.NoError(t, err)
	pages := asking.Printed(t, text)
	require.Len(t, pages, 4) // of 265 mm at 186/600 mm to a unit 854 units fit: 800, 800, 800, 600
	things := 0
	for _, page := range pages {
		things += strings.Count(strings.Join(page.Words, " "), "thing")
	}
	assert.Equal(t, 30, things)
	assert.Contains(t, pages[3].Words, "page 4 of 4")
}

// Any text of a caller comes out as a document: letters that the face lacks do no harm.
func TestAnyWordsArePrinted(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		words := rapid.String().Draw(rt, "words")
		d := &drawing.Sheet{Width: 100, Height: 100, Title: words}
		d.Text(50, 50, 5, drawing.Centred, words)
		d.Upright(50, 50, 5, words)
		text, err := drawing.Singly(words, []*drawing.Sheet{d}, drawing.A4)
		require.NoError(rt, err)
		again, err := drawing.Singly(words, []*drawing.Sheet{d}, drawing.A4)
		require.NoError(rt, err)
		assert.Equal(rt, text, again, "the same every time")
	})
	d := &drawing.Sheet{}
	d.Text(50, 50, 5, drawing.FromLeft, "Čeština (x), Ελλάδα \\ дуб \U0001F332\x00")
	text, err := drawing.Singly("", []*drawing.Sheet{d}, drawing.Letter)
	require.NoError(t, err)
	assert.Equal(t, []string{"Čeština (x), Ελλάδα \\ дуб ??"}, asking.Printed(t, text)[0].Words)
}
