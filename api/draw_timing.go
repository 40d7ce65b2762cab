package api

import (
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// timingChart draws both ways on one calendar: the billet dried whole with its
// band, the leaf sawn now without one, and when each is ready.
type timingChart struct {
	courseChart            // of the billet
	then        leafCourse // of its wettest leaf, from the saw date on
	leaf        leafCourse // of the leaf sawn now
	saw         float64    // day the billet is sawn; infinite: not within the forecast
	last        float64    // day on which the chart ends
	spans       [2]*readySpan
}

type leafCourse struct {
	days []float64
	mean []PercentBand
}

// Names of the two ways on the drawing.
const (
	leafWay, billetWay = "wettest leaf sawn now", "billet dried whole, then its wettest leaf"
	spansTop           = 372.0 // of the rows of dates below the chart's own axis
	timingHeight       = 520.0
)

func (g *timing) chart(r *TimingResult) *timingChart {
	c := &timingChart{saw: g.way[1].saw}
	c.heading = "Resaw now, or dry it whole: " + r.Wood.Common + ", " + g.req.Billet.Thickness.SI.Format(g.report.length)
	c.finding = r.Summary
	c.start = g.stay.start
	c.target = g.target.Value.Percent()
	end := 30.0
	for i, w := range []*TimingWay{&r.SawNow, &r.DryWhole} {
		at := &w.ReadyOn
		if at.MiddleDays == nil {
			end = math.Max(end, g.horizon.Days())
			continue
		}
		late := g.horizon.Days()
		if at.LateDays != nil {
			late = *at.LateDays
		}
		c.spans[i] = &readySpan{*at.EarlyDays, *at.MiddleDays, late}
		end = math.Max(end, math.Min(1.1*late, 2.5**at.MiddleDays))
	}
	end = math.Min(end, g.horizon.Days())
	cut := func(w *wayCourse) leafCourse {
		var kept leafCourse
		for i := range w.days {
			if w.days[i] <= end {
				kept.days, kept.mean = append(kept.days, w.days[i]), append(kept.mean, w.mean[i])
			}
		}
		return kept
	}
	c.leaf = cut(&g.way[0])
	billet := cut(&g.way[1])
	for i, day := range billet.days {
		if day < c.saw {
			c.days, c.mean = append(c.days, day), append(c.mean, billet.mean[i])
		} else {
			c.then.days, c.then.mean = append(c.then.days, day), append(c.then.mean, billet.mean[i])
		}
	}
	c.last = end
	c.storage(g)
	c.about = []string{"The bars below the dates are the 90 % bands of the day on which the leaves are ready to be thicknessed, with the middle marked. The billet is shown sawn on the middle day on which it is ready for that. " +
		"Mean monthly air; a real year differs. A forecast, not a promise."}
	return c
}

// storage names the places along the calendar.
func (c *timingChart) storage(g *timing) {
	at := 0.0
	for i := range g.stay.phases {
		c.places = append(c.places, g.stay.places[i])
		at += g.stay.phases[i].Length.Days()
		if at >= c.last {
			break
		}
		if i < len(g.stay.phases)-1 {
			c.changes = append(c.changes, at)
		}
	}
}

func (c *timingChart) draw() []byte {
	d := &drawing{width: chartWidth, height: timingHeight, size: `width="760" height="520"`, title: c.heading + ": " + c.finding,
		about: "Moisture content of a leaf sawn now and of the billet dried whole, against time, with the dates on which the leaves are ready"}
	all := courseChart{mean: slices.Concat(c.mean, c.then.mean, c.leaf.mean), days: []float64{c.last}, target: c.target}
	s := all.scale()
	d.text(chartLeft, 18, 15, fromLeft, c.heading)
	lines := wrapped(c.finding, smallText, chartRight-chartLeft)
	for i, line := range lines[:min(2, len(lines))] {
		d.text(chartLeft, 33+13*float64(i), smallText, fromLeft, line)
	}
	for _, part := range []leafCourse{{c.days, c.mean}, c.then} {
		if len(part.days) > 1 {
			(&courseChart{days: part.days, mean: part.mean}).drawBand(d, s)
		}
	}
	c.drawAxes(d, s)
	c.drawPlaces(d, s)
	d.line(chartLeft, s.y(c.target), chartRight, s.y(c.target), goal)
	d.polyline(points(s, c.days, c.mean), thick)
	d.polyline(points(s, c.then.days, c.then.mean), thick)
	d.polyline(points(s, c.leaf.days, c.leaf.mean), dotted)
	if c.saw < c.last {
		x := s.x(c.saw)
		d.line(x, chartTop, x, chartBottom, thin)
		const words = "billet sawn"
		if wide := textWidth(words, smallText); x+4+wide <= chartRight {
			d.text(x+4, chartTop+12, smallText, fromLeft, words)
		} else {
			d.text(x-4, chartTop+12, smallText, fromRight, words)
		}
	}
	y := c.dates(d, s)
	y = c.legend(d, y+16)
	for _, note := range c.about {
		for _, line := range wrapped(note, smallText, chartRight-chartLeft) {
			d.text(chartLeft, y, smallText, fromLeft, line)
			y += 13
		}
	}
	return d.bytes()
}

func points(s courseScale, days []float64, mean []PercentBand) []point {
	all := make([]point, 0, len(days))
	for i, day := range days {
		all = append(all, point{s.x(day), s.y(math.Min(math.Max(mean[i].ValuePct, s.lowest), s.highest))})
	}
	return all
}

// dates draws a bar for the ready date of each way.
func (c *timingChart) dates(d *drawing, s courseScale) float64 {
	y := spansTop + 12
	for i, name := range []string{"sawn now", "dried whole"} {
		span := c.spans[i]
		words := name + ": leaves ready"
		if span == nil {
			d.text(chartLeft, y+3.5, smallText, fromLeft, name+": not ready within the forecast")
			y += 16
			continue
		}
		early, late := s.x(math.Min(span.early, c.last)), s.x(math.Min(span.late, c.last))
		d.line(early, y, late, y, thin)
		for _, day := range []float64{span.early, span.late} {
			if day <= c.last {
				d.line(s.x(day), y-4, s.x(day), y+4, thin)
			}
		}
		if span.middle <= c.last {
			d.rectangle(s.x(span.middle)-2.5, y-4, 5, 8, `fill="#000" stroke="none"`)
		}
		if wide := textWidth(words, smallText); late+8+wide <= chartRight {
			d.text(late+8, y+3.5, smallText, fromLeft, words)
		} else if early-8-wide >= chartLeft {
			d.text(early-8, y+3.5, smallText, fromRight, words)
		} else {
			y += 13
			d.text(chartLeft, y+3.5, smallText, fromLeft, words)
		}
		y += 16
	}
	return y
}

// legend explains the lines in one row.
func (c *timingChart) legend(d *drawing, y float64) float64 {
	x := chartLeft
	for _, entry := range []struct{ style, words string }{
		{thick, billetWay}, {"", "90 % band"}, {dotted, leafWay}, {goal, "target " + quantity.FormatNumber(c.target, 1) + " %"},
	} {
		if entry.style == "" {
			d.rectangle(x, y-8, 24, 9, band)
		} else {
			d.line(x, y-3.5, x+24, y-3.5, entry.style)
		}
		d.text(x+29, y, smallText, fromLeft, entry.words)
		x += 29 + textWidth(entry.words, smallText) + 12
	}
	return y + 20
}
