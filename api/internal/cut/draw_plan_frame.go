package cut

import (
	"math"
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

	label, leaf, text, body, name float64 // sizes of text: at the views, of numbers of leaves, of lists, of what is said, of a billet
	row                           float64 // that lines of labels are apart
	over                          float64 // from the names of blanks to their ends
	steps                         float64 // where words of steps begin, unless their number is wider; on a screen behind the widest
	stands                        bool    // the view from above, on the start of the billet
	shown                         bool    // on a screen
}

// Frames of the sheet, where the views stand side by side, and of the one for pages of paper, where they
// stand one below the other.
var (
	wholeFrame = planFrame{sheet: 1040, left: 20, right: 1020, endLeft: 62, endWidth: 370, endHeight: 250,
		aboveLeft: 520, aboveWidth: 490, aboveHeight: 200, columns: 2,
		label: 9, leaf: 7.5, text: 10, body: drawing.BodyText, name: 12, row: 11, over: 5, steps: 62}
	paperFrame = planFrame{sheet: 620, left: 6, right: 614, endLeft: 52, endWidth: 530, endHeight: 210,
		aboveLeft: 66, aboveWidth: 530, aboveHeight: 190, columns: 1,
		label: 9, leaf: 7.5, text: 10, body: drawing.BodyText, name: 12, row: 11, over: 5, steps: 62}
)

// shownFrame is that of a sheet for a screen that has so many px for it: the views stand one below
// the other, and on a narrow one a billet stands on its start.
func shownFrame(width int) planFrame {
	const (
		side, measure  = 10, 28 // margin, and room of an upright measure
		numbers        = 84     // room of places left of the wood
		narrow, widest = 640, 620
	)
	on := drawing.FrameOf(width)
	f := planFrame{sheet: on.Width, left: side, right: on.Width - side, endHeight: 250, aboveHeight: 200, columns: 1,
		label: on.Small, leaf: on.Small, text: 12, body: on.Body, name: 13, row: on.Small + 3, over: 9, shown: true}
	f.endLeft, f.aboveLeft = f.left+measure, f.left+numbers
	f.endWidth, f.aboveWidth = math.Min(widest, f.right-measure-f.endLeft), f.right-20-f.aboveLeft
	if f.stands = width < narrow; !f.stands {
		f.columns = 2
	}
	return f
}

// lines are words in lines no wider than width.
func (f *planFrame) lines(words string, size, width float64) []string {
	return drawing.Lines(f.shown, words, size, width)
}

// abreast says that the end views stand left of the view from above.
func (f *planFrame) abreast() bool { return f.aboveLeft > f.endLeft+f.endWidth }

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
	for _, line := range g.frame.lines(text, size, g.frame.right-g.frame.left) {
		g.y += size * 1.35
		g.d.Text(g.frame.left, g.y, size, drawing.FromLeft, line)
	}
}
