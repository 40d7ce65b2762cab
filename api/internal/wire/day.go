package wire

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

var dayInNumbers = regexp.MustCompile(`^(\d{1,2})([./-])(\d{1,2})([./-])(\d{4})$`)

// daysInNumbers are the days that numbers such as 14.3.2026 or 3/4/2026 may mean: with the day
// first, and but for dots with the month first.
func daysInNumbers(text string) []time.Time {
	m := dayInNumbers.FindStringSubmatch(text)
	if m == nil || m[2] != m[4] {
		return nil
	}
	days := daysOf(m[5], m[3], m[1])
	if m[2] != "." {
		days = append(days, daysOf(m[5], m[1], m[3])...)
	}
	return slices.Compact(days)
}

// DaysMeant says which days a text may mean that is no date of the wire but one as people
// write them, 14.3.2026 or 3/4/2026, and how each is written here; "" for any other text.
// Where the numbers leave two readings both are named.
func DaysMeant(text string) string {
	var said []string
	for _, day := range daysInNumbers(text) {
		said = append(said, fmt.Sprintf("%s (%s)", day.Format("2 January 2006"), day.Format(time.DateOnly)))
	}
	if said == nil {
		return ""
	}
	return text + " may be " + strings.Join(said, " or ")
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
	var days []time.Time
	if m := dayYearFirst.FindStringSubmatch(text); m != nil {
		days = daysOf(m[1], m[2], m[3])
	} else if m := dayWordLater.FindStringSubmatch(text); m != nil {
		days = daysOf(m[3], monthNamed(m[2]), m[1])
	} else if m := dayWordFirst.FindStringSubmatch(text); m != nil {
		days = daysOf(m[3], monthNamed(m[1]), m[2])
	} else {
		days = daysInNumbers(strings.ReplaceAll(text, ". ", "."))
	}
	if len(days) != 1 {
		return "", false
	}
	return days[0].Format(time.DateOnly), true
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

// daysOf is the day of these numbers, none where there is no such one.
func daysOf(year, month, day string) []time.Time {
	at, err := time.Parse("2006 1 2", year+" "+month+" "+day)
	if err != nil {
		return nil
	}
	return []time.Time{at}
}
