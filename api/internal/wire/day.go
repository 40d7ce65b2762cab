package wire

import (
	"fmt"
	"regexp"
	"time"
)

var dayInNumbers = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})([./-])(\d{4})$`)

// DaysMeant says which days a text may mean that is no date of the wire but one as people
// write them, 14.3.2026 or 3/4/2026, and how each is written here; "" for any other text.
// Where the numbers leave two readings both are named.
func DaysMeant(text string) string {
	m := dayInNumbers.FindStringSubmatch(text)
	if m == nil || m[2] != m[4] {
		return ""
	}
	dayFirst, isDayFirst := dayOf("2 1 2006", m[1], m[3], m[5])
	monthFirst, isMonthFirst := dayOf("1 2 2006", m[1], m[3], m[5])
	said := func(day time.Time) string {
		return fmt.Sprintf("%s (%s)", day.Format("2 January 2006"), day.Format(time.DateOnly))
	}
	switch {
	case m[2] == "." && isDayFirst, isDayFirst && (!isMonthFirst || dayFirst.Equal(monthFirst)):
		return text + " may be " + said(dayFirst)
	case m[2] == ".":
		return ""
	case isDayFirst:
		return text + " may be " + said(dayFirst) + " or " + said(monthFirst)
	case isMonthFirst:
		return text + " may be " + said(monthFirst)
	}
	return ""
}

func dayOf(layout, first, second, year string) (time.Time, bool) {
	day, err := time.Parse(layout, first+" "+second+" "+year)
	return day, err == nil
}
