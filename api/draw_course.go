package api

import (
	"math"
	"strings"
	"time"

	"latewood/woodphys/quantity"
)

// courseChart draws moisture content against the calendar: the mean with its
// band, shell and core, the target and the readings.
type courseChart struct {
	heading string   // what is drawn
	finding string   // the answer in a sentence
	about   []string // assumptions, below the chart
	start   time.Time
	days    []float64 // since start, rising
	mean    []PercentBand
	shell   []float64 // percent; nil: not drawn
	core    []float64
	target  float64      // percent; 0: none
	dryAt   float64      // percent at which the piece counts as dry; 0: not drawn
	changes []float64    // days at which the wood changes place
	places  []string     // one more than changes
	marks   []courseMark // readings
	today   float64      // days; 0: not drawn
	ready   *readySpan
	cut     bool // the axis ends below the start of the course
}

// courseMark is a reading on the chart.
type courseMark struct {
	day, pct, low, high float64
	setAside            bool // contradicts the others
}

// readySpan is when the target is reached.
type readySpan struct{ early, middle, late float64 }

// Frame of the chart.
const (
	chartWidth, chartHeight = 760.0, 470.0
	chartLeft, chartRight   = 58.0, 742.0
	chartTop, chartBottom   = 64.0, 350.0
	smallText, bodyText     = 10.0, 11.5
)

type courseScale struct{ days, lowest, highest, step float64 }

func (s courseScale) x(day float64) float64 {
	return chartLeft + (chartRight-chartLeft)*day/s.days
}

func (s courseScale) y(pct float64) float64 {
	return chartBottom - (chartBottom-chartTop)*(pct-s.lowest)/(s.highest-s.lowest)
}

func (c *courseChart) draw() []byte {
	d := &drawing{width: chartWidth, height: chartHeight, size: `width="760" height="470"`, title: c.heading + ": " + c.finding,
		about: "Moisture content in percent of ovendry mass against time, with a 90 percent band"}
	s := c.scale()
	d.text(chartLeft, 22, 15, fromLeft, c.heading)
	size := math.Min(bodyText, bodyText*(chartRight-chartLeft)/textWidth(c.finding, bodyText)) // a long one is set smaller
	d.text(chartLeft, 40, size, fromLeft, c.finding)
	c.drawBand(d, s)
	c.drawAxes(d, s)
	c.drawPlaces(d, s)
	c.drawLines(d, s)
	c.drawMarks(d, s)
	c.drawLegend(d)
	y := 410.0
	if c.cut {
		c.about = append(c.about, "The axis is cut at "+quantity.FormatNumber(s.highest, 0)+" %; the wood starts above it, at "+quantity.FormatNumber(c.mean[0].ValuePct, 0)+" %.")
	}
	for _, note := range c.about {
		for _, line := range wrapped(note, smallText, chartRight-chartLeft) {
			d.text(chartLeft, y, smallText, fromLeft, line)
			y += 13
		}
	}
	return d.bytes()
}

// scale chooses the ranges shown: whole steps that hold the curve, the target
// and the readings.
func (c *courseChart) scale() courseScale {
	lowest, highest := math.Inf(1), 0.0
	see := func(v float64) { lowest, highest = math.Min(lowest, v), math.Max(highest, v) }
	for _, b := range c.mean {
		see(b.LowPct)
		see(b.HighPct)
	}
	for _, m := range c.marks {
		see(m.pct)
	}
	for i := range c.core {
		see(c.core[i])
		see(c.shell[i])
	}
	if c.target > 0 {
		see(c.target)
	}
	highest = c.cutAt(highest)
	step := valueStep(highest - lowest)
	return courseScale{days: c.days[len(c.days)-1], step: step, lowest: math.Max(0, step*math.Floor((lowest-0.2*step)/step)), highest: step * math.Ceil((highest+0.2*step)/step)}
}

// cutAt is where the axis ends: at the highest value, or, where the wood starts
// so wet that the part that matters would be pressed flat, at four times the
// target. What lies above is cut off, and said to be.
func (c *courseChart) cutAt(highest float64) float64 {
	if cut := math.Max(30, 4*c.target); c.target > 0 && highest > 1.5*cut {
		c.cut = true
		return cut
	}
	return highest
}

func valueStep(span float64) float64 {
	for _, step := range []float64{1, 2, 5, 10, 20} {
		if span/step <= 8 {
			return step
		}
	}
	return 50
}

func (c *courseChart) drawBand(d *drawing, s courseScale) {
	outline := make([]point, 0, 2*len(c.days))
	for i, day := range c.days {
		outline = append(outline, point{s.x(day), s.y(math.Min(c.mean[i].HighPct, s.highest))})
	}
	for i := len(c.days) - 1; i >= 0; i-- {
		outline = append(outline, point{s.x(c.days[i]), s.y(math.Min(c.mean[i].LowPct, s.highest))})
	}
	d.polygon(outline, band)
}

func (c *courseChart) drawAxes(d *drawing, s courseScale) {
	for v := s.lowest; v <= s.highest+1e-9; v += s.step {
		d.line(chartLeft, s.y(v), chartRight, s.y(v), faint)
		d.text(chartLeft-6, s.y(v)+3.5, smallText, fromRight, quantity.FormatNumber(v, 0))
	}
	d.upright(18, (chartTop+chartBottom)/2, bodyText, "moisture content, % of ovendry mass")
	c.drawDates(d, s)
	d.rectangle(chartLeft, chartTop, chartRight-chartLeft, chartBottom-chartTop, thin)
}

// drawDates marks the first of every so many months, as close as fits, or days
// where the chart is short.
func (c *courseChart) drawDates(d *drawing, s courseScale) {
	const apart = 58 // a label and the space beside it
	mark := func(day float64, label string) {
		d.line(s.x(day), chartBottom, s.x(day), chartBottom+5, thin)
		if half := textWidth(label, smallText) / 2; s.x(day)-half >= chartLeft-30 && s.x(day)+half <= chartRight+14 {
			d.text(s.x(day), chartBottom+17, smallText, centred, label)
		}
	}
	perDay := (chartRight - chartLeft) / s.days
	if s.days < shortChart {
		for _, every := range []int{1, 2, 5, 10, 20} {
			if perDay*float64(every) < apart {
				continue
			}
			for day := 0; float64(day) <= s.days; day += every {
				mark(float64(day), c.start.AddDate(0, 0, day).Format("2 Jan 06"))
			}
			return
		}
	}
	months := 1
	for _, every := range []int{1, 2, 3, 6, 12, 24} {
		months = every
		if perDay*30.4*float64(every) >= apart {
			break
		}
	}
	first := time.Date(c.start.Year(), c.start.Month(), 1, 0, 0, 0, 0, time.UTC)
	for i := 0; ; i++ {
		at := first.AddDate(0, i, 0)
		day := at.Sub(c.start).Hours() / 24
		if day > s.days {
			return
		}
		if day < 0 || (int(at.Month())-1)%months != 0 || months > 12 && at.Year()%2 != 0 {
			continue
		}
		mark(day, at.Format("Jan 2006"))
	}
}

// shortChart is how many days a chart shows at most with days below it.
const shortChart = 100

// drawPlaces names the places the wood lies in, above the chart.
func (c *courseChart) drawPlaces(d *drawing, s courseScale) {
	bounds := []float64{chartLeft}
	for i := range c.places {
		if i < len(c.changes) {
			bounds = append(bounds, s.x(c.changes[i]))
			d.line(s.x(c.changes[i]), chartTop, s.x(c.changes[i]), chartBottom, dashed)
		}
	}
	bounds = append(bounds, chartRight)
	left := bounds[0] // of the room that is free
	for i, place := range c.places {
		left = math.Max(left, bounds[i])
		room, wide := bounds[i+1]-left-6, textWidth(place, smallText)
		// A name too long for its stay runs on above the next one, if the name of
		// that still fits beside it.
		over := left + 3 + wide + 12
		if wide > room && i+1 < len(c.places) && over+textWidth(c.places[i+1], smallText)+6 <= bounds[i+2] {
			d.text(left+3, chartTop-8, smallText, fromLeft, place)
			left = over
			continue
		}
		if place = clippedTo(room, place); place != "" {
			d.text((left+bounds[i+1])/2, chartTop-8, smallText, centred, place)
		}
	}
}

// clippedTo shortens words of small text to the room there is, with dots for what is left out;
// nothing is left of them where not even a few letters fit.
func clippedTo(room float64, words string) string {
	if textWidth(words, smallText) <= room {
		return words
	}
	const dots, few = "...", 3
	letters := []rune(words)
	for n := len(letters) - 1; n >= few; n-- {
		if short := strings.TrimRight(string(letters[:n]), " ,") + dots; textWidth(short, smallText) <= room {
			return short
		}
	}
	return ""
}

func (c *courseChart) drawLines(d *drawing, s courseScale) {
	curve := func(at func(i int) float64) []point {
		points := make([]point, 0, len(c.days))
		for i, day := range c.days {
			v := at(i)
			if v > s.highest { // above the cut: the curve starts where it comes down through it
				continue
			}
			if i > 0 && at(i-1) > s.highest {
				share := (at(i-1) - s.highest) / (at(i-1) - v)
				points = append(points, point{s.x(c.days[i-1] + share*(day-c.days[i-1])), s.y(s.highest)})
			}
			points = append(points, point{s.x(day), s.y(math.Max(v, s.lowest))})
		}
		return points
	}
	if c.shell != nil {
		d.polyline(curve(func(i int) float64 { return c.shell[i] }), dashed)
		d.polyline(curve(func(i int) float64 { return c.core[i] }), dotted)
	}
	d.polyline(curve(func(i int) float64 { return c.mean[i].ValuePct }), thick)
	if c.target > 0 {
		d.line(chartLeft, s.y(c.target), chartRight, s.y(c.target), goal)
	}
	if c.ready != nil && c.ready.middle <= s.days {
		late := math.Min(c.ready.late, s.days)
		y := chartBottom - 9
		d.line(s.x(c.ready.early), y, s.x(late), y, thin)
		for _, day := range []float64{c.ready.early, c.ready.middle, late} {
			d.line(s.x(day), y-4, s.x(day), y+4, thin)
		}
		const words = "counts as dry"
		right := s.x(c.ready.early) - 5
		if right-textWidth(words, smallText) < chartLeft { // no room before it
			right = s.x(c.ready.early) + textWidth(words, smallText) + 2
			y -= 9
		}
		d.rectangle(right-textWidth(words, smallText), y-6, textWidth(words, smallText)+2, 11, `fill="#fff" stroke="none"`)
		d.text(right, y+3.5, smallText, fromRight, words)
	}
	if c.today > 0 && c.today < s.days {
		d.line(s.x(c.today), chartTop, s.x(c.today), chartBottom, thin)
		const label = "today"
		if s.x(c.today)+6+textWidth(label, smallText) <= chartRight {
			d.text(s.x(c.today)+3, chartTop+11, smallText, fromLeft, label)
		} else {
			d.text(s.x(c.today)-3, chartTop+11, smallText, fromRight, label)
		}
	}
}

func (c *courseChart) drawMarks(d *drawing, s courseScale) {
	hold := func(pct float64) float64 { return math.Min(math.Max(pct, s.lowest), s.highest) }
	for _, m := range c.marks {
		x, y := s.x(m.day), s.y(hold(m.pct))
		d.line(x, s.y(hold(m.low)), x, s.y(hold(m.high)), thin)
		if m.setAside {
			d.line(x-4, y-4, x+4, y+4, thick)
			d.line(x-4, y+4, x+4, y-4, thick)
			continue
		}
		d.rectangle(x-3, y-3, 6, 6, `fill="#fff" stroke="#000" stroke-width="1.2"`)
	}
}

// drawLegend explains the lines in one row below the dates.
func (c *courseChart) drawLegend(d *drawing) {
	x, y := chartLeft, 388.0
	entry := func(style, words string) {
		d.line(x, y-3.5, x+24, y-3.5, style)
		d.text(x+29, y, smallText, fromLeft, words)
		x += 29 + textWidth(words, smallText) + 12
	}
	entry(thick, "mean")
	d.rectangle(x, y-8, 24, 9, band)
	d.text(x+29, y, smallText, fromLeft, "90 % band")
	x += 29 + textWidth("90 % band", smallText) + 12
	if c.shell != nil {
		entry(dashed, "shell")
		entry(dotted, "core")
	}
	if c.target > 0 {
		words := "target " + quantity.FormatNumber(c.target, 1) + " %"
		if c.dryAt > 0 {
			words += ", dry at " + quantity.FormatNumber(c.dryAt, 1) + " %"
		}
		entry(goal, words)
	}
	if len(c.marks) > 0 {
		d.rectangle(x+9, y-6.5, 6, 6, `fill="#fff" stroke="#000" stroke-width="1.2"`)
		d.text(x+29, y, smallText, fromLeft, "reading")
		x += 29 + textWidth("reading", smallText) + 12
	}
	for _, m := range c.marks {
		if m.setAside {
			d.line(x+8, y-7.5, x+16, y+0.5, thick)
			d.line(x+8, y+0.5, x+16, y-7.5, thick)
			d.text(x+29, y, smallText, fromLeft, "set aside")
			break
		}
	}
}
