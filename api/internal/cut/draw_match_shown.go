package cut

import (
	"math"

	"latewood/api/internal/drawing"
)

// shownMatch is the frame for a screen: the stack, the list and both views of a pair stand one
// below the other.
func shownMatch(c *drawing.Column) matchFrame {
	const (
		numbers, names = 30, 34 // room of numbers of leaves, and of names of pairs
		widest         = 420    // of the stack
		opened         = 640    // of a pair
	)
	left := c.On.Left + numbers
	right := math.Min(c.On.Right, c.On.Left+opened)
	return matchFrame{sheet: c.Width, right: c.On.Right, stackLeft: left, stackWidest: math.Min(widest, c.On.Right-names-left),
		stackTallest: 300, listLeft: c.On.Right, pairLeft: c.On.Left, pairRight: right, closeLeft: c.On.Left, closeRight: right,
		body: c.On.Body, small: c.On.Small, line: 1.35 * c.On.Small, each: 1.1 * c.On.Small}
}

// drawShown draws the match for a screen.
func (m *matchDrawing) drawShown(width int) []byte {
	c := drawing.ColumnOf(width, matchTitle+m.summary, matchAbout)
	m.d, m.frame = c.Sheet, shownMatch(c)
	m.rings = m.lines()
	c.Words(c.On.Heading, matchHeading)
	c.Words(c.On.Body, m.summary)
	m.frame.stackTop = c.Y + 26
	c.Y = m.stack() + 6
	for i := range m.match.Chosen {
		if i == mostPairsListed {
			c.Words(c.On.Small, m.morePairs())
			break
		}
		c.Words(c.On.Small, m.pairInWords(i))
	}
	for i := range m.match.Chosen[:min(len(m.match.Chosen), mostPairsDrawn)] {
		m.pairShown(c, i)
	}
	c.Notes(m.remarked())
	return c.Shown()
}

// pairShown draws a chosen pair opened, and below it close up at the seam.
func (m *matchDrawing) pairShown(c *drawing.Column, i int) {
	left, right, cured := m.halves(i)
	f, window := &m.frame, m.window(i)
	c.Y += 12
	c.Words(c.On.Body, m.pairHeading(i))
	for _, view := range []struct {
		words       string
		scale, most float64
		whole       bool
	}{
		{"", m.pairScale(), float64(m.in.Width), true},
		{closeUp + ", ", (f.closeRight - f.closeLeft) / 2 / window, window, false},
	} {
		for strip, word := range []string{"opened", "jointed"} {
			if strip == 1 && !cured {
				break
			}
			shownLeft, shownRight := asStrip(strip, left), asStrip(strip, right)
			c.Y += 3
			c.Words(c.On.Small, view.words+word)
			c.Y += 7
			m.strip(&shownLeft, &shownRight, f.pairLeft, f.pairRight, c.Y, view.scale, view.most)
			if view.whole {
				m.leafNumbers(&shownLeft, &shownRight, c.Y)
			}
			c.Y += stripHeight + 4
		}
		m.bar(f.pairLeft, c.Y+6, view.scale, 110)
		c.Y += 14
	}
}
