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

// above draws the view of face 1 from above and returns where it ends: trims,
// blanks, zones, and where the cuts lie.
func (g *planDrawing) above(i int, top float64) float64 {
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	widest := widest(b)
	scale := math.Min(g.frame.aboveWidth/float64(b.Length), g.frame.aboveHeight/float64(widest))
	x := func(l quantity.Length) float64 { return g.frame.aboveLeft + scale*float64(l) }

	// Zones are named above the wood.
	var names []marked
	for _, z := range b.Zones {
		names = append(names, marked{x((max(0, z.X0) + min(b.Length, z.X1)) / 2), z.Kind})
	}
	slices.SortFunc(names, byPlace)
	const most = 4
	rows := inRows(names, planLabel, g.frame.aboveLeft-60, g.frame.right, most)
	g.d.Text(g.frame.aboveLeft, top+11, planLabel, drawing.FromLeft, "face 1 from above; the start is on the left")
	wood := top + 24
	for _, r := range rows {
		wood = math.Max(wood, top+24+11*float64(r+1))
	}
	y := func(l quantity.Length) float64 { return wood + scale*float64(l) }
	for n, m := range names {
		if rows[n] < 0 {
			continue
		}
		base := wood - 5 - 11*float64(rows[n])
		g.d.Text(m.at, base, planLabel, drawing.Centred, m.words)
		if rows[n] == 0 {
			g.d.Line(m.at, base+2, m.at, wood, drawing.Faint)
		}
	}
	wide := b.Width
	if b.WidthEnd != nil {
		wide = *b.WidthEnd
	}
	g.d.Polygon([]drawing.Point{drawing.At(x(0), y(0)), drawing.At(x(b.Length), y(0)),
		drawing.At(x(b.Length), y(wide)), drawing.At(x(0), y(b.Width))}, trimmed)
	at := func(l quantity.Length) quantity.Length { return b.Width + (wide-b.Width)*l/b.Length }
	if from, to := b.TrimStart, b.Length-b.TrimEnd; to > from {
		g.d.Polygon([]drawing.Point{drawing.At(x(from), y(0)), drawing.At(x(to), y(0)), drawing.At(x(to), y(at(to))),
			drawing.At(x(from), y(at(from)))}, paper)
	}
	g.d.Polygon([]drawing.Point{drawing.At(x(0), y(0)), drawing.At(x(b.Length), y(0)),
		drawing.At(x(b.Length), y(wide)), drawing.At(x(0), y(b.Width))}, drawing.Thin)
	for n := range made.Blanks {
		k := &made.Blanks[n]
		g.d.Rectangle(x(k.X), y(k.Y), scale*float64(k.Length), scale*float64(k.Width), blankIn)
		g.blankLabel(i, n, x(k.X), y(k.Y), scale*float64(k.Length), scale*float64(k.Width))
	}
	for _, z := range b.Zones {
		x0, x1, y0, y1 := x(max(0, z.X0)), x(min(b.Length, z.X1)), y(max(0, z.Y0)), y(min(widest, z.Y1))
		if x1 > x0 && y1 > y0 {
			g.d.Rectangle(x0, y0, x1-x0, y1-y0, fault)
		}
	}
	bottom := y(widest)
	end, all := g.across(i, x(0), y, bottom)
	named := !slices.Contains(rows, -1)
	return math.Max(end+12, g.along(i, x, bottom, all && named))
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
	for len(lines) > 1 && (height < 11*float64(len(lines))+2 ||
		drawing.TextWidth(lines[len(lines)-1], planLabel)+8 > width ||
		drawing.TextWidth(lines[1], planLabel)+8 > width) {
		lines = lines[:len(lines)-1]
	}
	if height < 13 {
		lines = nil
	}
	for l, words := range lines {
		wide := drawing.TextWidth(words, planLabel) + 2
		if wide > width-2 {
			continue
		}
		base := y + height/2 + 0.3*planLabel + 11*(float64(l)-float64(len(lines)-1)/2)
		g.d.Rectangle(x+width/2-wide/2, base-0.8*planLabel, wide, planLabel, paper)
		g.d.Text(x+width/2, base, planLabel, drawing.Centred, words)
	}
}

func samePlace(a, b quantity.Length) bool { return max(a-b, b-a) < wire.ANanometre }

// mostAcross bounds the places written across the width.
const mostAcross = 24

// across writes where blanks begin and end across the width, left of the wood.
// Labels that would crowd are moved apart and led to their places. It returns
// where they end and whether all are written.
func (g *planDrawing) across(i int, x float64, y func(quantity.Length) float64, bottom float64,
) (end float64, all bool) {
	var places []quantity.Length
	for n := range g.told.Billets[i].Blanks {
		k := &g.told.Billets[i].Blanks[n]
		places = append(places, k.Y, k.Y+k.Width)
	}
	slices.Sort(places)
	places = slices.CompactFunc(places, samePlace)
	const pitch = planLabel * 1.2
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
	labels := drawing.Spread(at, pitch, y(0), bottom)
	end = bottom
	for n, l := range places {
		g.d.Line(x-3, at[n], x, at[n], drawing.Thin)
		g.d.Line(x-13, labels[n], x-3, at[n], drawing.Thin)
		g.d.Text(x-15, labels[n]+3, planLabel, drawing.FromRight, g.number(l))
		end = math.Max(end, labels[n])
	}
	return end, all
}

// along writes where blanks begin and end along the billet, below the wood, and
// returns where the words end.
// whole says that everything else about the view is written.
func (g *planDrawing) along(i int, x func(quantity.Length) float64, bottom float64, whole bool) float64 {
	b := &g.asked.Billets[i]
	all := []quantity.Length{0, b.Length}
	for n := range g.told.Billets[i].Blanks {
		k := &g.told.Billets[i].Blanks[n]
		all = append(all, k.X, k.X+k.Length)
	}
	slices.Sort(all)
	var labels []marked
	for _, l := range slices.CompactFunc(all, samePlace) {
		labels = append(labels, marked{x(l), g.number(l)})
	}
	const most = 5
	rows := inRows(labels, planLabel, g.frame.aboveLeft-40, g.frame.sheet-2, most)
	deepest := 0
	for n, r := range rows {
		if r < 0 {
			whole = false
			continue
		}
		deepest = max(deepest, r)
		g.d.Line(labels[n].at, bottom, labels[n].at, bottom+4, drawing.Thin)
		g.d.Text(labels[n].at, bottom+13+11*float64(r), planLabel, drawing.Centred, labels[n].words)
	}
	y := bottom + 13 + 11*float64(deepest+1)
	words := "from the start, and on the left from the near edge (" + g.report.LengthUnit + "); " +
		wire.CountOf(len(g.told.Billets[i].Blanks), "blank")
	if !whole {
		words += "; not everything is named for want of room: the list below and the answer as JSON have it"
	}
	for _, line := range drawing.Wrapped(words, planLabel, g.frame.right-g.frame.aboveLeft) {
		g.d.Text(g.frame.aboveLeft, y, planLabel, drawing.FromLeft, line)
		y += 11
	}
	return y - 3
}
