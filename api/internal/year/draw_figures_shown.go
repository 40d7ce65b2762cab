package year

import (
	"math"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
)

// drawShown is the sheet of figures for a screen: each part with its dimensions below it, and the
// swing of each over the whole width.
func (r *AssemblyMovementResult) drawShown(width int) []byte {
	c := drawing.ColumnOf(width, figuresHeading+": "+r.Summary, figuresAbout)
	c.Words(c.On.Heading, figuresHeading)
	c.Words(c.On.Body, r.Summary)
	if r.Room != nil {
		c.Words(c.On.Small, "Air: "+r.Room.Name)
	}
	f := &figuresColumn{c, r.swingScale()}
	for i := range r.Parts {
		f.part(&r.Parts[i])
	}
	for i := range r.Pairs {
		f.pair(&r.Pairs[i], i == 0)
	}
	for i := range r.Glued {
		f.glued(&r.Glued[i], i == 0)
	}
	c.Notes(r.remarks())
	return c.Shown()
}

// figuresColumn writes the figures one below the other; all bars have one scale, in percent to
// each side.
type figuresColumn struct {
	*drawing.Column
	scale float64
}

// swingsWide is how wide the bars and the rows of figures get at most, in px.
const swingsWide = 560.0

// right is where rows of figures end.
func (f *figuresColumn) right() float64 { return math.Min(f.On.Right, f.On.Left+swingsWide) }

// head writes what a block is about, below a line.
func (f *figuresColumn) head(words string) {
	f.Y += 12
	f.Line(f.On.Left, f.Y, f.On.Right, f.Y, drawing.Thin)
	f.Y += 4
	f.Words(f.On.Body, words)
}

// cell is a figure and what it is.
type cell struct{ head, figure string }

// cells writes figures side by side, each below what it is.
func (f *figuresColumn) cells(cells ...cell) {
	f.Y += 18
	wide := (f.right() - f.On.Left) / float64(len(cells))
	for i, one := range cells {
		x := f.On.Left + wide*float64(i+1)
		f.Text(x, f.Y, f.On.Small, drawing.FromRight, one.head)
		f.Text(x, f.Y+15, f.On.Body, drawing.FromRight, one.figure)
	}
	f.Y += 15
}

func (f *figuresColumn) part(p *PartFigures) {
	f.head(p.called)
	f.Words(f.On.Small, p.Wood.Common+", "+quantity.FormatNumber(p.Driest.MC.Value, 1)+" to "+
		quantity.FormatNumber(p.Wettest.MC.Value, 1)+" %")
	for k := range p.Sizes {
		f.size(&p.Sizes[k])
	}
}

// size is a dimension: its figures, and below them its swing.
func (f *figuresColumn) size(s *SizeFigures) {
	decimals := figureDecimals(s.Build.Unit)
	f.Y += 8
	f.Words(f.On.Body, s.Dimension+", "+s.Build.Unit)
	f.cells(cell{"build", fixed(s.Build.Value, decimals)}, cell{"driest", fixed(s.Driest.Value, decimals)},
		cell{"wettest", fixed(s.Wettest.Value, decimals)}, cell{"per 1 %", fixed(s.PerPoint.Value, decimals+1)})
	const edge = 16 // half of the words at either end
	left, right := f.On.Left+edge, f.right()-edge
	x := func(pct float64) float64 {
		return (left+right)/2 + (right-left)/2*math.Min(math.Max(pct/f.scale, -1), 1)
	}
	f.Y += 16
	f.Line(x(-f.scale), f.Y, x(f.scale), f.Y, drawing.Faint)
	drawSwing(f.Sheet, s, f.Y, x)
	f.Line(x(0), f.Y-8, x(0), f.Y+8, drawing.Thin)
	f.Y += 19
	for _, pct := range []float64{-f.scale, 0, f.scale} {
		f.Text(x(pct), f.Y, f.On.Small, drawing.Centred, quantity.FormatNumber(pct, 2)+" %")
	}
}

func (f *figuresColumn) pair(p *PairFigures, first bool) {
	unit := p.AtBuild.Min.Unit
	if first {
		f.head("Clearance at the build, " + unit)
	}
	f.Y += 8
	f.Words(f.On.Body, p.called)
	decimals := figureDecimals(unit)
	if p.Feasible {
		f.cells(cell{"least", fixed(p.AtBuild.Min.Value, decimals)}, cell{"usual", fixed(p.AtBuild.Usual.Value, decimals)},
			cell{"greatest", fixed(p.AtBuild.Max.Value, decimals)})
		f.Y += 3
	} else {
		f.Words(f.On.Body, "none; short by "+fixed(p.Short.Value, decimals))
	}
	f.Words(f.On.Small, p.said())
}

func (f *figuresColumn) glued(g *GluedFigures, first bool) {
	unit := g.Size.Unit
	if first {
		f.head("Free difference of what is glued, " + unit)
	}
	f.Y += 8
	f.Words(f.On.Body, g.called)
	decimals := figureDecimals(unit)
	f.cells(cell{"over", fixed(g.Size.Value, decimals)}, cell{"driest", fixed(g.ToDriest.Value, decimals)},
		cell{"wettest", fixed(g.ToWettest.Value, decimals)})
	f.Y += 3
	f.Words(f.On.Small, g.Risk+"; "+g.Detail)
}
