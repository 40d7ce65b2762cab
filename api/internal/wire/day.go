package wire

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
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

var (
	dayYearFirst  = regexp.MustCompile(`^(\d{4})[/.](\d{1,2})[/.](\d{1,2})$`)
	dayWordLater  = regexp.MustCompile(`(?i)^(\d{1,2})(?:st|nd|rd|th)?[ .-]+([a-z]{3,9})\.?,?[ -]+(\d{4})$`)
	dayWordFirst  = regexp.MustCompile(`(?i)^([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$`)
	spacesInDates = regexp.MustCompile(`\s+`)
)

// ReadDay reads a day as people write it, 14.3.2026, 14 Mar 2026 or March 14, 2026, and gives
// it as a date of the wire; false where the text is no such day, or may be two.
func ReadDay(text string) (string, bool) {
	text = strings.TrimSpace(spacesInDates.ReplaceAllString(text, " "))
	if len(text) > mostDay {
		return "", false
	}
	if _, err := time.Parse(time.DateOnly, text); err == nil {
		return text, true
	}
	if m := dayYearFirst.FindStringSubmatch(text); m != nil {
		return dateOf(m[1], m[2], m[3])
	}
	if m := dayWordLater.FindStringSubmatch(text); m != nil {
		return dateOf(m[3], monthNamed(m[2]), m[1])
	}
	if m := dayWordFirst.FindStringSubmatch(text); m != nil {
		return dateOf(m[3], monthNamed(m[1]), m[2])
	}
	m := dayInNumbers.FindStringSubmatch(strings.ReplaceAll(text, ". ", "."))
	if m == nil || m[2] != m[4] {
		return "", false
	}
	dayFirst, isDayFirst := dateOf(m[5], m[3], m[1])
	monthFirst, isMonthFirst := dateOf(m[5], m[1], m[3])
	switch {
	case m[2] == ".":
		return dayFirst, isDayFirst
	case isDayFirst && isMonthFirst && dayFirst != monthFirst:
		return "", false
	case isDayFirst:
		return dayFirst, true
	}
	return monthFirst, isMonthFirst
}

// mostDay is longer than any day that people write, in bytes.
const mostDay = 40

// monthNamed is the number of a month by its name or its first three letters; "" for others.
func monthNamed(name string) string {
	for month := time.January; month <= time.December; month++ {
		if full := month.String(); strings.EqualFold(name, full) || strings.EqualFold(name, full[:3]) || month == time.September && strings.EqualFold(name, "sept") {
			return strconv.Itoa(int(month))
		}
	}
	return ""
}

// dateOf is a date of the wire; false where there is no such day.
func dateOf(year, month, day string) (string, bool) {
	at, err := time.Parse("2006 1 2", year+" "+month+" "+day)
	if err != nil {
		return "", false
	}
	return at.Format(time.DateOnly), true
}
