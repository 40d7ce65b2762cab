package cut

import (
	"math"
	"slices"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
)

// A billet that stands on its start is drawn so high, in px; higher, up to the most, where it
// would come out narrower than it can be read.
const (
	standsHigh, standsMost = 520.0, 900.0
	standsWide             = 72.0
	leader                 = 18.0 // from the wood to a number or a name beside it
)

// aboveStanding draws the view of face 1 for a narrow screen: the billet stands on its start, the
// near edge on the left as in the views of its end. Places along it stand on the left, names of
// zones on the right, places across it below.
func (g *planDrawing) aboveStanding(i int, top float64) float64 {
	b, f := &g.asked.Billets[i], &g.frame
	for _, line := range f.lines("face 1 from above; the start is below, the near edge on the left", f.label, f.right-f.left) {
		top += f.row
		g.d.Text(f.left, top, f.label, drawing.FromLeft, line)
	}
	along := g.edgesAlong(i)
	slices.Reverse(along) // from above
	numbers, names := 0.0, 0.0
	for _, l := range along {
		numbers = math.Max(numbers, drawing.TextWidth(g.number(l), f.label))
	}
	for _, z := range b.Zones {
		names = math.Max(names, math.Min(drawing.TextWidth(z.Kind, f.label), (f.right-f.left)/4)+leader)
	}
	v := &faceView{left: f.left + numbers + leader, top: top + 12, long: b.Length, stands: true}
	long, wide := float64(b.Length), float64(widest(b))
	v.scale = math.Min((f.right-names-v.left)/wide, math.Max(standsHigh/long, math.Min(standsMost/long, standsWide/wide)))
	g.wood(i, v)
	y := func(l quantity.Length) float64 { return v.at(l, 0).Y }
	end, all := g.beside(along, v.left, y, v.top, y(0))
	named := g.zonesBeside(i, v)
	foot, every := g.below(g.edgesAcross(i), func(l quantity.Length) float64 { return v.at(0, l).X }, math.Max(y(0), end), f.left)
	words := "on the left from the start, and below from the near edge (" + g.report.LengthUnit + ")"
	return g.viewInWords(i, words, foot, f.left, all && named && every)
}

// zonesBeside names the zones right of the wood, and reports whether all are named.
func (g *planDrawing) zonesBeside(i int, v *faceView) bool {
	b, f := &g.asked.Billets[i], &g.frame
	var names []marked
	for _, z := range b.Zones {
		names = append(names, marked{v.at((max(0, z.X0)+min(b.Length, z.X1))/2, 0).Y, z.Kind})
	}
	slices.SortFunc(names, byPlace)
	all := len(names) <= mostAcross
	names = names[:min(len(names), mostAcross)]
	at := make([]float64, len(names))
	for n := range names {
		at[n] = names[n].at
	}
	x := v.left + v.scale*float64(widest(b))
	for n, y := range drawing.Spread(at, 1.2*f.label, v.top, v.at(0, 0).Y) {
		g.d.Line(x, at[n], x+leader-4, y, drawing.Faint)
		g.d.TextWithin(x+leader, y+f.label/3, f.label, drawing.FromLeft, f.right-x-leader, names[n].words)
	}
	return all
}
