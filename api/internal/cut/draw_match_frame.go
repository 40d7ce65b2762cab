package cut

import (
	"slices"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// matchDrawing draws the end grain of the stack with its rings and, below, the
// chosen pairs opened on the bench: ring lines meet or miss at the seam to scale.
type matchDrawing struct {
	in      *match.Input
	match   *match.Result
	report  wire.Reporter
	summary string

	frame matchFrame
	d     *drawing.Sheet
	rings ringLines
}

// matchFrame is where things stand on the sheet, and how large text is.
type matchFrame struct {
	sheet, right          float64 // its width, and where words end
	stackLeft, stackTop   float64
	stackWidest           float64
	stackTallest          float64
	listLeft              float64 // of the chosen pairs
	pairLeft, pairRight   float64 // of a pair opened
	closeLeft, closeRight float64 // and close up at the seam
	body, small           float64 // sizes of text
	line, each            float64 // that lines, and numbers of leaves, are apart
}

// printedMatch is the frame on paper.
var printedMatch = matchFrame{sheet: 760, right: 742, stackLeft: 58, stackTop: 98, stackWidest: 330, stackTallest: 300, listLeft: 440,
	pairLeft: 62, pairRight: 500, closeLeft: 530, closeRight: 742, body: drawing.BodyText, small: drawing.SmallText, line: 13, each: 11}

// Measures and ways to draw that all frames have.
const (
	stripHeight         = 26.0
	mostPairsDrawn      = 4
	mostPairsListed     = 20
	outline             = `stroke="#000" stroke-width="0.8" fill="none"`
	seamLine            = `stroke="#000" stroke-width="1.8" fill="none"`
	ringLine, fifthRing = `stroke="#444" stroke-width="0.6" fill="none"`,
		`stroke="#000" stroke-width="1.3" fill="none"`
	fifth                  = 5
	finest                 = 3.0      // leaves drawn thinner than this are only hinted at
	leastGap, wantedGap    = 5.0, 9.0 // between ring lines, in units of the drawing
	leastWindow, mostLines = 12 * quantity.Millimetre, 1500
)

// pairName is A, B, C ... for the chosen pairs, then numbers.
func pairName(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return strconv.Itoa(i + 1)
}

func (m *matchDrawing) show(l quantity.Length) string {
	q := m.report.Length(l)
	return quantity.FormatNumber(q.Value, m.report.Places()) + " " + q.Unit
}

// chosen finds the layout and the seam of a chosen pair.
func (m *matchDrawing) chosen(i int) (*match.Layout, *match.Seam) {
	c := m.match.Chosen[i]
	p := &m.match.Pairs[slices.IndexFunc(m.match.Pairs, func(p match.Pair) bool { return p.First == c.First })]
	l := &p.Layouts[slices.IndexFunc(p.Layouts, func(l match.Layout) bool { return l.Opening == c.Opening })]
	return l, &l.Seams[l.Better]
}

// pairScale is that of an opened pair, in units of the drawing a metre.
func (m *matchDrawing) pairScale() float64 {
	return (m.frame.pairRight - m.frame.pairLeft) / (2 * float64(m.in.Width-m.in.SeamEdge))
}

// ringLines are the rings that are drawn: circles about the pith or planes.
type ringLines struct {
	pith  *resaw.Point
	slope float64 // dx/dz of plane rings
	at    []float64
	first int     // number of the first, so that every fifth can be told apart
	step  float64 // m; radius, or x of planes
	every int     // of how many rings one is drawn; 0 when the ring width is not known
}
