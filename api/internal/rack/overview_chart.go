package rack

import (
	"math"
	"strconv"
	"time"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
)

// The drawing of the overview. Own choice.
const (
	chartRow   = 18.0
	chartTop   = 74.0
	chartNames = 190.0 // where the time begins
	mostRows   = 60
	mostYears  = 3
)

// chartOf is the drawing as it is made: its time runs from left to right.
type chartOf struct {
	*drawing.Sheet
	left, right float64
	small       float64 // size of text
	from        time.Time
	days        float64
}

func (c *chartOf) x(days float64) float64 {
	return c.left + (c.right-c.left)*math.Min(math.Max(days, 0), c.days)/c.days
}

// since are the days from the first of the drawing to a day.
func (c *chartOf) since(day string) (days float64, known bool) {
	at, err := time.Parse(time.DateOnly, day)
	return at.Sub(c.from).Hours() / 24, err == nil
}

// chart draws when each piece of wood is ready for the step it waits for, and when it is
// read.
func (o *Overview) chart() []byte {
	rows, note := o.drawnRows()
	height := chartTop + chartRow*float64(max(1, len(rows))) + 70
	c := o.chartOn(&drawing.Sheet{Width: drawing.ChartWidth, Height: height, Size: `width="760" height="` + drawing.Coordinate(height) + `"`,
		Title: o.chartTitle(), About: o.Summary}, chartNames, drawing.ChartRight, drawing.SmallText)
	c.Text(16, 22, 15, drawing.FromLeft, c.Title)
	for i, line := range drawing.Wrapped(o.Summary, drawing.SmallText, drawing.ChartRight-16) {
		if i < 2 {
			c.Text(16, 38+13*float64(i), drawing.SmallText, drawing.FromLeft, line)
		}
	}
	bottom := chartTop + chartRow*float64(max(1, len(rows)))
	c.months(chartTop, bottom)
	for i := range rows {
		c.row(&rows[i], chartTop+chartRow*(float64(i)+0.5))
	}
	c.Line(chartNames, chartTop, chartNames, bottom, drawing.Thin)
	c.Line(chartNames, bottom, drawing.ChartRight, bottom, drawing.Thin)
	for i, line := range drawing.Wrapped(note, drawing.SmallText, drawing.ChartRight-16) {
		c.Text(16, bottom+38+13*float64(i), drawing.SmallText, drawing.FromLeft, line)
	}
	return c.SVG()
}

// chartTitle is what the drawing is called.
func (o *Overview) chartTitle() string { return "The rack on " + wire.PlainDate(o.Progress.AsOf) }

// chartOn begins the drawing on a sheet.
func (o *Overview) chartOn(d *drawing.Sheet, left, right, small float64) *chartOf {
	c := &chartOf{Sheet: d, left: left, right: right, small: small}
	c.from, _ = time.Parse(time.DateOnly, o.Progress.AsOf) // the service wrote it
	c.days = o.span(c)
	return c
}

// drawnRows are the rows of the drawing, and what is said of it.
func (o *Overview) drawnRows() (rows []chartRowOf, note string) {
	rows = o.rows()
	note = "A bar holds 90 % of the cases of the day on which the wood is first ready for the step; its mark, half. A ring is the next reading."
	if left := len(rows) - mostRows; left > 0 {
		rows = rows[:mostRows]
		note += " " + strconv.Itoa(left) + " more are not drawn."
	}
	return rows, note
}

// shownChart is the drawing for a screen: each piece of wood has its name above its bar.
func (o *Overview) shownChart(width int) []byte {
	rows, note := o.drawnRows()
	page := drawing.ColumnOf(width, o.chartTitle(), o.Summary)
	page.Words(page.On.Heading, o.chartTitle())
	page.Words(page.On.Body, o.Summary)
	page.Y += 8
	c := o.chartOn(page.Sheet, page.On.Left, page.On.Right, page.On.Small)
	const row, named = 40.0, 15.0 // height, and where in it the name stands
	top, bottom := page.Y, page.Y+row*float64(max(1, len(rows)))
	c.months(top, bottom)
	for i := range rows {
		y, right := top+row*float64(i)+named, c.right
		if rows[i].now != nil {
			c.Text(right, y, c.small, drawing.FromRight, rows[i].now.Step)
			right -= drawing.TextWidth(rows[i].now.Step, c.small) + 8
		}
		c.TextWithin(c.left+2, y, c.small, drawing.FromLeft, right-c.left-2, rows[i].name)
		c.times(&rows[i], y+14)
		c.Line(c.left, top+row*float64(i+1), c.right, top+row*float64(i+1), drawing.Faint)
	}
	c.Line(c.left, bottom, c.right, bottom, drawing.Thin)
	page.Y = bottom + 18
	page.Notes(note)
	return page.Shown()
}

// chartRowOf is a line of the drawing.
type chartRowOf struct {
	name string
	now  *ReadyWood
	next *ReadyWood
	read *ReadNext
}

// rows are the pieces of wood of which something can be drawn: what is ready first, then by
// the day on which it is, then what is only read.
func (o *Overview) rows() []chartRowOf {
	at := map[[2]string]int{}
	var rows []chartRowOf
	row := func(n *Named) *chartRowOf {
		key := [2]string{n.Kind, n.ID}
		if _, known := at[key]; !known {
			at[key] = len(rows)
			rows = append(rows, chartRowOf{name: n.ID + "  " + n.Wood})
		}
		return &rows[at[key]]
	}
	for i := range o.Ready {
		row(&o.Ready[i].Named).now = &o.Ready[i]
	}
	for i := range o.Next {
		row(&o.Next[i].Named).next = &o.Next[i]
	}
	for i := range o.Read {
		row(&o.Read[i].Named).read = &o.Read[i]
	}
	return rows
}

// span is how many days are drawn: up to the last end of a bar or reading, in whole quarters
// of a year, and at most some years.
func (o *Overview) span(c *chartOf) float64 {
	last := 0.0
	see := func(day string) {
		if days, known := c.since(day); known {
			last = math.Max(last, days)
		}
	}
	for i := range o.Next {
		see(o.Next[i].ReadyOn.Value)
		see(o.Next[i].ReadyOn.High)
	}
	for i := range o.Read {
		see(o.Read[i].Date)
	}
	const quarter = 91.3
	return math.Min(quarter*math.Max(1, math.Ceil(last/quarter)), 4*mostYears*quarter)
}

// months draws the first of every so many months.
func (c *chartOf) months(top, bottom float64) {
	every := 1
	for _, n := range []int{1, 2, 3, 6, 12} {
		if every = n; c.x(30.4*float64(n))-c.left >= 62 {
			break
		}
	}
	for at := time.Date(c.from.Year(), c.from.Month()+1, 1, 0, 0, 0, 0, time.UTC); ; at = at.AddDate(0, 1, 0) {
		days := at.Sub(c.from).Hours() / 24
		if days > c.days {
			return
		}
		if (int(at.Month())-1)%every != 0 {
			continue
		}
		c.Line(c.x(days), top, c.x(days), bottom, drawing.Faint)
		if label := at.Format("Jan 2006"); c.x(days)+drawing.TextWidth(label, c.small)/2 <= c.Width {
			c.Text(c.x(days), bottom+15, c.small, drawing.Centred, label)
		}
	}
}

// row draws a piece of wood.
func (c *chartOf) row(r *chartRowOf, y float64) {
	name := drawing.ClippedTo(chartNames-70, r.name)
	c.Text(16, y+3.5, drawing.SmallText, drawing.FromLeft, name)
	if r.now != nil {
		c.Text(chartNames-6, y+3.5, drawing.SmallText, drawing.FromRight, r.now.Step)
	}
	c.times(r, y)
}

// times draws when a piece of wood is ready, and when it is read.
func (c *chartOf) times(r *chartRowOf, y float64) {
	if r.next != nil {
		c.bar(r.next, y)
	}
	if r.read != nil {
		if days, known := c.since(r.read.Date); known && days <= c.days {
			c.Circle(c.x(days), y, 4, drawing.Thin)
		}
	}
}

// bar draws when a step is ready. A band whose end lies beyond the forecast runs on.
func (c *chartOf) bar(w *ReadyWood, y float64) {
	middle, known := c.since(w.ReadyOn.Value)
	if !known || middle > c.days {
		return
	}
	low, early := c.since(w.ReadyOn.Low)
	high, late := c.since(w.ReadyOn.High)
	if !early {
		low = middle
	}
	if !late {
		high = c.days
	}
	c.Rectangle(c.x(low), y-4, math.Max(1, c.x(high)-c.x(low)), 8, drawing.Band)
	c.Line(c.x(middle), y-6, c.x(middle), y+6, drawing.Thick)
	if right := c.x(high) + 5; right+drawing.TextWidth(w.Step, c.small) <= c.right {
		c.Text(right, y+3.5, c.small, drawing.FromLeft, w.Step)
		return
	}
	c.Text(c.x(high)-4, y+3.5, c.small, drawing.FromRight, w.Step)
}
