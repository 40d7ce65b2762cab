package year

import (
	"strconv"
	"time"

	"latewood/woodphys/quantity"
)

// calendar gives the moments of a room their dates.
type calendar struct {
	start   time.Time // of a record; the zero time for a year like every other
	span    quantity.Duration
	repeats bool
}

// on is a day of the room: month and day of a year like every other, or the date of a
// record.
func (c *calendar) on(d quantity.Duration) Day {
	if c.start.IsZero() {
		return Day{DayOfYear: c.day(d).Format("--01-02")}
	}
	return Day{Date: c.day(d).Format(time.DateOnly)}
}

// day is a moment of the room; a year like every other is shown as one without
// a leap day.
func (c *calendar) day(d quantity.Duration) time.Time {
	start := c.start
	if start.IsZero() {
		start = time.Date(2001, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	if d >= c.span && c.repeats && c.start.IsZero() {
		d = c.span - 1 // the last evening of the year
	}
	return start.Add(time.Duration(d.Seconds()) * time.Second)
}

// spoken is the day for people.
func (c *calendar) spoken(d quantity.Duration) string {
	at := c.day(d)
	text := strconv.Itoa(at.Day()) + " " + at.Month().String()
	if !c.start.IsZero() {
		text += " " + strconv.Itoa(at.Year())
	}
	return text
}
