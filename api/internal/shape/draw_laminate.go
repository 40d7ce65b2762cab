package shape

import (
	"math"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
)

// Frame of the drawing of a panel.
const (
	panelWidth, panelHeight = 760.0, 600.0
	layersLeft, layersRight = 40.0, 330.0
	layersTop, layersBottom = 84.0, 300.0
	bentRoom, bentHigh      = 330.0, 34.0 // of the bent panel
	panelAbout              = "The layers seen at the end of the panel, with their grain, and the bent panel in both directions"
	layersSeen              = "The layers seen at the end of the panel. Lines: rings on end grain. Dashes: grain that runs across the panel."
)

// layersFrame is where the layers stand.
type layersFrame struct {
	left, right, top, bottom float64
	rings                    string // how they are drawn
}

// panelPicture is what the drawing of a panel shows.
type panelPicture struct {
	heading, summary string
	layers           []layerDrawn // from the bottom up
	across, along    bentDrawn
	figures          [][2]string // names and numbers
	creep            string      // what weeks of it leave of the bend, in percent
}

// layerDrawn is a layer with its name and what is told of it.
type layerDrawn struct {
	thickness, grain, ring float64 // metres, radians
	name, facts            string
}

// bentDrawn is the panel over one of its sizes.
type bentDrawn struct {
	name          string
	size, sagitta float64 // metres; positive: hollow above
	straight      bool    // the sagitta is none worth telling
}

func (p *panelPicture) draw() []byte {
	d := &drawing.Sheet{Width: panelWidth, Height: panelHeight, Size: `width="760" height="600"`, Title: p.heading + ": " + p.summary,
		About: panelAbout}
	d.Text(18, 24, 15, drawing.FromLeft, p.heading)
	d.Text(18, 43, drawing.BodyText, drawing.FromLeft, p.summary)
	d.Text(18, layersTop-10, drawing.SmallText, drawing.FromLeft, layersSeen)
	all := p.drawStack(d)
	d.Line(18, 324, rightMargin, 324, drawing.Faint)
	p.across.draw(d, 18)
	p.along.draw(d, 390)
	figureColumns(d, p.figures, 456)
	p.drawAssumptions(d, all)
	return d.SVG()
}

// drawStack draws the layers from the bottom up and names those for whose name
// there is room; all says that it named each.
func (p *panelPicture) drawStack(d *drawing.Sheet) (all bool) {
	f := &layersFrame{layersLeft, layersRight, layersTop, layersBottom, drawing.Faint}
	all = true
	named := math.Inf(1)
	p.stacked(d, f, func(i int, y, high float64) {
		middle := y + high/2 + 3.5
		if named-middle < 11.5 {
			all = false
			return
		}
		named = middle
		d.Text(layersRight+12, middle, drawing.SmallText, drawing.FromLeft, p.layers[i].text())
	})
	return all
}

// stacked draws the layers from the bottom up; name is called with where each lies.
func (p *panelPicture) stacked(d *drawing.Sheet, f *layersFrame, name func(i int, y, high float64)) {
	layers, high := p.layers, f.bottom-f.top
	heights := make([]float64, len(layers))
	total := 0.0
	for i := range layers {
		total += layers[i].thickness
	}
	least := math.Min(13, high/float64(len(layers)))
	room := high - least*float64(len(layers))
	for i := range layers {
		heights[i] = least + room*layers[i].thickness/total
	}
	y := f.bottom
	for i := range layers {
		y -= heights[i]
		d.Rectangle(f.left, y, f.right-f.left, heights[i], drawing.Thin)
		layers[i].drawGrain(d, f, y, heights[i])
		name(i, y, heights[i])
	}
}

// text names a layer in the room right of the stack.
func (l *layerDrawn) text() string {
	name := []rune(l.name)
	for drawing.TextWidth(string(name)+l.facts, drawing.SmallText) > rightMargin-layersRight-12 && len(name) > 6 {
		name = name[:len(name)-1]
	}
	return string(name) + l.facts
}

// drawGrain fills a layer with lines of its rings where its end grain is seen, or
// with dashes where its grain runs across the view.
func (l *layerDrawn) drawGrain(d *drawing.Sheet, f *layersFrame, y, h float64) {
	if math.Abs(math.Cos(l.grain)) < math.Sqrt2/2 {
		for at := y + 5; at < y+h-2; at += 6 {
			d.Line(f.left+3, at, f.right-3, at, `stroke="#777" stroke-width="0.6" fill="none" stroke-dasharray="16 5"`)
		}
		return
	}
	sin, cos := math.Sincos(l.ring)
	const gap = 7.0
	if sin < 0.02 { // flat within what can be seen
		for at := y + gap/2; at < y+h-1; at += gap {
			d.Line(f.left+3, at, f.right-3, at, f.rings)
		}
		return
	}
	lean := h * cos / sin
	for x := f.left - lean; x < f.right; x += gap / sin {
		// from (x, bottom) to (x+lean, top), cut at the edges of the layer
		a, b := math.Max(x, f.left), math.Min(x+lean, f.right)
		if lean < 0.5 { // upright, but for the last digit of the cosine
			if x > f.left {
				d.Line(x, y, x, y+h, f.rings)
			}
			continue
		}
		if a < b {
			d.Line(a, y+h-h*(a-x)/lean, b, y+h-h*(b-x)/lean, f.rings)
		}
	}
}

// draw draws the panel bent over a size, its sagitta exaggerated.
func (b *bentDrawn) draw(d *drawing.Sheet, left float64) {
	factor := b.factor(bentRoom)
	d.Text(left, 342, drawing.SmallText, drawing.FromLeft, b.words(factor))
	b.panel(d, left, 392, bentRoom, factor)
}

// factor is how many times too large its sagitta is drawn.
func (b *bentDrawn) factor(room float64) float64 {
	return exaggerated(math.Abs(b.sagitta)*(room/b.size), bentHigh)
}

// words say what is drawn.
func (b *bentDrawn) words(factor float64) string {
	words := b.name + ", bend drawn " + quantity.FormatNumber(factor, 3) + " times as large"
	switch {
	case b.straight:
		words = b.name + ": straight"
	case factor == 1:
		words = b.name + ", bend true to scale"
	}
	return words
}

// panel draws it over a width about a height.
func (b *bentDrawn) panel(d *drawing.Sheet, left, middle, room, factor float64) {
	const half = 4.0
	high := b.sagitta * (room / b.size) * factor
	var upper, lower []drawing.Point
	const steps = 40
	for i := range steps + 1 {
		f := 2*float64(i)/steps - 1
		// hollow above: the edges stand up
		y := middle + high/2 - high*f*f
		upper = append(upper, drawing.At(left+room*(f+1)/2, y-half))
		lower = append(lower, drawing.At(left+room*(f+1)/2, y+half))
	}
	d.Line(left, middle, left+room, middle, drawing.Dotted)
	for i := len(lower) - 1; i >= 0; i-- {
		upper = append(upper, lower[i])
	}
	d.Polygon(upper, `fill="#ddd" stroke="#000" stroke-width="1.4" stroke-linejoin="round"`)
}

func (p *panelPicture) drawAssumptions(d *drawing.Sheet, all bool) {
	d.Line(18, 524, rightMargin, 524, drawing.Thin)
	text := p.assumptions()
	if !all {
		text += " Not every layer is named."
	}
	y := 540.0
	for _, line := range drawing.Wrapped(text, drawing.SmallText, rightMargin-18) {
		d.Text(18, y, drawing.SmallText, drawing.FromLeft, line)
		y += 13
	}
}

// assumptions are what the drawing rests on.
func (p *panelPicture) assumptions() string {
	return "Elastic, as in the first days; weeks of creep leave " + p.creep +
		" % of the bend. Each layer even in moisture; nothing holds the panel. In brackets: 90 % of such panels lie " +
		"there. Thin layers are drawn thicker than they are."
}
