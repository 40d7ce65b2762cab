package cut

import (
	"math"
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
	faces   []match.LeafFaces
	spoiled []int
	report  wire.Reporter
	summary string

	d     *drawing.Sheet
	rings ringLines
}

// Frame of the drawing.
const (
	sheetWidth             = 760.0
	stackLeft, stackTop    = 58.0, 98.0
	stackWidest            = 330.0
	stackTallest           = 300.0
	listLeft, sheetRight   = 440.0, 742.0
	pairLeft, pairRight    = 62.0, 500.0
	closeLeft, closeRight  = 530.0, 742.0
	stripHeight            = 26.0
	mostPairsDrawn         = 4
	lineGap                = 13.0
	paper                  = `fill="#fff" stroke="none"`
	outline                = `stroke="#000" stroke-width="0.8" fill="none"`
	seamLine               = `stroke="#000" stroke-width="1.8" fill="none"`
	ringLine, fifthRing    = `stroke="#444" stroke-width="0.6" fill="none"`, `stroke="#000" stroke-width="1.3" fill="none"`
	fifth                  = 5
	finest                 = 3.0      // leaves drawn thinner than this are only hinted at
	leastGap, wantedGap    = 5.0, 9.0 // between ring lines, in units of the drawing
	leastWindow, mostLines = 12 * quantity.Millimetre, 1500
)

func (m *matchDrawing) draw() []byte {
	m.d = &drawing.Sheet{Width: sheetWidth, Title: "Match of the leaves: " + m.summary,
		About: "End grain of the stack with its rings, and the chosen pairs opened, with ring lines to scale as they meet at the seam"}
	m.rings = m.lines()
	m.d.Text(stackLeft, 22, 15, drawing.FromLeft, "How the halves match")
	y := 40.0
	lines := drawing.Wrapped(m.summary, drawing.BodyText, sheetRight-stackLeft)
	if len(lines) > 3 {
		lines = append(lines[:2], lines[2]+" ...")
	}
	for _, line := range lines {
		m.d.Text(stackLeft, y, drawing.BodyText, drawing.FromLeft, line)
		y += 14
	}
	y = m.stack() + 26
	for i := range m.match.Chosen[:min(len(m.match.Chosen), mostPairsDrawn)] {
		y = m.pair(i, y)
	}
	y = m.remarks(y)
	m.d.Height = y + 6
	m.d.Size = `width="760" height="` + drawing.Coordinate(m.d.Height) + `"`
	return m.d.SVG()
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

// lines chooses the rings to draw, not closer than the eye can part.
func (m *matchDrawing) lines() ringLines {
	scale := m.pairScale()
	middle := m.match.Leaves[len(m.match.Leaves)/2].Middle
	r := ringLines{pith: m.match.Pith}
	sin := math.Max(middle.Sin(), 0.02)
	if rw := float64(m.in.RingWidth); rw > 0 {
		r.every = max(1, int(math.Ceil(leastGap/scale/rw)))
		r.step = rw * float64(r.every)
	} else {
		r.step = wantedGap / scale * math.Max(sin, 0.1)
	}
	low, high := m.span(&r, sin)
	for (high-low)/r.step > mostLines {
		r.step *= 2
		r.every *= 2
	}
	r.first = int(math.Ceil(low / r.step))
	for i := r.first; float64(i)*r.step <= high; i++ {
		r.at = append(r.at, float64(i)*r.step)
	}
	return r
}

// span is the least and the largest radius (or x) of a ring in the stack.
func (m *matchDrawing) span(r *ringLines, sin float64) (low, high float64) {
	w, depth := float64(m.in.Width), float64(m.faces[len(m.faces)-1].Back)
	if r.pith == nil {
		r.step /= sin // along the face
		angle := m.match.Leaves[0].Middle
		r.slope = angle.Cos() / math.Max(angle.Sin(), 1e-3)
		if m.in.Rings.Lean == match.LeansLeft {
			r.slope = -r.slope
		}
		return math.Min(0, -r.slope*depth), math.Max(w, w-r.slope*depth)
	}
	x, z := float64(r.pith.X), float64(r.pith.Z)
	out := func(v, most float64) float64 { return math.Max(0, math.Max(-v, v-most)) }
	far := func(v, most float64) float64 { return math.Max(math.Abs(v), math.Abs(v-most)) }
	return math.Hypot(out(x, w), out(z, depth)), math.Hypot(far(x, w), far(z, depth))
}

// cross returns where ring i meets a plane at depth z.
func (r *ringLines) cross(i int, z float64) []float64 {
	if r.pith == nil {
		return []float64{r.at[i] + r.slope*z}
	}
	dz := z - float64(r.pith.Z)
	q := r.at[i]*r.at[i] - dz*dz
	if q < 0 {
		return nil
	}
	return []float64{float64(r.pith.X) - math.Sqrt(q), float64(r.pith.X) + math.Sqrt(q)}
}

func (r *ringLines) style(i int) string {
	if (r.first+i)%fifth == 0 {
		return fifthRing
	}
	return ringLine
}

// stack draws the end grain and returns how far down it reaches.
func (m *matchDrawing) stack() float64 {
	w, depth := float64(m.in.Width), float64(m.faces[len(m.faces)-1].Back)
	scale := math.Min(stackWidest/w, stackTallest/depth)
	x := func(v float64) float64 { return stackLeft + v*scale }
	y := func(v float64) float64 { return stackTop + v*scale }
	d := m.d
	d.Element(`<clipPath id="stack"><rect x="`, drawing.Coordinate(x(0)), `" y="`, drawing.Coordinate(y(0)), `" width="`, drawing.Coordinate(w*scale), `" height="`, drawing.Coordinate(depth*scale), `"/></clipPath>`)
	d.Element(`<g clip-path="url(#stack)">`)
	for i := range m.rings.at {
		for _, arc := range m.arcs(i, depth) {
			points := make([]drawing.Point, 0, len(arc))
			for _, p := range arc {
				points = append(points, drawing.At(x(p.X), y(p.Y)))
			}
			d.Polyline(points, m.rings.style(i))
		}
	}
	top := 0.0
	for _, f := range m.faces { // kerfs and what was faced off
		if gap := float64(f.Front) - top; gap > 0 {
			d.Rectangle(x(0), y(top), w*scale, gap*scale, paper)
		}
		top = float64(f.Back)
	}
	d.Element(`</g>`)
	m.numbers(scale)
	if m.faces[0].Front > 0 {
		d.Line(x(0), y(0), x(w), y(0), drawing.Dashed)
	}
	d.Text(x(w)/2+x(0)/2, stackTop-7, drawing.SmallText, drawing.Centred, "face 1")
	bottom := y(depth) + 14
	left, right := "left edge", "right edge"
	if m.match.Left != "" {
		left += ", " + string(m.match.Left)
	}
	if m.match.Right != "" {
		right += ", " + string(m.match.Right)
	}
	if drawing.TextWidth(left+right, drawing.SmallText)+8 > w*scale { // a narrow stack
		d.Text(x(0), bottom, drawing.SmallText, drawing.FromLeft, left)
		bottom += lineGap
		d.Text(x(0), bottom, drawing.SmallText, drawing.FromLeft, right)
	} else {
		d.Text(x(0), bottom, drawing.SmallText, drawing.FromLeft, left)
		d.Text(x(w), bottom, drawing.SmallText, drawing.FromRight, right)
	}
	bottom = m.pithMark(x, y, bottom)
	return math.Max(bottom, m.list())
}

// arcs are the parts of ring i to draw, as points of the end grain in metres.
func (m *matchDrawing) arcs(i int, depth float64) [][]drawing.Point {
	r := &m.rings
	if r.pith == nil {
		return [][]drawing.Point{{drawing.At(r.at[i], 0), drawing.At(r.at[i]+r.slope*depth, depth)}}
	}
	w := float64(m.in.Width)
	px, pz := float64(r.pith.X), float64(r.pith.Z)
	from, to := -math.Pi, math.Pi
	if inside := px >= 0 && px <= w && pz >= 0 && pz <= depth; !inside {
		// angles about the direction to the middle of the stack, so that they
		// do not wrap round
		middle := math.Atan2(depth/2-pz, w/2-px)
		from, to = math.Inf(1), math.Inf(-1)
		for _, corner := range []drawing.Point{drawing.At(0, 0), drawing.At(w, 0), drawing.At(0, depth), drawing.At(w, depth)} {
			off := math.Remainder(math.Atan2(corner.Y-pz, corner.X-px)-middle, 2*math.Pi)
			from, to = math.Min(from, middle+off), math.Max(to, middle+off)
		}
	}
	const steps = 96
	var arcs [][]drawing.Point
	var arc []drawing.Point
	margin := 0.02 * (w + depth)
	for k := range steps + 1 {
		a := from + (to-from)*float64(k)/steps
		p := drawing.At(px+r.at[i]*math.Cos(a), pz+r.at[i]*math.Sin(a))
		if p.X < -margin || p.X > w+margin || p.Y < -margin || p.Y > depth+margin {
			if len(arc) > 0 {
				arcs = append(arcs, append(arc, p)) // one point past the rim, which the clip cuts off
			}
			arc = nil
			continue
		}
		if arc == nil && k > 0 {
			before := from + (to-from)*float64(k-1)/steps
			arc = append(arc, drawing.At(px+r.at[i]*math.Cos(before), pz+r.at[i]*math.Sin(before)))
		}
		arc = append(arc, p)
	}
	if len(arc) > 1 {
		arcs = append(arcs, arc)
	}
	return arcs
}

// numbers outlines and numbers the leaves, and joins the chosen pairs.
func (m *matchDrawing) numbers(scale float64) {
	d, w := m.d, float64(m.in.Width)*scale
	next := 0.0
	for i, f := range m.faces {
		top, height := stackTop+float64(f.Front)*scale, float64(f.Back-f.Front)*scale
		rim := outline
		if height < finest { // outlines would blacken the stack
			rim = drawing.Faint
		}
		d.Rectangle(stackLeft, top, w, height, rim)
		if slices.Contains(m.spoiled, i+1) {
			d.Line(stackLeft, top, stackLeft+w, top+height, drawing.Thin)
			d.Line(stackLeft, top+height, stackLeft+w, top, drawing.Thin)
		}
		if at := top + height/2 + 3.5; at >= next {
			d.Text(stackLeft-6, at, drawing.SmallText, drawing.FromRight, strconv.Itoa(i+1))
			next = at + 11
		}
	}
	next = 0
	for i, c := range m.match.Chosen {
		a, b := m.faces[c.First-1], m.faces[c.First]
		up, down := stackTop+float64(a.Front+a.Back)/2*scale, stackTop+float64(b.Front+b.Back)/2*scale
		if down-up < finest {
			break
		}
		d.Polyline([]drawing.Point{drawing.At(stackLeft+w+3, up), drawing.At(stackLeft+w+9, up), drawing.At(stackLeft+w+9, down), drawing.At(stackLeft+w+3, down)}, outline)
		if at := (up+down)/2 + 3.5; at >= next {
			d.Text(stackLeft+w+13, at, drawing.SmallText, drawing.FromLeft, pairName(i))
			next = at + 11
		}
	}
}

// pairName is A, B, C ... for the chosen pairs, then numbers.
func pairName(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return strconv.Itoa(i + 1)
}

// pithMark shows the pith where it lies on the sheet, and says where it is.
func (m *matchDrawing) pithMark(x, y func(float64) float64, bottom float64) float64 {
	p := m.match.Pith
	if p == nil {
		return bottom
	}
	d := m.d
	px, py, edge := x(float64(p.X)), y(float64(p.Z)), x(float64(m.in.Width))
	free := px > 8 && px < stackLeft-34 || px >= stackLeft && px <= edge || px > edge+40 && px < listLeft-14 // of the numbers
	if free && py > stackTop && py < bottom-10 {
		d.Element(`<circle cx="`, drawing.Coordinate(px), `" cy="`, drawing.Coordinate(py), `" r="3.2" fill="#fff" stroke="#000" stroke-width="1.2"/>`)
		d.Element(`<circle cx="`, drawing.Coordinate(px), `" cy="`, drawing.Coordinate(py), `" r="0.9" fill="#000"/>`)
	}
	bottom += lineGap
	d.Text(stackLeft, bottom, drawing.SmallText, drawing.FromLeft, "pith at x "+m.show(p.X)+", z "+m.show(p.Z))
	return bottom
}

func (m *matchDrawing) show(l quantity.Length) string {
	q := m.report.Length(l)
	return quantity.FormatNumber(q.Value, m.report.Places()) + " " + q.Unit
}

// list names the chosen pairs beside the stack and returns its foot.
func (m *matchDrawing) list() float64 {
	y := stackTop + 4
	for i, c := range m.match.Chosen {
		if i == 20 {
			m.d.Text(listLeft, y, drawing.SmallText, drawing.FromLeft, "and "+strconv.Itoa(len(m.match.Chosen)-i)+" more pairs")
			return y
		}
		_, seam := m.chosen(i)
		line := pairName(i) + "  " + strconv.Itoa(c.First) + "+" + strconv.Itoa(c.First+1) + ", " + openingWords[string(c.Opening)] + ", " + string(c.Edge) + " edge"
		switch {
		case seam.Shift == nil:
			line += ", no partner"
		case c.Opening != match.SlipMatch:
			line += ", miss " + m.show(quantity.Length(math.Abs(float64(*seam.Shift))))
		}
		m.d.Text(listLeft, y, drawing.SmallText, drawing.FromLeft, line)
		y += lineGap
	}
	return y
}

// chosen finds the layout and the seam of a chosen pair.
func (m *matchDrawing) chosen(i int) (*match.Layout, *match.Seam) {
	c := m.match.Chosen[i]
	p := &m.match.Pairs[slices.IndexFunc(m.match.Pairs, func(p match.Pair) bool { return p.First == c.First })]
	l := &p.Layouts[slices.IndexFunc(p.Layouts, func(l match.Layout) bool { return l.Opening == c.Opening })]
	return l, &l.Seams[l.Better]
}

// remarks says what is drawn.
func (m *matchDrawing) remarks(y float64) float64 {
	text := "Rings are drawn for the eye only, because their width was not given"
	switch m.rings.every {
	case 0:
	case 1:
		text = "Every ring is drawn"
	default:
		text = "One ring in " + strconv.Itoa(m.rings.every) + " is drawn"
	}
	text += "; every fifth line is heavy. Gaps in the stack are kerfs. The upper strip of a pair is as opened, the lower one after the seam is jointed as told; the bars give the scale."
	if m.rings.pith == nil {
		text += " Rings are taken as planes of one angle"
		if m.in.Rings.Lean == match.UnknownLean && m.match.Leaves[0].Middle < 89.99*quantity.Degree {
			text += ", drawn leaning to the right because their lean was not told"
		}
		text += "."
	}
	if n := len(m.match.Chosen); n > mostPairsDrawn {
		text += " The first " + strconv.Itoa(mostPairsDrawn) + " of " + strconv.Itoa(n) + " pairs are shown opened."
	}
	for _, line := range drawing.Wrapped(text, drawing.SmallText, sheetRight-stackLeft) {
		m.d.Text(stackLeft, y, drawing.SmallText, drawing.FromLeft, line)
		y += lineGap
	}
	return y
}
