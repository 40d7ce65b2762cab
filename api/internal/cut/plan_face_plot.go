package cut

import (
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// Layers of the plot of a face.
const (
	layerWood     = "WOOD"
	layerCrosscut = "CROSSCUT"
	layerRip      = "RIP"
	layerZone     = "ZONE"
	layerName     = "NAME"
	layerNote     = "NOTE"
)

// facePlot places the face of a billet on a plot: x along it from its start, y up, so that
// the wood is seen from above with its near edge on top, as in the drawing.
type facePlot struct {
	p     *drawing.Plot
	wide  quantity.Length
	unit  string
	taken drawing.Taken // by notes, in metres from the start and from the near edge
}

func (f *facePlot) size(l quantity.Length) float64 {
	v, _ := l.In(f.unit)
	return v
}

func (f *facePlot) at(x, y quantity.Length) drawing.Point {
	return drawing.At(f.size(x), f.size(f.wide-y))
}

// plot draws face 1 of the billet that the request names, for machines: the wood, each
// crosscut and rip as the two sides of its kerf, zones, and the names of blanks.
func (g *planDrawing) plot() []byte {
	i := g.templateOf
	b, made := &g.asked.Billets[i], &g.told.Billets[i]
	f := &facePlot{p: &drawing.Plot{Unit: g.report.LengthUnit}, wide: widest(b), unit: g.report.LengthUnit}
	wide := b.Width
	if b.WidthEnd != nil {
		wide = *b.WidthEnd
	}
	f.p.Outline(layerWood, f.at(0, 0), f.at(b.Length, 0), f.at(b.Length, wide), f.at(0, b.Width))
	for n := range made.Steps {
		f.kerf(made, n)
	}
	for n := range b.Zones {
		z := &b.Zones[n]
		f.p.Outline(layerZone, f.at(z.X0, z.Y0), f.at(z.X1, z.Y0), f.at(z.X1, z.Y1), f.at(z.X0, z.Y1))
		f.note(z.Kind, z.X0, z.Y1, 0, plotText)
	}
	for n := range made.Blanks {
		k := &made.Blanks[n]
		f.p.Text(layerName, f.at(k.X+k.Length/2, k.Y+k.Width/2), f.size(min(2*plotText, k.Width/2)), plan.Letters(n))
	}
	// The circle marks the corner that is the origin of the billet.
	f.p.Circle(layerNote, f.at(0, 0), f.size(plotText/2))
	for n, line := range []string{b.Name + ": face 1 from above, unit " + f.unit, "circle: the corner of start and near edge",
		"lines on CROSSCUT and RIP: both sides of each kerf,", "with the number of the step; cuts follow in that order"} {
		f.p.Text(layerNote, f.at(0, f.wide+plotText*quantity.Length(3+1.5*float64(n))), f.size(plotText), line)
	}
	return f.p.DXF()
}

// plotText is how high words of a plot are.
const plotText = 8 * quantity.Millimetre

// note writes words that begin at a place, or a few steps further, where no other note stands.
func (f *facePlot) note(words string, x, y, stepX, stepY quantity.Length) {
	const most = 12 // steps
	for n := range most {
		left, foot := x+quantity.Length(n)*stepX, y+quantity.Length(n)*stepY
		box := drawing.Box{Left: float64(left - plotText/2), Top: float64(foot - plotText),
			Right: float64(left) + float64(plotText)*(float64(len(words))+0.5), Bottom: float64(foot)}
		if f.taken.Take(box) || n == most-1 {
			f.p.Text(layerNote, f.at(left, foot), f.size(plotText), words)
			return
		}
	}
}

// kerf draws both sides of the kerf of a step across its piece, with the number of the step.
func (f *facePlot) kerf(made *plan.BilletPlan, n int) {
	s := &made.Steps[n]
	if !isRough(made, s) { // leaves are parted below the face
		return
	}
	at, to := s.At, s.At+s.Kerf
	piece := &made.Places[s.Piece]
	switch s.Action {
	case plan.Crosscut, plan.Trim:
		for _, x := range []quantity.Length{at, to} {
			f.p.Line(layerCrosscut, f.at(x, piece.Y0), f.at(x, piece.Y1))
		}
		f.note(strconv.Itoa(n+1), to, piece.Y1-plotText, 0, -plotText)
	case plan.Rip:
		for _, y := range []quantity.Length{at, to} {
			f.p.Line(layerRip, f.at(piece.X0, y), f.at(piece.X1, y))
		}
		f.note(strconv.Itoa(n+1), piece.X0+plotText, at, plotText, 0)
	case plan.FlattenBlank, plan.Resaw, plan.Plane, plan.Reface: // not seen on the face
	}
}
