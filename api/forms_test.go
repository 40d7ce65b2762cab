package api_test

import (
	"encoding/csv"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/drawing"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

// courses are requests whose answers can be drawn, by name: those of the demo, the
// examples, and some that are hard to draw.
func courses(t testing.TB) map[string]asking.Asked {
	t.Helper()
	all := map[string]asking.Asked{
		"a week":         asking.Posting("/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "3 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 20}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 7}`),
		"two months":     asking.Posting("/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "1/2 in", "stacked_on": "2024-04-05"}, "stays": [{"station": "madison-wi"}], "target_condition": {"mc_pct": 15}, "horizon_days": 60, "report_in": "inch"}`),
		"ten years":      asking.Posting("/v1/seasoning", `{"billet": {"wood": "oak-white", "thickness": "150 mm", "stacked_on": "2024-02-29"}, "stays": [{"station": "astoria-or", "exposure": "wrapped"}], "target_condition": {"mc_pct": 9}, "horizon_days": 3650}`),
		"own wood":       asking.Posting("/v1/seasoning", `{"billet": {"wood": {"specific_gravity": 0.45, "radial_shrinkage_pct": 4}, "thickness": "20 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 30}}, "stays": [{"station": "madison-wi"}], "target_condition": {"mc_pct": 15}}`),
		"at rest":        asking.Posting("/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "30 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 8, "mc_sd_points": 0.1}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 42}}], "target_condition": {"mc_pct": 8}}`),
		"many places":    asking.Posting("/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "50 mm", "stacked_on": "2024-01-01"}, "target_condition": {"mc_pct": 12}, "stays": [`+manyPlaces+`]}`),
		"first day":      asking.Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm", "stacked_on": "2024-04-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2024-04-01", "stays": [{"station": "madison-wi"}], "readings": [{"kind": "weight", "date": "2024-04-01", "mass": "7.5 kg"}]}`),
		"nothing read":   asking.Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm", "stacked_on": "2024-04-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2026-04-01", "stays": [{"station": "madison-wi"}]}`),
		"last day":       asking.Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm", "stacked_on": "2024-04-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2025-04-01", "horizon_days": 365, "stays": [{"station": "madison-wi"}], "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "5.5 kg"}], "report_in": "inch"}`),
		"eve of the end": asking.Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm", "stacked_on": "2024-04-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2025-03-20", "horizon_days": 365, "stays": [{"station": "madison-wi"}], "readings": [{"kind": "weight", "date": "2025-03-20", "mass": "5.5 kg"}]}`),
	}
	for path, bodies := range asking.ExampleBodies(t) {
		for i, body := range bodies {
			if path == "/v1/seasoning" || path == "/v1/readiness" && strings.Contains(string(body), `"stays"`) {
				all["example "+path+" "+strconv.Itoa(i)] = asking.Posting(path, string(body))
			}
		}
	}
	for folder, path := range map[string]string{"rack": "/v1/readiness", "seasoning": "/v1/seasoning"} {
		files, err := filepath.Glob("../testdata/demo/" + folder + "/*.json")
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, file := range files {
			body, err := os.ReadFile(file)
			require.NoError(t, err)
			if path == "/v1/seasoning" || strings.Contains(string(body), `"stays"`) {
				all[filepath.Base(file)] = asking.Posting(path, string(body))
			}
		}
	}
	return all
}

// replies keeps what was answered, as the forecasts are not quick.
var replies = struct {
	sync.Mutex
	of map[string]*httptest.ResponseRecorder
}{of: map[string]*httptest.ResponseRecorder{}}

// inForm is the answer to a request in a form, JSON where it is empty.
func inForm(t testing.TB, request asking.Asked, media string) *httptest.ResponseRecorder {
	t.Helper()
	replies.Lock()
	defer replies.Unlock()
	key := media + request.Target + request.Body
	if replies.of[key] == nil {
		request.Headers = []string{"Accept", media}
		replies.of[key] = request.Of(t, asking.SharedService())
	}
	return replies.of[key]
}

const manyPlaces = `{"station": "minneapolis-st-paul-mn", "until": "2024-02-01"}, {"station": "minneapolis-st-paul-mn", "heated_to": "20 C", "until": "2024-02-20"},
	{"station": "greensboro-winston-salem-and-high-point-nc", "until": "2025-06-01"}, {"station": "avoca-wilkes-barre-and-scranton-pa", "heated_to": "20 C", "until": "2026-01-01"},
	{"air": {"temperature": "20 C", "rh_pct": 45}, "until": "2026-01-02"}, {"station": "bristol-johnson-city-and-kingsport-tn"}`

// Drawings are well formed, have a title and a description, keep every text
// within the sheet and apart from the others, and use no colour.
func TestDrawings(t *testing.T) {
	asking.OneByOne(t)
	grey := func(colour string) bool { // three equal digits
		return len(colour) == 4 && colour[0] == '#' && strings.Count(colour, colour[1:2]) == 3
	}
	known := map[string]bool{"svg": true, "title": true, "desc": true, "g": true, "line": true, "rect": true, "text": true, "polyline": true, "polygon": true}
	for name, request := range courses(t) {
		t.Run(name, func(t *testing.T) {
			r := inForm(t, request, "image/svg+xml")
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			require.Equal(t, "image/svg+xml", r.Header().Get("Content-Type"))
			root := asking.Drawn(t, r.Body.String())
			sheet := strings.Fields(root.Attr("viewBox"))
			require.Len(t, sheet, 4)
			width, height := asking.NumberIn(t, sheet[2]), asking.NumberIn(t, sheet[3])
			require.GreaterOrEqual(t, len(root.Inside), 2)
			assert.Equal(t, "title", root.Inside[0].XMLName.Local)
			assert.NotEmpty(t, root.Inside[0].Words)
			assert.Equal(t, "desc", root.Inside[1].XMLName.Local)
			assert.NotEmpty(t, root.Inside[1].Words)
			assert.Equal(t, root.Inside[0].Attr("id")+" "+root.Inside[1].Attr("id"), root.Attr("aria-labelledby"))

			var boxes []asking.Box
			dates := 0
			var values []float64
			root.All(func(s *asking.Shape) {
				assert.True(t, known[s.XMLName.Local], s.XMLName.Local)
				for _, a := range s.Attrs {
					switch a.Name.Local {
					case "fill", "stroke":
						assert.True(t, a.Value == "none" || grey(a.Value), "%s is not black, white or grey", a.Value)
					case "style", "class", "href", "onload":
						assert.Fail(t, "attribute "+a.Name.Local)
					case "x", "y", "x1", "x2", "y1", "y2", "width", "height":
						v := asking.NumberIn(t, a.Value)
						assert.True(t, v >= 0 && v <= math.Max(width, height), "%s=%s", a.Name.Local, a.Value)
					case "points":
						for pair := range strings.FieldsSeq(a.Value) {
							x, y, _ := strings.Cut(pair, ",")
							assert.True(t, asking.NumberIn(t, x) >= drawing.ChartLeft-0.01 && asking.NumberIn(t, x) <= drawing.ChartRight+0.01, "inside the frame: %s", pair)
							assert.True(t, asking.NumberIn(t, y) >= drawing.ChartTop-0.01 && asking.NumberIn(t, y) <= drawing.ChartBottom+0.01, "inside the frame: %s", pair)
						}
					}
				}
				if s.XMLName.Local == "text" {
					boxes = append(boxes, asking.BoxOf(t, s))
					if s.Number2("y") == drawing.ChartBottom+17 {
						dates++
					}
					if s.Number2("x") == drawing.ChartLeft-6 {
						values = append(values, asking.NumberIn(t, s.Words))
					}
				}
			})
			require.NotEmpty(t, boxes)
			assert.GreaterOrEqual(t, dates, 3, "the time axis has dates")
			require.GreaterOrEqual(t, len(values), 2)
			for _, v := range values {
				assert.Zero(t, math.Mod(v, values[1]-values[0]), "the marks of the value axis are whole steps: %v", values)
			}
			for i, b := range boxes {
				assert.True(t, b.Left >= 0 && b.Top >= 0 && b.Right <= width && b.Bottom <= height, "outside the sheet: %+v", b)
				for _, other := range boxes[:i] {
					assert.False(t, b.Meets(other), "%q lies on %q", b.Words, other.Words)
				}
			}
		})
	}
}

// A general-purpose renderer takes every drawing without complaint. Needs
// rsvg-convert (Debian: librsvg2-bin) and is skipped without it.
func TestDrawingsRender(t *testing.T) {
	asking.OneByOne(t)
	program, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("rsvg-convert is not here; apt-get install librsvg2-bin")
	}
	keep := os.Getenv("LATEWOOD_DRAWINGS") // a folder that keeps the pictures
	for name, request := range courses(t) {
		file := filepath.Join(t.TempDir(), "drawing.png")
		if keep != "" {
			file = filepath.Join(keep, strings.NewReplacer("/", "-", " ", "-").Replace(name)+".png")
		}
		command := exec.CommandContext(t.Context(), program, "--width", "1140", "--output", file)
		command.Stdin = strings.NewReader(inForm(t, request, "image/svg+xml").Body.String())
		out, err := command.CombinedOutput()
		require.NoError(t, err, "%s: %s", name, out)
		assert.Empty(t, string(out), name)
		picture, err := os.Stat(file)
		require.NoError(t, err)
		assert.Greater(t, picture.Size(), int64(20_000), "%s: a picture with something on it", name)
	}
}

// The table holds the series of the JSON answer, and the forms are chosen by the
// header or by ?as=.
func TestTables(t *testing.T) {
	asking.OneByOne(t)
	all := courses(t)
	for _, name := range []string{"a week", "many places", "own wood", "last day", "b-black-walnut.json"} {
		request, known := all[name]
		require.True(t, known, name)
		t.Run(name, func(t *testing.T) {
			plain := inForm(t, request, "application/json")
			require.Equal(t, http.StatusOK, plain.Code)
			answer := asking.Decoded[serve.Answer[struct {
				Series []dry.CoursePoint `json:"series"`
			}]](t, onlySeries(t, plain.Body.Bytes()))
			r := inForm(t, request, "text/csv")
			require.Equal(t, http.StatusOK, r.Code)
			assert.Equal(t, "text/csv; charset=utf-8", r.Header().Get("Content-Type"))
			assert.Contains(t, r.Header().Get("Vary"), "Accept")
			rows, err := csv.NewReader(strings.NewReader(r.Body.String())).ReadAll()
			require.NoError(t, err)
			series := answer.Result.Series
			require.Len(t, rows, len(series)+1)
			require.LessOrEqual(t, len(series), 400)
			assert.Equal(t, []string{"date", "days", "mean_mc_pct", "mean_mc_low_pct", "mean_mc_high_pct",
				"shell_mc_pct", "shell_mc_low_pct", "shell_mc_high_pct", "core_mc_pct", "core_mc_low_pct", "core_mc_high_pct"}, rows[0])
			for i, p := range series {
				row := rows[i+1]
				assert.Equal(t, p.Date, row[0])
				for j, v := range []float64{p.Days, p.Mean.Value, p.Mean.Low, p.Mean.High, p.Shell.Value, p.Shell.Low, p.Shell.High,
					p.Core.Value, p.Core.Low, p.Core.High} {
					assert.InDelta(t, v, asking.NumberIn(t, row[j+1]), 1e-12, "to the digit")
				}
			}
			assert.Equal(t, len(series)+1, strings.Count(r.Body.String(), "\r\n"), "lines end as in RFC 4180")

			as := request
			as.Headers, as.Target = []string{"Accept", "text/html,image/avif,*/*;q=0.8"}, request.Target+"?as=csv"
			assert.Equal(t, r.Body.String(), as.Of(t, asking.SharedService()).Body.String(), "?as= goes before Accept")
		})
	}
}

// onlySeries takes the other members out of a result.
func onlySeries(t testing.TB, text []byte) []byte {
	t.Helper()
	a := asking.Decoded[serve.Answer[map[string]any]](t, text)
	for name := range a.Result {
		if name != "series" {
			delete(a.Result, name)
		}
	}
	var kept []byte
	require.NoError(t, wire.EncodeJSON(a, func(b []byte) error { kept = append(kept, b...); return nil }))
	return kept
}

func TestFormsAreChosen(t *testing.T) {
	const body = `{"billet": {"wood": "maple-sugar", "thickness": "10 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 20}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 60}`
	for _, row := range []struct{ target, accept, media string }{
		{"", "", "application/json"},
		{"", "*/*", "application/json"},
		{"", "image/*", "image/svg+xml"},
		{"", "text/*", "text/csv; charset=utf-8"},
		{"", "application/json;q=0.5, image/svg+xml", "image/svg+xml"},
		{"", "text/html,image/avif,*/*;q=0.8", "application/json"},
		{"?as=json", "image/svg+xml", "application/json"},
		{"?as=svg", "text/html", "image/svg+xml"},
		{"?as=svg", "", "image/svg+xml"},
		{"?as=csv", "application/json", "text/csv; charset=utf-8"},
	} {
		r := asking.Posting("/v1/seasoning"+row.target, body, "Accept", row.accept).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, row)
		assert.Equal(t, row.media, r.Header().Get("Content-Type"), row)
		assert.Contains(t, r.Header().Get("Vary"), "Accept")
	}
	p := asking.ProblemOf(t, asking.Posting("/v1/seasoning", body, "Accept", "application/pdf").Of(t, asking.SharedService()), http.StatusNotAcceptable)
	assert.Equal(t, []string{"application/json", "image/svg+xml", "text/csv"}, p.Offers)
}
