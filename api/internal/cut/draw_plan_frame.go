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
	paper         drawing.Paper
	templateOf    int // index of the billet whose ends a template draws

	billetIDs, billetNames []string // of each billet: by which the answer calls it, and as it was sent
	partIDs                []string
	finished               []plan.Size // of the parts as they were asked for
	seamless               []bool      // parts whose sets are not glued edge to edge
	matched                []plannedPair
	settings               [][]PlanSetting // of each billet; none where they are too many to tell

	frame planFrame
	d     *drawing.Sheet
	y     float64 // where the next thing goes
}

// planFrame is how a sheet is laid out.
type planFrame struct {
	sheet                 float64 // its width
	left, right           float64 // margins
	endLeft, endWidth     float64 // end view
	endHeight             float64
	aboveLeft, aboveWidth float64 // view from above
	aboveHeight           float64
	columns               int // of steps
}

// Frames of the sheet for a screen, where the views stand side by side, and of the one for
// paper, where they stand one below the other.
var (
	screenFrame = planFrame{sheet: 1040, left: 20, right: 1020, endLeft: 62, endWidth: 370, endHeight: 250,
		aboveLeft: 520, aboveWidth: 490, aboveHeight: 200, columns: 2}
	paperFrame = planFrame{sheet: 620, left: 6, right: 614, endLeft: 52, endWidth: 530, endHeight: 210,
		aboveLeft: 66, aboveWidth: 530, aboveHeight: 190, columns: 1}
)

// beside says that the end views stand left of the view from above.
func (f *planFrame) beside() bool { return f.aboveLeft > f.endLeft+f.endWidth }

// Sizes of type.
const (
	planLabel  = 9.0
	leafNumber = 7.5
	planText   = 10.0
)

// Fillings that need no colour.
const (
	oddLeaf = `fill="#ddd" stroke="none"`
	blankIn = `fill="#fff" stroke="#000" stroke-width="1.4"`
	trimmed = `fill="#eee" stroke="#666" stroke-width="0.5"`
	ringArc = `stroke="#777" stroke-width="0.6" fill="none"`
	fault   = `stroke="#000" stroke-width="0.8" fill="none" stroke-dasharray="3 2"`
)

func (g *planDrawing) length(l quantity.Length) string { return g.report.SaidLength(l) }

// number is a length as length has it, without its unit.
func (g *planDrawing) number(l quantity.Length) string {
	return strings.TrimSuffix(g.length(l), " "+g.report.LengthUnit)
}

// words writes lines over the whole width.
func (g *planDrawing) words(text string, size float64) {
	for _, line := range drawing.Wrapped(text, size, g.frame.right-g.frame.left) {
		g.y += size * 1.35
		g.d.Text(g.frame.left, g.y, size, drawing.FromLeft, line)
	}
}
