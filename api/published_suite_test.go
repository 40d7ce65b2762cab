package api_test

import (
	"encoding/csv"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
	"net/http"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/wire"
)

// suiteOf is the address of an implementation to hold the published cases against, such as
// http://127.0.0.1:8080; empty asks this one in process.
var suiteOf = flag.String("suite", "", "address of the implementation that the published cases are asked of")

const suiteFolder = "../testdata/published/suite/"

// publishedCase is a row of cases.csv: plain figures and no words of any interface.
type publishedCase struct {
	id, topic, inputs, expected, tolerance, source string
	warnings                                       []string
}

// question is how an implementation is asked for a topic.
type question struct {
	route, request, answer string
	factor                 float64
}

func suiteRows(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open(suiteFolder + name)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func publishedCases(t *testing.T) (cases []publishedCase) {
	t.Helper()
	for _, r := range suiteRows(t, "cases.csv") {
		cases = append(cases, publishedCase{r[0], r[1], r[2], r[3], r[4], r[6], strings.Fields(r[8])})
	}
	return cases
}

func suiteQuestions(t *testing.T) map[string]question {
	t.Helper()
	all := map[string]question{}
	for _, r := range suiteRows(t, "questions.csv") {
		factor, err := strconv.ParseFloat(r[4], 64)
		require.NoError(t, err)
		all[r[0]] = question{r[1], r[2], r[3], factor}
	}
	return all
}

// asked sends a request in process, or over HTTP. Without a body it is a look-up.
func asked(t *testing.T, route, body string) (int, []byte) {
	t.Helper()
	if *suiteOf == "" {
		asks := asking.Posting(route, body)
		if body == "" {
			asks = asking.Getting(route)
		}
		r := asks.Of(t, asking.SharedService())
		return r.Code, r.Body.Bytes()
	}
	verb := http.MethodPost
	if body == "" {
		verb = http.MethodGet
	}
	request, err := http.NewRequestWithContext(t.Context(), verb, *suiteOf+route, strings.NewReader(body))
	require.NoError(t, err)
	request.Header.Set("Content-Type", "application/json")
	reply, err := (&http.Client{Timeout: time.Minute}).Do(request)
	require.NoError(t, err)
	defer reply.Body.Close() //nolint:errcheck // it was read to its end
	text, err := io.ReadAll(reply.Body)
	require.NoError(t, err)
	return reply.StatusCode, text
}

// at finds a place of an answer by its pointer, in which form=coefficient is the item of a
// list that says so.
func at(v any, pointer string) (any, bool) {
	for _, name := range strings.Split(pointer, "/")[1:] {
		switch of := v.(type) {
		case map[string]any:
			one, is := of[name]
			if !is {
				return nil, false
			}
			v = one
		case []any:
			i, err := strconv.Atoi(name)
			if member, says, is := strings.Cut(name, "="); is {
				i, err = slices.IndexFunc(of, func(one any) bool {
					said, has := at(one, "/"+member)
					return has && fmt.Sprint(said) == says
				}), nil
			}
			if err != nil || i < 0 || i >= len(of) {
				return nil, false
			}
			v = of[i]
		default:
			return nil, false
		}
	}
	return v, true
}

// number is the sum of the numbers at the pointers of a question.
func (q question) number(answer any, pointers string) (sum float64, err error) {
	for _, pointer := range strings.Split(pointers, " + ") {
		v, found := at(answer, pointer)
		f, is := v.(float64)
		if !found || !is {
			return 0, fmt.Errorf("no number at %s", pointer)
		}
		sum += f * q.factor
	}
	return sum, nil
}

// meets tells how far an answer is off as a share of the tolerance: a number in the unit of
// the row, a percentage of what is expected, "band" for the band of the answer, "band 0.25"
// for a band widened by the rounding of the publication, or "span" where a span was printed,
// such as 50..200, in which the answer has to lie, or "span band" where its band has to
// reach into it. What the answer is rounded by comes on top of a number or a percentage.
func (c *publishedCase) meets(answer any, q question, rounding float64) (float64, error) {
	got, err := q.number(answer, q.answer)
	if err != nil {
		return 0, err
	}
	if strings.HasPrefix(c.tolerance, "span") {
		return c.reaches(answer, q, got)
	}
	want, err := strconv.ParseFloat(c.expected, 64)
	if err != nil {
		return 0, err
	}
	if printed, is := strings.CutPrefix(c.tolerance, "band"); is {
		more, _ := strconv.ParseFloat(strings.TrimSpace(printed), 64)
		ends := map[bool]string{true: "low", false: "high"}
		end, err := q.number(answer, strings.Replace(q.answer, "/value", "/"+ends[want < got], 1))
		if err != nil {
			return 0, err
		}
		return math.Abs(want-got) / (math.Abs(end-got) + more), nil
	}
	share, percent := strings.CutSuffix(c.tolerance, "%")
	tolerance, err := strconv.ParseFloat(share, 64)
	if err != nil {
		return 0, err
	}
	if percent {
		tolerance *= math.Abs(want) / 100
	}
	return math.Abs(got-want) / math.Max(tolerance+rounding, 1e-12), nil
}

// rounding is what an answer may be off because it is rounded when it is written: half of a
// hundredth of its band, or half of the resolution of its unit, for each of its numbers.
func (q question) rounding(answer any) (all float64) {
	for _, pointer := range strings.Split(q.answer, " + ") {
		of, is := strings.CutSuffix(pointer, "/value")
		if !is {
			continue
		}
		low, noLow := q.number(answer, of+"/low")
		high, noHigh := q.number(answer, of+"/high")
		if noLow == nil && noHigh == nil {
			all += math.Abs(high-low) / 200
			continue
		}
		unit, _ := at(answer, of+"/unit")
		name, _ := unit.(string)
		if step, err := strconv.ParseFloat(wire.Resolutions()[name], 64); err == nil {
			all += math.Abs(step*q.factor) / 2
		}
	}
	return all
}

// reaches is meets where a span was printed.
func (c *publishedCase) reaches(answer any, q question, got float64) (float64, error) {
	var low, high float64
	if _, err := fmt.Sscanf(strings.Replace(c.expected, "..", " ", 1), "%g %g", &low, &high); err != nil {
		return 0, err
	}
	if c.tolerance == "span" {
		return math.Abs(2*got-low-high) / (high - low), nil
	}
	least, err := q.number(answer, strings.ReplaceAll(q.answer, "/value", "/low"))
	if err != nil {
		return 0, err
	}
	most, err := q.number(answer, strings.ReplaceAll(q.answer, "/value", "/high"))
	return 1 + math.Max(low-most, least-high)/(high-low), err
}

// Published cases as plain text, which any implementation can be held against. Those that
// are known to miss are named with the reason, and must miss.
func TestPublishedSuite(t *testing.T) {
	asking.OneByOne(t)
	questions, misses := suiteQuestions(t), map[string]string{}
	for _, r := range suiteRows(t, "misses.csv") {
		misses[r[0]] = r[1]
	}
	met, missed, topics := 0, 0, map[string]int{}
	for _, c := range publishedCases(t) {
		q, known := questions[c.topic]
		require.True(t, known, "no question for topic %s", c.topic)
		body := q.request
		for _, in := range strings.Split(c.inputs, ";") {
			name, value, _ := strings.Cut(in, "=")
			given := strings.NewReplacer("{"+name+"}", value)
			q.route, body, q.answer = given.Replace(q.route), given.Replace(body), given.Replace(q.answer)
		}
		code, text := asked(t, q.route, body)
		require.Equal(t, http.StatusOK, code, "%s %s: %s", c.id, body, text)
		var answer map[string]any
		require.NoError(t, json.Unmarshal(text, &answer))
		reason, missing := misses[c.id]
		rounding := q.rounding(answer)
		if missing { // by more than the tolerance of the case itself
			rounding = 0
		}
		share, err := c.meets(answer, q, rounding)
		require.NoError(t, err, "%s %s", c.id, body)
		topics[c.topic]++
		if missing {
			missed++
			assert.Greater(t, share, 1.0, "%s is met and must leave misses.csv (%s)", c.id, reason)
			continue
		}
		met++
		assert.LessOrEqual(t, share, 1.0, "%s %s: expected %s within %s; %s", c.id, c.inputs, c.expected, c.tolerance, c.source)
		codes := []string{}
		warnings, _ := answer["warnings"].([]any)
		for _, w := range warnings {
			one, _ := at(w, "/code")
			code, _ := one.(string)
			codes = append(codes, code)
		}
		for _, want := range c.warnings {
			assert.True(t, slices.Contains(codes, want), "%s: no warning %s among %v", c.id, want, codes)
		}
	}
	t.Logf("%d cases met, %d known to miss, by topic %v", met, missed, topics)
	assert.GreaterOrEqual(t, met, 500)
	assert.LessOrEqual(t, topics["emc"], 64, "sixty cells of the table and four rules")
	assert.LessOrEqual(t, missed, met/20, "what misses is told, and is little")
}
