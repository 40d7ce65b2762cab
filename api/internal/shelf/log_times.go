package shelf

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// clocked is a day in numbers with or without a clock, as loggers write them: 3/25/2025 1:05 PM,
// 25.03.2025 13:05:00, 2025-03-25 01:05:00 PM.
var clocked = regexp.MustCompile(`(?i)^(\d{1,4})([./-])(\d{1,2})([./-])(\d{1,4})(?:[ T,]+(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?(?: ?([ap])\.?m\.?)?)?$`)

// timesOfRecord writes the times of a record as those of the wire. Where the day or the month
// stands first is found by the rows that leave no choice; a time that is none of these is left to
// who reads it.
func timesOfRecord(rows []LoggedAir) error {
	found := make([][]string, len(rows))
	var dayFirst, monthFirst bool
	undecided := -1
	for i := range rows {
		m := clocked.FindStringSubmatch(rows[i].Time)
		if m == nil || m[2] != m[4] || len(m[1]) <= 2 && len(m[5]) != 4 || len(m[1]) > 2 && len(m[5]) > 2 {
			continue
		}
		found[i] = m
		if len(m[1]) > 2 { // the year
			continue
		}
		switch first, second := number(m[1]), number(m[3]); {
		case m[2] == "." || first > 12:
			dayFirst = true
		case second > 12:
			monthFirst = true
		case undecided < 0 && first != second:
			undecided = i
		}
	}
	if undecided >= 0 && dayFirst == monthFirst {
		return inRow("log_csv", undecided, &method.Error{Code: method.OutOfRange, Limit: method.SuchAs("2026-03-01"),
			Detail: "no row tells whether the day or the month stands first: " + wire.DaysMeant(strings.Join(found[undecided][1:6], ""))})
	}
	for i, m := range found {
		if m != nil {
			rows[i].Time = timeOf(m, dayFirst && !monthFirst)
		}
	}
	return nil
}

// timeOf is a time in the form of the wire.
func timeOf(m []string, dayFirst bool) string {
	year, month, day := m[1], m[3], m[5]
	switch {
	case len(m[1]) > 2:
	case dayFirst || m[2] == "." || number(m[1]) > 12:
		day, month, year = m[1], m[3], m[5]
	default:
		month, day, year = m[1], m[3], m[5]
	}
	date := fmt.Sprintf("%s-%02d-%02d", year, number(month), number(day))
	if m[6] == "" {
		return date
	}
	hour := number(m[6])
	switch half := strings.ToLower(m[9]); {
	case half != "" && (hour < 1 || hour > 12): // which is no such clock
		return m[0]
	case half == "p" && hour < 12:
		hour += 12
	case half == "a" && hour == 12:
		hour = 0
	}
	return fmt.Sprintf("%sT%02d:%s:%02d", date, hour, m[7], number(m[8]))
}

// number is that of up to four digits; 0 for none.
func number(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0
	}
	return n
}
