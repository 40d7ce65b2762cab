package api

import (
	"bytes"
	"strconv"
	"strings"
	"time"
)

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return string(bytes.ToUpper([]byte(s[:1]))) + s[1:]
}

// mostQuoted is how much of a caller's own text an error repeats, in bytes.
const mostQuoted = 200

func clipped(text string) string {
	if len(text) <= mostQuoted {
		return text
	}
	return strings.ToValidUTF8(text[:mostQuoted], "") + "..."
}

// quoted repeats a caller's text, cut off where it is long.
func quoted(text string) string { return strconv.Quote(clipped(text)) }

// countOf writes a number of things.
func countOf(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}

// plainDate writes a date for people.
func plainDate(iso string) string {
	day, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return day.Format("2 January 2006")
}
