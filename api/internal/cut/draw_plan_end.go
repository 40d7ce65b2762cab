package cut

import (
	"math"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
)

// manyDrawn is how many billets are drawn with smooth rings: more would make too long a
// drawing.
const manyDrawn = 10

// endView draws the end grain of a length of a billet and returns where it ends.
func (g *planDrawing) endView(i int, s *lengthView, top float64) float64 {
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	e := &endGrain{d: g.d, outline: endOutline(b, s.from), many: len(g.told.Billets) > manyDrawn}
	width, near, far := e.outline[1].X, e.outline[3].Y, e.outline[2].Y
	thick := math.Max(near, far)
	e.scale = math.Min(g.frame.endWidth/width, g.frame.endHeight/thick)
	e.left = g.frame.endLeft
	caption := "end grain at " + g.length(s.from)
	if b.Pith != nil {
		caption += "; pith " + g.length(b.Pith.X) + " from the near edge, " + g.length(b.Pith.Z) + " below face 1"
	} else if b.RingAngle != nil {
		caption += "; rings at " + quantity.FormatNumber(b.RingAngle.Degrees(), 1) + " degrees"
	}
	y := top
	for _, line := range drawing.Wrapped(caption, planLabel, g.frame.endWidth+40) {
		y += 11
		g.d.Text(g.frame.left, y, planLabel, drawing.FromLeft, line)
	}
	y += 13
	e.top = y + 5
	e.polygon(paper)
	e.rings(b, ringArc)
	e.polygon(drawing.Thin)
	cuts := cutsOf(made)
	for _, n := range s.blanks {
		e.stack(&made.Blanks[n], cuts[n])
	}
	e.rips(b, made, s)
	e.zones(b, made, s)
	for c, n := range s.blanks {
		blank := &made.Blanks[n]
		e.numbers(blank, leafNumber)
		if label := drawing.ClippedTo(e.scale*float64(blank.Width), strings.Join(s.same[c], ", ")); label != "" {
			g.d.Text(e.x(blank.Y+blank.Width/2), y, planLabel, drawing.Centred, label)
		}
	}
	bottom := e.top + e.scale*thick
	g.dimension(e.left-8, e.top, e.top+e.scale*near, g.length(quantity.Length(near)))
	if math.Abs(near-far) > 1e-9 {
		g.dimension(e.left+e.scale*width+18, e.top, e.top+e.scale*far, g.length(quantity.Length(far)))
	}
	bottom += 12
	g.d.Line(e.left, bottom-5, e.left+e.scale*width, bottom-5, drawing.Thin)
	g.d.Text(e.left+e.scale*width/2, bottom+6, planLabel, drawing.Centred, g.length(quantity.Length(width)))
	return bottom + 14
}

// dimension draws an upright measure with its words left of the line, where it is
// long enough to hold them.
func (g *planDrawing) dimension(x, top, bottom float64, words string) {
	g.d.Line(x, top, x, bottom, drawing.Thin)
	g.d.Line(x-3, top, x+3, top, drawing.Thin)
	g.d.Line(x-3, bottom, x+3, bottom, drawing.Thin)
	if drawing.TextWidth(words, planLabel) <= bottom-top+8 {
		g.d.Upright(x-5, (top+bottom)/2, planLabel, words)
	}
}
