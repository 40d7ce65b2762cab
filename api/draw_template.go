package api

import (
	"math"

	"latewood/woodphys/resaw"
)

// Frame of a template, in millimetres.
const (
	templateMargin = 12.0
	templateText   = 3.2
	checkBar       = 100.0
)

// template draws the start end of one billet at true scale, with every resaw cut
// of its first length, to be pasted on the wood. All units are millimetres.
func (g *planDrawing) template() []byte {
	i := 0
	if n := g.p.req.Template; n != nil {
		i = *n - 1
	}
	b, plan := &g.p.asked.Billets[i], &g.plan.Billets[i]
	outline := endOutline(b, 0)
	width, thick := 1000*outline[1].x, 1000*math.Max(outline[2].y, outline[3].y)
	d := &drawing{width: math.Ceil(math.Max(width, checkBar) + 2*templateMargin), title: "End template of " + b.Name,
		about: "The start end of the billet at true scale with its resaw cuts; check the bar of 100 mm after printing"}
	y := templateMargin
	write := func(words string) {
		for _, line := range wrapped(words, templateText, d.width-2*templateMargin) {
			d.text(templateMargin, y, templateText, fromLeft, line)
			y += 1.4 * templateText
		}
	}
	write(b.Name + ": start end at true scale, face 1 up, near edge on the left, as seen from the start")
	if g.p.req.Date != "" {
		write(g.p.req.Date)
	}
	y += 2
	d.rectangle(templateMargin, y, checkBar, 2, `fill="#000" stroke="none"`)
	y += 2 + 1.4*templateText
	write("this bar is 100 mm long; if it is not, print again without scaling")
	sections := sectionsOf(plan)
	if len(sections) > 0 {
		first := &sections[0]
		for k := range sections { // the one nearest to the start
			if sections[k].from < first.from {
				first = &sections[k]
			}
		}
		write("cuts of the length from " + g.length(first.from) + " to " + g.length(first.to) + "; black is kerf (" + g.length(g.p.asked.Saws[g.plan.Saw].Resaw) +
			"), and the space above the first leaf is planed off")
		y += 6
		e := &endGrain{d: d, left: templateMargin, top: y, scale: 1000, outline: outline}
		g.templateEnd(e, b, plan, first)
	} else {
		write("no part fits; the billet stays whole")
		y += 6
		e := &endGrain{d: d, left: templateMargin, top: y, scale: 1000, outline: outline}
		e.polygon(hairline)
	}
	d.height = math.Ceil(y + thick + templateMargin)
	d.size = `width="` + coordinate(d.width) + `mm" height="` + coordinate(d.height) + `mm"`
	return d.bytes()
}

// Lines of a template, in millimetres.
const (
	hairline     = `stroke="#000" stroke-width="0.15" fill="none"`
	templateRing = `stroke="#aaa" stroke-width="0.1" fill="none"`
)

func (g *planDrawing) templateEnd(e *endGrain, b *resaw.Billet, plan *resaw.BilletPlan, s *lengthView) {
	e.rings(b, templateRing)
	e.polygon(hairline)
	cuts := cutsOf(plan)
	for c, n := range s.blanks {
		k := &plan.Blanks[n]
		left, width := e.x(k.Y), e.scale*float64(k.Width)
		for _, l := range k.Leaves {
			e.d.rectangle(left, e.y(k.Face1+l.From), width, e.scale*float64(l.To-l.From), hairline)
		}
		for _, cut := range cuts[n] {
			e.d.rectangle(left, e.y(k.Face1+cut.At), width, e.scale*float64(cut.Kerf), sawdust)
		}
		e.numbers(k, 2.4)
		if label := s.same[c][0]; textWidth(label, templateText) <= width {
			e.d.text(e.x(k.Y+k.Width/2), e.y(0)-1.5, templateText, centred, label)
		}
	}
	if p := b.Pith; p != nil && e.holds(float64(p.X), float64(p.Z)) {
		x, y := e.x(p.X), e.y(p.Z)
		e.d.line(x-2, y, x+2, y, hairline)
		e.d.line(x, y-2, x, y+2, hairline)
	}
}
