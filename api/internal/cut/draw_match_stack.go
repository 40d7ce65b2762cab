package cut

import (
	"math"
	"slices"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// stack draws the end grain and returns how far down it reaches with its words.
func (m *matchDrawing) stack() float64 {
	w, depth := float64(m.in.Width), float64(m.match.Faces[len(m.match.Faces)-1].Back)
	scale := math.Min(m.frame.stackWidest/w, m.frame.stackTallest/depth)
	x := func(v float64) float64 { return m.frame.stackLeft + v*scale }
	y := func(v float64) float64 { return m.frame.stackTop + v*scale }
	d := m.d
	d.Clip(x(0), y(0), w*scale, depth*scale)
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
	for _, f := range m.match.Faces { // kerfs and what was faced off
		if gap := float64(f.Front) - top; gap > 0 {
			d.Rectangle(x(0), y(top), w*scale, gap*scale, paper)
		}
		top = float64(f.Back)
	}
	d.EndClip()
	m.numbers(scale)
	if m.match.Faces[0].Front > 0 {
		d.Line(x(0), y(0), x(w), y(0), drawing.Dashed)
	}
	d.Text(x(w)/2+x(0)/2, m.frame.stackTop-7, m.frame.small, drawing.Centred, "face 1")
	bottom := y(depth) + 14
	near, far := "near edge", "far edge"
	if m.match.Near != "" {
		near += ", " + string(m.match.Near)
	}
	if m.match.Far != "" {
		far += ", " + string(m.match.Far)
	}
	if drawing.TextWidth(near+far, m.frame.small)+8 > w*scale { // a narrow stack
		d.Text(x(0), bottom, m.frame.small, drawing.FromLeft, near)
		bottom += m.frame.line
		d.Text(x(0), bottom, m.frame.small, drawing.FromLeft, far)
	} else {
		d.Text(x(0), bottom, m.frame.small, drawing.FromLeft, near)
		d.Text(x(w), bottom, m.frame.small, drawing.FromRight, far)
	}
	return m.pithMark(x, y, bottom)
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
		for _, corner := range []drawing.Point{drawing.At(0, 0), drawing.At(w, 0), drawing.At(0, depth),
			drawing.At(w, depth)} {
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
	for i, f := range m.match.Faces {
		top, height := m.frame.stackTop+float64(f.Front)*scale, float64(f.Back-f.Front)*scale
		rim := outline
		if height < finest { // outlines would blacken the stack
			rim = drawing.Faint
		}
		d.Rectangle(m.frame.stackLeft, top, w, height, rim)
		if slices.Contains(m.in.Spoiled, i+1) {
			d.Line(m.frame.stackLeft, top, m.frame.stackLeft+w, top+height, drawing.Thin)
			d.Line(m.frame.stackLeft, top+height, m.frame.stackLeft+w, top, drawing.Thin)
		}
		if at := top + height/2 + 3.5; at >= next {
			d.Text(m.frame.stackLeft-6, at, m.frame.small, drawing.FromRight, strconv.Itoa(i+1))
			next = at + m.frame.each
		}
	}
	next = 0
	for i, c := range m.match.Chosen {
		a, b := m.match.Faces[c.First-1], m.match.Faces[c.First]
		up, down := m.frame.stackTop+float64(a.Front+a.Back)/2*scale, m.frame.stackTop+float64(b.Front+b.Back)/2*scale
		if down-up < finest {
			break
		}
		d.Polyline([]drawing.Point{drawing.At(m.frame.stackLeft+w+3, up), drawing.At(m.frame.stackLeft+w+9, up),
			drawing.At(m.frame.stackLeft+w+9, down), drawing.At(m.frame.stackLeft+w+3, down)}, outline)
		if at := (up+down)/2 + 3.5; at >= next {
			d.Text(m.frame.stackLeft+w+13, at, m.frame.small, drawing.FromLeft, pairName(i))
			next = at + m.frame.each
		}
	}
}

// pithMark shows the pith where it lies on the sheet, and says where it is.
func (m *matchDrawing) pithMark(x, y func(float64) float64, bottom float64) float64 {
	p := m.match.Pith
	if p == nil {
		return bottom
	}
	d := m.d
	px, py, edge := x(float64(p.X)), y(float64(p.Z)), x(float64(m.in.Width))
	free := px > 8 && px < m.frame.stackLeft-34 || px >= m.frame.stackLeft && px <= edge || px > edge+40 &&
		px < m.frame.listLeft-14 // of the numbers
	if free && py > m.frame.stackTop && py < bottom-10 {
		d.Circle(px, py, 3.2, `fill="#fff" stroke="#000" stroke-width="1.2"`)
		d.Circle(px, py, 0.9, `fill="#000"`)
	}
	for _, line := range drawing.Wrapped(pithPlace(*p, m.show), m.frame.small, m.frame.listLeft-m.frame.stackLeft-8) {
		bottom += m.frame.line
		d.Text(m.frame.stackLeft, bottom, m.frame.small, drawing.FromLeft, line)
	}
	return bottom
}

// list names the chosen pairs beside the stack and returns its foot.
func (m *matchDrawing) list() float64 {
	y := m.frame.stackTop + 4
	for i := range m.match.Chosen {
		if i == mostPairsListed {
			m.d.Text(m.frame.listLeft, y, m.frame.small, drawing.FromLeft, m.morePairs())
			return y
		}
		m.d.Text(m.frame.listLeft, y, m.frame.small, drawing.FromLeft, m.pairInWords(i))
		y += m.frame.line
	}
	return y
}

// morePairs says how many are not listed.
func (m *matchDrawing) morePairs() string {
	return "and " + strconv.Itoa(len(m.match.Chosen)-mostPairsListed) + " more pairs"
}

// pairInWords is a chosen pair in the list.
func (m *matchDrawing) pairInWords(i int) string {
	c := m.match.Chosen[i]
	_, seam := m.chosen(i)
	line := pairName(i) + "  " + strconv.Itoa(c.First) + "+" + strconv.Itoa(c.First+1) + ", " +
		openingWords[string(c.Opening)] + ", " + string(c.Edge) + " edge"
	switch {
	case seam.Shift == nil:
		line += ", no partner"
	case c.Opening != resaw.SlipMatch:
		line += ", miss " + m.show(quantity.Length(math.Abs(float64(*seam.Shift))))
	}
	return line
}
