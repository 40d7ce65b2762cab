package drawing

import (
	"math"
	"slices"
	"strings"
	"time"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// CourseChart draws moisture content against the calendar: the mean with its
// band, shell and core, the target and the readings.
type CourseChart struct {
	On      Frame    // where it stands
	Heading string   // what is drawn
	Finding string   // the answer in a sentence
	About   []string // assumptions, below the chart
	Start   time.Time
	Days    []float64 // since start, rising
	Mean    []wire.Band
	Shell   []float64 // percent; nil: not drawn
	Core    []float64
	Target  float64      // percent; 0: none
	DryAt   float64      // percent at which the piece counts as dry; 0: not drawn
	Changes []float64    // days at which the wood changes place
	Places  []string     // one more than changes
	Marks   []CourseMark // readings
	Today   float64      // days; 0: not drawn
	Ready   *ReadySpan
	cut     bool // the axis ends below the start of the course
}

// CourseMark is a reading on the chart.
type CourseMark struct {
	Day, Pct, Low, High float64
	SetAside            bool // contradicts the others
}

// ReadySpan is when the target is reached.
type ReadySpan struct{ Early, Middle, Late float64 }

// Frame of the chart.
const (
	ChartWidth  = 760.0
	chartHeight = 470.0
	ChartLeft   = 58.0
	ChartRight  = 742.0
	ChartTop    = 64.0
	ChartBottom = 350.0
)

// Sizes of text.
const (
	SmallText = 10.0
	BodyText  = 11.5
)

// CourseScale turns days and percent into places on the chart.
type CourseScale struct {
	on                          *Frame
	days, Lowest, Highest, step float64
}

// X is the place of a day.
func (s CourseScale) X(day float64) float64 {
	return s.on.Left + (s.on.Right-s.on.Left)*day/s.days
}

// Y is the place of a moisture content.
func (s CourseScale) Y(pct float64) float64 {
	return s.on.Bottom - (s.on.Bottom-s.on.Top)*(pct-s.Lowest)/(s.Highest-s.Lowest)
}

// Draw draws the chart.
func (c *CourseChart) Draw() []byte {
	f := &c.On
	d := &Sheet{Width: f.Width, Height: chartHeight, Size: `width="760" height="470"`, Title: c.Heading + ": " + c.Finding,
		About: "Moisture content in percent of ovendry mass against time, with a 90 percent band"}
	size := math.Min(f.Body, f.Body*f.Room()/TextWidth(c.Finding, f.Body)) // a long one is set smaller
	grows := f.shown || size < f.Small
	if grows {
		f.Under(d, c.Heading, c.Finding)
	} else {
		d.Text(f.Left, 22, f.Heading, FromLeft, c.Heading)
		d.Text(f.Left, 40, size, FromLeft, c.Finding)
	}
	s := c.Scale()
	c.DrawBand(d, s)
	c.DrawAxes(d, s)
	c.DrawPlaces(d, s)
	c.drawLines(d, s)
	c.drawMarks(d, s)
	if f.shown {
		c.TellMean(d, s)
	}
	y := c.drawLegend(d) + 22
	if c.cut {
		c.About = append(c.About, "The axis is cut at "+quantity.FormatNumber(s.Highest, 0)+" %; the wood starts above it, at "+quantity.FormatNumber(c.Mean[0].Value, 0)+" %.")
	}
	y = f.Notes(d, y, c.About)
	if grows {
		d.Grown(y)
	}
	return d.SVG()
}

// Scale chooses the ranges shown: whole steps that hold the curve, the target
// and the readings.
func (c *CourseChart) Scale() CourseScale {
	lowest, highest := math.Inf(1), 0.0
	see := func(v float64) { lowest, highest = math.Min(lowest, v), math.Max(highest, v) }
	for _, b := range c.Mean {
		see(b.Low)
		see(b.High)
	}
	for _, m := range c.Marks {
		see(m.Pct)
	}
	for i := range c.Core {
		see(c.Core[i])
		see(c.Shell[i])
	}
	if c.Target > 0 {
		see(c.Target)
	}
	highest = c.cutAt(highest)
	step := valueStep(highest - lowest)
	return CourseScale{on: &c.On, days: c.Days[len(c.Days)-1], step: step, Lowest: math.Max(0, step*math.Floor((lowest-0.2*step)/step)), Highest: step * math.Ceil((highest+0.2*step)/step)}
}

// cutAt is where the axis ends: at the highest value, or, where the wood starts
// so wet that the part that matters would be pressed flat, at four times the
// target. What lies above is cut off, and said to be.
func (c *CourseChart) cutAt(highest float64) float64 {
	if cut := math.Max(30, 4*c.Target); c.Target > 0 && highest > 1.5*cut {
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

// DrawBand shades the band of the mean.
func (c *CourseChart) DrawBand(d *Sheet, s CourseScale) {
	outline := make([]Point, 0, 2*len(c.Days))
	for i, day := range c.Days {
		outline = append(outline, Point{s.X(day), s.Y(math.Min(c.Mean[i].High, s.Highest))})
	}
	for i := len(c.Days) - 1; i >= 0; i-- {
		outline = append(outline, Point{s.X(c.Days[i]), s.Y(math.Min(c.Mean[i].Low, s.Highest))})
	}
	d.Polygon(outline, Band)
}

// DrawAxes draws both axes with their values.
func (c *CourseChart) DrawAxes(d *Sheet, s CourseScale) {
	for v := s.Lowest; v <= s.Highest+1e-9; v += s.step {
		d.Line(c.On.Left, s.Y(v), c.On.Right, s.Y(v), Faint)
		d.Text(c.On.Left-6, s.Y(v)+3.5, c.On.Small, FromRight, quantity.FormatNumber(v, 0))
	}
	d.Upright(c.On.axis(), (c.On.Top+c.On.Bottom)/2, c.On.Body, "moisture content, % of ovendry mass")
	c.drawDates(d, s)
	d.Rectangle(c.On.Left, c.On.Top, c.On.Right-c.On.Left, c.On.Bottom-c.On.Top, Thin)
}

// drawDates marks the first of every so many months, as close as fits, or days
// where the chart is short.
func (c *CourseChart) drawDates(d *Sheet, s CourseScale) {
	apart := 5.8 * c.On.Small // a label and the space beside it
	mark := func(day float64, label string) {
		d.Line(s.X(day), c.On.Bottom, s.X(day), c.On.Bottom+5, Thin)
		if half := TextWidth(label, c.On.Small) / 2; s.X(day)-half >= c.On.Left-30 && s.X(day)+half <= c.On.Width-4 {
			d.Text(s.X(day), c.On.Bottom+17, c.On.Small, Centred, label)
		}
	}
	perDay := (c.On.Right - c.On.Left) / s.days
	if s.days < shortChart {
		for _, every := range []int{1, 2, 5, 10, 20} {
			if perDay*float64(every) < apart {
				continue
			}
			for day := 0; float64(day) <= s.days; day += every {
				mark(float64(day), c.Start.AddDate(0, 0, day).Format("2 Jan 06"))
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
	first := time.Date(c.Start.Year(), c.Start.Month(), 1, 0, 0, 0, 0, time.UTC)
	for i := 0; ; i++ {
		at := first.AddDate(0, i, 0)
		day := at.Sub(c.Start).Hours() / 24
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

// DrawPlaces names the places the wood lies in, above the chart.
func (c *CourseChart) DrawPlaces(d *Sheet, s CourseScale) {
	bounds := []float64{c.On.Left}
	for i := range c.Places {
		if i < len(c.Changes) {
			bounds = append(bounds, s.X(c.Changes[i]))
			d.Line(s.X(c.Changes[i]), c.On.Top, s.X(c.Changes[i]), c.On.Bottom, Dashed)
		}
	}
	bounds = append(bounds, c.On.Right)
	left := bounds[0] // of the room that is free
	for i, place := range c.Places {
		left = math.Max(left, bounds[i])
		room, wide := bounds[i+1]-left-6, TextWidth(place, c.On.Small)
		// A name too long for its stay runs on above the next one, if the name of
		// that still fits beside it.
		over := left + 3 + wide + 12
		if wide > room && i+1 < len(c.Places) && over+TextWidth(c.Places[i+1], c.On.Small)+6 <= bounds[i+2] {
			d.Text(left+3, c.On.Top-8, c.On.Small, FromLeft, place)
			left = over
			continue
		}
		if c.On.shown {
			d.TextWithin((left+bounds[i+1])/2, c.On.Top-8, c.On.Small, Centred, room, place)
			continue
		}
		if place = ClippedTo(room, place); place != "" {
			d.Text((left+bounds[i+1])/2, c.On.Top-8, c.On.Small, Centred, place)
		}
	}
}

// ClippedTo shortens words of small text to the room there is, with dots for what is left out;
// nothing is left of them where not even a few letters fit.
func ClippedTo(room float64, words string) string {
	if TextWidth(words, SmallText) <= room {
		return words
	}
	const dots, few = "...", 3
	letters := []rune(words)
	for n := len(letters) - 1; n >= few; n-- {
		if short := strings.TrimRight(string(letters[:n]), " ,") + dots; TextWidth(short, SmallText) <= room {
			return short
		}
	}
	return ""
}

func (c *CourseChart) drawLines(d *Sheet, s CourseScale) {
	curve := func(at func(i int) float64) []Point {
		points := make([]Point, 0, len(c.Days))
		for i, day := range c.Days {
			v := at(i)
			if v > s.Highest { // above the cut: the curve starts where it comes down through it
				continue
			}
			if i > 0 && at(i-1) > s.Highest {
				share := (at(i-1) - s.Highest) / (at(i-1) - v)
				points = append(points, Point{s.X(c.Days[i-1] + share*(day-c.Days[i-1])), s.Y(s.Highest)})
			}
			points = append(points, Point{s.X(day), s.Y(math.Max(v, s.Lowest))})
		}
		return points
	}
	if c.Shell != nil {
		d.Polyline(curve(func(i int) float64 { return c.Shell[i] }), Dashed)
		d.Polyline(curve(func(i int) float64 { return c.Core[i] }), Dotted)
	}
	d.Polyline(curve(func(i int) float64 { return c.Mean[i].Value }), Thick)
	if c.Target > 0 {
		d.Line(c.On.Left, s.Y(c.Target), c.On.Right, s.Y(c.Target), Goal)
	}
	if c.Ready != nil && c.Ready.Middle <= s.days {
		late := math.Min(c.Ready.Late, s.days)
		y := c.On.Bottom - 9
		d.Line(s.X(c.Ready.Early), y, s.X(late), y, Thin)
		for _, day := range []float64{c.Ready.Early, c.Ready.Middle, late} {
			d.Line(s.X(day), y-4, s.X(day), y+4, Thin)
		}
		const words = "counts as dry"
		right := s.X(c.Ready.Early) - 5
		if right-TextWidth(words, c.On.Small) < c.On.Left { // no room before it
			right = s.X(c.Ready.Early) + TextWidth(words, c.On.Small) + 2
			y -= 9
		}
		d.Rectangle(right-TextWidth(words, c.On.Small), y-6, TextWidth(words, c.On.Small)+2, 11, `fill="#fff" stroke="none"`)
		d.Text(right, y+3.5, c.On.Small, FromRight, words)
	}
	if c.Today > 0 && c.Today < s.days {
		d.Line(s.X(c.Today), c.On.Top, s.X(c.Today), c.On.Bottom, Thin)
		const label = "today"
		if s.X(c.Today)+6+TextWidth(label, c.On.Small) <= c.On.Right {
			d.Text(s.X(c.Today)+3, c.On.Top+11, c.On.Small, FromLeft, label)
		} else {
			d.Text(s.X(c.Today)-3, c.On.Top+11, c.On.Small, FromRight, label)
		}
	}
}

// told is a value of the chart in words: 21 Nov 2026: 13.6 % (11.6 to 16.4 %).
func (c *CourseChart) told(day, pct, low, high float64) string {
	at := c.Start.Add(time.Duration(day * 24 * float64(time.Hour)))
	return at.Format("2 Jan 2006") + ": " + quantity.FormatNumber(pct, 1) + " % (" + quantity.FormatNumber(low, 1) + " to " + quantity.FormatNumber(high, 1) + " %)"
}

// TellMean tells the mean along the curve, as closely as a thumb can point.
func (c *CourseChart) TellMean(d *Sheet, s CourseScale) {
	const apart = 12 // px
	last := math.Inf(-1)
	for i, day := range c.Days {
		if x := s.X(day); x-last >= apart && c.Mean[i].Value <= s.Highest {
			d.Tell(x, s.Y(math.Max(c.Mean[i].Value, s.Lowest)), c.told(day, c.Mean[i].Value, c.Mean[i].Low, c.Mean[i].High))
			last = x
		}
	}
}

func (c *CourseChart) drawMarks(d *Sheet, s CourseScale) {
	hold := func(pct float64) float64 { return math.Min(math.Max(pct, s.Lowest), s.Highest) }
	for _, m := range c.Marks {
		x, y := s.X(m.Day), s.Y(hold(m.Pct))
		if c.On.shown {
			d.Tell(x, y, c.told(m.Day, m.Pct, m.Low, m.High))
		}
		d.Line(x, s.Y(hold(m.Low)), x, s.Y(hold(m.High)), Thin)
		if m.SetAside {
			d.Line(x-4, y-4, x+4, y+4, Thick)
			d.Line(x-4, y+4, x+4, y-4, Thick)
			continue
		}
		d.Rectangle(x-3, y-3, 6, 6, markStyle)
	}
}

// drawLegend explains the lines below the dates, and returns its last line.
func (c *CourseChart) drawLegend(d *Sheet) float64 {
	l := c.On.LegendAt(d, c.On.Bottom+38)
	l.Styled(Thick, "mean")
	l.Shaded("90 % band")
	if c.Shell != nil {
		l.Styled(Dashed, "shell")
		l.Styled(Dotted, "core")
	}
	if c.Target > 0 {
		words := "target " + quantity.FormatNumber(c.Target, 1) + " %"
		if c.DryAt > 0 {
			words += ", dry at " + quantity.FormatNumber(c.DryAt, 1) + " %"
		}
		l.Styled(Goal, words)
	}
	if len(c.Marks) > 0 {
		l.Entry("reading", func(x, y float64) { d.Rectangle(x+9, y-6.5, 6, 6, markStyle) })
	}
	if slices.ContainsFunc(c.Marks, func(m CourseMark) bool { return m.SetAside }) {
		l.Entry("set aside", func(x, y float64) {
			d.Line(x+8, y-7.5, x+16, y+0.5, Thick)
			d.Line(x+8, y+0.5, x+16, y-7.5, Thick)
		})
	}
	return l.Y
}

// markStyle is that of the mark of a reading.
const markStyle = `fill="#fff" stroke="#000" stroke-width="1.2"`
