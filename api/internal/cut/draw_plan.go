package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
)

// render gives the plan in a form: a drawing, a print of it, the plot of a face, templates,
// labels or the cut list.
func (g *planDrawing) render(name string) ([]byte, error) {
	switch name {
	case wire.TableForm.Name:
		return g.cutList(), wire.NoFormulas(g.names()...)
	case wire.PrintedForm.Name:
		return drawing.Flowed(g.sheet(paperFrame), g.paper)
	case wire.PlotForm.Name:
		return g.plot(), nil
	case wire.TemplateForm.Name:
		return g.templateWith(templateMargin).SVG(), nil
	case wire.PrintedTemplateForm.Name:
		length, words := g.bar()
		return drawing.Tiled(g.templateWith(printedMargin), g.paper, drawing.Bar{Length: length, Words: words})
	case wire.LabelsForm.Name:
		return g.labels()
	default:
		return g.sheet(wholeFrame).SVG(), nil
	}
}

// renderShown draws the plan for a screen that has so many px for it.
func (g *planDrawing) renderShown(width int) ([]byte, error) {
	return drawing.OnScreen(g.sheet(shownFrame(width)).SVG()), nil
}

func (g *planDrawing) sheet(frame planFrame) *drawing.Sheet {
	g.frame = frame
	g.d = &drawing.Sheet{Width: frame.sheet, Title: "Cutting plan: " + g.summary,
		About: "Of every billet the end grain with its leaves numbered from face 1, the view from above with " +
			"its cuts, and the steps"}
	g.y = 28
	g.d.Text(frame.left, g.y, 15, drawing.FromLeft, "Cutting plan")
	g.y += 4
	g.words(g.summary, frame.body)
	for i := range g.told.Billets {
		g.billet(i)
	}
	g.titleBlock()
	g.d.Height = math.Ceil(g.y + 10)
	g.d.Size = `width="` + drawing.Coordinate(frame.sheet) + `" height="` + drawing.Coordinate(g.d.Height) + `"`
	return g.d
}

func (g *planDrawing) billet(i int) {
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	g.y += 14
	g.d.MayBreak(g.y - 2)
	g.d.Line(g.frame.left, g.y, g.frame.right, g.y, drawing.Thin)
	about := b.Name + ": " + g.sizes(b)
	if w := g.woods[i]; w != "" {
		about += ", " + w
	}
	about += "; worth " + strconv.FormatInt(made.Worth, 10) + ", " + wire.CountOf(made.Cuts, "cut")
	g.y += 6
	g.words(about, g.frame.name)
	top := g.y + 12
	ends, above := top, g.above(i, top)
	if !g.frame.abreast() {
		ends = above + 8
	}
	for _, s := range sectionsOf(made) {
		if !g.frame.abreast() {
			g.d.MayBreak(ends - 2)
		}
		ends = g.endView(i, &s, ends)
	}
	g.y = math.Max(ends, above) + 4
	g.d.MayBreak(g.y)
	g.leavesInWords(made)
	g.steps(i)
}
