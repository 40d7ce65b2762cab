package mill

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
)

// Where the number of a billet may stand along its width, as shares from its middle, in the
// order in which they are tried. In a row of thin billets neighbours find other places.
var besides = [...]float64{0, 0.17, -0.17, 0.33, -0.33}

// numberGap is left beside a number, as a share of its size, so that two do not read as one.
const numberGap = 0.3

// number writes the number of the i-th billet, whose corners are drawn.
func (g *logDrawing) number(i int, points []drawing.Point) {
	b := &g.plan.Billets[i]
	words := strconv.Itoa(i + 1)
	room := g.scale * math.Min(float64(b.Width), float64(b.Thickness+b.FarThickness)/2)
	size := math.Max(math.Min(g.frame.text, 0.8*room), g.frame.least)
	// towards the thick edge of a wedge there is more room
	lean := -0.15 * float64((b.Thickness-b.FarThickness)/(b.Thickness+b.FarThickness))
	for _, share := range besides {
		middle := along(points, 0.5+lean+share)
		at := drawing.TextBox(middle.X, middle.Y+0.35*size, size, drawing.Centred, words)
		gap := numberGap * size
		if !g.taken.Take(drawing.Box{Left: at.Left - gap, Top: at.Top, Right: at.Right + gap, Bottom: at.Bottom}) {
			continue
		}
		g.later = append(g.later, func() {
			if !inside(points, at) { // it stands on a ground of its own
				g.d.Rectangle(at.Left-1, at.Top, at.Right-at.Left+2, at.Bottom-at.Top-1, `fill="#fff" stroke="none"`)
			}
			g.d.Text(middle.X, middle.Y+0.35*size, size, drawing.Centred, words)
		})
		return
	}
	g.nameless = true
}

// along is the place at a share of the way from the near edge to the far one, in the middle of
// the thickness.
func along(p []drawing.Point, share float64) drawing.Point {
	from, to := drawing.At((p[0].X+p[3].X)/2, (p[0].Y+p[3].Y)/2), drawing.At((p[1].X+p[2].X)/2, (p[1].Y+p[2].Y)/2)
	return drawing.At(from.X+share*(to.X-from.X), from.Y+share*(to.Y-from.Y))
}

// inside reports whether a box lies within a convex outline.
func inside(p []drawing.Point, b drawing.Box) bool {
	for _, c := range [...]drawing.Point{drawing.At(b.Left, b.Top), drawing.At(b.Right, b.Top), drawing.At(b.Left, b.Bottom), drawing.At(b.Right, b.Bottom)} {
		left, right := false, false
		for i := range p {
			q := p[(i+1)%len(p)]
			side := (q.X-p[i].X)*(c.Y-p[i].Y) - (q.Y-p[i].Y)*(c.X-p[i].X)
			left, right = left || side > 0, right || side < 0
		}
		if left && right {
			return false
		}
	}
	return true
}
