package api_test

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/woodphys/quantity"
)

// toSI turns every quantity of a reply into SI, so that replies in different
// systems can be compared. Texts are left out: they are written in the system.
func toSI(t testing.TB, v any) any {
	t.Helper()
	switch v := v.(type) {
	case map[string]any:
		unit, isQuantity := v["unit"].(string)
		out := map[string]any{}
		for name, member := range v {
			number, isNumber := member.(float64)
			switch {
			case isQuantity && isNumber:
				out[name] = siOf(t, number, unit)
			case isQuantity && name == "unit":
			default:
				out[name] = toSI(t, member)
			}
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = toSI(t, v[i])
		}
		return out
	}
	return v
}

func siOf(t testing.TB, number float64, unit string) float64 {
	t.Helper()
	if l, err := quantity.LengthOf(number, unit); err == nil {
		return l.Metres()
	}
	if k, err := quantity.TemperatureOf(number, unit); err == nil {
		return k.Kelvin()
	}
	if m, err := quantity.MassOf(number, unit); err == nil {
		return m.Kilograms()
	}
	if p, err := quantity.PressureOf(number, unit); err == nil {
		return p.Pascals()
	}
	if p, err := quantity.StiffnessOf(number, unit); err == nil {
		return p.Pascals()
	}
	if long, isCurvature := strings.CutPrefix(unit, "1/"); isCurvature {
		if l, err := quantity.LengthOf(1, long); err == nil {
			return number / l.Metres()
		}
	}
	return number // a percentage of a table
}

// alike compares two decoded JSON values, numbers within 1e-9 relative: the
// conversions round to the last digits of a float64, and a dimension is settled
// to a billionth of its unit where it lies within 1e-13 of one. A probability
// near 0 is the small rest of a sum: it agrees within 1e-9 as it stands.
func alike(t testing.TB, want, got any, path string) {
	t.Helper()
	switch want := want.(type) {
	case map[string]any:
		other, ok := got.(map[string]any)
		require.True(t, ok, path)
		require.Len(t, other, len(want), path)
		for name := range want {
			require.Contains(t, other, name, path)
			alike(t, want[name], other[name], path+"/"+name)
		}
	case []any:
		other, ok := got.([]any)
		require.True(t, ok, path)
		require.Len(t, other, len(want), path)
		for i := range want {
			alike(t, want[i], other[i], fmt.Sprint(path, "/", i))
		}
	case float64:
		other, ok := got.(float64)
		require.True(t, ok, path)
		nothing := 1e-14
		if strings.Contains(path, "probability") {
			nothing = 1e-9
		}
		if strings.Contains(path, "defaults_used") { // told to the nanometre in both
			nothing = 1e-9
		}
		assert.LessOrEqual(t, math.Abs(want-other), 1e-9*math.Max(math.Abs(want), math.Abs(other))+nothing, "%s: %v and %v", path, want, other)
	case string:
		other, ok := got.(string)
		require.True(t, ok, path)
		assert.Equal(t, sizeInText.ReplaceAllString(want, "#"), sizeInText.ReplaceAllString(other, "#"), path)
	default:
		assert.Equal(t, want, got, path)
	}
}

// sizeInText is an amount in a sentence, which is told in the caller's system, in fractions of an inch too; a weight
// that was written in the other one is told with the number it was written as.
var sizeInText = regexp.MustCompile(`(-?[0-9.]+-)?-?([0-9]+ )?[0-9./]+ (mm|in|g|kg|lb|C|F|MPa|psi)\b( \(written as [0-9.]+\))?|` +
	`a few millimetres|a fraction of an inch`)

// resultSI asks and returns the result in SI.
func resultSI(t testing.TB, path, body string) any {
	t.Helper()
	a := asking.InFull[any](t, path, body)
	return toSI(t, a.Result)
}

func TestBothSystemsGiveTheSameAnswer(t *testing.T) {
	asking.OneByOne(t)
	covered := map[string]bool{}
	for _, q := range asking.SameQuestions {
		covered[q.Path] = true
		t.Run(q.Path, func(t *testing.T) { alike(t, resultSI(t, q.Path, q.Metric), resultSI(t, q.Path, q.Inch), "") })
	}
	for _, r := range asking.Calculations() {
		assert.True(t, covered[r.Path] || r.ID == "runBatch", "not asked in both systems: "+r.Path)
	}
}

// Asking for another system changes the units of the answer and nothing else.
func TestReportInChangesOnlyUnits(t *testing.T) {
	asking.OneByOne(t)
	examples := asking.ExampleBodies(t)
	for _, r := range api.Routes {
		path := r.Path
		if r.Request == nil {
			continue
		}
		if _, told := reflect.New(reflect.TypeOf(r.Request)).Interface().(interface{ System() string }); !told {
			continue // there is nothing with a unit in its answers; a batch holds requests of the others
		}
		for _, body := range examples[path] {
			if bytes.Contains(body, []byte("inch_fraction")) {
				continue // what is sawn in fractions of an inch is another plan
			}
			metric := bytes.ReplaceAll(body, []byte(`"report_in": "inch"`), []byte(`"report_in": "metric"`))
			inch := bytes.ReplaceAll(metric, []byte(`"report_in": "metric"`), []byte(`"report_in": "inch"`))
			if !bytes.Contains(inch, []byte("report_in")) {
				inch = bytes.Replace(metric, []byte("{"), []byte(`{"report_in": "inch", `), 1)
			}
			require.NotEqual(t, string(metric), string(inch))
			one, two := asking.InFull[any](t, path, string(metric)), asking.InFull[any](t, path, string(inch))
			alike(t, toSI(t, one.Result), toSI(t, two.Result), path)
			assert.Equal(t, one.Basis, two.Basis)
			require.Len(t, two.Warnings, len(one.Warnings))
			for i := range one.Warnings { // the words speak in the units asked for
				two.Warnings[i].Detail, two.Warnings[i].Subject = one.Warnings[i].Detail, one.Warnings[i].Subject
			}
			assert.Equal(t, one.Warnings, two.Warnings)
		}
	}
}
