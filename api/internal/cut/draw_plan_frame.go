package cut

import (
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// planDrawing draws a plan: of every billet the end grain with its leaves, the
// view from above with its cuts, and the leaves in words.
type planDrawing struct {
	asked         *plan.Request
	told          *plan.Told
	woods         []string // name of that of each billet; empty where it is not known
	report        wire.Reporter
	summary, date string
	templateOf    int // index of the billet whose ends a template draws

	d *drawing.Sheet
	y float64 // where the next thing goes
}

// Frame of the sheet.
const (
	planSheet             = 1040.0
	planLeft, planRight   = 20.0, 1020.0
	endLeft, endWidth     = 62.0, 370.0 // end view
	endHeight             = 250.0
	aboveLeft, aboveWidth = 520.0, 490.0 // view from above
	aboveHeight           = 200.0
	planLabel             = 9.0
	leafNumber            = 7.5
	planText              = 10.0
)

// Fillings that need no colour.
const (
	oddLeaf = `fill="#ddd" stroke="none"`
	blankIn = `fill="#fff" stroke="#000" stroke-width="1.4"`
	trimmed = `fill="#eee" stroke="#666" stroke-width="0.5"`
	ringArc = `stroke="#777" stroke-width="0.6" fill="none"`
	fault   = `stroke="#000" stroke-width="0.8" fill="none" stroke-dasharray="3 2"`
)

func (g *planDrawing) length(l quantity.Length) string { return l.Format(g.report.LengthUnit) }

// number is a length as length has it, without its unit.
func (g *planDrawing) number(l quantity.Length) string {
	return strings.TrimSuffix(g.length(l), " "+g.report.LengthUnit)
}

// words writes lines over the whole width.
func (g *planDrawing) words(text string, size float64) {
	for _, line := range drawing.Wrapped(text, size, planRight-planLeft) {
		g.y += size * 1.35
		g.d.Text(planLeft, g.y, size, drawing.FromLeft, line)
	}
}
