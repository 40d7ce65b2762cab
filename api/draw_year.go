package api

import (
	"math"
	"time"

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
	heading := wrapped(r.Summary, bodyText, yearRight-16)
	yearTop := yearHead + 16*float64(max(len(heading)-2, 0))
	height := yearTop + float64(len(r.Parts))*(yearPanel+yearGap) + 52 + 13*float64(len(r.remarks()))
	d := &drawing{width: yearWidth, height: height, size: `width="760" height="` + coordinate(height) + `"`,
		title: "Moisture content through the year: " + r.Summary,
		about: "One panel for each part: mean moisture content with a 90 percent band, marks at the driest and the wettest day, a line at the moisture content of the build"}
	y := 22.0
	d.text(16, y, 15, fromLeft, "The year of the parts in their room")
	for _, line := range heading {
		y += 16
		d.text(16, y, bodyText, fromLeft, line)
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
		d.text(16, y, smallText, fromLeft, line)
		y += 13
	}
	return d.bytes()
}

// remarks are the lines below the panels.
func (r *InServiceResult) remarks() []string {
	return wrapped("Air: "+r.Room.Place+". "+r.words(), smallText, yearRight-16)
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

func (r *InServiceResult) panel(d *drawing, i int, top, low, high float64) {
	p, year := &r.Parts[i], &r.years[i]
	bottom := top + yearPanel
	x := func(at quantity.Duration) float64 { return yearLeft + (yearRight-yearLeft)*float64(at/r.lived.Span()) }
	at := func(pct float64) float64 {
		return bottom - yearPanel*(math.Min(math.Max(pct, low), high)-low)/(high-low)
	}
	var outline, mean, shell []point
	for k, t := range year.Times {
		m := p.Series[k]
		outline = append(outline, point{x(t), at(m.Mean.HighPct)})
		mean = append(mean, point{x(t), at(m.Mean.ValuePct)})
		shell = append(shell, point{x(t), at(m.OutsidePct)})
	}
	for k := len(year.Times) - 1; k >= 0; k-- {
		outline = append(outline, point{x(year.Times[k]), at(p.Series[k].Mean.LowPct)})
	}
	d.polygon(outline, band)
	step := 2.0
	for (high-low)/step > 4 {
		step *= 2
	}
	for v := step * math.Ceil(low/step); v <= high; v += step {
		d.line(yearLeft, at(v), yearRight, at(v), faint)
		if at(v) > top+4 && at(v) < bottom-1 || i == len(r.Parts)-1 && v == low {
			d.text(yearLeft-6, at(v)+3.5, smallText, fromRight, quantity.FormatNumber(v, 0))
		}
	}
	d.polyline(shell, dashed)
	d.polyline(mean, thick)
	d.line(yearLeft, at(p.MadeAt.ValuePct), yearRight, at(p.MadeAt.ValuePct), goal)
	r.mark(d, x(year.Dry.At), at(p.Driest.Mean.ValuePct), top, bottom, 1, p.Driest.Mean.ValuePct)
	r.mark(d, x(year.Wet.At), at(p.Wettest.Mean.ValuePct), top, bottom, -1, p.Wettest.Mean.ValuePct)
	d.rectangle(yearLeft, top, yearRight-yearLeft, yearPanel, thin)
	r.beside(d, i, top)
}

// mark is a dot at an extreme with its value; side is 1 for the value below the
// curve and -1 above it.
func (r *InServiceResult) mark(d *drawing, x, y, top, bottom, side, pct float64) {
	words := quantity.FormatNumber(pct, 1)
	if y+side*20 > bottom-1 || y+side*20 < top+1 {
		side = -side // no room on its own side
	}
	d.element(`<circle cx="`, coordinate(x), `" cy="`, coordinate(y), `" r="3.2" fill="#000"/>`)
	anchor, shift := fromLeft, 7.0
	if x+7+textWidth(words, smallText) > yearRight {
		anchor, shift = fromRight, -7
	}
	wide := textWidth(words, smallText)
	left := x + shift
	if anchor == fromRight {
		left -= wide
	}
	d.rectangle(left-1, y+side*9-5.5, wide+2, 11, `fill="#fff" fill-opacity="0.85" stroke="none"`)
	d.text(x+shift, y+side*9+3.5, smallText, anchor, words)
}

// beside tells of the part to the left of its panel.
func (r *InServiceResult) beside(d *drawing, i int, top float64) {
	p := &r.Parts[i]
	const left, room = 16.0, yearLeft - 16 - 26
	y := top + 13
	for k, line := range wrapped(p.Name, 12, room) {
		if k == 2 {
			break
		}
		d.text(left, y, 12, fromLeft, shortened(line, 12, room))
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
		d.text(left, y, smallText, fromLeft, shortened(words, smallText, room))
		y += 12.5
	}
}

// behind tells how far a part is behind slow changes of the air.
func behind(days float64) string {
	if days < 0.5 {
		return "follows the air at once"
	}
	return countOf(int(math.Round(days)), "day") + " behind the air"
}

// pulled tells what a part bears that is held; nothing for one that is free.
func (p *PartThroughYear) pulled() string {
	if !p.isHeld || p.Held == nil {
		return ""
	}
	return "held: " + quantity.FormatNumber(p.Held.StretchPct.ValuePct, 1) + " % pull, " + p.Held.Danger
}

// months marks the months below the panels.
func (r *InServiceResult) months(d *drawing, bottom float64) {
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
		d.line(x, bottom, x, bottom+5, thin)
		d.text(x+3, bottom+14, smallText, fromLeft, at.Format("Jan"))
	}
	if days < 30 {
		d.text(yearLeft, bottom+14, smallText, fromLeft, start.Format("2 January 2006")+" and "+quantity.FormatNumber(days, 0)+" days")
	}
}

func (r *InServiceResult) legend(d *drawing, y float64) {
	x := 16.0
	entry := func(words string, sample func(x float64)) {
		sample(x)
		d.text(x+29, y, smallText, fromLeft, words)
		x += 29 + textWidth(words, smallText) + 12
	}
	lined := func(style string) func(float64) {
		return func(x float64) { d.line(x, y-3.5, x+24, y-3.5, style) }
	}
	entry("mean", lined(thick))
	entry("90 % band", func(x float64) { d.rectangle(x, y-8, 24, 9, band) })
	entry("outer face", lined(dashed))
	entry("at the build", lined(goal))
	entry("driest, wettest", func(x float64) {
		d.element(`<circle cx="`, coordinate(x+12), `" cy="`, coordinate(y-4.5), `" r="3.2" fill="#000"/>`)
	})
}
