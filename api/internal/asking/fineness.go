package asking

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// decimals are how many a number without a band may have: by its unit, of which lengths
// may be cut to the nanometre.
var decimals = map[string]int{
	"mm": 6, "in": 8, "m": 3, "ft": 2, "kg": 4, "lb": 4, "hPa": 3, "inHg": 5, "MPa": 3, "psi": 1, "C": 2, "F": 2,
	"%MC": 2, "%RH": 2, "%": 3, "points": 2, "deg": 2, "1/m": 4, "1/ft": 5, "1": 3, "%/point": 4, "points/day": 3, "%/day": 3, "s/m": 0,
}

// decimalsOfNames are those of bare numbers, by the end of their names.
var decimalsOfNames = map[string]int{
	"_mc_pct": 2, "_share_pct": 2, "strain_pct": 3, "_mc_points": 2, "probability": 3, "_days": 2, "score": 3, "ratio": 5,
	"board_feet": 3, "cubic_metres": 6,
}

// published are members that hold figures as a table prints them.
var published = []string{"figures", "defaults_used"}

// mostDigits is how many a number told as it came may have.
const mostDigits = 14

// Fine requires that no number of an answer has more digits than its band or its unit
// means, an exponent, or a minus before zero, and that each lies in its band.
func Fine(t testing.TB, text []byte) {
	t.Helper()
	decoder := json.NewDecoder(strings.NewReader(string(text)))
	decoder.UseNumber()
	var v any
	require.NoError(t, decoder.Decode(&v))
	for _, complaint := range fineness("", v) {
		assert.Fail(t, complaint)
	}
}

func fineness(at string, v any) (complaints []string) {
	switch v := v.(type) {
	case json.Number:
		return malformed(at, v.String())
	case []any:
		for i := range v {
			complaints = append(complaints, fineness(fmt.Sprintf("%s/%d", at, i), v[i])...)
		}
	case map[string]any:
		unit, _ := v["unit"].(string)
		complaints = append(banded(at, unit, v), outside(at, v)...)
		for name, one := range v {
			skip := false
			for _, known := range published {
				skip = skip || name == known
			}
			if skip {
				continue
			}
			complaints = append(complaints, fineness(at+"/"+name, one)...)
			if number, is := one.(json.Number); is {
				for end, most := range decimalsOfNames {
					if strings.HasSuffix(name, end) && behindPoint(number.String()) > most {
						complaints = append(complaints, fmt.Sprintf("%s/%s is told as %s", at, name, number))
					}
				}
			}
		}
	}
	return complaints
}

func malformed(at, text string) []string {
	digits := strings.TrimLeft(strings.ReplaceAll(strings.TrimPrefix(text, "-"), ".", ""), "0")
	if strings.ContainsAny(text, "eE") || text == "-0" || len(digits) > mostDigits && strings.Contains(text, ".") {
		return []string{at + " is told as " + text}
	}
	return nil
}

// middles are the names of middles, with what their ends are called.
var middles = [][3]string{{"low", "value", "high"}, {"low_days", "value_days", "high_days"}}

// outside looks for a middle that lies outside its band: numbers, and days of the calendar.
func outside(at string, object map[string]any) (complaints []string) {
	for _, names := range middles {
		value := object[names[1]]
		if low := object[names[0]]; after(low, value) {
			complaints = append(complaints, fmt.Sprintf("%s: %s %v is above %s %v", at, names[0], low, names[1], value))
		}
		if high := object[names[2]]; after(value, high) {
			complaints = append(complaints, fmt.Sprintf("%s: %s %v is above %s %v", at, names[1], value, names[2], high))
		}
	}
	return complaints
}

// after reports whether both are told, alike, and the first lies after the second.
func after(a, b any) bool {
	switch first := a.(type) {
	case json.Number:
		if second, alike := b.(json.Number); alike {
			x, _ := first.Float64()
			y, _ := second.Float64()
			return x > y
		}
	case string:
		second, alike := b.(string)
		return alike && dayOf.MatchString(first) && dayOf.MatchString(second) && first > second
	}
	return false
}

// dayOf is a day of the calendar, whose text is in order.
var dayOf = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)

// banded looks at an object with a unit.
func banded(at, unit string, object map[string]any) (complaints []string) {
	most, known := decimals[unit]
	value, isNumber := object["value"].(json.Number)
	if !known || !isNumber {
		return nil
	}
	low, isBand := object["low"].(json.Number)
	high, isWhole := object["high"].(json.Number)
	if !isBand || !isWhole {
		if behindPoint(value.String()) > most {
			complaints = append(complaints, fmt.Sprintf("%s is told as %s %s", at, value, unit))
		}
		return complaints
	}
	l, _ := low.Float64()
	h, _ := high.Float64()
	if width := (h - l) * 0.97; width > 0 { // the ends are rounded too
		most = max(0, 2-int(math.Floor(math.Log10(width))))
	}
	for _, number := range []json.Number{value, low, high} {
		if behindPoint(number.String()) > most {
			complaints = append(complaints, fmt.Sprintf("%s: %s %s in a band from %s to %s", at, number, unit, low, high))
		}
	}
	return complaints
}

func behindPoint(text string) int {
	_, behind, _ := strings.Cut(text, ".")
	return len(behind)
}
