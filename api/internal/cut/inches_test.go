package cut_test

import (
	"encoding/json"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// metricAmount is a number with a metric unit, as a sentence has it.
var metricAmount = regexp.MustCompile(`[0-9]\s?(mm|cm|m|µm|um|nm|°?C|kg|g|hPa|Pa|m3|cm3)\b`)

// textsIn visits every text of a decoded answer but the sources, which are cited as
// they stand.
func textsIn(v any, at string, visit func(at, text string)) {
	switch v := v.(type) {
	case map[string]any:
		for name, member := range v {
			if name == "source" {
				continue
			}
			textsIn(member, at+"/"+name, visit)
		}
	case []any:
		for _, one := range v {
			textsIn(one, at+"/-", visit)
		}
	case string:
		visit(at, v)
	}
}

// inInches is a request that asks its answer in inches.
func inInches(t *testing.T, body string) string {
	t.Helper()
	var request map[string]any
	require.NoError(t, json.Unmarshal([]byte(body), &request))
	request["report_in"] = "inch"
	text, err := json.Marshal(request)
	require.NoError(t, err)
	return string(text)
}

// oddOnes are requests whose answers say what the examples do not: a pith among the
// leaves and rings that are no planes there, parts that fit nowhere, splits, defaults.
var oddOnes = map[string][]string{
	"/v1/bookmatch": {
		`{"billet": {"width": "210 mm", "rings": {"pith": {"y": "100 mm", "z": "20 mm"}, "angle_sd_deg": 2}}, "stack": {"leaves": 9, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "1.3 mm"}}`,
		`{"billet": {"width": "8 in", "rings": {"readings": [{"y": "0 mm", "angle_deg": 2}]}, "grain": {"runout_one_in": 8}}, "stack": {"leaves": 4, "sawn_thickness": "0.4 mm"}, "saw": {"cleanup_show": "0 mm", "kerf": "9.9 mm"}}`,
	},
	"/v1/leaf-yield": {
		`{"billet": {"length": "300 mm", "width": "100 mm", "thickness": "40 mm"}, "saw": {"kerf": "1.5 mm"}, "part": {"length": "310 mm", "width": "120 mm", "final_thickness": "3 mm"}}`,
		`{"billet": {"length": "15 m", "width": "100 mm", "thickness": "40 mm", "end_thickness": "20 mm", "condition": {"mc_pct": 40}, "wood": "maple-sugar"}, "saw": {"kerf": "15 mm", "reface": "6 mm", "cleanup_show": "9 mm"}, "part": {"length": "250 mm", "width": "90 mm", "final_thickness": "3 mm", "final_condition": {"mc_pct": 8}}}`,
	},
	"/v1/resaw-plan": {
		`{"billets": [{"length": "300 mm", "width": "80 mm", "thickness": "50 mm"}], "saws": [{"kerf": "1 mm"}], "parts": [{"part_size": "steel-string-dreadnought-top"}]}`,
		`{"billets": [{"length": "600 mm", "width": "200 mm", "thickness": "50 mm", "trim": {"usual": "squares_fast"}}], "saws": [{"usual_kerf": "froe"}, {"usual_kerf": "bandsaw_wide"}, {"kerf": "1 mm", "max_cut_height": "60 mm"}], "parts": [{"part_size": "violin-top", "set_value": 1}, {"id": "high", "length": "500 mm", "width": "150 mm", "final_thickness": "40 mm", "set_value": 2, "min_sets": 1}]}`,
		`{"billets": [{"wood": "spruce-sitka", "length": "15 m", "width": "200 mm", "thickness": "60 mm", "condition": {"mc_pct": 20}, "cup": "60 mm"}], "saws": [{"kerf": "12 mm", "wander": "6 mm"}], "parts": [{"length": "14 m", "width": "150 mm", "final_thickness": "4 mm", "flattening": "11 mm", "final_condition": {"mc_pct": 8}}]}`,
	},
}

// refused are requests that cannot be answered.
var refused = map[string][]string{
	"/v1/resaw-plan": {
		`{"billets": [{"length": "600 mm", "width": "200 mm", "thickness": "50 mm", "zones": [{"kind": "knot", "x_from": "700 mm", "x_to": "800 mm", "y_from": "0 mm", "y_to": "10 mm"}]}], "saws": [{"kerf": "1 mm"}], "parts": [{"part_size": "violin-top"}]}`,
	},
}

// In inches nothing that the questions of cutting say, in words or in a drawing, names
// a metric amount.
func TestAnswersInInchesNameNoMetricAmount(t *testing.T) {
	texts := 0
	for path, forms := range map[string][]string{"/v1/leaf-yield": nil, "/v1/bookmatch": {""},
		"/v1/resaw-plan": {"", "?as=template"}} {
		bodies := asking.ExampleBodies(t)[path]
		require.NotEmpty(t, bodies, path)
		for _, odd := range oddOnes[path] {
			bodies = append(bodies, []byte(odd))
		}
		answers := len(bodies)
		for _, wrong := range refused[path] {
			bodies = append(bodies, []byte(wrong))
		}
		for n, body := range bodies {
			inch := inInches(t, string(body))
			answered := asking.Posting(path, inch).Of(t, asking.SharedService())
			var answer any
			require.NoError(t, json.Unmarshal(answered.Body.Bytes(), &answer))
			textsIn(answer, "", func(at, text string) {
				texts++
				assert.NotRegexp(t, metricAmount, text, "%s %s of %s", path, at, inch)
			})
			if n >= answers {
				assert.Equal(t, http.StatusUnprocessableEntity, answered.Code)
				continue
			}
			require.Equal(t, http.StatusOK, answered.Code, answered.Body.String())
			for _, form := range forms {
				root := asking.Drawn(t, asking.DrawnOf(t, path+form, inch))
				root.All(func(s *asking.Shape) {
					if name := s.XMLName.Local; name == "text" || name == "title" || name == "desc" {
						texts++
						assert.NotRegexp(t, metricAmount, strings.TrimSpace(s.Words), "%s of %s", path+form, inch)
					}
				})
			}
		}
	}
	assert.Greater(t, texts, 500)
}
