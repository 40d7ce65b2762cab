package api

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		assert.LessOrEqual(t, math.Abs(want-other), 1e-9*math.Max(math.Abs(want), math.Abs(other))+nothing, "%s: %v and %v", path, want, other)
	case string:
		other, ok := got.(string)
		require.True(t, ok, path)
		assert.Equal(t, sizeInText.ReplaceAllString(want, "#"), sizeInText.ReplaceAllString(other, "#"), path)
	default:
		assert.Equal(t, want, got, path)
	}
}

// sizeInText is a length in a sentence, which is told in the caller's system.
var sizeInText = regexp.MustCompile(`-?[0-9.]+ (mm|in)\b`)

// resultSI asks and returns the result in SI.
func resultSI(t testing.TB, path, body string) any {
	t.Helper()
	a := answerTo[any](t, path, body)
	return toSI(t, a.Result)
}

// Each pair is one question asked in both systems: quantities that are equal by
// definition (1 in = 25.4 mm, 1 lb = 0.45359237 kg, 68 F = 20 C).
var sameQuestion = []struct{ path, metric, inch string }{
	{"/v1/air", `{"air": {"dry_bulb": "20 C", "wet_bulb": "15 C", "altitude": "304.8 m"}, "heated_to": "30 C"}`,
		`{"air": {"dry_bulb": "68 F", "wet_bulb": "59 F", "altitude": "1000 ft"}, "heated_to": "86 F", "report_in": "inch"}`},
	{"/v1/emc", `{"species": "maple-sugar", "air": {"dry_bulb": "20 C", "dew_point": "10 C", "pressure": "1000 hPa"}}`,
		`{"species": "maple-sugar", "air": {"dry_bulb": {"value": 68, "unit": "F"}, "dew_point": "283.15 K", "pressure": "100000 Pa"}, "report_in": "inch"}`},
	{"/v1/emc", `{"dry_bulb": "25 C", "wanted_emc_pct": 8}`, `{"dry_bulb": "77 F", "wanted_emc_pct": 8, "report_in": "inch"}`},
	{"/v1/moisture", `{"species": "maple-sugar", "readings": [{"ovendry": {"wet": "453.59237 g", "ovendry": "400 g", "scale_division": "0.1 g"}},
		{"size_and_weight": {"length": "609.6 mm", "width": "228.6 mm", "thickness": "50.8 mm", "mass": "4.8 kg"}},
		{"pin_meter": {"reading_pct": 12, "wood_temperature": "15 C", "depth": "12.7 mm", "thickness": "50.8 mm"}}]}`,
		`{"species": "maple-sugar", "readings": [{"ovendry": {"wet": "1 lb", "ovendry": "0.4 kg", "scale_division": "100e-6 kg"}},
		{"size_and_weight": {"length": "2 ft", "width": "9 in", "thickness": "2 in", "mass": "4800 g"}},
		{"pin_meter": {"reading_pct": 12, "wood_temperature": "59 F", "depth": "1/2 in", "thickness": "2 in"}}]}`},
	{"/v1/movement", `{"species": "walnut-black", "dimension": "241.3 mm", "ring_angle_deg": 20, "from": {"mc_pct": 12, "sd_pct": 1}, "to": {"air": {"dry_bulb": "20 C", "rh_pct": 35}}}`,
		`{"species": "walnut-black", "dimension": "9-1/2 in", "ring_angle_deg": 20, "from": {"mc_pct": 12, "sd_pct": 1}, "to": {"air": {"dry_bulb": "68 F", "rh_pct": 35}}, "report_in": "inch"}`},
	{"/v1/bookmatch", `{"width": "203.2 mm", "leaves": {"count": 4, "thickness": "4.7625 mm", "kerf": "1.27 mm", "first": "1.5875 mm"}, "cleanup": {"show": "0.508 mm"}, "seam_edge": "3.175 mm",
		"rings": {"pith": {"x": "-50.8 mm", "z": "76.2 mm"}}, "ring_angle_sd_deg": 2, "ring_width": "2.54 mm", "grain": {"dip_one_in": 60, "runout_one_in": 30}, "spare": {"width": "6.35 mm", "length": "12.7 mm"}}`,
		`{"width": "8 in", "leaves": {"count": 4, "thickness": "3/16 in", "kerf": "0.05 in", "first": "1/16 in"}, "cleanup": {"show": "0.02 in"}, "seam_edge": "1/8 in",
		"rings": {"pith": {"x": "-2 in", "z": "3 in"}}, "ring_angle_sd_deg": 2, "ring_width": "0.1 in", "grain": {"dip_one_in": 60, "runout_one_in": 30}, "spare": {"width": "1/4 in", "length": "1/2 in"}, "report_in": "inch"}`},
	{"/v1/yield", `{"species": "walnut-black", "billet": {"length": "609.6 mm", "width": "260.35 mm", "thickness": "69.85 mm", "thin_edge": "25.4 mm", "end_trim": "25.4 mm"},
		"saw": {"kerf": "1.5875 mm"}, "part": {"length": "533.4 mm", "width": "200.025 mm", "final_thickness": "2.54 mm", "allowances": {"sawn_at_pct": 14, "dried_to_pct": 8, "ring_angle_deg": 80}}}`,
		`{"species": "walnut-black", "billet": {"length": "24 in", "width": "10 1/4 in", "thickness": "2 3/4 in", "thin_edge": "1 in", "end_trim": "1 in"},
		"saw": {"kerf": "1/16 in"}, "part": {"length": "21 in", "width": "7 7/8 in", "final_thickness": "0.1 in", "allowances": {"sawn_at_pct": 14, "dried_to_pct": 8, "ring_angle_deg": 80}}, "report_in": "inch"}`},
	{"/v1/yield", `{"billet": {"length": "600 mm", "width": "254 mm", "thickness": "50.8 mm"}, "saw": {"kerf": "1.27 mm", "facing": "0 mm"}, "part": {"length": "508 mm", "width": "203.2 mm", "sawn_thickness": "5.08 mm"}}`,
		`{"billet": {"length": "60 cm", "width": "10 in", "thickness": "2 in"}, "saw": {"kerf": "0.05 in", "facing": "0 in"}, "part": {"length": "20 in", "width": "8 in", "sawn_thickness": "0.2 in"}, "report_in": "inch"}`},
	{"/v1/resaw", `{"species": "walnut-black", "billets": [{"length": "914.4 mm", "width": "254 mm", "thickness": "57.15 mm", "thickness_far_edge": "38.1 mm", "mc_pct": 9, "cup": "1.5875 mm", "end_trim_start": "25.4 mm", "end_trim_end": "25.4 mm",
		"facing_face_1": "0.79375 mm", "facing_far_face": "0.79375 mm", "zones": [{"kind": "knot", "x_from": "254 mm", "x_to": "279.4 mm", "y_from": "25.4 mm", "y_to": "50.8 mm", "z_from": "12.7 mm", "z_to": "25.4 mm"}], "rings": {"pith": {"y": "-25.4 mm", "z": "25.4 mm"}}}],
		"saws": [{"kerf": "1.5875 mm", "wander": "0.396875 mm", "cleanup_show": "0.79375 mm", "cleanup_back": "0.79375 mm"}], "parts": [{"name": "back", "length": "533.4 mm", "width": "203.2 mm", "final_thickness": "2.54 mm", "flatness": "0.396875 mm", "worth": 9}, {"name": "strip", "length": "203.2 mm", "width": "50.8 mm", "final_thickness": "6.35 mm", "flatness": "0 mm", "worth": 1, "match": "none"}], "chance": {"kerf_sd": "0.127 mm"}}`,
		`{"species": "walnut-black", "billets": [{"length": "36 in", "width": "10 in", "thickness": "2 1/4 in", "thickness_far_edge": "1 1/2 in", "mc_pct": 9, "cup": "1/16 in", "end_trim_start": "1 in", "end_trim_end": "1 in",
		"facing_face_1": "1/32 in", "facing_far_face": "1/32 in", "zones": [{"kind": "knot", "x_from": "10 in", "x_to": "11 in", "y_from": "1 in", "y_to": "2 in", "z_from": "1/2 in", "z_to": "1 in"}], "rings": {"pith": {"y": "-1 in", "z": "1 in"}}}],
		"saws": [{"kerf": "1/16 in", "wander": "1/64 in", "cleanup_show": "1/32 in", "cleanup_back": "1/32 in"}], "parts": [{"name": "back", "length": "21 in", "width": "8 in", "final_thickness": "0.1 in", "flatness": "1/64 in", "worth": 9}, {"name": "strip", "length": "8 in", "width": "2 in", "final_thickness": "1/4 in", "flatness": "0 in", "worth": 1, "match": "none"}], "chance": {"kerf_sd": "0.005 in"}, "report_in": "inch"}`},
	{"/v1/readiness", `{"species": "maple-sugar", "billet": {"length": "609.6 mm", "width": "228.6 mm", "thickness": "57.15 mm"}, "build_room": {"dry_bulb": "20 C", "rh_pct": 45},
		"readings": [{"pin_meter": {"reading_pct": 11, "wood_temperature": "20 C", "depth": "6.35 mm", "thickness": "57.15 mm"}}, {"pin_meter": {"reading_pct": 12, "wood_temperature": "20 C", "depth": "25.4 mm", "thickness": "57.15 mm"}}],
		"weights": [{"date": "2026-01-01", "mass": "5.44310844 kg"}, {"date": "2026-02-01", "mass": "5.307030729 kg"}, {"date": "2026-03-01", "mass": "5.261671492 kg"}], "scale_division": "4.5359237 g",
		"known_mc": {"date": "2026-01-01", "mc_pct": 15, "sd_pct": 0.6}, "saw": {"kerf": "1.27 mm"}, "part": {"length": "533.4 mm", "width": "215.9 mm", "sawn_thickness": "4.445 mm"}}`,
		`{"species": "maple-sugar", "billet": {"length": "2 ft", "width": "9 in", "thickness": "2 1/4 in"}, "build_room": {"dry_bulb": "68 F", "rh_pct": 45},
		"readings": [{"pin_meter": {"reading_pct": 11, "wood_temperature": "68 F", "depth": "1/4 in", "thickness": "2 1/4 in"}}, {"pin_meter": {"reading_pct": 12, "wood_temperature": "68 F", "depth": "1 in", "thickness": "2 1/4 in"}}],
		"weights": [{"date": "2026-01-01", "mass": "12 lb"}, {"date": "2026-02-01", "mass": "11.7 lb"}, {"date": "2026-03-01", "mass": "11.6 lb"}], "scale_division": "0.01 lb",
		"known_mc": {"date": "2026-01-01", "mc_pct": 15, "sd_pct": 0.6}, "saw": {"kerf": "0.05 in"}, "part": {"length": "21 in", "width": "8 1/2 in", "sawn_thickness": "0.175 in"}, "report_in": "inch"}`},
}

func TestBothSystemsGiveTheSameAnswer(t *testing.T) {
	covered := map[string]bool{}
	for _, q := range slices.Concat(sameQuestion, sameInService, sameShape, sameCourse) {
		covered[q.path] = true
		t.Run(q.path, func(t *testing.T) { alike(t, resultSI(t, q.path, q.metric), resultSI(t, q.path, q.inch), "") })
	}
	for _, r := range calculationRoutes() {
		assert.True(t, covered[r.path] || r.id == "batch", "not asked in both systems: "+r.path)
	}
}

// Asking for another system changes the units of the answer and nothing else.
func TestReportInChangesOnlyUnits(t *testing.T) {
	for path, bodies := range exampleBodies(t) {
		if path == "/v1/moisture" || path == "/v1/batch" { // all its answers are percentages; a batch holds requests of the others
			continue
		}
		for _, body := range bodies {
			metric := bytes.ReplaceAll(body, []byte(`"report_in": "inch"`), []byte(`"report_in": "metric"`))
			inch := bytes.ReplaceAll(metric, []byte(`"report_in": "metric"`), []byte(`"report_in": "inch"`))
			if !bytes.Contains(inch, []byte("report_in")) {
				inch = bytes.Replace(metric, []byte("{"), []byte(`{"report_in": "inch", `), 1)
			}
			require.NotEqual(t, string(metric), string(inch))
			one, two := answerTo[any](t, path, string(metric)), answerTo[any](t, path, string(inch))
			alike(t, toSI(t, one.Result), toSI(t, two.Result), path)
			assert.Equal(t, one.Basis, two.Basis)
			require.Len(t, two.Warnings, len(one.Warnings))
			for i := range one.Warnings { // the words speak in the units asked for
				two.Warnings[i].Detail = one.Warnings[i].Detail
			}
			assert.Equal(t, one.Warnings, two.Warnings)
		}
	}
}
