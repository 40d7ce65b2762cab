package api_test

import (
	"encoding/json"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/wire"
)

// Every request that can ask for inches says so to the warnings too.
func TestRequestsTellTheirUnits(t *testing.T) {
	for _, r := range api.Routes {
		if r.Request == nil {
			continue
		}
		_, has := reflect.TypeOf(r.Request).FieldByName("ReportIn")
		pointer := reflect.New(reflect.TypeOf(r.Request))
		asks, is := pointer.Interface().(interface{ System() string })
		require.Equal(t, has, is, r.Path)
		if has {
			pointer.Elem().FieldByName("ReportIn").SetString(wire.InchLB)
			assert.Equal(t, wire.InchLB, asks.System(), r.Path)
		}
	}
}

// metricWords match an amount in metric units in a sentence.
var metricWords = regexp.MustCompile(`[0-9.]+ (mm|cm|m|C|K|kg|g|hPa|kPa|MPa|Pa)\b|[mM]illimet|degrees? C\b`)

// A warning speaks in the units of the answer: those of the physics and those of the
// service, alone and in a batch.
func TestWarningsSpeakInTheUnitsAskedFor(t *testing.T) {
	for _, c := range []struct{ path, body, metric, inch string }{
		{"/v1/air", `{"air": {"temperature": "20 C", "rh_pct": 80}, "heated_to": "5 C"`, "5 C lies below the dew point 16.4 C", "41 F lies below the dew point 61.6 F"},
		{"/v1/emc", `{"air": {"temperature": "-10 C", "rh_pct": 80}`, "temperature -10 C lies outside 0 to 100 C", "temperature 14 F lies outside 32 F to 212 F"},
		{"/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "readings": [{"kind": "pin_meter", "reading_mc_pct": 12}]`,
			"22.5 C is taken", "72.5 F is taken"},
		{"/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "3 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 20}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 7`,
			"thickness 3 mm lies outside", "thickness 0.1181 in lies outside"},
		{"/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "220 mm", "thickness": "60 mm"}, "saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "210 mm", "final_thickness": "3 mm"}`,
			"1 mm is taken off each outside face", "0.0394 in is taken off each outside face"},
	} {
		details := func(system string) (all []string) {
			for _, w := range asking.AnswerTo[any](t, c.path, c.body+system+`}`).Warnings {
				all = append(all, w.Detail)
			}
			return all
		}
		has := func(list []string, words string) {
			assert.Condition(t, func() bool {
				for _, one := range list {
					if regexp.MustCompile(regexp.QuoteMeta(words)).MatchString(one) {
						return true
					}
				}
				return false
			}, "%s in %q", words, list)
		}
		has(details(""), c.metric)
		has(details(`, "report_in": "metric"`), c.metric)
		inches := details(`, "report_in": "inch"`)
		has(inches, c.inch)
		for _, one := range inches {
			assert.NotRegexp(t, metricWords, one, c.path)
		}
		item := asking.BatchOf(`{"route": "`+c.path+`", "request": `+c.body+`, "report_in": "inch"}}`).Of(t, asking.SharedService())
		assert.Contains(t, item.Body.String(), c.inch)
	}
}

// None of the examples, asked for in inches, names a metric amount: neither in a sentence
// of the answer, nor in a warning, nor on the drawing.
func TestExamplesInInchesSpeakInInches(t *testing.T) {
	asking.OneByOne(t)
	texts := 0
	spoken := func(path string, text string) {
		if strings.HasSuffix(path, "/source") { // cited as it is
			return
		}
		texts++
		assert.NotRegexp(t, metricWords, text, path)
	}
	examples := asking.ExampleBodies(t)
	for _, r := range api.Routes {
		if r.Request == nil {
			continue
		}
		if _, is := reflect.New(reflect.TypeOf(r.Request)).Interface().(interface{ System() string }); !is {
			continue
		}
		bodies, target := examples[r.Path], r.Path
		if r.Keeps {
			for _, e := range contract.ExamplesOf(asking.ExampleFiles(), &r) {
				bodies, target = append(bodies, e.Body), e.Path
			}
		}
		require.NotEmpty(t, bodies, r.Path)
		for _, body := range bodies {
			request := asking.Decoded[map[string]any](t, body)
			request["report_in"] = "inch"
			inches, err := json.Marshal(request)
			require.NoError(t, err)
			a := asking.AnswerTo[any](t, target, string(inches))
			sentences(a.Result, "", spoken)
			for _, w := range a.Warnings {
				spoken(r.Path, w.Detail)
			}
			drawn := slices.Contains(r.Forms, wire.DrawnForm)
			if _, stays := request["stays"]; r.Path == "/v1/readiness" && !stays {
				drawn = false // nothing is drawn of a billet without one
			}
			if !drawn {
				continue
			}
			asking.Drawn(t, asking.DrawnOf(t, target, string(inches))).All(func(s *asking.Shape) { spoken(r.Path, s.Words) })
		}
	}
	assert.Greater(t, texts, 1000)
}

// sentences calls say for every text of a result.
func sentences(v any, path string, say func(path, text string)) {
	switch v := v.(type) {
	case map[string]any:
		for name, member := range v {
			sentences(member, path+"/"+name, say)
		}
	case []any:
		for i, member := range v {
			sentences(member, path+"/"+strconv.Itoa(i), say)
		}
	case string:
		say(path, v)
	}
}
