package shape

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
)

// The panel on a screen: the layers with their numbers, and what is told of each below.
const (
	shownNumbers = 22.0  // room of the numbers
	shownLayers  = 216.0 // height of the layers
	shownWide    = 560.0 // of the layers and of the bent panel, at most
)

// shownRings is how rings are drawn on a screen: dark enough on a dark page.
const shownRings = `stroke="#777" stroke-width="0.6" fill="none"`

// drawShown is the panel for a screen.
func (p *panelPicture) drawShown(width int) []byte {
	c := drawing.ColumnOf(width, p.heading+": "+p.summary, panelAbout)
	c.Words(c.On.Heading, p.heading)
	c.Words(c.On.Body, p.summary)
	c.Y += 8
	c.Words(c.On.Small, layersSeen)
	c.Y += 10
	p.numbered(c)
	for i := len(p.layers) - 1; i >= 0; i-- {
		c.Words(c.On.Small, p.layers[i].name+p.layers[i].facts)
	}
	p.across.shown(c)
	p.along.shown(c)
	c.Figures(p.figures)
	c.Notes(p.assumptions())
	return c.Shown()
}

// numbered draws the layers with their numbers, as many as there is room for.
func (p *panelPicture) numbered(c *drawing.Column) {
	left := c.On.Left + shownNumbers
	f := &layersFrame{left, math.Min(c.On.Right, left+shownWide), c.Y, c.Y + shownLayers, shownRings}
	var taken drawing.Taken
	p.stacked(c.Sheet, f, func(i int, y, high float64) {
		x, base, words := left-5, y+high/2+0.3*c.On.Small, strconv.Itoa(len(p.layers)-i)
		if taken.Take(drawing.TextBox(x, base, c.On.Small, drawing.FromRight, words)) {
			c.Text(x, base, c.On.Small, drawing.FromRight, words)
		}
	})
	c.Y = f.bottom + 8
}

// shown draws the bent panel over the width.
func (b *bentDrawn) shown(c *drawing.Column) {
	room := math.Min(c.On.Room(), shownWide)
	factor := b.factor(room)
	c.Y += 10
	c.Words(c.On.Small, b.words(factor))
	const high = bentHigh/2 + 12
	b.panel(c.Sheet, c.On.Left, c.Y+high, room, factor)
	c.Y += 2 * high
}
