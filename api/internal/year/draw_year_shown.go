package year

import (
	"math"
	"strings"
	"time"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
)

// Frame of the panels on a screen: numbers at the left, all else above and below.
const (
	shownAxis  = 50.0
	shownPanel = 120.0
)

// drawShown is the year for a screen: each panel over the whole width, with its words above and
// its months below.
func (p *yearPicture) drawShown(width int) []byte {
	c := drawing.ColumnOf(width, p.title()+": "+p.summary, yearAbout)
	c.Words(c.On.Heading, yearHeading)
	c.Words(c.On.Body, p.summary)
	f := &yearFrame{shownAxis, c.On.Right, shownPanel, c.On.Small}
	scale := p.range90()
	for i := range p.parts {
		one := &p.parts[i]
		top := p.above(c, one.name, one.beside)
		one.panel(c.Sheet, f, top, scale, true)
		bottom, high := top+f.panel, scale.high-scale.low
		p.tell(c.Sheet, f, one.times, one.mean, func(pct float64) float64 { return bottom - f.panel*(pct-scale.low)/high })
		p.below(c, f, bottom)
	}
	if len(p.parts) > 0 {
		explain(c, partLegend)
	}
	reach := p.bendScale()
	for i := range p.laminates {
		one := &p.laminates[i]
		top := p.above(c, one.name, one.beside)
		one.panel(c.Sheet, f, top, reach)
		p.tell(c.Sheet, f, one.times, one.cup, func(cup float64) float64 { return top + f.panel/2*(1-cup/reach) })
		p.below(c, f, top+f.panel)
	}
	if len(p.laminates) > 0 {
		explain(c, bendLegend)
	}
	c.Notes(p.remarks)
	return c.Shown()
}

// above writes what is told of a panel and returns where it begins.
func (p *yearPicture) above(c *drawing.Column, name string, beside []string) float64 {
	c.Y += 12
	c.Words(c.On.Body, name)
	c.Words(c.On.Small, strings.Join(beside, ", "))
	c.Y += 8
	return c.Y
}

// below writes the months of a panel that ends there.
func (p *yearPicture) below(c *drawing.Column, f *yearFrame, bottom float64) {
	p.months(c.Sheet, f, bottom)
	c.Y = bottom + 14
}

// tell tells the value of a curve with its band, as closely as a thumb can point.
func (p *yearPicture) tell(d *drawing.Sheet, f *yearFrame, times []float64, bands []wire.Band, y func(float64) float64) {
	const apart = 12 // px
	last := math.Inf(-1)
	for k, share := range times {
		if x := f.x(share); x-last >= apart {
			day := p.start.Add(time.Duration(share * p.days * 24 * float64(time.Hour)))
			d.Tell(x, y(bands[k].Value), day.Format("2 Jan")+": "+bands[k].Said())
			last = x
		}
	}
}

// explain writes a legend.
func explain(c *drawing.Column, entries []legendEntry) {
	l := c.Explain()
	for _, e := range entries {
		l.Entry(e.words, func(x, y float64) { e.sample(c.Sheet, x, y) })
	}
	c.Explained(l)
}
