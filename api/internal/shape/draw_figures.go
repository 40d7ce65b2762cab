package shape

import (
	"math"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// rightMargin is where both drawings end.
const rightMargin = 742.0

// exaggerations that a reader can undo in the head; below 1 for what would not fit.
var exaggerations = []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500,
	1000}

// exaggerated is the largest round factor that keeps the largest displacement
// within room.
func exaggerated(largest, room float64) float64 {
	best := exaggerations[0]
	for _, f := range exaggerations {
		if f*largest <= room {
			best = f
		}
	}
	return best
}

// measureLine is a line with a tick at either end, upright or level.
func measureLine(d *drawing.Sheet, a, b drawing.Point) {
	d.Line(a.X, a.Y, b.X, b.Y, drawing.Thin)
	for _, p := range []drawing.Point{a, b} {
		d.Line(p.X-3, p.Y+3, p.X+3, p.Y-3, drawing.Thin)
	}
}

// figureColumns lists names and figures in two columns from y downwards.
func figureColumns(d *drawing.Sheet, rows [][2]string, y float64) {
	const wide, second = 348.0, rightMargin - 348
	half := (len(rows) + 1) / 2
	for i, row := range rows {
		x, line := 18.0, i
		if i >= half {
			x, line = second, i-half
		}
		at := y + 15*float64(line)
		d.Text(x, at, drawing.SmallText, drawing.FromLeft, row[0])
		d.Text(x+wide, at, drawing.SmallText, drawing.FromRight, row[1])
		d.Line(x, at+3.5, x+wide, at+3.5, drawing.Faint)
	}
}

// bandText writes a band with as many digits as its unit needs.
func bandText(b wire.Band) string {
	digits := 2
	if b.Unit == "in" {
		digits = 3
	}
	if largest := math.Max(math.Abs(b.Low), math.Abs(b.High)); largest < math.Pow(10, 1-float64(digits)) {
		digits++
	}
	if b.Low == b.High {
		return quantity.FormatNumber(b.Value, digits) + " " + b.Unit
	}
	f := func(v float64) string { return quantity.FormatNumber(v, digits) }
	return f(b.Value) + " " + b.Unit + " (" + f(b.Low) + " to " + f(b.High) + ")"
}

func percentText(b wire.Band) string {
	f := func(v float64) string { return quantity.FormatNumber(v, 2) }
	return f(b.Value) + " % (" + f(b.Low) + " to " + f(b.High) + ")"
}

func angleText(a wire.Band) string {
	f := func(v float64) string { return quantity.FormatNumber(v, 1) }
	return f(a.Value) + " degrees (" + f(a.Low) + " to " + f(a.High) + ")"
}
