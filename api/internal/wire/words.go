package wire

import (
	"bytes"
	"strconv"
	"strings"
	"time"
)

// UpperFirst is the text with a capital.
func UpperFirst(s string) string {
	if s == "" {
		return s
	}
	return string(bytes.ToUpper([]byte(s[:1]))) + s[1:]
}

// mostQuoted is how much of a caller's own text an error repeats, in bytes.
const mostQuoted = 200

// Clipped cuts a caller's own text off where it is long.
func Clipped(text string) string {
	if len(text) <= mostQuoted {
		return text
	}
	return strings.ToValidUTF8(text[:mostQuoted], "") + "..."
}

// Quoted repeats a caller's text, cut off where it is long.
func Quoted(text string) string { return strconv.Quote(Clipped(text)) }

// CountOf writes a number of things.
func CountOf(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}

// Either joins words of which one is meant: a, b or c.
func Either(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// PlainDate writes a date for people.
func PlainDate(iso string) string {
	day, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return day.Format("2 January 2006")
}
