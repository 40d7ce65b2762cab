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

// yearFrame is where the panels stand, and how large their text is.
type yearFrame struct {
	left, right, panel, small float64
}

// printedYear is the frame on paper.
var printedYear = yearFrame{yearLeft, yearRight, yearPanel, drawing.SmallText}

// x is the place of a share of the time.
func (f *yearFrame) x(share float64) float64 { return f.left + (f.right-f.left)*share }

// yearPicture is what the drawing of a year shows.
type yearPicture struct {
	summary string
	remarks string
	start   time.Time // of the room
	days    float64   // that it covers
	parts   []yearDrawn

	laminates []laminateDrawn
}

// yearDrawn is the year of a part. Times are shares of the whole.
type yearDrawn struct {
	name     string
	beside   []string // what is told of it
	times    []float64
	mean     []wire.Band
	outside  []float64
	made     float64
	dry, wet extremeDrawn
}

type extremeDrawn struct{ at, pct float64 }

// draw is the year of each part: mean with its band, the face that swings most,
// the build, driest and wettest.
func (p *yearPicture) draw() []byte {
	heading := drawing.Wrapped(p.summary, drawing.BodyText, yearRight-16)
	remarks := drawing.Wrapped(p.remarks, drawing.SmallText, yearRight-16)
	yearTop := yearHead + 16*float64(max(len(heading)-2, 0))
	panels, legends := float64(len(p.parts)+len(p.laminates)), 1.0
	if len(p.parts) > 0 && len(p.laminates) > 0 {
		legends = 2
	}
	height := yearTop + panels*(yearPanel+yearGap) + 36 + 16*legends + 13*float64(len(remarks))
	d := &drawing.Sheet{Width: yearWidth, Height: height, Size: `width="760" height="` + drawing.Coordinate(height) + `"`,
		Title: p.title() + ": " + p.summary, About: yearAbout}
	y := 22.0
	d.Text(16, y, 15, drawing.FromLeft, yearHeading)
	for _, line := range heading {
		y += 16
		d.Text(16, y, drawing.BodyText, drawing.FromLeft, line)
	}
	scale, f := p.range90(), &printedYear
	for i := range p.parts {
		top := yearTop + float64(i)*(yearPanel+yearGap)
		p.parts[i].panel(d, f, top, scale, i == len(p.parts)-1)
		drawBeside(d, top, p.parts[i].name, p.parts[i].beside)
	}
	reach := p.bendScale()
	for i := range p.laminates {
		top := yearTop + float64(len(p.parts)+i)*(yearPanel+yearGap)
		p.laminates[i].panel(d, f, top, reach)
		drawBeside(d, top, p.laminates[i].name, p.laminates[i].beside)
	}
	bottom := yearTop + panels*(yearPanel+yearGap) - yearGap
	p.months(d, f, bottom)
	y = bottom + 20
	ofParts, ofLaminates := "Moisture:", "Bend:"
	if len(p.parts) == 0 || len(p.laminates) == 0 {
		ofParts, ofLaminates = "", "" // there is one kind of panel
	}
	if len(p.parts) > 0 {
		y += 16
		drawLegend(d, y, ofParts, partLegend)
	}
	if len(p.laminates) > 0 {
		y += 16
		drawLegend(d, y, ofLaminates, bendLegend)
	}
	y += 20
	for _, line := range remarks {
		d.Text(16, y, drawing.SmallText, drawing.FromLeft, line)
		y += 13
	}
	return d.SVG()
}

// What the drawing is called and shows.
const (
	yearHeading = "The year of the parts in their room"
	yearAbout   = "One panel for each part: mean moisture content with a 90 percent band, marks at the driest and the " +
		"wettest day, a line at the moisture content of the build; one for each laminate: its cup with a 90 percent " +
		"band, its bow, marks at its driest and wettest day"
)

// title is what the drawing is about.
func (p *yearPicture) title() string {
	switch {
	case len(p.parts) == 0:
		return "Bend through the year"
	case len(p.laminates) == 0:
		return "Moisture content through the year"
	}
	return "Moisture content and bend through the year"
}

// moistureScale is the range of moisture contents of all panels.
type moistureScale struct{ low, high float64 }

// range90 is the range of whole points that holds all bands and builds.
func (p *yearPicture) range90() moistureScale {
	low, high := math.Inf(1), 0.0
	for i := range p.parts {
		one := &p.parts[i]
		low, high = math.Min(low, one.made), math.Max(high, one.made)
		for k := range one.mean {
			low, high = math.Min(low, one.mean[k].Low), math.Max(high, one.mean[k].High)
		}
	}
	step := 2.0
	return moistureScale{step * math.Floor(low/step), step * math.Ceil(high/step)}
}

// panel draws one part; the last one has its lowest number at the foot.
func (p *yearDrawn) panel(d *drawing.Sheet, f *yearFrame, top float64, scale moistureScale, last bool) {
	low, high, bottom, x := scale.low, scale.high, top+f.panel, f.x
	at := func(pct float64) float64 {
		return bottom - f.panel*(math.Min(math.Max(pct, low), high)-low)/(high-low)
	}
	var outline, mean, shell []drawing.Point
	for k, t := range p.times {
		m := p.mean[k]
		outline = append(outline, drawing.At(x(t), at(m.High)))
		mean = append(mean, drawing.At(x(t), at(m.Value)))
		shell = append(shell, drawing.At(x(t), at(p.outside[k])))
	}
	for k := len(p.times) - 1; k >= 0; k-- {
		outline = append(outline, drawing.At(x(p.times[k]), at(p.mean[k].Low)))
	}
	d.Polygon(outline, drawing.Band)
	step := 2.0
	for (high-low)/step > 4 {
		step *= 2
	}
	for v := step * math.Ceil(low/step); v <= high; v += step {
		d.Line(f.left, at(v), f.right, at(v), drawing.Faint)
		if at(v) > top+4 && at(v) < bottom-1 || last && v == low {
			d.Text(f.left-6, at(v)+3.5, f.small, drawing.FromRight, quantity.FormatNumber(v, 0)+" %")
		}
	}
	d.Polyline(shell, drawing.Dashed)
	d.Polyline(mean, drawing.Thick)
	d.Line(f.left, at(p.made), f.right, at(p.made), drawing.Goal)
	f.mark(d, x(p.dry.at), at(p.dry.pct), top, 1, quantity.FormatNumber(p.dry.pct, 1))
	f.mark(d, x(p.wet.at), at(p.wet.pct), top, -1, quantity.FormatNumber(p.wet.pct, 1))
	d.Rectangle(f.left, top, f.right-f.left, f.panel, drawing.Thin)
}

// mark draws a dot at an extreme with its value; side is 1 for the value below the
// curve and -1 above it.
func (f *yearFrame) mark(d *drawing.Sheet, x, y, top, side float64, words string) {
	if y+side*20 > top+f.panel-1 || y+side*20 < top+1 {
		side = -side // no room on its own side
	}
	d.Circle(x, y, 3.2, `fill="#000"`)
	anchor, shift := drawing.FromLeft, 7.0
	if x+7+drawing.TextWidth(words, f.small) > f.right {
		anchor, shift = drawing.FromRight, -7
	}
	wide := drawing.TextWidth(words, f.small)
	left := x + shift
	if anchor == drawing.FromRight {
		left -= wide
	}
	d.Rectangle(left-1, y+side*9-5.5, wide+2, 11, `fill="#fff" fill-opacity="0.85" stroke="none"`)
	d.Text(x+shift, y+side*9+3.5, f.small, anchor, words)
}

// drawBeside tells of the part to the left of its panel.
func drawBeside(d *drawing.Sheet, top float64, name string, beside []string) {
	const left, room = 16.0, yearLeft - 16 - 26
	y := top + 13
	for k, line := range drawing.Wrapped(name, 12, room) {
		if k == 2 {
			break
		}
		d.Text(left, y, 12, drawing.FromLeft, drawing.Shortened(line, 12, room))
		y += 14
	}
	for _, words := range beside {
		d.Text(left, y, drawing.SmallText, drawing.FromLeft, drawing.Shortened(words, drawing.SmallText, room))
		y += 12.5
	}
}

// months marks the months below the panels.
func (p *yearPicture) months(d *drawing.Sheet, f *yearFrame, bottom float64) {
	start, days := p.start, p.days
	every := 1
	for (f.right-f.left)*30.4*float64(every)/days < 40 {
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
		x := f.left + (f.right-f.left)*day/days
		d.Line(x, bottom, x, bottom+5, drawing.Thin)
		d.Text(x+3, bottom+14, f.small, drawing.FromLeft, at.Format("Jan"))
	}
	if days < 30 {
		d.Text(f.left, bottom+14, f.small, drawing.FromLeft,
			start.Format("2 January 2006")+" and "+quantity.FormatNumber(days, 0)+" days")
	}
}

// legendEntry is a line of a drawing and what it is.
type legendEntry struct {
	words  string
	sample func(d *drawing.Sheet, x, y float64)
}

// partLegend explains the lines of parts.
var partLegend = []legendEntry{
	{"mean", lineSample(drawing.Thick)}, {"90 % band", bandSample}, {"outer face", lineSample(drawing.Dashed)},
	{"at the build", lineSample(drawing.Goal)}, {"driest, wettest", dotSample},
}

func lineSample(style string) func(*drawing.Sheet, float64, float64) {
	return func(d *drawing.Sheet, x, y float64) { d.Line(x, y-3.5, x+24, y-3.5, style) }
}

func bandSample(d *drawing.Sheet, x, y float64) { d.Rectangle(x, y-8, 24, 9, drawing.Band) }

func dotSample(d *drawing.Sheet, x, y float64) {
	d.Circle(x+12, y-4.5, 3.2, `fill="#000"`)
}

// drawLegend explains the lines of a kind of panel.
func drawLegend(d *drawing.Sheet, y float64, of string, entries []legendEntry) {
	x := 16.0
	if of != "" {
		d.Text(x, y, drawing.SmallText, drawing.FromLeft, of)
		x += legendLead
	}
	for _, e := range entries {
		e.sample(d, x, y)
		d.Text(x+29, y, drawing.SmallText, drawing.FromLeft, e.words)
		x += 29 + drawing.TextWidth(e.words, drawing.SmallText) + 12
	}
}

// legendLead is the room of the kind of panel before its legend.
const legendLead = 60
