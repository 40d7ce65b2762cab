package year

import (
	"math"
	"time"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Frame of the drawing of the year: one panel below the other, all with the same
// scales, so that they can be compared by eye.
const (
	yearWidth           = 760.0
	yearLeft, yearRight = 190.0, 742.0
	yearHead, yearPanel = 78.0, 92.0
	yearGap             = 10.0
)

// draw is the year of each part: mean with its band, the face that swings most,
// the build, driest and wettest.
func (r *InServiceResult) draw() []byte {
	heading := drawing.Wrapped(r.Summary, drawing.BodyText, yearRight-16)
	yearTop := yearHead + 16*float64(max(len(heading)-2, 0))
	height := yearTop + float64(len(r.Parts))*(yearPanel+yearGap) + 52 + 13*float64(len(r.remarks()))
	d := &drawing.Sheet{Width: yearWidth, Height: height, Size: `width="760" height="` + drawing.Coordinate(height) + `"`,
		Title: "Moisture content through the year: " + r.Summary,
		About: "One panel for each part: mean moisture content with a 90 percent band, marks at the driest and the wettest day, a line at the moisture content of the build"}
	y := 22.0
	d.Text(16, y, 15, drawing.FromLeft, "The year of the parts in their room")
	for _, line := range heading {
		y += 16
		d.Text(16, y, drawing.BodyText, drawing.FromLeft, line)
	}
	low, high := r.range90()
	for i := range r.Parts {
		top := yearTop + float64(i)*(yearPanel+yearGap)
		r.panel(d, i, top, low, high)
	}
	bottom := yearTop + float64(len(r.Parts))*(yearPanel+yearGap) - yearGap
	r.months(d, bottom)
	r.legend(d, bottom+36)
	y = bottom + 56
	for _, line := range r.remarks() {
		d.Text(16, y, drawing.SmallText, drawing.FromLeft, line)
		y += 13
	}
	return d.SVG()
}

// remarks are the lines below the panels.
func (r *InServiceResult) remarks() []string {
	return drawing.Wrapped("Air: "+r.Room.Place+". "+r.words(), drawing.SmallText, yearRight-16)
}

func (r *InServiceResult) words() string {
	text := "Moisture content in % of ovendry mass, the same scale in all panels. Hysteresis is left out: real swings are up to a point smaller."
	for i := range r.Parts {
		if r.Parts[i].pulled() != "" {
			return text + " Held: how far the part is pulled across the grain at its driest, as it cannot move; wood begins to fail at 1.5 to 2 %; the word is the danger that it cracks."
		}
	}
	return text
}

// range90 is the range of whole points that holds all bands and builds.
func (r *InServiceResult) range90() (low, high float64) {
	low, high = math.Inf(1), 0
	for i := range r.Parts {
		p := &r.Parts[i]
		low, high = math.Min(low, p.MadeAt.ValuePct), math.Max(high, p.MadeAt.ValuePct)
		for k := range p.Series {
			low, high = math.Min(low, p.Series[k].Mean.LowPct), math.Max(high, p.Series[k].Mean.HighPct)
		}
	}
	step := 2.0
	return step * math.Floor(low/step), step * math.Ceil(high/step)
}

func (r *InServiceResult) panel(d *drawing.Sheet, i int, top, low, high float64) {
	p, year := &r.Parts[i], &r.years[i]
	bottom := top + yearPanel
	x := func(at quantity.Duration) float64 { return yearLeft + (yearRight-yearLeft)*float64(at/r.lived.Span()) }
	at := func(pct float64) float64 {
		return bottom - yearPanel*(math.Min(math.Max(pct, low), high)-low)/(high-low)
	}
	var outline, mean, shell []drawing.Point
	for k, t := range year.Times {
		m := p.Series[k]
		outline = append(outline, drawing.At(x(t), at(m.Mean.HighPct)))
		mean = append(mean, drawing.At(x(t), at(m.Mean.ValuePct)))
		shell = append(shell, drawing.At(x(t), at(m.OutsidePct)))
	}
	for k := len(year.Times) - 1; k >= 0; k-- {
		outline = append(outline, drawing.At(x(year.Times[k]), at(p.Series[k].Mean.LowPct)))
	}
	d.Polygon(outline, drawing.Band)
	step := 2.0
	for (high-low)/step > 4 {
		step *= 2
	}
	for v := step * math.Ceil(low/step); v <= high; v += step {
		d.Line(yearLeft, at(v), yearRight, at(v), drawing.Faint)
		if at(v) > top+4 && at(v) < bottom-1 || i == len(r.Parts)-1 && v == low {
			d.Text(yearLeft-6, at(v)+3.5, drawing.SmallText, drawing.FromRight, quantity.FormatNumber(v, 0))
		}
	}
	d.Polyline(shell, drawing.Dashed)
	d.Polyline(mean, drawing.Thick)
	d.Line(yearLeft, at(p.MadeAt.ValuePct), yearRight, at(p.MadeAt.ValuePct), drawing.Goal)
	r.mark(d, x(year.Dry.At), at(p.Driest.Mean.ValuePct), top, bottom, 1, p.Driest.Mean.ValuePct)
	r.mark(d, x(year.Wet.At), at(p.Wettest.Mean.ValuePct), top, bottom, -1, p.Wettest.Mean.ValuePct)
	d.Rectangle(yearLeft, top, yearRight-yearLeft, yearPanel, drawing.Thin)
	r.beside(d, i, top)
}

// mark is a dot at an extreme with its value; side is 1 for the value below the
// curve and -1 above it.
func (r *InServiceResult) mark(d *drawing.Sheet, x, y, top, bottom, side, pct float64) {
	words := quantity.FormatNumber(pct, 1)
	if y+side*20 > bottom-1 || y+side*20 < top+1 {
		side = -side // no room on its own side
	}
	d.Element(`<circle cx="`, drawing.Coordinate(x), `" cy="`, drawing.Coordinate(y), `" r="3.2" fill="#000"/>`)
	anchor, shift := drawing.FromLeft, 7.0
	if x+7+drawing.TextWidth(words, drawing.SmallText) > yearRight {
		anchor, shift = drawing.FromRight, -7
	}
	wide := drawing.TextWidth(words, drawing.SmallText)
	left := x + shift
	if anchor == drawing.FromRight {
		left -= wide
	}
	d.Rectangle(left-1, y+side*9-5.5, wide+2, 11, `fill="#fff" fill-opacity="0.85" stroke="none"`)
	d.Text(x+shift, y+side*9+3.5, drawing.SmallText, anchor, words)
}

// beside tells of the part to the left of its panel.
func (r *InServiceResult) beside(d *drawing.Sheet, i int, top float64) {
	p := &r.Parts[i]
	const left, room = 16.0, yearLeft - 16 - 26
	y := top + 13
	for k, line := range drawing.Wrapped(p.Name, 12, room) {
		if k == 2 {
			break
		}
		d.Text(left, y, 12, drawing.FromLeft, drawing.Shortened(line, 12, room))
		y += 14
	}
	finish := p.Outside.Name
	if p.Inside != p.Outside {
		finish += " / " + p.Inside.Name
	}
	for _, words := range []string{p.Wood.Common, finish, behind(p.LagDays), "build at " + quantity.FormatNumber(p.BuildAt.RH.ValuePct, 0) + " % RH", p.pulled()} {
		if words == "" {
			continue
		}
		d.Text(left, y, drawing.SmallText, drawing.FromLeft, drawing.Shortened(words, drawing.SmallText, room))
		y += 12.5
	}
}

// behind tells how far a part is behind slow changes of the air.
func behind(days float64) string {
	if days < 0.5 {
		return "follows the air at once"
	}
	return wire.CountOf(int(math.Round(days)), "day") + " behind the air"
}

// pulled tells what a part bears that is held; nothing for one that is free.
func (p *PartThroughYear) pulled() string {
	if !p.isHeld || p.Held == nil {
		return ""
	}
	return "held: " + quantity.FormatNumber(p.Held.StretchPct.ValuePct, 1) + " % pull, " + p.Held.Danger
}

// months marks the months below the panels.
func (r *InServiceResult) months(d *drawing.Sheet, bottom float64) {
	start := r.lived.day(0)
	days := r.lived.Span().Days()
	every := 1
	for (yearRight-yearLeft)*30.4*float64(every)/days < 40 {
		every++
	}
	first := time.Date(start.Year(), start.Month(), 1, 0, 0, 0, 0, time.UTC)
	for k := 0; ; k++ {
		at := first.AddDate(0, k, 0)
		day := at.Sub(start).Hours() / 24
		if day >= days-0.5 {
			break
		}
		if day < 0 || k%every != 0 {
			continue
		}
		x := yearLeft + (yearRight-yearLeft)*day/days
		d.Line(x, bottom, x, bottom+5, drawing.Thin)
		d.Text(x+3, bottom+14, drawing.SmallText, drawing.FromLeft, at.Format("Jan"))
	}
	if days < 30 {
		d.Text(yearLeft, bottom+14, drawing.SmallText, drawing.FromLeft, start.Format("2 January 2006")+" and "+quantity.FormatNumber(days, 0)+" days")
	}
}

func (r *InServiceResult) legend(d *drawing.Sheet, y float64) {
	x := 16.0
	entry := func(words string, sample func(x float64)) {
		sample(x)
		d.Text(x+29, y, drawing.SmallText, drawing.FromLeft, words)
		x += 29 + drawing.TextWidth(words, drawing.SmallText) + 12
	}
	lined := func(style string) func(float64) {
		return func(x float64) { d.Line(x, y-3.5, x+24, y-3.5, style) }
	}
	entry("mean", lined(drawing.Thick))
	entry("90 % band", func(x float64) { d.Rectangle(x, y-8, 24, 9, drawing.Band) })
	entry("outer face", lined(drawing.Dashed))
	entry("at the build", lined(drawing.Goal))
	entry("driest, wettest", func(x float64) {
		d.Element(`<circle cx="`, drawing.Coordinate(x+12), `" cy="`, drawing.Coordinate(y-4.5), `" r="3.2" fill="#000"/>`)
	})
}
