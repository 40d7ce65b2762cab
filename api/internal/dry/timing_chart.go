package dry

import (
	"math"
	"slices"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/timing"
)

// timingChart draws both ways on one calendar: the billet dried whole with its
// band, the leaf sawn now without one, and when each is ready.
type timingChart struct {
	drawing.CourseChart            // of the billet
	then                leafCourse // of its wettest leaf, from the saw date on
	leaf                leafCourse // of the leaf sawn now
	saw                 float64    // day the billet is sawn; infinite: not within the forecast
	last                float64    // day on which the chart ends
	spans               [2]*drawing.ReadySpan
}

type leafCourse struct {
	days []float64
	mean []wire.Band
}

// Names of the two ways on the drawing.
const (
	leafWay, billetWay = "wettest leaf sawn now", "billet dried whole, then its wettest leaf"
	spansBelow         = 22.0 // the axis of the chart stand the rows of dates
	timingHeight       = 520.0
)

// chart draws the answer: as far as the later of the two ways goes.
func (b *billetTimed) chart(r *ResawTimingResult, a *timing.Answer, width int) *timingChart {
	c := &timingChart{}
	c.On = drawing.FrameOf(width)
	if a.DryWhole.Saw.Median.Within {
		c.saw = a.DryWhole.Saw.Median.At.Days()
	} else {
		c.saw = math.Inf(1)
	}
	thickness := b.req.Billet.Thickness.SI.Format(b.report.LengthUnit)
	if c.On.IsShown() {
		thickness = b.req.Billet.Thickness.Given()
	}
	c.Heading = "Resaw now, or dry it whole: " + r.Wood.Common + ", " + thickness
	c.Finding = r.Summary
	c.Start = b.stay.start
	c.Target = b.question.Rest.Moisture.Value.Percent()
	c.last = c.span(b.question.Horizon.Days(), &r.SawNow.ReadyOn, &r.DryWhole.ReadyOn)
	c.leaf = courseUntil(r.SawNow.Series, c.last)
	billet := courseUntil(r.DryWhole.Series, c.last)
	for i, day := range billet.days {
		if day < c.saw {
			c.Days, c.Mean = append(c.Days, day), append(c.Mean, billet.mean[i])
		} else {
			c.then.days, c.then.mean = append(c.then.days, day), append(c.then.mean, billet.mean[i])
		}
	}
	c.stays(b)
	c.About = []string{"The bars below the dates are the 90 % bands of the day on which the leaves are ready to be " +
		"thicknessed, with the middle marked. " +
		"The billet is shown sawn on the middle day on which it is ready for that. Mean monthly air; a real year " +
		"differs. A forecast, not a promise."}
	return c
}

// span notes when each way is ready and returns the day on which the chart ends.
func (c *timingChart) span(horizon float64, ways ...*wire.DateBand) float64 {
	end := 30.0
	for i, at := range ways {
		if at.ValueDays == nil {
			end = math.Max(end, horizon)
			continue
		}
		late := horizon
		if at.HighDays != nil {
			late = *at.HighDays
		}
		c.spans[i] = &drawing.ReadySpan{Early: *at.LowDays, Middle: *at.ValueDays, Late: late}
		end = math.Max(end, math.Min(1.1*late, 2.5**at.ValueDays))
	}
	return math.Min(end, horizon)
}

// courseUntil is the part of a series up to a day.
func courseUntil(series []CoursePoint, end float64) leafCourse {
	var kept leafCourse
	for i := range series {
		if series[i].Days <= end {
			kept.days, kept.mean = append(kept.days, series[i].Days), append(kept.mean, series[i].Mean)
		}
	}
	return kept
}

// stays names the places along the calendar.
func (c *timingChart) stays(b *billetTimed) {
	at := 0.0
	for i, name := range b.stay.names(b.report) {
		c.Places = append(c.Places, name)
		at += b.stay.phases[i].Length.Days()
		if at >= c.last {
			break
		}
		if i < len(b.stay.phases)-1 {
			c.Changes = append(c.Changes, at)
		}
	}
}

func (c *timingChart) draw() []byte {
	f := &c.On
	d := &drawing.Sheet{Width: f.Width, Height: timingHeight, Size: `width="760" height="520"`,
		Title: c.Heading + ": " + c.Finding,
		About: "Moisture content of a leaf sawn now and of the billet dried whole, against time, with the dates on " +
			"which the leaves are ready"}
	lines := drawing.Wrapped(c.Finding, f.Small, f.Room())
	grows := f.IsShown() || len(lines) > 1
	if grows {
		f.Under(d, c.Heading, c.Finding)
	} else {
		d.Text(f.Left, 18, f.Heading, drawing.FromLeft, c.Heading)
		d.Text(f.Left, 33, f.Small, drawing.FromLeft, c.Finding)
	}
	all := drawing.CourseChart{On: *f, Mean: slices.Concat(c.Mean, c.then.mean, c.leaf.mean), Days: []float64{c.last},
		Target: c.Target}
	s := all.Scale()
	for _, part := range []leafCourse{{c.Days, c.Mean}, c.then} {
		if len(part.days) > 1 {
			(&drawing.CourseChart{Days: part.days, Mean: part.mean}).DrawBand(d, s)
		}
	}
	c.DrawAxes(d, s)
	c.DrawPlaces(d, s)
	d.Line(c.On.Left, s.Y(c.Target), c.On.Right, s.Y(c.Target), drawing.Goal)
	d.Polyline(points(s, c.Days, c.Mean), drawing.Thick)
	d.Polyline(points(s, c.then.days, c.then.mean), drawing.Thick)
	d.Polyline(points(s, c.leaf.days, c.leaf.mean), drawing.Dotted)
	if c.saw < c.last {
		x := s.X(c.saw)
		d.Line(x, c.On.Top, x, c.On.Bottom, drawing.Thin)
		const words = "billet sawn"
		if wide := drawing.TextWidth(words, c.On.Small); x+4+wide <= c.On.Right {
			d.Text(x+4, c.On.Top+12, c.On.Small, drawing.FromLeft, words)
		} else {
			d.Text(x-4, c.On.Top+12, c.On.Small, drawing.FromRight, words)
		}
	}
	if f.IsShown() {
		for _, part := range []leafCourse{{c.Days, c.Mean}, c.then, c.leaf} {
			(&drawing.CourseChart{On: *f, Start: c.Start, Days: part.days, Mean: part.mean}).TellMean(d, s)
		}
	}
	y := c.dates(d, s)
	y = c.legend(d, y+16)
	y = f.Notes(d, y, c.About)
	if grows {
		d.Grown(y)
	}
	return d.SVG()
}

func points(s drawing.CourseScale, days []float64, mean []wire.Band) []drawing.Point {
	all := make([]drawing.Point, 0, len(days))
	for i, day := range days {
		all = append(all, drawing.At(s.X(day), s.Y(math.Min(math.Max(mean[i].Value, s.Lowest), s.Highest))))
	}
	return all
}

// dates draws a bar for the ready date of each way.
func (c *timingChart) dates(d *drawing.Sheet, s drawing.CourseScale) float64 {
	y := c.On.Bottom + spansBelow + 12
	for i, name := range []string{"sawn now", "dried whole"} {
		span := c.spans[i]
		words := name + ": leaves ready"
		if span == nil {
			d.Text(c.On.Left, y+3.5, c.On.Small, drawing.FromLeft, name+": not ready within the forecast")
			y += 16
			continue
		}
		early, late := s.X(math.Min(span.Early, c.last)), s.X(math.Min(span.Late, c.last))
		d.Line(early, y, late, y, drawing.Thin)
		for _, day := range []float64{span.Early, span.Late} {
			if day <= c.last {
				d.Line(s.X(day), y-4, s.X(day), y+4, drawing.Thin)
			}
		}
		if span.Middle <= c.last {
			d.Rectangle(s.X(span.Middle)-2.5, y-4, 5, 8, `fill="#000" stroke="none"`)
		}
		if wide := drawing.TextWidth(words, c.On.Small); late+8+wide <= c.On.Right {
			d.Text(late+8, y+3.5, c.On.Small, drawing.FromLeft, words)
		} else if early-8-wide >= c.On.Left {
			d.Text(early-8, y+3.5, c.On.Small, drawing.FromRight, words)
		} else {
			y += 13
			d.Text(c.On.Left, y+3.5, c.On.Small, drawing.FromLeft, words)
		}
		y += 16
	}
	return y
}

// legend explains the lines.
func (c *timingChart) legend(d *drawing.Sheet, y float64) float64 {
	l := c.On.LegendAt(d, y)
	l.Styled(drawing.Thick, billetWay)
	l.Shaded("90 % band")
	l.Styled(drawing.Dotted, leafWay)
	l.Styled(drawing.Goal, "target "+quantity.FormatNumber(c.Target, 1)+" %")
	return l.Y + 20
}
