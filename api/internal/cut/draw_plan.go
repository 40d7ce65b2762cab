package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
)

func (g *planDrawing) sheet() []byte {
	g.d = &drawing.Sheet{Width: planSheet, Title: "Cutting plan: " + g.summary,
		About: "Of every billet the end grain with its leaves numbered from face 1, and the view from above with " +
			"its cuts"}
	g.y = 28
	g.d.Text(planLeft, g.y, 15, drawing.FromLeft, "Cutting plan")
	g.y += 4
	g.words(g.summary, drawing.BodyText)
	for i := range g.told.Billets {
		g.billet(i)
	}
	g.titleBlock()
	g.d.Height = math.Ceil(g.y + 10)
	g.d.Size = `width="` + drawing.Coordinate(planSheet) + `" height="` + drawing.Coordinate(g.d.Height) + `"`
	return g.d.SVG()
}

func (g *planDrawing) billet(i int) {
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	g.y += 14
	g.d.Line(planLeft, g.y, planRight, g.y, drawing.Thin)
	about := b.Name + ": " + g.sizes(b)
	if w := g.woods[i]; w != "" {
		about += ", " + w
	}
	about += "; worth " + strconv.FormatInt(made.Worth, 10) + ", " + wire.CountOf(made.Cuts, "cut")
	g.y += 6
	g.words(about, 12)
	top := g.y + 12
	left, right := top, g.above(i, top)
	for _, s := range sectionsOf(made) {
		left = g.endView(i, &s, left)
	}
	g.y = math.Max(left, right) + 4
	g.leavesInWords(made)
}
