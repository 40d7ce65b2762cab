package api_test

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/woodphys/method"
)

// sent reports whether a request has a member at a pointer.
func sent(request any, pointer string) bool {
	at := request
	for token := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		switch is := at.(type) {
		case map[string]any:
			member, has := is[token]
			if !has {
				return false
			}
			at = member
		case []any:
			i, err := strconv.Atoi(token)
			if err != nil || i < 0 || i >= len(is) {
				return false
			}
			at = is[i]
		default:
			return false
		}
	}
	return true
}

// holdPointers holds the pointers of an answer against the request: a value that lies outside
// of what a method was fitted in, and one that has no bearing, are pointed at where they were
// sent; a figure of a wood of the tables where it could be sent in its place.
func holdPointers(t *testing.T, path, body string, reply []byte) {
	t.Helper()
	var request any
	require.NoError(t, json.Unmarshal([]byte(body), &request))
	var answer struct{ Warnings []method.Warning }
	require.NoError(t, json.Unmarshal(reply, &answer))
	for _, w := range answer.Warnings {
		assert.Equal(t, w.Subject == "", w.About == "", "what is the subject? %s: %+v\n%s", path, w, body)
		if w.Input != "" {
			first, _, _ := strings.Cut(strings.TrimPrefix(w.Input, "/"), "/")
			assert.NotEmpty(t, first, "%s: %v\n%s", path, w, body)
		}
		if w.Code != method.OutsideFitted && w.Code != method.NotUsed || ofPlan(path, &w) {
			continue
		}
		assert.True(t, w.Input != "" && (sent(request, w.Input) || ofTables(w.Input) || ofKept(path, w.Input)), "%s: %v\n%s", path, w, body)
	}
}

// ofKept reports what is told of an entry of the rack, which the request only names.
func ofKept(path, pointer string) bool {
	first, _, _ := strings.Cut(strings.TrimPrefix(pointer, "/"), "/")
	return strings.HasPrefix(path, "/v1/rack/") && slices.Contains([]string{"billet", "billets", "readings", "stays", "target_condition"}, first)
}

// ofTables reports a figure that the tables have where it is not sent.
func ofTables(pointer string) bool {
	return strings.Contains(pointer, "/wood/") || strings.Contains(pointer, "/rings/angle_sd_deg") || strings.HasSuffix(pointer, "/added_vapour")
}

// ofPlan reports what a plan says of the mass of a billet and of the build-up of a leaf, which
// it tells of no billet and no part.
func ofPlan(path string, w *method.Warning) bool {
	return path == "/v1/resaw-plan" && w.Input == "" && (w.Method == "mc.specific-gravity" || w.Method == "resaw.leaf-thickness")
}

// The examples and the demo; the walk holds what it draws in the same way.
func TestWarningsPointAtWhatWasSent(t *testing.T) {
	asking.OneByOne(t)
	asked := 0
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			if path == "/v1/batch" {
				continue
			}
			r := asking.Posting(path, string(body)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code)
			holdPointers(t, path, string(body), r.Body.Bytes())
			asked++
		}
	}
	assert.Greater(t, asked, 20)
}

// What the warnings of one request say, and where: pointer and code.
func TestWhereWarningsPoint(t *testing.T) {
	const billet = `"billet": {"wood": "maple-sugar", "length": "1 m", "width": "200 mm", "thickness": "50 mm"`
	for _, c := range []struct{ path, body, method, pointer string }{
		{"/v1/emc", `{"temperature": "-10 C", "wanted_emc_pct": 8}`, "emc.hailwood-horrobin", "/temperature"},
		{"/v1/emc", `{"air": {"temperature": "-10 C", "rh_pct": 50}}`, "emc.hailwood-horrobin", "/air/temperature"},
		{"/v1/air", `{"air": {"temperature": "20 C", "wet_bulb": "20 C"}}`, "emc.hailwood-horrobin", "/air/wet_bulb"},
		{"/v1/air", `{"air": {"temperature": "20 C", "rh_pct": 70}, "heated_to": "-20 C"}`, "emc.hailwood-horrobin", "/heated_to"},
		{"/v1/moisture", `{"readings": [{"kind": "stated", "mc_pct": 12}, {"kind": "pin_meter", "reading_mc_pct": 5}]}`, "mc.pin-meter", "/readings/1/reading_mc_pct"},
		{"/v1/movement", `{"wood": "maple-sugar", "size": "300 mm", "direction": "radial", "from_condition": {"mc_pct": 8, "mc_sd_points": 1}, "to_condition": {"air": {"temperature": "-10 C", "rh_pct": 50}}}`, "emc.hailwood-horrobin", "/to_condition/air/temperature"},
		{"/v1/readiness", `{` + billet + `}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "readings": [{"kind": "stated", "mc_pct": 12}, {"kind": "pin_meter", "reading_mc_pct": 5}]}`, "mc.pin-meter", "/readings/1/reading_mc_pct"},
		{"/v1/resaw-timing", strings.Replace(asking.ExampleText(t, "resaw-timing.maple-billet-at-eighteen-percent.json"), `"90 mm"`, `"40 mm"`, 1), "drying.slab", "/part/final_thickness"},
		{"/v1/leaf-yield", `{` + billet + `, "end_thickness": "40 mm"}, "saw": {"kerf": "12 mm", "cleanup_show": "0.5 mm", "wander": "0.5 mm"}, "part": {"length": "300 mm", "width": "100 mm", "sawn_thickness": "4 mm"}}`, "resaw.across", "/saw/kerf"}, // resaw.leaves says the same, once
		{"/v1/year-in-service", `{"room": {"air": {"temperature": "20 C", "rh_pct": 45}}, "build_condition": {"mc_pct": 8, "mc_sd_points": 1}, "parts": [{"wood": "maple-sugar", "thickness": "30 mm", "rings": {"angle_deg": 90}}, {"wood": "maple-sugar", "thickness": "130 mm", "rings": {"angle_deg": 90}}]}`, "inservice.year", "/parts/1/thickness"},
	} {
		r := asking.Posting(c.path, c.body).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		holdPointers(t, c.path, c.body, r.Body.Bytes())
		var answer struct {
			Basis    []string
			Warnings []method.Warning
		}
		require.NoError(t, json.Unmarshal(r.Body.Bytes(), &answer))
		assert.Contains(t, answer.Basis, c.method)
		var at []string
		for _, w := range answer.Warnings {
			if w.Code == method.OutsideFitted { // one stands for all methods that say so of a place
				at = append(at, w.Input)
			}
		}
		assert.Contains(t, at, c.pointer, "%s %s\n%s", c.path, c.body, r.Body)
	}
}

func TestWarningsOfTheDemoPointAtWhatWasSent(t *testing.T) {
	asking.OneByOne(t)
	for folder, path := range map[string]string{"rack": "/v1/readiness", "seasoning": "/v1/seasoning", "instrument": "/v1/assembly-movement", "plank": "/v1/resaw-plan"} {
		files, err := filepath.Glob(filepath.Join(asking.Root(), "testdata", "demo", folder, "*.json"))
		require.NoError(t, err)
		require.NotEmpty(t, files, folder)
		for _, file := range files[:min(len(files), 4)] {
			body, err := os.ReadFile(file)
			require.NoError(t, err)
			r := asking.Posting(path, string(body)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			holdPointers(t, path, string(body), r.Body.Bytes())
		}
	}
}
