package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// endGrain places the end of a billet on a sheet, in whatever units the sheet has.
type endGrain struct {
	d         *drawing.Sheet
	left, top float64         // of near edge and face 1
	scale     float64         // units for a metre
	outline   []drawing.Point // of the wood, y and z in metres
	many      bool            // of so many billets that rings are drawn with fewer points
	taken     *drawing.Taken  // by numbers of leaves on a screen, where they are large; nil on paper
}

// number writes the number of a leaf, unless another stands there.
func (e *endGrain) number(x, y, size float64, l *plan.Leaf) {
	words := strconv.Itoa(l.Number)
	if e.taken == nil || e.taken.Take(drawing.TextBox(x, y, size, drawing.Centred, words)) {
		e.d.Text(x, y, size, drawing.Centred, words)
	}
}

func (e *endGrain) x(y quantity.Length) float64 { return e.left + e.scale*float64(y) }

func (e *endGrain) y(z quantity.Length) float64 { return e.top + e.scale*float64(z) }

// endOutline is the end of a billet at a place along it: near edge and face 1 at 0.
func endOutline(b *plan.Billet, at quantity.Length) []drawing.Point {
	share := float64(at / b.Length)
	width, near := float64(b.Width), float64(b.Thickness)
	if b.WidthEnd != nil {
		width += share * float64(*b.WidthEnd-b.Width)
	}
	if b.ThicknessEnd != nil {
		near += share * float64(*b.ThicknessEnd-b.Thickness)
	}
	far := near
	if b.ThicknessFarEdge != nil {
		far += float64(*b.ThicknessFarEdge-b.Thickness) * width / float64(b.Width)
	}
	return []drawing.Point{drawing.At(0, 0), drawing.At(width, 0), drawing.At(width, math.Max(0, far)),
		drawing.At(0, math.Max(0, near))}
}

func (e *endGrain) polygon(style string) {
	points := make([]drawing.Point, 0, len(e.outline))
	for _, p := range e.outline {
		points = append(points, drawing.At(e.left+e.scale*p.X, e.top+e.scale*p.Y))
	}
	e.d.Polygon(points, style)
}

// holds says whether a place lies in the wood: below the straight far face.
func (e *endGrain) holds(y, z float64) bool {
	width, far, near := e.outline[1].X, e.outline[2].Y, e.outline[3].Y
	return y >= 0 && y <= width && z >= 0 && width > 0 && z <= near+(far-near)*y/width
}

// curve draws what of a line lies in the wood.
func (e *endGrain) curve(at func(i int) (y, z float64), n int, style string) {
	var run []drawing.Point
	flush := func() {
		if len(run) > 1 {
			e.d.Polyline(run, style)
		}
		run = nil
	}
	for i := 0; i <= n; i++ {
		y, z := at(i)
		if !e.holds(y, z) {
			flush()
			continue
		}
		run = append(run, drawing.At(e.left+e.scale*y, e.top+e.scale*z))
	}
	flush()
}

// rings draws arcs about the pith, or straight lines of one ring angle, apart by
// whatever looks well: they are not the wood's own rings.
func (e *endGrain) rings(b *plan.Billet, style string) {
	width, thick := e.outline[1].X, math.Max(e.outline[2].Y, e.outline[3].Y)
	const lines = 16
	pieces := 220
	if e.many {
		pieces = 70
	}
	switch {
	case b.Pith != nil:
		py, pz := float64(b.Pith.X), float64(b.Pith.Z)
		nearest := math.Hypot(py-math.Min(math.Max(py, 0), width), pz-math.Min(math.Max(pz, 0), thick))
		farthest := 0.0
		for _, p := range e.outline {
			farthest = math.Max(farthest, math.Hypot(p.X-py, p.Y-pz))
		}
		// Only the angles from which the wood is seen, so that arcs of a far pith
		// come out smooth.
		from, span := 0.0, 2*math.Pi
		if nearest > 0 {
			middle := math.Atan2(thick/2-pz, width/2-py)
			half := 0.0
			for _, p := range e.outline {
				half = math.Max(half, math.Abs(math.Remainder(math.Atan2(p.Y-pz, p.X-py)-middle, 2*math.Pi)))
			}
			from, span = middle-half, 2*half
		}
		for n := 1; n < lines; n++ {
			r := nearest + (farthest-nearest)*float64(n)/lines
			e.curve(func(i int) (float64, float64) {
				angle := from + span*float64(i)/float64(pieces)
				return py + r*math.Cos(angle), pz + r*math.Sin(angle)
			}, pieces, style)
		}
	case b.RingAngle != nil:
		lean := thick / math.Max(0.02, b.RingAngle.Tan())
		for n := range lines {
			start := -lean + (width+lean)*(float64(n)+0.5)/lines
			e.curve(func(i int) (float64, float64) {
				share := float64(i) / float64(pieces)
				return start + lean*share, thick * share
			}, pieces, style)
		}
	}
}

// stack draws the leaves and kerfs of a blank where they lie in the rough billet.
func (e *endGrain) stack(b *plan.Blank, cuts []plan.Step) {
	if b.Split {
		e.wedge(b, drawing.Thin)
		return
	}
	for _, l := range b.Leaves {
		left, top, width, height := e.slice(b, l.From, l.To)
		switch l.Role {
		case plan.RoleUnpaired:
			e.d.Rectangle(left, top, width, height, oddLeaf)
		case plan.RoleRejected:
			e.hatch(left, top, width, height)
		default:
		}
		e.d.Rectangle(left, top, width, height, drawing.Thin)
	}
	for _, s := range cuts {
		left, top, width, height := e.slice(b, s.At, s.At+s.Kerf)
		e.d.Rectangle(left, top, width, height, sawdust)
	}
}

// wedge draws the halves of a wedge where they lie in the rough billet, and the kerf between
// them.
func (e *endGrain) wedge(b *plan.Blank, style string) {
	near, far := e.x(b.Y), e.x(b.Y+b.Width)
	place := func(nearFrom, farFrom, nearTo, farTo quantity.Length) []drawing.Point {
		return []drawing.Point{drawing.At(near, e.y(b.Face1+nearFrom)), drawing.At(far, e.y(b.Face1+farFrom)),
			drawing.At(far, e.y(b.Face1+farTo)), drawing.At(near, e.y(b.Face1+nearTo))}
	}
	first, second := &b.Leaves[0], &b.Leaves[1]
	e.d.Polygon(place(first.To, *first.FarTo, second.From, *second.FarFrom), sawdust)
	for _, l := range []*plan.Leaf{first, second} {
		e.d.Polygon(place(l.From, *l.FarFrom, l.To, *l.FarTo), style)
	}
}

// slice is where a slice of a blank lies, that begins and ends at depths below the planed
// face 1, or at places from the near edge of one on its side.
func (e *endGrain) slice(b *plan.Blank, from, to quantity.Length) (left, top, width, height float64) {
	if b.Turned {
		return e.x(b.Y + from), e.y(b.Face1), e.scale * float64(to-from), e.scale * float64(b.Usable)
	}
	return e.x(b.Y), e.y(b.Face1 + from), e.scale * float64(b.Width), e.scale * float64(to-from)
}

func (e *endGrain) hatch(left, top, width, height float64) {
	step := math.Max(height, width/24)
	for x := left; x < left+width; x += step {
		end := math.Min(x+step, left+width)
		e.d.Line(x, top+height, end, top+height-height*(end-x)/step, drawing.Faint)
	}
}

// numbers writes the leaves' numbers, side by side where leaves are thinner than
// a number is high, and only some of them where even that does not fit.
func (e *endGrain) numbers(b *plan.Blank, size float64) {
	if len(b.Leaves) == 0 {
		return
	}
	if b.Turned {
		e.numbersAcross(b, size)
		return
	}
	if b.Split {
		for n := range b.Leaves {
			l := &b.Leaves[n]
			mid := b.Face1 + (l.From+l.To+*l.FarFrom+*l.FarTo)/4
			e.number(e.x(b.Y+b.Width/2), e.y(mid)+0.3*size, size, l)
		}
		return
	}
	pitch := math.Inf(1)
	for n := 1; n < len(b.Leaves); n++ {
		pitch = math.Min(pitch, e.scale*float64(b.Leaves[n].From+b.Leaves[n].To-b.Leaves[n-1].From-b.Leaves[n-1].To)/2)
	}
	room := drawing.TextWidth(strconv.Itoa(len(b.Leaves)), size) + 4
	width := e.scale * float64(b.Width)
	columns := max(1, min(int(math.Ceil(1.1*size/pitch)), int(width/room))) // one leaf has no pitch
	every := 1
	for float64(columns*every)*pitch < 1.1*size {
		every++
	}
	if room > width {
		return
	}
	for n := 0; n < len(b.Leaves); n += every {
		l := &b.Leaves[n]
		x := e.x(b.Y) + width/2 + room*(float64(n/every%columns)-float64(columns-1)/2)
		y := e.y(b.Face1+(l.From+l.To)/2) + 0.3*size
		words := strconv.Itoa(l.Number)
		wide := drawing.TextWidth(words, size) + 1.5
		e.d.Rectangle(x-wide/2, y-0.78*size, wide, 0.98*size, paper)
		e.d.Text(x, y, size, drawing.Centred, words)
	}
}

// numbersAcross writes those of the leaves of a blank on its side, one below the other where
// leaves are thinner than a number is wide, and only those that there is room for.
func (e *endGrain) numbersAcross(b *plan.Blank, size float64) {
	const pitch = 1.1
	rows := max(1, min(mostRows, int(e.scale*float64(b.Usable)/(pitch*size))))
	ends := make([]float64, rows) // where the last number of each row ends
	for n := range b.Leaves {
		l := &b.Leaves[n]
		words := strconv.Itoa(l.Number)
		x, half := e.x(b.Y+(l.From+l.To)/2), drawing.TextWidth(words, size)/2+1
		for row, end := range ends {
			y := e.y(b.Face1+b.Usable/2) + pitch*size*(float64(row)-float64(rows-1)/2) + 0.3*size
			if x-half < end || e.taken != nil && !e.taken.Take(drawing.TextBox(x, y, size, drawing.Centred, words)) {
				continue
			}
			ends[row] = x + half
			if 2*half > e.scale*float64(l.To-l.From) { // over kerfs it stands on a ground of its own
				e.d.Rectangle(x-half+0.25, y-0.78*size, 2*half-0.5, 0.98*size, paper)
			}
			e.d.Text(x, y, size, drawing.Centred, words)
			break
		}
	}
}

// mostRows are how many rows the numbers of leaves on their side stand in, at most.
const mostRows = 4

// foot is where the wood ends below.
func (e *endGrain) foot() float64 {
	return e.top + e.scale*math.Max(e.outline[2].Y, e.outline[3].Y)
}
