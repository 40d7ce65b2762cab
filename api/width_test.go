package api_test

import (
	"net/http"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

// Every example of every drawing is laid out for the width that it is asked for.
func TestDrawingsForTheWidthTheyGet(t *testing.T) {
	asking.OneByOne(t)
	service, err := api.New(serve.Config{Version: "example", Rack: asking.Rack()})
	require.NoError(t, err)
	widths := asking.ScreenWidths
	if asking.UnderRace {
		widths = widths[:1]
	}
	drawn := map[string]int{}
	for _, r := range api.Routes {
		if !slices.Contains(r.Forms, wire.DrawnForm) {
			continue
		}
		for i, e := range contract.ExamplesOf(asking.ExampleFiles(), &r) {
			for _, width := range widths {
				t.Run(r.ID+" "+strconv.Itoa(i)+" "+strconv.Itoa(width), func(t *testing.T) {
					text, is := shownAt(t, service, r.Method, &e, width)
					if !is {
						t.Skip("it has no drawing")
					}
					drawn[r.ID]++
					asking.HeldToWidth(t, text, width)
				})
			}
		}
		assert.NotZero(t, drawn[r.ID], r.ID)
	}
}

// Questions whose drawings are hard to lay out: names that cannot be broken at a space, much more
// of everything, sections and stacks that are high and narrow.
func hardToDraw() map[string][2]string {
	name := strings.Repeat("Kettenfenster", 6) + strings.Repeat("\u65e5\u672c", 8)
	times := func(n int, text string) string { return strings.TrimSuffix(strings.Repeat(text+",", n), ",") }
	layer := `{"wood": "maple-sugar", "thickness": "1 mm", "rings": {"angle_deg": 30}, "grain_angle_deg": 90}, {"wood": "cherry-black", "thickness": "30 mm", "rings": {"angle_deg": 80}}`
	part := func(id string) string {
		return `{"id": "` + id + `", "name": "` + id + name + `", "wood": "walnut-black", "thickness": "25 mm", "width": "300 mm", "rings": {"angle_deg": 20}, "finish": "lacquer"}`
	}
	air := `"build_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}`
	pair := func(id, widest string) string {
		return `{"id": "` + id + `", "name": "` + id + name + `", "outer": {"part": "a", "dimension": "width", "size": "300 mm"}, "inner": {"part": "b", "dimension": "width"}, "min_clearance": "0 mm", "max_clearance": "` + widest + `"}`
	}
	log := func(rest string) string {
		return `{"log": {"name": "` + name + `", "wood": "walnut-black", "length": "3 m", "start_diameter": "600 mm", "end_diameter": "550 mm"}, "saw": {"kerf": "2 mm"}, ` + rest + `}`
	}
	stack := func(width, leaves, thick string) string {
		return `{"billet": {"width": "` + width + `", "rings": {"pith": {"y": "10 mm", "z": "20 mm"}, "ring_width": "2 mm"}}, "stack": {"leaves": ` + leaves + `, "sawn_thickness": "` + thick + `"}, "saw": {"kerf": "1 mm"}}`
	}
	section := func(sizes, rings string) string {
		return `{"wood": "maple-sugar", ` + sizes + `, "rings": ` + rings + `, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 7}}`
	}
	return map[string][2]string{
		"year, long names":    {"/v1/year-in-service", `{"room": {"seasons": {"winter_air": {"temperature": "20 C", "rh_pct": 44}, "summer_air": {"temperature": "20 C", "rh_pct": 47}}}, ` + air + `, "parts": [` + part("a") + `, ` + part("b") + `]}`},
		"figures, long names": {"/v1/assembly-movement", `{"driest_condition": {"mc_pct": 6}, "wettest_condition": {"mc_pct": 12}, ` + air + `, "parts": [` + part("a") + `, ` + part("b") + `], "pairs": [` + pair("p", "9 mm") + `, ` + pair("q", "0.1 mm") + `], "glued_joints": [{"id": "g", "name": "` + name + `", "first": {"part": "a", "dimension": "width", "size": "1 in"}, "second": {"part": "b", "dimension": "width"}}], "report_in": "inch"}`},
		"thin boards":         {"/v1/log-plan", log(`"pattern": "through_and_through", "wanted": {"thickness": "5 mm", "min_width": "50 mm"}`)},
		"thin wedges":         {"/v1/log-plan", log(`"pattern": "wedges", "wanted": {"thickness": "20 mm", "thin_edge": "2 mm", "min_width": "100 mm"}, "report_in": "inch"`)},
		"many layers":         {"/v1/laminate", `{"layers": [` + times(16, layer) + `], "length": "900 mm", "width": "200 mm", "glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 7}}`},
		"one leaf of a book":  {"/v1/bookmatch", stack("60 mm", "2", "1 mm")},
		"a high stack":        {"/v1/bookmatch", stack("30 mm", "120", "3 mm")},
		"a wide stack":        {"/v1/bookmatch", stack("900 mm", "90", "2 mm")},
		"a strip on edge":     {"/v1/section-shape", section(`"width": "6 mm", "thickness": "300 mm"`, `{"angle_deg": 90}`)},
		"a wide veneer":       {"/v1/section-shape", section(`"width": "900 mm", "thickness": "0.6 mm"`, `{"angle_deg": 3}`)},
		"pith in the middle":  {"/v1/section-shape", section(`"width": "80 mm", "thickness": "60 mm"`, `{"pith": {"y": "40 mm", "z": "30 mm"}}`)},
	}
}

func TestHardDrawingsForTheWidthTheyGet(t *testing.T) {
	asking.OneByOne(t)
	for name, hard := range hardToDraw() {
		for _, width := range []int{240, 320, 1600} {
			t.Run(name+" "+strconv.Itoa(width), func(t *testing.T) {
				text := asking.DrawnOf(t, hard[0]+"?width="+strconv.Itoa(width), hard[1])
				asking.HeldToWidth(t, text, width)
			})
		}
	}
}

// A drawing for a screen is called by lengths as they were sent, whatever the answer is told in.
func TestTitlesTellLengthsAsTheyWereSent(t *testing.T) {
	for _, c := range []struct{ path, body, title string }{
		{"/v1/section-shape", `{"wood": "maple-sugar", "width": "9-1/2 in", "thickness": "40 mm", "rings": {"angle_deg": 30}, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 7}`, "9 1/2 in x 40 mm"},
		{"/v1/laminate", `{"layers": [{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 5}}], "length": "45 cm", "width": "12.25 in", "glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 7}`, "45 cm long, 12 1/4 in wide"},
		{"/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "40 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 20}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 60`, ", 40 mm"},
	} {
		for _, units := range []string{"metric", "inch"} {
			root := asking.Drawn(t, asking.DrawnOf(t, c.path+"?width=800", c.body+`, "report_in": "`+units+`"}`))
			title := ""
			root.All(func(s *asking.Shape) {
				if s.Attr("id") == "title" {
					title = s.Words
				}
			})
			assert.Contains(t, title, c.title)
			assert.Contains(t, asking.TextsOf(t, root), c.title)
		}
	}
}

// shownAt asks for the drawing of an example; some readings make none.
func shownAt(t *testing.T, s *serve.Service, verb string, e *contract.Example, width int) (text string, is bool) {
	t.Helper()
	target, mark := e.Path, "?"
	if strings.Contains(target, "?") {
		mark = "&"
	}
	target += mark + "as=svg&width=" + strconv.Itoa(width)
	r := asking.Asked{Verb: verb, Target: target, Body: string(e.Body)}.Of(t, s)
	if strings.Contains(r.Body.String(), "needs the stays") {
		return "", false
	}
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return r.Body.String(), true
}

// A width that is none is refused, and without one a drawing is as it is printed.
func TestWidthIsAWholeNumber(t *testing.T) {
	body := asking.ExampleText(t, "seasoning.red-oak-air-dried-then-kiln.json")
	for _, wrong := range []string{"239", "1601", "wide", "400.5"} {
		r := asking.Posting("/v1/seasoning?width="+wrong, body, "Accept", "image/svg+xml").Of(t, asking.SharedService())
		assert.Equal(t, http.StatusBadRequest, r.Code, wrong)
		assert.Contains(t, r.Body.String(), `"parameter":"width"`, wrong)
	}
	plain := asking.Posting("/v1/seasoning", body, "Accept", "image/svg+xml").Of(t, asking.SharedService())
	assert.NotContains(t, plain.Body.String(), "currentColor")
	assert.Contains(t, plain.Body.String(), `width="760"`)
}
