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
	ofWrongCuts(t, func(i int, e *refuse.FieldError) {
		if e.Code != "conflict" && e.Code != "too_much_work" {
			return
		}
		told := e.Limit != nil && (e.Limit.Min != nil || e.Limit.Max != nil)
		if told {
			found++
			words := strings.Fields(e.Limit.String())
			assert.Contains(t, e.Detail, strings.Join(words[len(words)-min(2, len(words)):], " "), asking.WrongRequests[i].Name)
		}
		assert.True(t, told || relations.MatchString(e.Detail), "%s: %s: %s", asking.WrongRequests[i].Name, e.Pointer, e.Detail)
	})
	assert.GreaterOrEqual(t, found, 45)
}

// The limit that an error tells is one that is taken: sent in place of what was wrong, nothing
// is wrong with that member any more.
func TestLimitsSentAgainAreTaken(t *testing.T) {
	again := 0
	ofWrongCuts(t, func(i int, e *refuse.FieldError) {
		w := &asking.WrongRequests[i]
		body, could := withLimit(t, w.Body, e)
		if !could {
			return
		}
		again++
		r := asking.Posting(w.Target, body).Of(t, asking.SharedService())
		if r.Code == http.StatusOK {
			return
		}
		for _, other := range asking.ProblemOf(t, r, http.StatusUnprocessableEntity).Errors {
			assert.False(t, other.Pointer == e.Pointer && other.Code == e.Code, "%s: %s: %s, then %s", w.Name, e.Pointer, e.Limit, other.Detail)
		}
	})
	assert.GreaterOrEqual(t, again, 90)
}

// ofWrongCuts shows every error of every wrong request about cutting, with the number of the
// request.
func ofWrongCuts(t *testing.T, see func(i int, e *refuse.FieldError)) {
	t.Helper()
	for i := range asking.WrongRequests {
		w := &asking.WrongRequests[i]
		path, query, _ := strings.Cut(w.Target, "?")
		if !slices.Contains(sawing, path) || query != "" || w.Status != http.StatusUnprocessableEntity {
			continue
		}
		told := asking.ProblemOf(t, w.Of(t, asking.SharedService()), w.Status).Errors
		for j := range told {
			see(i, &told[j])
		}
	}
}

// withLimit is a body with what an error allows in place of what was wrong; false where that
// is no number or no member of the body.
func withLimit(t *testing.T, body string, e *refuse.FieldError) (string, bool) {
	t.Helper()
	if e.Limit == nil || e.Limit.Min == nil && e.Limit.Max == nil {
		return "", false
	}
	value := 0.0
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
		switch e.Limit.Unit {
		case "mm", "cm", "m", "in", "ft":
			return map[string]any{"value": value, "unit": e.Limit.Unit}
		case "%":
			if _, condition := old.(map[string]any); condition {
				return map[string]any{"mc_pct": value}
			}
		}
		return value
	}
	if !slices.Contains([]string{"", "mm", "cm", "m", "in", "ft", "%", "degrees"}, e.Limit.Unit) || !replaced(&whole, strings.Split(e.Pointer, "/")[1:], put) {
		return "", false
	}
	text, err := json.Marshal(whole)
	require.NoError(t, err)
	return string(text), true
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
