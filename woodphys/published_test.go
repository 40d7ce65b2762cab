package woodphys_test

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/quantity"
)

// A handler answers one published example: the values the project computes from
// its inputs, in the unit and order of the expected column.
type handler func(in inputs) ([]float64, error)

// handlers are the topics of worked_examples.csv that the project answers. A
// chapter adds its map here and keeps it in its own published_*_test.go.
func handlers(t *testing.T) map[string]handler {
	t.Helper()
	all := map[string]handler{}
	for _, chapter := range []map[string]handler{
		airHandlers(),
		sorptionHandlers(),
		moistureHandlers(),
		movementHandlers(),
		sectionHandlers(),
		laminateHandlers(),
		dryingHandlers(),
	} {
		for topic, h := range chapter {
			require.NotContains(t, all, topic, "two chapters answer this topic")
			all[topic] = h
		}
	}
	return all
}

// notYet names the topics, or single rows by id, that nothing answers, with the
// reason. A topic or row that gets a handler must leave this list.
func notYet() map[string]string {
	return map[string]string{
		"DRY-05": "the safe daily loss of a wood is a table of package species",
		"heat":   "no chapter needs the specific heat of wood",
		"yield":  "chapter resaw has no handler here",
	}
}

func TestPublishedExamples(t *testing.T) {
	answered, reasons := handlers(t), notYet()
	agreement := map[string]*agreed{}
	pending := map[string]bool{}
	for _, e := range readExamples(t) {
		h, ok := answered[e.topic]
		_, topicPending := reasons[e.topic]
		_, rowPending := reasons[e.id]
		require.Falsef(t, ok && topicPending, "topic %s has a handler and is listed as not yet answered", e.topic)
		if topicPending || rowPending {
			pending[e.topic], pending[e.id] = true, true
			continue
		}
		if !assert.Truef(t, ok, "%s: no handler for topic %q and no reason in notYet", e.id, e.topic) {
			continue
		}
		t.Run(e.id, func(t *testing.T) {
			got, err := h(e.inputs)
			require.NoError(t, err)
			share, err := e.share(got)
			require.NoError(t, err)
			assert.LessOrEqualf(t, share, 1.0, "%s: want %s %s within %s, got %v; %s", e.topic, e.expected, e.unit, e.tolerance, got, e.source)
			a := agreement[e.source]
			if a == nil {
				a = &agreed{}
				agreement[e.source] = a
			}
			a.rows++
			a.worst = math.Max(a.worst, share)
		})
	}
	for key := range reasons {
		assert.Truef(t, pending[key], "notYet names %q, which is no topic or row of the file", key)
	}
	for _, source := range slices.Sorted(maps.Keys(agreement)) {
		t.Logf("%d rows, worst difference %.2f of the tolerance: %s", agreement[source].rows, agreement[source].worst, source)
	}
	for _, key := range slices.Sorted(maps.Keys(reasons)) {
		t.Logf("not answered: %s, %s", key, reasons[key])
	}
}

type agreed struct {
	rows  int
	worst float64 // largest difference over its tolerance
}

// example is a row of worked_examples.csv.
type example struct {
	id, topic                         string
	inputs                            inputs
	expected, unit, tolerance, source string
}

var rangePattern = regexp.MustCompile(`^(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)(?:, mean \d+(?:\.\d+)?)?$`)

// share returns the largest difference between got and the expected values over
// the tolerance: at most 1 when the example is met. A tolerance is a number in
// the unit of the row ("1e-09"), a percentage of the expected value ("0.03%"),
// or "range", when expected is "low-high" and 1 stands for its ends.
func (e example) share(got []float64) (float64, error) {
	if e.tolerance == "range" {
		ends := rangePattern.FindStringSubmatch(e.expected)
		if ends == nil || len(got) != 1 {
			return 0, fmt.Errorf("%s: expected %q is not a range for the one value %v", e.id, e.expected, got)
		}
		low, _ := strconv.ParseFloat(ends[1], 64)
		high, _ := strconv.ParseFloat(ends[2], 64)
		return notNaN(math.Abs(got[0]-(low+high)/2) / ((high - low) / 2)), nil
	}
	wanted := strings.Split(e.expected, "|")
	if len(wanted) != len(got) {
		return 0, fmt.Errorf("%s: %d values expected, %d computed", e.id, len(wanted), len(got))
	}
	number, percent := strings.CutSuffix(e.tolerance, "%")
	tolerance, err := strconv.ParseFloat(number, 64)
	if err != nil || !(tolerance > 0) {
		return 0, fmt.Errorf("%s: tolerance %q is not a positive number, a percentage or range", e.id, e.tolerance)
	}
	worst := 0.0
	for i, text := range wanted {
		want, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return 0, fmt.Errorf("%s: expected %q: %w", e.id, text, err)
		}
		allowed := tolerance
		if percent {
			allowed = math.Abs(want) * tolerance / 100
		}
		// the printed decimal itself may carry half a unit of rounding in float64
		worst = math.Max(worst, notNaN(math.Abs(got[i]-want)/(allowed*(1+1e-9))))
	}
	return worst, nil
}

// notNaN turns a NaN, which compares false with everything, into a failure.
func notNaN(v float64) float64 {
	if math.IsNaN(v) {
		return math.Inf(1)
	}
	return v
}

func TestShareOfTolerance(t *testing.T) {
	for _, c := range []struct {
		expected, tolerance string
		got                 []float64
		want                float64
	}{
		{"8.4", "0.06", []float64{8.43}, 0.5},
		{"200", "0.03%", []float64{200.03}, 0.5},
		{"-200", "0.03%", []float64{-200.12}, 2},
		{"0.0003", "1e-09", []float64{0.000302}, 2000},
		{"1|2", "0.1", []float64{1, 2.3}, 3},
		{"40-205, mean 90", "range", []float64{205}, 1},
		{"40-205, mean 90", "range", []float64{122.5}, 0},
		{"1", "0.1", []float64{math.NaN()}, math.Inf(1)},
	} {
		got, err := example{expected: c.expected, tolerance: c.tolerance}.share(c.got)
		require.NoError(t, err)
		if math.IsInf(c.want, 1) {
			assert.Equal(t, c.want, got)
			continue
		}
		assert.InDelta(t, c.want, got, 1e-6*(1+c.want), c)
	}
	for _, e := range []example{
		{expected: "1", tolerance: "close"},
		{expected: "1", tolerance: "0"},
		{expected: "1|2", tolerance: "1"},
		{expected: "about 4", tolerance: "range"},
		{expected: "many", tolerance: "1"},
	} {
		_, err := e.share([]float64{1})
		require.Error(t, err, e)
	}
}

func readExamples(t *testing.T) []example {
	t.Helper()
	heading, rows := expect.Table(t, "../testdata/published/worked_examples.csv")
	require.Equal(t, []string{"id", "topic", "inputs", "expected", "unit", "tolerance", "source", "checked"}, heading)
	examples := make([]example, 0, len(rows))
	above := ""
	seen := map[string]bool{}
	for _, row := range rows {
		require.NotContains(t, seen, row[0], "the id stands twice")
		seen[row[0]] = true
		in, err := parseInputs(row[2])
		require.NoError(t, err, row[0])
		e := example{id: row[0], topic: row[1], inputs: in, expected: row[3], unit: row[4], tolerance: row[5], source: row[6]}
		if e.source == "same" { // ditto mark of the file
			e.source = above
		}
		above = e.source
		examples = append(examples, e)
	}
	require.Greater(t, len(examples), 55)
	return examples
}

// inputs are the named inputs of an example, as text.
type inputs map[string]string

func parseInputs(text string) (inputs, error) {
	in := inputs{}
	for pair := range strings.SplitSeq(text, ";") {
		name, value, ok := strings.Cut(pair, "=")
		if !ok {
			return nil, fmt.Errorf("%q is not name=value", pair)
		}
		in[name] = value
	}
	return in, nil
}

var errNoInput = errors.New("the example lacks an input or it is not a number")

// numbers returns the named inputs as numbers; "inf" is infinity.
func (in inputs) numbers(names ...string) ([]float64, error) {
	values := make([]float64, len(names))
	for i, name := range names {
		v, err := strconv.ParseFloat(in[name], 64)
		if err != nil {
			return nil, fmt.Errorf("%w: %s", errNoInput, name)
		}
		values[i] = v
	}
	return values, nil
}

// number returns one input as a number.
func (in inputs) number(name string) (float64, error) {
	v, err := in.numbers(name)
	if err != nil {
		return 0, err
	}
	return v[0], nil
}

// temperature returns the input stem_c or stem_f.
func (in inputs) temperature(stem string) (quantity.Temperature, error) {
	if _, ok := in[stem+"_f"]; ok {
		v, err := in.number(stem + "_f")
		return quantity.Celsius((v - 32) * 5 / 9), err
	}
	v, err := in.number(stem + "_c")
	return quantity.Celsius(v), err
}
