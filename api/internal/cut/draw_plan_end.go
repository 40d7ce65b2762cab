package cut

import (
	"math"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// manyDrawn is how many billets are drawn with smooth rings: more would make too long a
// drawing.
const manyDrawn = 10

// endView draws the end grain of a length of a billet and returns where it ends.
func (g *planDrawing) endView(i int, s *lengthView, top float64) float64 {
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	e := &endGrain{d: g.d, outline: endOutline(b, s.from), many: len(g.told.Billets) > manyDrawn}
	if g.frame.shown {
		e.taken = &drawing.Taken{}
	}
	width, near, far := e.outline[1].X, e.outline[3].Y, e.outline[2].Y
	thick := math.Max(near, far)
	e.scale = math.Min(g.frame.endWidth/width, g.frame.endHeight/thick)
	e.left = g.frame.endLeft
	caption := "end grain at " + g.length(s.from)
	if b.Pith != nil {
		caption += "; " + pithPlace(*b.Pith, g.length)
	} else if b.RingAngle != nil {
		caption += "; rings at " + quantity.FormatNumber(b.RingAngle.Degrees(), 1) + " degrees"
	}
	y := top
	for _, line := range g.frame.lines(caption, g.frame.label, g.captionRoom()) {
		y += g.frame.row
		g.d.Text(g.frame.left, y, g.frame.label, drawing.FromLeft, line)
	}
	y += g.frame.row + 2
	e.top = y + g.frame.over
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
		e.numbers(blank, g.frame.leaf)
		g.blankOverEnd(e.x(blank.Y+blank.Width/2), y, e.scale*float64(blank.Width), strings.Join(s.same[c], ", "))
	}
	bottom := e.top + e.scale*thick
	told := g.length(quantity.Length(width))
	if !g.dimension(e.left-8, e.top, e.top+e.scale*near, g.length(quantity.Length(near))) && g.frame.shown {
		told += ", near edge " + g.length(quantity.Length(near))
	}
	if math.Abs(near-far) > 1e-9 {
		if !g.dimension(e.left+e.scale*width+18, e.top, e.top+e.scale*far, g.length(quantity.Length(far))) && g.frame.shown {
			told += ", far edge " + g.length(quantity.Length(far))
		}
	}
	bottom += 12
	g.d.Line(e.left, bottom-5, e.left+e.scale*width, bottom-5, drawing.Thin)
	if middle, half := e.left+e.scale*width/2, drawing.TextWidth(told, g.frame.label)/2; !g.frame.shown ||
		middle-half >= g.frame.left && middle+half <= g.frame.right {
		g.d.Text(middle, bottom+6, g.frame.label, drawing.Centred, told)
	} else {
		g.d.Text(g.frame.left, bottom+6, g.frame.label, drawing.FromLeft, told)
	}
	return bottom + 14
}

// captionRoom is how wide lines about an end get.
func (g *planDrawing) captionRoom() float64 {
	if g.frame.shown {
		return g.frame.right - g.frame.left
	}
	return g.frame.endWidth + 40
}

// blankOverEnd names the blanks of a column of an end as far as there is room.
func (g *planDrawing) blankOverEnd(x, y, room float64, names string) {
	if g.frame.shown {
		g.d.TextWithin(x, y, g.frame.label, drawing.Centred, room, names)
		return
	}
	if label := drawing.ClippedTo(room, names); label != "" {
		g.d.Text(x, y, g.frame.label, drawing.Centred, label)
	}
}

// dimension draws an upright measure with its words left of the line, where it is
// long enough to hold them; it reports whether it does.
func (g *planDrawing) dimension(x, top, bottom float64, words string) (told bool) {
	g.d.Line(x, top, x, bottom, drawing.Thin)
	g.d.Line(x-3, top, x+3, top, drawing.Thin)
	g.d.Line(x-3, bottom, x+3, bottom, drawing.Thin)
	if drawing.TextWidth(words, g.frame.label) > bottom-top+8 {
		return false
	}
	g.d.Upright(x-5, (top+bottom)/2, g.frame.label, words)
	return true
}

// pithPlace says where the pith lies, as it is found on a bench: outside the wood too.
func pithPlace(p resaw.Point, said func(quantity.Length) string) string {
	across, deep := said(p.X)+" from the near edge", said(p.Z)+" below face 1"
	if p.X < 0 {
		across = said(-p.X) + " outside the near edge"
	}
	if p.Z < 0 {
		deep = said(-p.Z) + " above face 1"
	}
	return "pith " + across + ", " + deep
}
