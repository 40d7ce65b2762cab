package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/match"
)

// What the drawing is called and shows.
const (
	matchTitle   = "Match of the leaves: "
	matchHeading = "How the halves match"
	matchAbout   = "End grain of the stack with its rings, and the chosen pairs opened, with ring lines to scale as " +
		"they meet at the seam"
)

func (m *matchDrawing) draw() []byte {
	m.frame = printedMatch
	m.d = &drawing.Sheet{Width: m.frame.sheet, Title: matchTitle + m.summary, About: matchAbout}
	m.rings = m.lines()
	m.d.Text(m.frame.stackLeft, 22, 15, drawing.FromLeft, matchHeading)
	y := 40.0
	lines := drawing.Wrapped(m.summary, m.frame.body, m.frame.right-m.frame.stackLeft)
	if len(lines) > 3 {
		lines = append(lines[:2], lines[2]+" ...")
	}
	for _, line := range lines {
		m.d.Text(m.frame.stackLeft, y, m.frame.body, drawing.FromLeft, line)
		y += 14
	}
	y = math.Max(m.stack(), m.list()) + 26
	for i := range m.match.Chosen[:min(len(m.match.Chosen), mostPairsDrawn)] {
		y = m.pair(i, y)
	}
	y = m.remarks(y)
	m.d.Height = y + 6
	m.d.Size = `width="760" height="` + drawing.Coordinate(m.d.Height) + `"`
	return m.d.SVG()
}

// remarks writes what is drawn.
func (m *matchDrawing) remarks(y float64) float64 {
	for _, line := range drawing.Wrapped(m.remarked(), m.frame.small, m.frame.right-m.frame.stackLeft) {
		m.d.Text(m.frame.stackLeft, y, m.frame.small, drawing.FromLeft, line)
		y += m.frame.line
	}
	return y
}

// remarked says what is drawn.
func (m *matchDrawing) remarked() string {
	text := "Rings are drawn for the eye only, because their width was not given"
	switch m.rings.every {
	case 0:
	case 1:
		text = "Every ring is drawn"
	default:
		text = "One ring in " + strconv.Itoa(m.rings.every) + " is drawn"
	}
	text += "; every fifth line is heavy. Gaps in the stack are kerfs. The upper strip of a pair is as opened, the " +
		"lower one after the seam is jointed as told; the bars give the scale."
	if m.in.Arch > 0 {
		text += " The lines of a pair are those on its outside, carved to an arch of " + m.show(m.in.Arch) + "."
	}
	if m.rings.pith == nil {
		text += " Rings are taken as planes of one angle"
		if m.in.Rings.Lean == match.UnknownLean && m.match.Leaves[0].Middle < 89.99*quantity.Degree {
			text += ", drawn leaning to the far edge because their lean was not told"
		}
		text += "."
	}
	if n := len(m.match.Chosen); n > mostPairsDrawn {
		text += " The first " + strconv.Itoa(mostPairsDrawn) + " of " + strconv.Itoa(n) + " pairs are shown opened."
	}
	return text
}
