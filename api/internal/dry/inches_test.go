package dry_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// metricAmount is an amount in metric units in a text.
var metricAmount = regexp.MustCompile(`[0-9.]+ (mm|cm|m|C|K|kg|g|hPa|Pa)\b`)

// textsIn are the texts of an answer, but for its citations, which stand as they were
// published.
func textsIn(v any, name string) []string {
	var all []string
	switch v := v.(type) {
	case map[string]any:
		for member := range v {
			all = append(all, textsIn(v[member], member)...)
		}
	case []any:
		for _, one := range v {
			all = append(all, textsIn(one, name)...)
		}
	case string:
		if name != "source" {
			all = append(all, v)
		}
	}
	return all
}

// drawn is a text of a drawing.
var drawn = regexp.MustCompile(`>([^<>]+)<`)

// questionsInInches are the examples and the demo of this family, asked for in inches.
func questionsInInches(t *testing.T) map[string][]string {
	t.Helper()
	bodies := map[string][]string{}
	add := func(path string, text []byte) {
		request := asking.Decoded[map[string]any](t, text)
		request["report_in"] = "inch"
		body, err := json.Marshal(request)
		require.NoError(t, err)
		bodies[path] = append(bodies[path], string(body))
	}
	for path, examples := range asking.ExampleBodies(t) {
		if path == "/v1/seasoning" || path == "/v1/readiness" || path == "/v1/resaw-timing" {
			for _, example := range examples {
				add(path, example)
			}
		}
	}
	rack, err := filepath.Glob("../../../testdata/demo/rack/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, rack)
	for _, name := range rack {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		add("/v1/readiness", text)
	}
	for _, ends := range []string{"sealed_fresh", "sealed_late", "bare"} {
		add("/v1/seasoning", []byte(`{"billet": {"wood": "oak-white", "thickness": "52 mm", "stacked_on": "2025-04-01", "end_seal": "`+ends+`"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 35}},
			"stays": [{"station": "madison-wi", "until": "2026-04-01"}, {"station": "madison-wi", "heated_to": "19 C"}]}`))
	}
	add("/v1/readiness", []byte(`{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"readings": [{"kind": "pin_meter", "reading_mc_pct": 12}]}`))
	return bodies
}

// Nothing that an answer in inches says, in its texts or on its drawing, is metric, though
// every request here is.
func TestAnswersInInchesSayNothingMetric(t *testing.T) {
	asking.OneByOne(t)
	texts, drawings := 0, 0
	for path, bodies := range questionsInInches(t) {
		for _, body := range bodies {
			a := asking.AnswerTo[any](t, path, body)
			for _, text := range textsIn(a.Result, "") {
				texts++
				assert.NotRegexp(t, metricAmount, text, path)
			}
			for _, w := range a.Warnings {
				assert.NotRegexp(t, metricAmount, w.Detail, path)
			}
			if path == "/v1/readiness" && !strings.Contains(body, `"stays"`) {
				continue // has no drawing
			}
			drawings++
			for _, found := range drawn.FindAllStringSubmatch(asking.DrawnOf(t, path, body), -1) {
				assert.NotRegexp(t, metricAmount, found[1], path)
			}
		}
	}
	assert.Greater(t, texts, 300)
	assert.Greater(t, drawings, 10)
}

// The same answers in metric units are full of them, so that the test above has what it
// looks for; and what is said in both is the same but for its amounts.
func TestWordsInBothSystems(t *testing.T) {
	for _, c := range []struct{ path, body, metric, inch string }{
		{"/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "58 mm", "stacked_on": "2025-03-15", "end_seal": "sealed_late"}, "horizon_days": 400, "target_condition": {"mc_pct": 4},
			"stays": [{"station": "madison-wi", "heated_to": "20 C", "added_vapour": "6 hPa"}]`,
			"Madison, WI, heated to 20 C: the wood stays above|25 mm boards|plan 50-75 mm (common practice); 75 mm squares sealed late and dried too fast, up to 100 mm",
			"Madison, WI, heated to 68 F: the wood stays above|1 in boards|plan 2-3 in (common practice); 3 in squares sealed late and dried too fast, up to 4 in"},
		{"/v1/readiness", `{"billet": {"wood": "walnut-black", "length": "700 mm", "width": "230 mm", "thickness": "52 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
			"readings": [{"kind": "stated", "mc_pct": 13, "mc_sd_points": 3}]`,
			"from mid-length, 300 mm or more from an end", "from mid-length, 12 in or more from an end"},
	} {
		in := func(system string) string {
			var all []string
			all = append(all, textsIn(asking.AnswerTo[any](t, c.path, c.body+`, "report_in": "`+system+`"}`).Result, "")...)
			return strings.Join(all, "\n")
		}
		metric, inch := in("metric"), in("inch")
		for _, words := range strings.Split(c.metric, "|") {
			assert.Contains(t, metric, words)
		}
		for _, words := range strings.Split(c.inch, "|") {
			assert.Contains(t, inch, words)
		}
	}
	const log = `{"billet": {"wood": "maple-sugar", "thickness": "2 in", "stacked_on": "2025-03-15"}, "target_condition": {"mc_pct": 8}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "horizon_days": 60`
	assert.Contains(t, asking.DrawnOf(t, "/v1/seasoning", log+`}`), "Maple, sugar, 2 in", "as the caller wrote it")
	assert.Contains(t, asking.DrawnOf(t, "/v1/seasoning", log+`, "report_in": "inch"}`), "room at 68 F, 45 % RH")
}

// A weight that stands apart is told so that its maker finds it, whatever it was written
// in.
func TestWeightsSetAsideInBothSystems(t *testing.T) {
	b := rackBillet(t, "b-black-walnut.json")
	metric, inch := b.ask(t), b.with("report_in", "inch").ask(t)
	require.Len(t, metric.Rejected, 1)
	require.Len(t, inch.Rejected, 1)
	assert.Contains(t, metric.Rejected[0].Detail, "12.02 kg does not fit")
	assert.Contains(t, inch.Rejected[0].Detail, "lb (written as 12.02) does not fit")
}
