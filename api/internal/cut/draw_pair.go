package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// openedHalf is one half of an opened pair: where its ring lines lie, from the
// seam outwards.
type openedHalf struct {
	leaf  int
	lines map[int][]float64 // ring number to distances from the seam, m
	width float64
	given float64 // taken off at the seam by the cure
}

// half lays out a leaf with its edge at the seam; into is 1 or -1 for the way from its face
// that shows into the wood.
func (m *matchDrawing) half(leaf int, show quantity.Length, edge match.Edge, into float64) openedHalf {
	w := float64(m.in.Width)
	h := openedHalf{leaf: leaf, lines: map[int][]float64{}, width: w - float64(m.in.SeamEdge)}
	for i := range m.rings.at {
		for _, x := range m.rings.cross(i, float64(show)) {
			from, at := m.carved(i, x, edge, float64(show), into)
			if at < 0 || at > w {
				continue
			}
			h.lines[i] = append(h.lines[i], from)
		}
	}
	return h
}

// carved is where a ring that crosses the sawn face at x comes through the outside, and how
// far from the seam; x lies outside of the leaf where it does not. A few rounds settle it: a
// carved outside is level at the seam and steepens slowly.
func (m *matchDrawing) carved(i int, x float64, edge match.Edge, show, into float64) (from, at float64) {
	seam, side, half := float64(m.in.SeamEdge), 1.0, m.in.Width-2*m.in.SeamEdge
	if edge == match.FarEdge {
		seam, side = float64(m.in.Width-m.in.SeamEdge), -1
	}
	const rounds = 40
	for k := 0; m.in.Arch > 0 && k < rounds; k++ {
		off := quantity.Length(math.Min(math.Abs(x-seam), float64(half)))
		next := math.Inf(1)
		for _, at := range m.rings.cross(i, show+into*float64(match.CarvedDepth(m.in.Arch, half, off))) {
			if math.Abs(at-x) < math.Abs(next-x) {
				next = at
			}
		}
		if math.IsInf(next, 1) {
			return 0, -1
		}
		x = next
	}
	return side * (x - seam), x
}

// halves are the left and the right half of a chosen pair as they lie opened.
func (m *matchDrawing) halves(i int) (left, right openedHalf, cured bool) {
	l, seam := m.chosen(i)
	first := m.match.Chosen[i].First
	other := seam.Edge
	if l.Opening == resaw.SlipMatch {
		other = match.NearEdge
		if seam.Edge == match.NearEdge {
			other = match.FarEdge
		}
	}
	intoA, intoB := -1.0, 1.0
	if l.Opening != resaw.Bookmatch {
		intoA = 1
	}
	if l.Opening == resaw.WrongWay {
		intoB = -1
	}
	a, b := m.half(first, l.ShowA, seam.Edge, intoA), m.half(first+1, l.ShowB, other, intoB)
	if l.Opening != resaw.SlipMatch && seam.Shift != nil && seam.Cure.Half != match.NoHalf &&
		float64(seam.Cure.Width) < a.width {
		cured = true
		gives := seam.Cure.Half
		if gives == match.EitherHalf { // as drawn, leaning to the right
			if gives = match.SecondHalf; seam.Edge == match.FarEdge {
				gives = match.FirstHalf
			}
		}
		if gives == match.FirstHalf {
			a.given = float64(seam.Cure.Width)
		} else {
			b.given = float64(seam.Cure.Width)
		}
	}
	if l.Opening == resaw.SlipMatch && seam.Edge == match.NearEdge {
		return b, a, cured
	}
	return a, b, cured
}

// pair draws a chosen pair opened: whole, and close up at the seam. It returns
// where the next may begin.
func (m *matchDrawing) pair(i int, y float64) float64 {
	left, right, cured := m.halves(i)
	d, f := m.d, &m.frame
	d.Text(f.pairLeft, y, f.body, drawing.FromLeft, m.pairHeading(i))
	d.Text(f.closeLeft, y, f.body, drawing.FromLeft, closeUp)
	y += 7
	window := m.window(i)
	for strip, word := range []string{"opened", "jointed"} {
		if strip == 1 && !cured {
			break
		}
		shownLeft, shownRight := asStrip(strip, left), asStrip(strip, right)
		d.Text(f.pairLeft-6, y+stripHeight/2+3.5, f.small, drawing.FromRight, word)
		m.strip(&shownLeft, &shownRight, f.pairLeft, f.pairRight, y, m.pairScale(), float64(m.in.Width))
		m.strip(&shownLeft, &shownRight, f.closeLeft, f.closeRight, y, (f.closeRight-f.closeLeft)/2/window, window)
		m.leafNumbers(&shownLeft, &shownRight, y)
		y += stripHeight + 4
	}
	m.bar(f.pairLeft, y+4, m.pairScale(), 110)
	m.bar(f.closeLeft, y+4, (f.closeRight-f.closeLeft)/2/window, 90)
	return y + 36
}

const closeUp = "close up at the seam"

// pairHeading says what a pair is.
func (m *matchDrawing) pairHeading(i int) string {
	l, _ := m.chosen(i)
	c := m.match.Chosen[i]
	heading := pairName(i) + ": leaves " + strconv.Itoa(c.First) + " and " + strconv.Itoa(c.First+1) + ", " +
		openingWords[string(c.Opening)]
	if c.Opening == resaw.SlipMatch {
		return heading + "; the faces that show lie " + m.show(l.Distance) + " apart in the stack"
	}
	return heading + "; " + m.show(l.Distance) + " of wood lost between the faces that show"
}

// window is how much of either half is shown close up.
func (m *matchDrawing) window(i int) float64 {
	_, seam := m.chosen(i)
	window := math.Max(float64(leastWindow), 3*float64(seam.Cure.Width))
	return math.Min(window, float64(m.in.Width-m.in.SeamEdge))
}

// asStrip is a half as it lies on a strip: the first shows it as opened, before the cure.
func asStrip(strip int, h openedHalf) openedHalf {
	if strip == 0 {
		h.given = 0
	}
	return h
}

// strip draws both halves to scale within a frame, the seam in its middle.
func (m *matchDrawing) strip(left, right *openedHalf, from, to, y, scale, most float64) {
	d, seam := m.d, (from+to)/2
	for k, h := range []*openedHalf{left, right} {
		side := float64(2*k - 1)
		reach := math.Min(h.width-h.given, most) * scale
		x := seam
		if side < 0 {
			x -= reach
		}
		d.Rectangle(x, y, reach, stripHeight, outline)
		for i := range m.rings.at {
			for _, at := range h.lines[i] {
				if u := (at - h.given) * scale; u >= 0 && u <= reach {
					d.Line(seam+side*u, y, seam+side*u, y+stripHeight, m.rings.style(i))
				}
			}
		}
	}
	d.Line(seam, y-4, seam, y+stripHeight+2, seamLine)
}

// leafNumbers writes the number of each leaf on its half.
func (m *matchDrawing) leafNumbers(left, right *openedHalf, y float64) {
	middle, scale := (m.frame.pairLeft+m.frame.pairRight)/2, m.pairScale()
	for k, h := range []*openedHalf{left, right} {
		x := middle + float64(2*k-1)*(h.width-h.given)*scale*0.85
		words := strconv.Itoa(h.leaf)
		wide := drawing.TextWidth(words, m.frame.small) + 5
		m.d.Rectangle(x-wide/2, y+stripHeight/2-7, wide, 14, paper)
		m.d.Text(x, y+stripHeight/2+3.5, m.frame.small, drawing.Centred, words)
	}
}

// bar is a bar of a round length, at most so wide.
func (m *matchDrawing) bar(x, y, scale, widest float64) {
	unit := quantity.Millimetre
	if m.report.LengthUnit == "in" {
		unit = quantity.Inch
	}
	length := 0.0
	for _, n := range []float64{0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if n*float64(unit)*scale <= widest {
			length = n
		}
	}
	wide := length * float64(unit) * scale
	m.d.Line(x, y, x+wide, y, drawing.Thin)
	m.d.Line(x, y-3, x, y+3, drawing.Thin)
	m.d.Line(x+wide, y-3, x+wide, y+3, drawing.Thin)
	m.d.Text(x+wide+6, y+3.5, m.frame.small, drawing.FromLeft,
		quantity.FormatNumber(length, 2)+" "+m.report.LengthUnit)
}
