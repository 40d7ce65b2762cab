package year

import (
	"math"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// laminateDrawn is the year of a laminate. Times are shares of the whole.
type laminateDrawn struct {
	name     string
	beside   []string // what is told of it
	times    []float64
	cup      []wire.Band
	bow      []float64
	unit     string
	dry, wet extremeDrawn // of the cup
}

// bendScale is how far the panels of laminates reach either way: a round number that holds all
// bends; all of them have the same.
func (p *yearPicture) bendScale() float64 {
	most := 0.0
	for i := range p.laminates {
		l := &p.laminates[i]
		for k := range l.cup {
			most = math.Max(most, math.Max(math.Max(-l.cup[k].Low, l.cup[k].High), math.Abs(l.bow[k])))
		}
	}
	return roundReach(most)
}

// flatReach is the reach, in the unit of the answer, of laminates that stay flat.
const flatReach = 0.1

// roundReach is 1, 2 or 4 times a power of ten that is no smaller than most.
func roundReach(most float64) float64 {
	if !(most > flatReach) {
		return flatReach
	}
	for tens := math.Pow(10, math.Floor(math.Log10(most))); ; tens *= 10 {
		for _, digit := range []float64{1, 2, 4} {
			if most <= digit*tens {
				return digit * tens
			}
		}
	}
}

// panel draws the cup with its band, the bow and the flat panel between them.
func (l *laminateDrawn) panel(d *drawing.Sheet, f *yearFrame, top, reach float64) {
	x, bottom := f.x, top+f.panel
	at := func(bend float64) float64 { return (top+bottom)/2 - f.panel/2*math.Min(math.Max(bend/reach, -1), 1) }
	var outline, cup, bow []drawing.Point
	for k, t := range l.times {
		outline = append(outline, drawing.At(x(t), at(l.cup[k].High)))
		cup, bow = append(cup, drawing.At(x(t), at(l.cup[k].Value))), append(bow, drawing.At(x(t), at(l.bow[k])))
	}
	for k := len(l.times) - 1; k >= 0; k-- {
		outline = append(outline, drawing.At(x(l.times[k]), at(l.cup[k].Low)))
	}
	d.Polygon(outline, drawing.Band)
	for _, v := range []float64{-reach / 2, 0, reach / 2} {
		d.Line(f.left, at(v), f.right, at(v), drawing.Faint)
		words := quantity.FormatNumber(v, 3)
		if v == 0 {
			words = "0 " + l.unit
		}
		d.Text(f.left-6, at(v)+3.5, f.small, drawing.FromRight, words)
	}
	d.Polyline(bow, drawing.Dashed)
	d.Polyline(cup, drawing.Thick)
	for _, e := range []extremeDrawn{l.dry, l.wet} {
		side := -1.0
		if e.pct < 0 {
			side = 1
		}
		f.mark(d, x(e.at), at(e.pct), top, side, quantity.FormatNumber(e.pct, placesOf(l.unit)))
	}
	d.Rectangle(f.left, top, f.right-f.left, f.panel, drawing.Thin)
}

// placesOf are the decimals that a bend is drawn with.
func placesOf(unit string) int {
	if unit == "in" {
		return 3
	}
	return 2
}

// bendLegend explains the lines of laminates.
var bendLegend = []legendEntry{
	{"cup, up: hollow on face 1", lineSample(drawing.Thick)}, {"90 % band of the cup", bandSample}, {"bow", lineSample(drawing.Dashed)},
	{"driest and wettest day", dotSample},
}
