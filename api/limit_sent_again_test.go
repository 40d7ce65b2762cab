package api_test

import (
	"encoding/json"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/refuse"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// sawing are the questions about wood that is cut.
var sawing = []string{"/v1/leaf-yield", "/v1/bookmatch", "/v1/resaw-plan", "/v1/log-plan"}

// relations matches what is wrong by what else was sent or left out, however large it is: there
// no size would be right.
var relations = regexp.MustCompile(`not both|only one of|goes with|leave .* out$|twice|same (place|depth)|is that of a bookmatched pair`)

// Of every wrong request about cutting: what is too large or too small for something else that
// was sent says how large it may be, in a number with its unit.
func TestConflictsOfSizeTellTheirLimit(t *testing.T) {
	found := 0
	ofWrongMembers(t, func(w *asking.Asked, name string, e *refuse.FieldError) {
		if !slices.Contains(sawing, w.Target) || e.Code != "conflict" && e.Code != "too_much_work" {
			return
		}
		told := isNumber(e.Limit)
		if told {
			found++
			words := strings.Fields(e.Limit.String())
			assert.Contains(t, e.Detail, strings.Join(words[len(words)-min(2, len(words)):], " "), name)
		}
		assert.True(t, told || relations.MatchString(e.Detail), "%s: %s: %s", name, e.Pointer, e.Detail)
	})
	assert.GreaterOrEqual(t, found, 45)
}

// slower is a drying factor that is allowed in itself, and slowed by the ring angle to one that
// is not.
const slower = "factor of nothing"

// The limit that an error tells is one that is taken: sent in place of what was wrong, nothing is
// wrong with that member any more, or another limit is missed, within which it is not.
func TestLimitsSentAgainAreTaken(t *testing.T) {
	again := 0
	ofWrongMembers(t, func(w *asking.Asked, name string, e *refuse.FieldError) {
		body, value, could := withLimit(t, w.Body, e)
		if !could || name == slower {
			return
		}
		again++
		r := asking.Posting(w.Target, body).Of(t, asking.SharedService())
		if r.Code == http.StatusOK {
			return
		}
		for _, other := range asking.ProblemOf(t, r, http.StatusUnprocessableEntity).Errors {
			if other.Pointer == e.Pointer && other.Code == e.Code {
				missed := isNumber(other.Limit) && other.Limit.Unit == e.Limit.Unit && !within(other.Limit, value)
				assert.True(t, missed, "%s: %s: %s, then %s", name, e.Pointer, e.Limit, other.Detail)
			}
		}
	})
	assert.GreaterOrEqual(t, again, 260)
}

// isNumber reports a limit of numbers.
func isNumber(l *method.Limit) bool { return l != nil && (l.Min != nil || l.Max != nil) }

// within reports whether a value keeps a limit.
func within(l *method.Limit, value float64) bool {
	low := l.Min == nil || value > *l.Min || value == *l.Min && !l.Exclusive
	high := l.Max == nil || value < *l.Max || value == *l.Max && !l.Exclusive
	return low && high
}

// ofWrongMembers shows every error of the members of every wrong request for a calculation.
func ofWrongMembers(t *testing.T, see func(w *asking.Asked, name string, e *refuse.FieldError)) {
	t.Helper()
	for i := range asking.WrongRequests {
		w := &asking.WrongRequests[i]
		aside := strings.ContainsRune(w.Target, '?') || strings.Contains(w.Target, "rack") || strings.Contains(w.Target, "batch")
		if w.Verb != http.MethodPost || w.Status != http.StatusUnprocessableEntity || aside {
			continue
		}
		told := asking.ProblemOf(t, w.Of(t, asking.SharedService()), w.Status).Errors
		for j := range told {
			see(&w.Asked, w.Name, &told[j])
		}
	}
}

// withLimit is a body with what an error allows in place of what was wrong, and that; false where
// that is no number or no member of the body.
func withLimit(t *testing.T, body string, e *refuse.FieldError) (anew string, value float64, could bool) {
	t.Helper()
	if !isNumber(e.Limit) {
		return "", 0, false
	}
	const inside = 1e-3 // of what is no longer allowed itself
	switch {
	case e.Limit.Max != nil:
		if value = *e.Limit.Max; e.Limit.Exclusive {
			value -= inside * max(1, value)
		}
	default:
		if value = *e.Limit.Min; e.Limit.Exclusive {
			value += inside * max(1, value)
		}
	}
	var whole any
	require.NoError(t, json.Unmarshal([]byte(body), &whole))
	put := func(old any) any {
		_, object := old.(map[string]any)
		switch {
		case slices.Contains(unitsOfQuantities(), e.Limit.Unit):
			return map[string]any{"value": value, "unit": e.Limit.Unit}
		case e.Limit.Unit == "%" && object:
			return map[string]any{"mc_pct": value}
		}
		return value
	}
	taken := append(unitsOfQuantities(), "", "%", "deg", "points", "days")
	if !slices.Contains(taken, e.Limit.Unit) || !replaced(&whole, strings.Split(e.Pointer, "/")[1:], put) {
		return "", 0, false
	}
	text, err := json.Marshal(whole)
	require.NoError(t, err)
	return string(text), value, true
}

// unitsOfQuantities are all units in which a quantity may be sent.
func unitsOfQuantities() (all []string) {
	for _, d := range []quantity.Dimension{quantity.DimensionLength, quantity.DimensionTemperature, quantity.DimensionMass, quantity.DimensionPressure, quantity.DimensionStiffness} {
		all = append(all, quantity.Units(d)...)
	}
	return all
}

// replaced puts something else in the place of a member; false where there is none.
func replaced(at *any, tokens []string, put func(any) any) bool {
	if len(tokens) == 0 {
		*at = put(*at)
		return true
	}
	switch of := (*at).(type) {
	case map[string]any:
		below, there := of[tokens[0]]
		there = there && replaced(&below, tokens[1:], put)
		of[tokens[0]] = below
		return there
	case []any:
		i, err := strconv.Atoi(tokens[0])
		return err == nil && i < len(of) && replaced(&of[i], tokens[1:], put)
	}
	return false
}
