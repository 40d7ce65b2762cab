package cut

import (
	"math"
	"slices"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// marked is a label with the place it belongs to.
type marked struct {
	at    float64
	words string
}

// inRows spreads labels over as few rows as keep them apart; -1 for those that
// find no room in the rows allowed.
func inRows(all []marked, size, left, right float64, most int) []int {
	rows := make([]int, len(all))
	ends := []float64{}
	for i, m := range all {
		half := drawing.TextWidth(m.words, size)/2 + 2
		rows[i] = -1
		if m.at-half < left || m.at+half > right {
			continue
		}
		for r := 0; r < most; r++ {
			if r == len(ends) {
				ends = append(ends, math.Inf(-1))
			}
			if m.at-half >= ends[r] {
				rows[i], ends[r] = r, m.at+half
				break
			}
		}
	}
	return rows
}

// faceView places face 1 of a billet on the sheet: lying, with its start on the left and the near
// edge above, or standing on its start, with the near edge on the left.
type faceView struct {
	left, top float64
	scale     float64 // units for a metre
	long      quantity.Length
	stands    bool
}

// at is a place from the start and from the near edge.
func (v *faceView) at(x, y quantity.Length) drawing.Point {
	if v.stands {
		return drawing.At(v.left+v.scale*float64(y), v.top+v.scale*float64(v.long-x))
	}
	return drawing.At(v.left+v.scale*float64(x), v.top+v.scale*float64(y))
}

// box is where a piece of a length and a width lies.
func (v *faceView) box(x, y, long, wide quantity.Length) (left, top, width, height float64) {
	if v.stands {
		corner := v.at(x+long, y)
		return corner.X, corner.Y, v.scale * float64(wide), v.scale * float64(long)
	}
	corner := v.at(x, y)
	return corner.X, corner.Y, v.scale * float64(long), v.scale * float64(wide)
}

// above draws the view of face 1 from above and returns where it ends: trims,
// blanks, zones, and where the cuts lie.
func (g *planDrawing) above(i int, top float64) float64 {
	if g.frame.stands {
		return g.aboveStanding(i, top)
	}
	b := &g.asked.Billets[i]
	widest := widest(b)
	scale := math.Min(g.frame.aboveWidth/float64(b.Length), g.frame.aboveHeight/float64(widest))
	v := &faceView{left: g.frame.aboveLeft, scale: scale, long: b.Length}
	x := func(l quantity.Length) float64 { return v.at(l, 0).X }

	// Zones are named above the wood.
	var names []marked
	for _, z := range b.Zones {
		names = append(names, marked{x((max(0, z.X0) + min(b.Length, z.X1)) / 2), z.Kind})
	}
	slices.SortFunc(names, byPlace)
	const most = 4
	rows := inRows(names, g.frame.label, g.frame.aboveLeft-60, g.frame.right, most)
	g.d.Text(g.frame.aboveLeft, top+g.frame.row, g.frame.label, drawing.FromLeft, "face 1 from above; the start is on the left")
	v.top = top + 2*g.frame.row + 2
	for _, r := range rows {
		v.top = math.Max(v.top, top+2*g.frame.row+2+g.frame.row*float64(r+1))
	}
	for n, m := range names {
		if rows[n] < 0 {
			continue
		}
		base := v.top - 5 - g.frame.row*float64(rows[n])
		g.d.Text(m.at, base, g.frame.label, drawing.Centred, m.words)
		if rows[n] == 0 {
			g.d.Line(m.at, base+2, m.at, v.top, drawing.Faint)
		}
	}
	g.wood(i, v)
	y := func(l quantity.Length) float64 { return v.at(0, l).Y }
	bottom := y(widest)
	end, all := g.beside(g.edgesAcross(i), x(0), y, y(0), bottom)
	named := !slices.Contains(rows, -1)
	foot, every := g.below(g.edgesAlong(i), x, bottom, g.frame.aboveLeft-40)
	words := "from the start, and on the left from the near edge (" + g.report.LengthUnit + ")"
	return math.Max(end+12, g.viewInWords(i, words, foot, g.frame.aboveLeft, all && named && every))
}

// wood draws face 1 with what of it is trimmed off, the blanks and the zones.
func (g *planDrawing) wood(i int, v *faceView) {
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	wide := b.Width
	if b.WidthEnd != nil {
		wide = *b.WidthEnd
	}
	face := []drawing.Point{v.at(0, 0), v.at(b.Length, 0), v.at(b.Length, wide), v.at(0, b.Width)}
	g.d.Polygon(face, trimmed)
	at := func(l quantity.Length) quantity.Length { return b.Width + (wide-b.Width)*l/b.Length }
	if from, to := b.TrimStart, b.Length-b.TrimEnd; to > from {
		g.d.Polygon([]drawing.Point{v.at(from, 0), v.at(to, 0), v.at(to, at(to)), v.at(from, at(from))}, paper)
	}
	g.d.Polygon(face, drawing.Thin)
	for n := range made.Blanks {
		k := &made.Blanks[n]
		left, top, width, height := v.box(k.X, k.Y, k.Length, k.Width)
		g.d.Rectangle(left, top, width, height, blankIn)
		g.blankLabel(i, n, left, top, width, height)
	}
	widest := widest(b)
	for _, z := range b.Zones {
		p, q := v.at(max(0, z.X0), max(0, z.Y0)), v.at(min(b.Length, z.X1), min(widest, z.Y1))
		if v.stands {
			p.Y, q.Y = q.Y, p.Y
		}
		if q.X > p.X && q.Y > p.Y {
			g.d.Rectangle(p.X, p.Y, q.X-p.X, q.Y-p.Y, fault)
		}
	}
}

func byPlace(a, b marked) int {
	switch {
	case a.at < b.at:
		return -1
	case a.at > b.at:
		return 1
	}
	return 0
}

// blankLabel names a blank, as far as there is room.
func (g *planDrawing) blankLabel(i, n int, x, y, width, height float64) {
	k := &g.told.Billets[i].Blanks[n]
	lines := []string{plan.Letters(n), g.length(k.Length) + " x " + g.length(k.Width),
		wire.CountOf(len(k.Leaves), "piece")}
	// Sizes stand in the list below; a label that would touch the rim is left away.
	for len(lines) > 1 && (height < g.frame.row*float64(len(lines))+2 ||
		drawing.TextWidth(lines[len(lines)-1], g.frame.label)+8 > width ||
		drawing.TextWidth(lines[1], g.frame.label)+8 > width) {
		lines = lines[:len(lines)-1]
	}
	if height < g.frame.row+2 {
		lines = nil
	}
	for l, words := range lines {
		wide := drawing.TextWidth(words, g.frame.label) + 2
		if wide > width-2 {
			continue
		}
		base := y + height/2 + g.frame.label*3/10 + g.frame.row*(float64(l)-float64(len(lines)-1)/2)
		g.d.Rectangle(x+width/2-wide/2, base-g.frame.label*8/10, wide, g.frame.label, paper)
		g.d.Text(x+width/2, base, g.frame.label, drawing.Centred, words)
	}
}

func samePlace(a, b quantity.Length) bool { return max(a-b, b-a) < wire.ANanometre }

// mostAcross bounds the places written across the width.
const mostAcross = 24

// edgesAcross are the places across the width at which blanks begin and end, in order.
func (g *planDrawing) edgesAcross(i int) []quantity.Length {
	var places []quantity.Length
	for n := range g.told.Billets[i].Blanks {
		k := &g.told.Billets[i].Blanks[n]
		places = append(places, k.Y, k.Y+k.Width)
	}
	slices.Sort(places)
	return slices.CompactFunc(places, samePlace)
}

// edgesAlong are those along the billet, with its ends.
func (g *planDrawing) edgesAlong(i int) []quantity.Length {
	places := []quantity.Length{0, g.asked.Billets[i].Length}
	for n := range g.told.Billets[i].Blanks {
		k := &g.told.Billets[i].Blanks[n]
		places = append(places, k.X, k.X+k.Length)
	}
	slices.Sort(places)
	return slices.CompactFunc(places, samePlace)
}

// beside writes places left of the wood, in their order from above. Labels that would
// crowd are moved apart and led to their places. It returns where they end and whether all are
// written.
func (g *planDrawing) beside(places []quantity.Length, x float64, y func(quantity.Length) float64, top, bottom float64,
) (end float64, all bool) {
	pitch := g.frame.label * 12 / 10
	all = true
	if len(places) > mostAcross { // those that do not crowd
		var some []quantity.Length
		last := math.Inf(-1)
		for _, l := range places {
			if y(l)-last >= pitch {
				some, last = append(some, l), y(l)
			}
		}
		all, places = len(some) == len(places), some
	}
	at := make([]float64, len(places))
	for n, l := range places {
		at[n] = y(l)
	}
	labels := drawing.Spread(at, pitch, top, bottom)
	end = bottom
	for n, l := range places {
		g.d.Line(x-3, at[n], x, at[n], drawing.Thin)
		g.d.Line(x-13, labels[n], x-3, at[n], drawing.Thin)
		g.d.Text(x-15, labels[n]+g.frame.label/3, g.frame.label, drawing.FromRight, g.number(l))
		end = math.Max(end, labels[n])
	}
	return end, all
}

// below writes places below the wood, in as few rows as keep them apart, and returns where the
// next line stands and whether all are written.
func (g *planDrawing) below(places []quantity.Length, x func(quantity.Length) float64, bottom, left float64) (foot float64, all bool) {
	labels := make([]marked, 0, len(places))
	for _, l := range places {
		labels = append(labels, marked{x(l), g.number(l)})
	}
	const most = 5
	rows := inRows(labels, g.frame.label, left, g.frame.sheet-2, most)
	deepest, first := 0, bottom+g.frame.row+2
	all = true
	for n, r := range rows {
		if r < 0 {
			all = false
			continue
		}
		deepest = max(deepest, r)
		g.d.Line(labels[n].at, bottom, labels[n].at, bottom+4, drawing.Thin)
		g.d.Text(labels[n].at, first+g.frame.row*float64(r), g.frame.label, drawing.Centred, labels[n].words)
	}
	return first + g.frame.row*float64(deepest+1), all
}

// viewInWords says what the numbers about the view are, from a line on, and returns where the
// words end. whole says that everything about the view is written.
func (g *planDrawing) viewInWords(i int, words string, y, left float64, whole bool) float64 {
	words += "; " + wire.CountOf(len(g.told.Billets[i].Blanks), "blank")
	if !whole {
		words += "; not everything is named for want of room: the list below and the answer as JSON have it"
	}
	for _, line := range g.frame.lines(words, g.frame.label, g.frame.right-left) {
		g.d.Text(left, y, g.frame.label, drawing.FromLeft, line)
		y += g.frame.row
	}
	return y - 3
}
