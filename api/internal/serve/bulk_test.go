package serve_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// longQuestions are those of light routes with the longest answers that can be asked
// for: every list as long as it may be.
func longQuestions(t *testing.T) map[string][]string {
	all := map[string][]string{}
	for _, system := range []string{"metric", "inch"} {
		all["/v1/bookmatch"] = append(all["/v1/bookmatch"],
			`{"billet": {"wood": "maple-bigleaf", "width": "210.37 mm", "rings": {"pith": {"y": "400.71 mm", "z": "25.13 mm"}, "angle_sd_deg": 2.3, "ring_width": "2.1 mm"},
			"grain": {"runout_one_in": 23, "dip_one_in": 31, "flame_lean_deg": 7}}, "stack": {"leaves": 200, "sawn_thickness": "1.13 mm"},
			"saw": {"kerf": "1.07 mm", "reface": "0.3 mm", "cleanup_show": "0.11 mm", "cleanup_back": "0.07 mm"}, "seam_edge": "1 mm", "arch_height": "0.53 mm", "report_in": "`+system+`"}`,
			`{"billet": {"width": "210.37 mm", "rings": {"angle_deg": 71.3, "lean": "near", "angle_sd_deg": 2.3}},
			"stack": {"leaves": 9, "sawn_thickness": "1.13 mm"}, "saw": {"kerf": "1.07 mm"}, "openings": ["slip_match"], "report_in": "`+system+`"}`)
		all["/v1/moisture"] = append(all["/v1/moisture"], listed(t, "moisture.shell-and-core", "readings", 50, ""))
		all["/v1/laminate"] = append(all["/v1/laminate"], listed(t, "laminate.crossed-veneers", "layers", 32, system))
		all["/v1/leaf-yield"] = append(all["/v1/leaf-yield"], `{"billet": {"length": "4.7 m", "width": "1.9 m", "thickness": "300 mm"}, "saw": {"kerf": "1.1 mm"},
			"part": {"length": "131 mm", "width": "87 mm", "final_thickness": "2.3 mm", "pieces_per_set": 2}, "rejected_leaves": [`+spoiledLeaves(1000)+`], "report_in": "`+system+`"}`)
		all["/v1/leaf-yield"] = append(all["/v1/leaf-yield"], `{"billet": {"length": "10.1 m", "width": "1.1 m", "thickness": "120 mm"}, "saw": {"kerf": "0.2 mm"},
			"part": {"length": "100 mm", "width": "100 mm", "sawn_thickness": "1 mm", "pieces_per_set": 1}, "report_in": "`+system+`"}`)
		for _, pattern := range []string{"through_and_through", "quartered", "wedges"} {
			all["/v1/log-plan"] = append(all["/v1/log-plan"], `{"log": {"id": "log-of-the-longest-answer", "wood": {"species": "black walnut", "name": "`+strings.Repeat("w", 100)+`", "group": "hardwood",
				"specific_gravity": 0.5137, "radial_shrinkage_pct": 4.4137, "tangential_shrinkage_pct": 8.1137, "longitudinal_shrinkage_pct": 0.1137, "radial_coefficient": 0.0015837,
				"tangential_coefficient": 0.0030137, "radial_swelling_pct_per_point": 0.1937, "tangential_swelling_pct_per_point": 0.3637, "fibre_saturation_mc_pct": 27.37,
				"modulus_of_elasticity": "11137 MPa", "drying_factor": {"value": 0.3137, "sd_ratio": 1.37}}, "length": "4.137 m", "start_diameter": "637.13 mm", "end_diameter": "591.37 mm", "bark_thickness": "9.37 mm",
				"pith": {"y": "13.37 mm", "z": "-7.13 mm"}, "sweep": "31.37 mm", "end_seal": "sealed_fresh", "condition": {"mc_pct": 71.37, "mc_sd_points": 6.37}},
				"pattern": "`+pattern+`", "wanted": {"thickness": "21.37 mm", "min_width": "60 mm", "length": "601.37 mm", "final_condition": {"mc_pct": 8.37}}, "saw": {"kerf": "2.137 mm"}, "turn_deg": 13.7, "report_in": "`+system+`"}`)
		}
		var levels []string
		for i := range 50 {
			levels = append(levels, fmt.Sprintf(`{"z": "%.10f mm", "from_mc_pct": %.4f, "to_mc_pct": 8.37, "mc_sd_points": 0.53}`, 57.33*float64(i)/49, 8.3+0.11*float64(i)))
		}
		all["/v1/section-shape"] = append(all["/v1/section-shape"], `{"wood": "maple-sugar", "width": "610.7 mm", "thickness": "57.33 mm", "rings": {"angle_deg": 37.7, "radius": "153.3 mm"}, "profile": [`+strings.Join(levels, ",")+`], "report_in": "`+system+`"}`)
	}
	return all
}

// listed is an example whose list is repeated until it is as long as may be.
func listed(t *testing.T, example, member string, most int, system string) string {
	var body map[string]any
	require.NoError(t, json.Unmarshal([]byte(asking.ExampleText(t, example+".json")), &body))
	list, ok := body[member].([]any)
	require.True(t, ok)
	long := make([]any, most)
	for i := range long {
		long[i] = list[i%len(list)]
	}
	if body[member] = long; system != "" {
		body["report_in"] = system
	}
	text, err := json.Marshal(body)
	require.NoError(t, err)
	return string(text)
}

func spoiledLeaves(n int) string {
	all := make([]string, n)
	for i := range all {
		all[i] = fmt.Sprintf(`{"row": %d, "column": %d, "leaf": %d}`, 1+i%10, 1+i/10%10, 1+i/100)
	}
	return strings.Join(all, ",")
}

// No answer of a light route is longer than was told beforehand, and what was told is
// of the same size, in whatever form it is asked for: memory is taken by it.
func TestAnswersAreNoLongerThanTold(t *testing.T) {
	asking.OneByOne(t)
	s := asking.SharedService()
	seen := 0
	ask := func(path, body string) {
		told, heavy, err := s.BulkOf(path, []byte(body))
		require.NoError(t, err, "%s %.300s", path, body)
		if heavy {
			return
		}
		for _, form := range []string{"", "?as=svg", "?as=csv"} {
			recorder := asking.Posting(path+form, body).Of(t, s)
			text := recorder.Body.Bytes()
			if form != "" && recorder.Code != http.StatusOK {
				continue // it has no such form
			}
			require.Equal(t, http.StatusOK, recorder.Code, "%s: %.500s", path, text)
			assert.LessOrEqual(t, len(text), max(told, serve.SmallText), path+form)
			if form == "" && told > 0 {
				seen++
				assert.Less(t, told, 8*len(text), path+": told far too much")
			}
		}
	}
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			if path != "/v1/batch" {
				ask(path, string(body))
			}
		}
	}
	for path, bodies := range longQuestions(t) {
		for _, body := range bodies {
			ask(path, body)
		}
	}
	assert.Greater(t, seen, 6)
}
