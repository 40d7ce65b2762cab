package shape

import (
	"math"

	"latewood/api/internal/drawing"
)

// The section on a screen: its thickness stands at the left, its width and the way to the pith below.
const (
	shownMeasure = 26.0 // room of an upright measure with its words
	shownTall    = 200.0
	shownArrow   = 24.0 // radius
	sectionWide  = 560.0
)

// drawShown is the section for a screen.
func (p *sectionPicture) drawShown(width int) []byte {
	c := drawing.ColumnOf(width, p.heading+": "+p.summary, sectionAbout)
	c.Words(c.On.Heading, p.heading)
	c.Words(c.On.Body, p.summary)
	left := c.On.Left + shownMeasure + largestMove
	v := p.view(math.Min(c.On.Right-largestMove-left, sectionWide), shownTall, shownRings)
	v.middle = drawing.At(left+v.scale*v.w/2, c.Y+16+largestMove+v.scale*v.t/2)
	v.drawRings(c.Sheet)
	p.drawShape(c.Sheet, v)
	c.Y = v.middle.Y + v.scale*v.t/2 + largestMove + 14
	p.measured(c, v)
	v.wayToPith(c)
	c.Y += 6
	c.Figures(p.figures)
	c.Notes(p.assumptions(v, "Filled", "Faint lines")...)
	return c.Shown()
}

// measured draws the measures of the section before the change. The words of a thickness too
// small for them stand below those of the width.
func (p *sectionPicture) measured(c *drawing.Column, v *sectionView) {
	lower, upper := v.at(-v.w/2, -v.t/2), v.at(v.w/2, v.t/2)
	measureLine(c.Sheet, drawing.At(lower.X, c.Y), drawing.At(upper.X, c.Y))
	c.Y += 3
	x, words := c.On.Left+shownMeasure-8, "thickness before "+p.thickness
	measureLine(c.Sheet, drawing.At(x, upper.Y), drawing.At(x, lower.Y))
	told := "width before " + p.width
	if drawing.TextWidth(words, c.On.Small) <= lower.Y-upper.Y {
		c.Upright(x-6, (upper.Y+lower.Y)/2, c.On.Small, words)
	} else {
		told += ", " + words
	}
	c.Words(c.On.Small, told)
}

// wayToPith shows the way to the pith below the section.
func (v *sectionView) wayToPith(c *drawing.Column) {
	x, y := c.On.Left+shownArrow, c.Y+10+shownArrow
	words := "arrow to the pith; bark the other way"
	if !v.drawWayToPith(c.Sheet, x, y, shownArrow) {
		words = "pith in the middle"
	}
	left := x + shownArrow + 10
	for i, line := range drawing.Broken(words, c.On.Small, c.On.Right-left) {
		c.Text(left, y+4+15*float64(i), c.On.Small, drawing.FromLeft, line)
	}
	c.Y = y + shownArrow
}
