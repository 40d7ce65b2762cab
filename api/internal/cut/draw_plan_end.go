package cut

import (
	"math"
	"strconv"
	"strings"

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
	return []drawing.Point{drawing.At(0, 0), drawing.At(width, 0), drawing.At(width, math.Max(0, far)), drawing.At(0, math.Max(0, near))}
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
	const lines, pieces = 16, 220
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
				angle := from + span*float64(i)/pieces
				return py + r*math.Cos(angle), pz + r*math.Sin(angle)
			}, pieces, style)
		}
	case b.RingAngle != nil:
		lean := thick / math.Max(0.02, b.RingAngle.Tan())
		for n := range lines {
			start := -lean + (width+lean)*(float64(n)+0.5)/lines
			e.curve(func(i int) (float64, float64) {
				share := float64(i) / pieces
				return start + lean*share, thick * share
			}, pieces, style)
		}
	}
}

// stack draws the leaves and kerfs of a blank where they lie in the rough billet.
func (e *endGrain) stack(b *plan.Blank, cuts []plan.Step) {
	left, width := e.x(b.Y), e.scale*float64(b.Width)
	for _, l := range b.Leaves {
		top, height := e.y(b.Face1+l.From), e.scale*float64(l.To-l.From)
		switch l.Role {
		case plan.RoleOdd:
			e.d.Rectangle(left, top, width, height, oddLeaf)
		case plan.RoleSpoiled:
			e.hatch(left, top, width, height)
		default:
		}
		e.d.Rectangle(left, top, width, height, drawing.Thin)
	}
	for _, s := range cuts {
		e.d.Rectangle(left, e.y(b.Face1+s.At), width, e.scale*float64(s.Kerf), sawdust)
	}
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

// cutsOf are the resaw cuts of every blank.
func cutsOf(made *plan.BilletPlan) [][]plan.Step {
	out := make([][]plan.Step, len(made.Blanks))
	blank := -1
	for _, s := range made.Steps {
		switch s.Action {
		case plan.FlattenBlank:
			blank++
		case plan.Resaw:
			out[blank] = append(out[blank], s)
		default:
		}
	}
	return out
}

// zones draws those that reach into a length of the billet and matter there: not
// one that lies beyond the ends of all the blanks it would be drawn on.
func (e *endGrain) zones(b *plan.Billet, made *plan.BilletPlan, s *lengthView) {
	width, deepest := quantity.Length(e.outline[1].X), quantity.Length(math.Max(e.outline[2].Y, e.outline[3].Y))
	for i := range b.Zones {
		z := &b.Zones[i]
		if z.X1 <= s.from || z.X0 >= s.to || !matters(z, made, s) {
			continue
		}
		top, bottom := quantity.Length(0), deepest
		if z.Z0 != nil {
			top, bottom = max(0, *z.Z0), min(deepest, *z.Z1)
		}
		left, right := max(0, z.Y0), min(width, z.Y1)
		if right > left && bottom > top {
			e.d.Rectangle(e.x(left), e.y(top), e.x(right)-e.x(left), e.y(bottom)-e.y(top), fault)
		}
	}
}

// matters says whether a zone lies in a blank of the view, or beside all of them.
func matters(z *plan.Zone, made *plan.BilletPlan, s *lengthView) bool {
	beside := true
	for _, n := range s.blanks {
		k := &made.Blanks[n]
		if z.Y1 <= k.Y || z.Y0 >= k.Y+k.Width {
			continue
		}
		if z.X1 > k.X && z.X0 < k.X+k.Length {
			return true
		}
		beside = false
	}
	return beside
}

// ripKerf is where a rip cut turns wood into dust: from and to along the billet,
// left and right across it.
type ripKerf struct{ from, to, left, right quantity.Length }

// ripsOf follows the cuts of a plan and returns the kerfs of its rips.
func ripsOf(b *plan.Billet, made *plan.BilletPlan) []ripKerf {
	pieces := map[int]ripKerf{0: {0, b.Length, 0, max(b.Width, orLength(b.WidthEnd))}}
	var out []ripKerf
	for _, s := range made.Steps {
		low, high := pieces[s.Piece], pieces[s.Piece]
		switch s.Action {
		case plan.Crosscut, plan.Trim:
			low.to, high.from = s.At, s.At+s.Kerf
		case plan.Rip:
			out = append(out, ripKerf{low.from, low.to, s.At, s.At + s.Kerf})
			low.right, high.left = s.At, s.At+s.Kerf
		default: // face and thickness: the place stays
		}
		if s.Low >= 0 {
			pieces[s.Low] = low
		}
		if s.High >= 0 {
			pieces[s.High] = high
		}
	}
	return out
}

// rips draws the kerfs of the rip cuts through a length, from face to face.
func (e *endGrain) rips(b *plan.Billet, made *plan.BilletPlan, s *lengthView) {
	width, far, near := e.outline[1].X, e.outline[2].Y, e.outline[3].Y
	for _, k := range ripsOf(b, made) {
		left, right := float64(max(0, k.left)), math.Min(width, float64(k.right))
		if k.to <= s.from || k.from >= s.to || right <= left {
			continue
		}
		depth := func(y float64) quantity.Length { return quantity.Length(near + (far-near)*y/width) }
		l, r := quantity.Length(left), quantity.Length(right)
		e.d.Polygon([]drawing.Point{drawing.At(e.x(l), e.y(0)), drawing.At(e.x(r), e.y(0)), drawing.At(e.x(r), e.y(depth(right))), drawing.At(e.x(l), e.y(depth(left)))}, sawdust)
	}
}

// endView draws the end grain of a length of a billet and returns where it ends.
func (g *planDrawing) endView(i int, s *lengthView, top float64) float64 {
	b, made := &g.p.asked.Billets[i], &g.plan.Billets[i]
	e := &endGrain{d: g.d, outline: endOutline(b, s.from)}
	width, near, far := e.outline[1].X, e.outline[3].Y, e.outline[2].Y
	thick := math.Max(near, far)
	e.scale = math.Min(endWidth/width, endHeight/thick)
	e.left = endLeft
	caption := "end grain at " + g.length(s.from)
	if b.Pith != nil {
		caption += "; pith " + g.length(b.Pith.X) + " from the near edge, " + g.length(b.Pith.Z) + " below face 1"
	} else if b.RingAngle != nil {
		caption += "; rings at " + quantity.FormatNumber(b.RingAngle.Degrees(), 1) + " degrees"
	}
	y := top
	for _, line := range drawing.Wrapped(caption, planLabel, endWidth+40) {
		y += 11
		g.d.Text(planLeft, y, planLabel, drawing.FromLeft, line)
	}
	y += 13
	e.top = y + 5
	e.polygon(paper)
	e.rings(b, ringArc)
	e.polygon(drawing.Thin)
	cuts := cutsOf(made)
	for _, n := range s.blanks {
		e.stack(&made.Blanks[n], cuts[n])
	}
	e.rips(b, made, s)
	e.zones(b, made, s)
	for c, n := range s.blanks {
		blank := &made.Blanks[n]
		e.numbers(blank, leafNumber)
		if label := drawing.ClippedTo(e.scale*float64(blank.Width), strings.Join(s.same[c], ", ")); label != "" {
			g.d.Text(e.x(blank.Y+blank.Width/2), y, planLabel, drawing.Centred, label)
		}
	}
	bottom := e.top + e.scale*thick
	g.dimension(e.left-8, e.top, e.top+e.scale*near, g.length(quantity.Length(near)))
	if math.Abs(near-far) > 1e-9 {
		g.dimension(e.left+e.scale*width+18, e.top, e.top+e.scale*far, g.length(quantity.Length(far)))
	}
	bottom += 12
	g.d.Line(e.left, bottom-5, e.left+e.scale*width, bottom-5, drawing.Thin)
	g.d.Text(e.left+e.scale*width/2, bottom+6, planLabel, drawing.Centred, g.length(quantity.Length(width)))
	return bottom + 14
}

// dimension draws an upright measure with its words left of the line, where it is
// long enough to hold them.
func (g *planDrawing) dimension(x, top, bottom float64, words string) {
	g.d.Line(x, top, x, bottom, drawing.Thin)
	g.d.Line(x-3, top, x+3, top, drawing.Thin)
	g.d.Line(x-3, bottom, x+3, bottom, drawing.Thin)
	if drawing.TextWidth(words, planLabel) <= bottom-top+8 {
		g.d.Upright(x-5, (top+bottom)/2, planLabel, words)
	}
}
