package shape

import (
	"math"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Frame of the drawing of a section.
const (
	sectionWidth, sectionHeight = 760.0, 560.0
	sectionLeft, sectionRight   = 110.0, 600.0 // room of the section itself
	sectionTop, sectionBottom   = 84.0, 310.0
	rightMargin                 = 742.0
	mostRings                   = 14
)

// sectionView places a section on the drawing: metres to units, y upwards.
type sectionView struct {
	w, t       float64 // of the section, metres
	px, py     float64 // of the pith
	scale      float64
	exaggerate float64
}

func (v *sectionView) at(x, y float64) drawing.Point {
	return drawing.At((sectionLeft+sectionRight)/2+v.scale*x, (sectionTop+sectionBottom)/2-v.scale*y)
}

// exaggerations that a reader can undo in the head; below 1 for what would not fit.
var exaggerations = []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000}

// exaggerated is the largest round factor that keeps the largest displacement
// within room.
func exaggerated(largest, room float64) float64 {
	best := exaggerations[0]
	for _, f := range exaggerations {
		if f*largest <= room {
			best = f
		}
	}
	return best
}

func (r *SectionResult) draw() []byte {
	s := &r.work.section
	heading := r.Wood.Common + ", " + s.Width.Format(r.work.report.LengthUnit) + " x " + s.Thickness.Format(r.work.report.LengthUnit)
	d := &drawing.Sheet{Width: sectionWidth, Height: sectionHeight, Size: `width="760" height="560"`, Title: heading + ": " + r.Summary,
		About: "End grain of a board with its rings: thin before, thick after the change of moisture content"}
	d.Text(18, 24, 15, drawing.FromLeft, heading)
	y := 43.0
	for _, line := range drawing.Wrapped(r.Summary, drawing.BodyText, rightMargin-18) {
		d.Text(18, y, drawing.BodyText, drawing.FromLeft, line)
		y += 14
	}
	v := r.view()
	r.drawRings(d, v)
	r.drawShape(d, v)
	r.drawSizes(d, v)
	drawPithCompass(d, v)
	r.drawFigures(d)
	r.drawAssumptions(d, v)
	return d.SVG()
}

func (r *SectionResult) view() *sectionView {
	s := &r.work.section
	v := &sectionView{w: float64(s.Width), t: float64(s.Thickness), px: float64(s.PithX), py: float64(s.PithY), exaggerate: 1}
	v.scale = math.Min((sectionRight-sectionLeft-40)/v.w, (sectionBottom-sectionTop-60)/v.t)
	if r.Outline != nil {
		largest := 0.0
		for i := range r.Outline.Before {
			b, a := r.metres(r.Outline.Before[i]), r.metres(r.Outline.After[i])
			largest = math.Max(largest, math.Hypot(a.X-b.X, a.Y-b.Y))
		}
		v.exaggerate = exaggerated(largest*v.scale, 26)
	}
	return v
}

func (r *SectionResult) metres(p OutlinePoint) drawing.Point {
	unit, err := quantity.LengthOf(1, p.Unit)
	if err != nil {
		return drawing.Point{}
	}
	return drawing.At(p.X*float64(unit), p.Y*float64(unit))
}

// drawRings draws arcs about the pith, as far as they lie in the section before
// the change.
func (r *SectionResult) drawRings(d *drawing.Sheet, v *sectionView) {
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
				d.Polyline(run, drawing.Faint)
			}
			run = run[:0]
		}
		if len(run) > 1 {
			d.Polyline(run, drawing.Faint)
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
func (r *SectionResult) drawShape(d *drawing.Sheet, v *sectionView) {
	lower, upper := v.at(-v.w/2, -v.t/2), v.at(v.w/2, v.t/2)
	d.Rectangle(lower.X, upper.Y, upper.X-lower.X, lower.Y-upper.Y, drawing.Thin)
	if r.Outline == nil {
		r.drawCheck(d, v)
		return
	}
	after := make([]drawing.Point, 0, len(r.Outline.After))
	for i := range r.Outline.After {
		b, a := r.metres(r.Outline.Before[i]), r.metres(r.Outline.After[i])
		after = append(after, v.at(b.X+v.exaggerate*(a.X-b.X), b.Y+v.exaggerate*(a.Y-b.Y)))
	}
	d.Polygon(after, drawing.Thick)
}

// drawCheck draws the check from the pith to the nearest side as a wedge.
func (r *SectionResult) drawCheck(d *drawing.Sheet, v *sectionView) {
	h := r.work.changed.Heart
	if !h.Opens {
		return
	}
	side := []struct{ x, y, gx, gy, gap, reach float64 }{
		{v.px, -v.t / 2, 1, 0, float64(h.Gap.Lower.Value), v.t/2 + v.py},
		{v.px, v.t / 2, 1, 0, float64(h.Gap.Upper.Value), v.t/2 - v.py},
		{-v.w / 2, v.py, 0, 1, float64(h.Gap.Left.Value), v.w/2 + v.px},
		{v.w / 2, v.py, 0, 1, float64(h.Gap.Right.Value), v.w/2 - v.px},
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
func (r *SectionResult) drawSizes(d *drawing.Sheet, v *sectionView) {
	lower, upper := v.at(-v.w/2, -v.t/2), v.at(v.w/2, v.t/2)
	y := lower.Y + 38
	measureLine(d, drawing.At(lower.X, y), drawing.At(upper.X, y))
	d.Text((lower.X+upper.X)/2, y+15, drawing.SmallText, drawing.Centred, "width before "+r.work.section.Width.Format(r.work.report.LengthUnit))
	x := lower.X - 44
	measureLine(d, drawing.At(x, upper.Y), drawing.At(x, lower.Y))
	words, middle := []string{"thickness", "before", r.work.section.Thickness.Format(r.work.report.LengthUnit)}, (upper.Y+lower.Y)/2
	if all := strings.Join(words, " "); drawing.TextWidth(all, drawing.SmallText) <= lower.Y-upper.Y {
		d.Upright(x-7, middle, drawing.SmallText, all)
		return
	}
	for i, word := range words { // beside a line too short for them
		d.Text(x-7, middle+3.5+12*float64(i-1), drawing.SmallText, drawing.FromRight, word)
	}
}

// measureLine is a line with a tick at either end, upright or level.
func measureLine(d *drawing.Sheet, a, b drawing.Point) {
	d.Line(a.X, a.Y, b.X, b.Y, drawing.Thin)
	for _, p := range []drawing.Point{a, b} {
		d.Line(p.X-3, p.Y+3, p.X+3, p.Y-3, drawing.Thin)
	}
}

// drawPithCompass shows the way to the pith from the middle of the section.
func drawPithCompass(d *drawing.Sheet, v *sectionView) {
	const cx, cy, radius = 684.0, 150.0, 30.0
	d.Element(`<circle cx="`, drawing.Coordinate(cx), `" cy="`, drawing.Coordinate(cy), `" r="`, drawing.Coordinate(radius), `" `, drawing.Faint, `/>`)
	size := math.Hypot(v.px, v.py)
	if size == 0 {
		d.Text(cx, cy+radius+16, drawing.SmallText, drawing.Centred, "pith in the middle")
		return
	}
	x, y := v.px/size, -v.py/size // y of the drawing runs down
	tip := drawing.At(cx+radius*x, cy+radius*y)
	d.Line(cx-radius*x, cy-radius*y, tip.X, tip.Y, drawing.Thin)
	d.Polygon([]drawing.Point{tip, drawing.At(tip.X-10*x+4*y, tip.Y-10*y-4*x), drawing.At(tip.X-10*x-4*y, tip.Y-10*y+4*x)}, `fill="#000" stroke="none"`)
	d.Text(cx, cy+radius+16, drawing.SmallText, drawing.Centred, "to the pith")
	d.Text(cx, cy-radius-9, drawing.SmallText, drawing.Centred, "bark the other way")
}

// drawFigures lists the numbers with their bands in two columns.
func (r *SectionResult) drawFigures(d *drawing.Sheet) {
	var rows [][2]string
	add := func(name string, b wire.QuantityBand) {
		rows = append(rows, [2]string{name, bandText(b)})
	}
	if s := r.Shape; s != nil {
		for _, f := range s.Faces[:2] {
			cup := f.Cup
			if f.WithGradient != nil {
				cup = *f.WithGradient
			}
			add("cup of "+f.Face+" face, + to bark", cup)
		}
		add("width of the lower face", s.LowerWidth)
		add("width of the upper face", s.UpperWidth)
		add("thickness in the middle", s.MiddleThick)
		add("thickness at the left edge", s.LeftThick)
		if s.FlatWithLevel != nil {
			add("planed flat", *s.FlatWithLevel)
		} else {
			add("planed flat", s.Flat)
			add("ripped in two, planed flat", s.RippedFlat)
		}
	}
	if h := r.Heart; h != nil {
		rows = append(rows, [2]string{"opening of the check", quantity.FormatNumber(h.Opening.ValueDeg, 1) + " degrees (" + quantity.FormatNumber(h.Opening.LowDeg, 1) + " to " + quantity.FormatNumber(h.Opening.HighDeg, 1) + ")"})
		add("gap at the lower face", h.LowerGap)
		add("gap at the upper face", h.UpperGap)
		add("gap at the left edge", h.LeftGap)
		add("gap at the right edge", h.RightGap)
	}
	if l := r.Lengthwise; l != nil {
		if l.Twist != nil {
			rows = append(rows, [2]string{"twist, end to end", quantity.FormatNumber(l.Twist.ValueDeg, 1) + " degrees (" + quantity.FormatNumber(l.Twist.LowDeg, 1) + " to " + quantity.FormatNumber(l.Twist.HighDeg, 1) + ")"})
		}
		if l.Crook != nil {
			add("crook, + hollow on the right", *l.Crook)
		}
		if l.Bow != nil {
			add("bow, + hollow above", *l.Bow)
		}
	}
	figureColumns(d, rows, 376)
}

// figureColumns lists names and figures in two columns from y downwards.
func figureColumns(d *drawing.Sheet, rows [][2]string, y float64) {
	const wide, second = 348.0, rightMargin - 348
	half := (len(rows) + 1) / 2
	for i, row := range rows {
		x, line := 18.0, i
		if i >= half {
			x, line = second, i-half
		}
		at := y + 15*float64(line)
		d.Text(x, at, drawing.SmallText, drawing.FromLeft, row[0])
		d.Text(x+wide, at, drawing.SmallText, drawing.FromRight, row[1])
		d.Line(x, at+3.5, x+wide, at+3.5, drawing.Faint)
	}
}

// bandText writes a band with as many digits as its unit needs.
func bandText(b wire.QuantityBand) string {
	digits := 2
	if b.Unit == "in" {
		digits = 3
	}
	if largest := math.Max(math.Abs(b.Low), math.Abs(b.High)); largest < math.Pow(10, 1-float64(digits)) {
		digits++
	}
	if b.Low == b.High {
		return quantity.FormatNumber(b.Value, digits) + " " + b.Unit
	}
	f := func(v float64) string { return quantity.FormatNumber(v, digits) }
	return f(b.Value) + " " + b.Unit + " (" + f(b.Low) + " to " + f(b.High) + ")"
}

func (r *SectionResult) drawAssumptions(d *drawing.Sheet, v *sectionView) {
	d.Line(18, 462, rightMargin, 462, drawing.Thin)
	factor := quantity.FormatNumber(v.exaggerate, 3)
	drawn := "Thin: before. Thick: after, its changes drawn " + factor + " times as large."
	switch {
	case r.Heart != nil && r.Heart.Opens:
		drawn = "Black: the check, if one takes all of the opening, drawn " + factor + " times as wide."
	case r.Heart != nil:
		drawn = "Only the section before is drawn."
	case v.exaggerate == 1:
		drawn = "Thin: before. Thick: after, true to scale."
	}
	y := 478.0
	for _, note := range []string{
		drawn + " Grey: rings, as circles about one pith; their number is not counted on the wood.",
		"Radial change " + percentText(r.Radial) + ", tangential " + percentText(r.Tangential) + ". In brackets: 90 % of boards of this wood lie there.",
		"Free of load and stickers, even in moisture over the section unless levels are given; no set, no stress from drying, no stress of growth.",
	} {
		for _, line := range drawing.Wrapped(note, drawing.SmallText, rightMargin-18) {
			d.Text(18, y, drawing.SmallText, drawing.FromLeft, line)
			y += 13
		}
	}
}

func percentText(b wire.PercentBand) string {
	f := func(v float64) string { return quantity.FormatNumber(v, 2) }
	return f(b.ValuePct) + " % (" + f(b.LowPct) + " to " + f(b.HighPct) + ")"
}
