package cut

import (
	"math"
	"strconv"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/woodphys/resaw/plan"
)

// Frame of a template, in millimetres.
const (
	templateText = 3.2
	checkBar     = 100.0
	checkBarInch = 101.6 // 4 in
	longestBar   = checkBarInch
)

// Margins of a template by itself, and of one that is printed on pages with margins.
const (
	templateMargin = 12.0
	printedMargin  = 1.0
)

// bar is the length by which the scale of a print is checked.
func (g *planDrawing) bar() (length float64, words string) {
	if g.report.LengthUnit == "in" {
		return checkBarInch, "4 in"
	}
	return checkBar, "100 mm"
}

// templateWith draws the ends of one billet at true scale: of each length that is
// crosscut from it the end towards the start, with every rip and resaw cut, to be
// pasted on the wood. All units are millimetres.
func (g *planDrawing) templateWith(margin float64) *drawing.Sheet {
	i := g.templateOf
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	lengths := lengthsOf(made)
	wide := 1000 * float64(widest(b))
	t := &templateSheet{d: &drawing.Sheet{Width: math.Ceil(math.Max(wide, longestBar) + 2*margin),
		Title: "End templates of " + b.Name,
		About: "The end of each length of the billet at true scale with its cuts; check the bar after printing"},
		margin: margin, y: math.Max(margin, 1.2*templateText)}
	t.write(b.Name + ": ends at true scale, face 1 up, near edge on the left, as seen from the start")
	if g.date != "" {
		t.write(g.date)
	}
	bar, long := g.bar()
	t.bar(bar, "this bar is "+long+" long; if it is not, print again without scaling")
	if len(lengths) == 0 {
		t.write(g.whyWhole())
		t.y += 6
		e := &endGrain{d: t.d, left: margin, top: t.y, scale: 1000, outline: endOutline(b, 0)}
		e.polygon(hairline)
		t.y = e.foot()
	} else {
		t.write("black is kerf (resawing " + g.length(g.asked.Saws[g.told.Saw].Resaw) +
			"), and the space above the first leaf is planed off; each end is that of its length once it is crosscut")
	}
	for k := range lengths {
		s := &lengths[k]
		t.y += 4
		t.write("length " + strconv.Itoa(k+1) + " of " + strconv.Itoa(len(lengths)) + ": end at " + g.length(s.from) +
			" from the start, reaches to " + g.length(s.to) + "; blanks " + namesOf(s.blanks))
		t.y += 4
		e := &endGrain{d: t.d, left: margin, top: t.y, scale: 1000, outline: endOutline(b, s.from)}
		g.templateEnd(e, b, made, s)
		t.y = e.foot() + 1.4*templateText
	}
	t.d.Height = math.Ceil(t.y + margin)
	t.d.Size = `width="` + drawing.Coordinate(t.d.Width) + `mm" height="` + drawing.Coordinate(t.d.Height) + `mm"`
	return t.d
}

// templateSheet is a template that grows downwards.
type templateSheet struct {
	d      *drawing.Sheet
	margin float64
	y      float64 // where the next thing goes
}

func (t *templateSheet) write(words string) {
	for _, line := range drawing.Wrapped(words, templateText, t.d.Width-2*t.margin) {
		t.d.Text(t.margin, t.y, templateText, drawing.FromLeft, line)
		t.y += 1.4 * templateText
	}
}

// bar is one to hold a rule against.
func (t *templateSheet) bar(length float64, words string) {
	t.d.Rectangle(t.margin, t.y, length, 2, sawdust)
	t.y += 2 + 1.4*templateText
	t.write(words)
}

// namesOf are the letters of blanks.
func namesOf(blanks []int) string {
	var all []string
	for _, n := range blanks {
		all = append(all, plan.Letters(n))
	}
	return strings.Join(all, ", ")
}

// Lines of a template, in millimetres.
const (
	hairline     = `stroke="#000" stroke-width="0.15" fill="none"`
	templateRing = `stroke="#aaa" stroke-width="0.1" fill="none"`
)

func (g *planDrawing) templateEnd(e *endGrain, b *plan.Billet, made *plan.BilletPlan, s *lengthView) {
	e.rings(b, templateRing)
	e.polygon(hairline)
	cuts := cutsOf(made)
	for _, n := range s.blanks {
		k := &made.Blanks[n]
		left, width := e.x(k.Y), e.scale*float64(k.Width)
		if k.Split {
			e.wedge(k, hairline)
		}
		for _, l := range k.Leaves {
			if k.Split {
				break
			}
			e.d.Rectangle(left, e.y(k.Face1+l.From), width, e.scale*float64(l.To-l.From), hairline)
		}
		for _, cut := range cuts[n] {
			if k.Split {
				break
			}
			e.d.Rectangle(left, e.y(k.Face1+cut.At), width, e.scale*float64(cut.Kerf), sawdust)
		}
		e.numbers(k, 2.4)
		if label := plan.Letters(n); drawing.TextWidth(label, templateText) <= width {
			e.d.Text(e.x(k.Y+k.Width/2), e.y(0)-1.5, templateText, drawing.Centred, label)
		}
	}
	e.rips(b, made, s)
	if p := b.Pith; p != nil && e.holds(float64(p.X), float64(p.Z)) {
		x, y := e.x(p.X), e.y(p.Z)
		e.d.Line(x-2, y, x+2, y, hairline)
		e.d.Line(x, y-2, x, y+2, hairline)
	}
}
