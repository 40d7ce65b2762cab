package shape

import (
	"math"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
)

// Frame of the drawing of a section.
const (
	sectionWidth, sectionHeight = 760.0, 560.0
	sectionLeft, sectionRight   = 110.0, 600.0 // room of the section itself
	sectionTop, sectionBottom   = 84.0, 310.0
	mostRings                   = 14
	largestMove                 = 26.0 // of the outline, as it is drawn
	sectionAbout                = "End grain of a board with its rings: thin before, thick after the change of moisture content"
)

// sectionView places a section on the drawing: metres to units, y upwards.
type sectionView struct {
	w, t       float64 // of the section, metres
	px, py     float64 // of the pith
	scale      float64
	middle     drawing.Point // of the section on the drawing
	rings      string        // how they are drawn
	exaggerate float64
}

func (v *sectionView) at(x, y float64) drawing.Point {
	return drawing.At(v.middle.X+v.scale*x, v.middle.Y-v.scale*y)
}

// sectionPicture is what the drawing of a section shows, in metres and in words.
type sectionPicture struct {
	heading, summary string
	width, thickness string          // for people
	w, t             float64         // of the section
	px, py           float64         // of the pith, from the middle of the section
	before, after    []drawing.Point // the outline; none of a section that holds the pith
	held             *heldPith       // only of such a section
	figures          [][2]string     // names and numbers
	changes          string          // along the radius and the rings
}

// heldPith is a section that holds the pith, with the gap of one check at each side.
type heldPith struct {
	opens                     bool
	lower, upper, left, right float64
}

func (p *sectionPicture) draw() []byte {
	d := &drawing.Sheet{Width: sectionWidth, Height: sectionHeight, Size: `width="760" height="560"`, Title: p.heading + ": " + p.summary,
		About: sectionAbout}
	d.Text(18, 24, 15, drawing.FromLeft, p.heading)
	y := 43.0
	for _, line := range drawing.Wrapped(p.summary, drawing.BodyText, rightMargin-18) {
		d.Text(18, y, drawing.BodyText, drawing.FromLeft, line)
		y += 14
	}
	v := p.view(sectionRight-sectionLeft-40, sectionBottom-sectionTop-60, drawing.Faint)
	v.middle = drawing.At((sectionLeft+sectionRight)/2, (sectionTop+sectionBottom)/2)
	v.drawRings(d)
	p.drawShape(d, v)
	p.drawSizes(d, v)
	v.drawPithCompass(d)
	figureColumns(d, p.figures, 376)
	p.drawAssumptions(d, v)
	return d.SVG()
}

// view is as large as the room for the section lets it be.
func (p *sectionPicture) view(wide, high float64, rings string) *sectionView {
	v := &sectionView{w: p.w, t: p.t, px: p.px, py: p.py, exaggerate: 1, rings: rings}
	v.scale = math.Min(wide/v.w, high/v.t)
	if p.after != nil {
		largest := 0.0
		for i, b := range p.before {
			largest = math.Max(largest, math.Hypot(p.after[i].X-b.X, p.after[i].Y-b.Y))
		}
		v.exaggerate = exaggerated(largest*v.scale, largestMove)
	}
	return v
}

// drawRings draws arcs about the pith, as far as they lie in the section before
// the change.
func (v *sectionView) drawRings(d *drawing.Sheet) {
	nearest := math.Hypot(math.Max(0, math.Abs(v.px)-v.w/2), math.Max(0, math.Abs(v.py)-v.t/2))
	farthest := math.Hypot(math.Abs(v.px)+v.w/2, math.Abs(v.py)+v.t/2)
	centre := math.Atan2(-v.py, -v.px) // of the section from the pith
	spread := math.Pi
	if nearest > 0 {
		spread = 0
		for _, c := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			a := math.Atan2(c[1]*v.t/2-v.py, c[0]*v.w/2-v.px) - centre
			spread = math.Max(spread, math.Abs(math.Remainder(a, 2*math.Pi)))
		}
	}
	const steps = 240
	for i := range mostRings {
		radius := nearest + (farthest-nearest)*(float64(i)+0.5)/mostRings
		var run []drawing.Point
		for j := range steps + 1 {
			a := centre + spread*(2*float64(j)/steps-1)
			x, y := v.px+radius*math.Cos(a), v.py+radius*math.Sin(a)
			if math.Abs(x) <= v.w/2 && math.Abs(y) <= v.t/2 {
				run = append(run, v.at(x, y))
				continue
			}
			if len(run) > 1 {
				d.Polyline(run, v.rings)
			}
			run = run[:0]
		}
		if len(run) > 1 {
			d.Polyline(run, v.rings)
		}
	}
	if math.Abs(v.px) < v.w/2 && math.Abs(v.py) < v.t/2 {
		p := v.at(v.px, v.py)
		d.Line(p.X-5, p.Y, p.X+5, p.Y, drawing.Thin)
		d.Line(p.X, p.Y-5, p.X, p.Y+5, drawing.Thin)
	}
}

// drawShape draws the section before and, exaggerated, after; or the check that
// opens in a boxed heart.
func (p *sectionPicture) drawShape(d *drawing.Sheet, v *sectionView) {
	lower, upper := v.at(-v.w/2, -v.t/2), v.at(v.w/2, v.t/2)
	d.Rectangle(lower.X, upper.Y, upper.X-lower.X, lower.Y-upper.Y, drawing.Thin)
	if p.held != nil {
		p.held.drawCheck(d, v)
		return
	}
	after := make([]drawing.Point, 0, len(p.after))
	for i, a := range p.after {
		b := p.before[i]
		after = append(after, v.at(b.X+v.exaggerate*(a.X-b.X), b.Y+v.exaggerate*(a.Y-b.Y)))
	}
	d.Polygon(after, drawing.Thick)
}

// drawCheck draws the check from the pith to the nearest side as a wedge.
func (h *heldPith) drawCheck(d *drawing.Sheet, v *sectionView) {
	if !h.opens {
		return
	}
	side := []struct{ x, y, gx, gy, gap, reach float64 }{
		{v.px, -v.t / 2, 1, 0, h.lower, v.t/2 + v.py},
		{v.px, v.t / 2, 1, 0, h.upper, v.t/2 - v.py},
		{-v.w / 2, v.py, 0, 1, h.left, v.w/2 + v.px},
		{v.w / 2, v.py, 0, 1, h.right, v.w/2 - v.px},
	}
	near := side[0]
	for _, s := range side[1:] {
		if s.reach < near.reach {
			near = s
		}
	}
	v.exaggerate = exaggerated(near.gap*v.scale, 18)
	half := near.gap * v.exaggerate / 2
	d.Polygon([]drawing.Point{
		v.at(v.px, v.py), v.at(near.x+near.gx*half, near.y+near.gy*half), v.at(near.x-near.gx*half, near.y-near.gy*half),
	}, `fill="#000" stroke="#000" stroke-width="0.8"`)
}

// drawSizes draws the dimension lines of the section before the change.
func (p *sectionPicture) drawSizes(d *drawing.Sheet, v *sectionView) {
	lower, upper := v.at(-v.w/2, -v.t/2), v.at(v.w/2, v.t/2)
	y := lower.Y + 38
	measureLine(d, drawing.At(lower.X, y), drawing.At(upper.X, y))
	d.Text((lower.X+upper.X)/2, y+15, drawing.SmallText, drawing.Centred, "width before "+p.width)
	x := lower.X - 44
	measureLine(d, drawing.At(x, upper.Y), drawing.At(x, lower.Y))
	words, middle := []string{"thickness", "before", p.thickness}, (upper.Y+lower.Y)/2
	if all := strings.Join(words, " "); drawing.TextWidth(all, drawing.SmallText) <= lower.Y-upper.Y {
		d.Upright(x-7, middle, drawing.SmallText, all)
		return
	}
	for i, word := range words { // beside a line too short for them
		d.Text(x-7, middle+3.5+12*float64(i-1), drawing.SmallText, drawing.FromRight, word)
	}
}

// drawPithCompass shows the way to the pith from the middle of the section.
func (v *sectionView) drawPithCompass(d *drawing.Sheet) {
	const cx, cy, radius = 684.0, 150.0, 30.0
	if !v.drawWayToPith(d, cx, cy, radius) {
		d.Text(cx, cy+radius+16, drawing.SmallText, drawing.Centred, "pith in the middle")
		return
	}
	d.Text(cx, cy+radius+16, drawing.SmallText, drawing.Centred, "to the pith")
	d.Text(cx, cy-radius-9, drawing.SmallText, drawing.Centred, "bark the other way")
}

// drawWayToPith draws an arrow to the pith in a circle; none where the pith is in the middle.
func (v *sectionView) drawWayToPith(d *drawing.Sheet, cx, cy, radius float64) (points bool) {
	d.Circle(cx, cy, radius, drawing.Faint)
	size := math.Hypot(v.px, v.py)
	if size == 0 {
		return false
	}
	x, y := v.px/size, -v.py/size // y of the drawing runs down
	tip := drawing.At(cx+radius*x, cy+radius*y)
	d.Line(cx-radius*x, cy-radius*y, tip.X, tip.Y, drawing.Thin)
	d.Polygon([]drawing.Point{tip, drawing.At(tip.X-10*x+4*y, tip.Y-10*y-4*x), drawing.At(tip.X-10*x-4*y, tip.Y-10*y+4*x)}, `fill="#000" stroke="none"`)
	return true
}

func (p *sectionPicture) drawAssumptions(d *drawing.Sheet, v *sectionView) {
	d.Line(18, 462, rightMargin, 462, drawing.Thin)
	y := 478.0
	for _, note := range p.assumptions(v, "Black", "Grey") {
		for _, line := range drawing.Wrapped(note, drawing.SmallText, rightMargin-18) {
			d.Text(18, y, drawing.SmallText, drawing.FromLeft, line)
			y += 13
		}
	}
}

// assumptions say what is drawn and what it rests on; filled and faint name what is drawn so.
func (p *sectionPicture) assumptions(v *sectionView, filled, faint string) []string {
	factor := quantity.FormatNumber(v.exaggerate, 3)
	drawn := "Thin: before. Thick: after, its changes drawn " + factor + " times as large."
	switch {
	case p.held != nil && p.held.opens:
		drawn = filled + ": the check, if one takes all of the opening, drawn " + factor + " times as wide."
	case p.held != nil:
		drawn = "Only the section before is drawn."
	case v.exaggerate == 1:
		drawn = "Thin: before. Thick: after, true to scale."
	}
	return []string{
		drawn + " " + faint + ": rings, as circles about one pith; their number is not counted on the wood.",
		p.changes + ". In brackets: 90 % of boards of this wood lie there.",
		"Free of load and stickers, even in moisture over the section unless a profile is given; no set, no stress from " +
			"drying, no stress of growth.",
	}
}
