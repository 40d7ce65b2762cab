package api_test

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// jumpSweep is a question with one place, %v, for a number that runs from low to high.
type jumpSweep struct {
	route, body string
	low, high   float64
}

// jumpSweeps are the numbers of the continuous questions, each across every bound that it has:
// ends of fitted ranges, fibre saturation, freezing, the pith, set-points. Wood itself is
// discrete where leaves are counted; those routes are not here.
func jumpSweeps() []jumpSweep {
	var all []jumpSweep
	add := func(route, body string, low, high float64) { all = append(all, jumpSweep{route, body, low, high}) }
	for _, wood := range []string{"teak", "mahogany-true", "oak-black", "macawood", "spruce-norway", "maple-sugar"} {
		w := `{"wood": "` + wood + `", `
		add("/v1/movement", w+`"size": "330 mm", "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": %v}}`, 0, 40)
		add("/v1/movement", w+`"size": "330 mm", "direction": "radial", "from_condition": {"mc_pct": %v, "mc_sd_points": 1}, "to_condition": {"mc_pct": 8}}`, 2, 40)
		add("/v1/movement", w+`"size": "330 mm", "direction": "tangential", "from_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "to_condition": {"air": {"temperature": "20 C", "rh_pct": %v}}}`, 1, 100)
		add("/v1/movement", w+`"size": "330 mm", "direction": "tangential", "from_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "to_condition": {"air": {"temperature": "%v C", "rh_pct": 70}}}`, -30, 60)
		add("/v1/movement", w+`"size": "330 mm", "size_ring_angle_deg": %v, "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`, 0, 90)
		add("/v1/movement", w+`"size": "330 mm", "size_ring_angle_deg": 10, "size_ring_angle_sd_deg": %v, "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`, 0, 20)
		add("/v1/emc", w+`"air": {"temperature": "20 C", "rh_pct": %v}}`, 0.5, 100)
		add("/v1/emc", w+`"air": {"temperature": "%v C", "rh_pct": 80}}`, -39, 99)
		add("/v1/emc", w+`"temperature": "20 C", "wanted_emc_pct": %v}`, 0.5, 17)
		add("/v1/section-shape", w+`"width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "115 mm"}}, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": %v}}`, 1, 40)
		add("/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [{"wood": "`+wood+`", "thickness": "38 mm", "rings": {"angle_deg": 90}}, {"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 0}}], "glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": %v}}`, 1, 40)
		add("/v1/assembly-movement", `{"build_condition": {"mc_pct": 9}, "driest_condition": {"mc_pct": 5}, "wettest_condition": {"mc_pct": %v}, "parts": [{"id": "p", "wood": "`+wood+`", "thickness": "20 mm", "width": "300 mm", "rings": {"angle_deg": 0}}]}`, 9, 40)
	}
	own := `{"wood": {"radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8, "fibre_saturation_mc_pct": %v}, "size": "330 mm", "direction": "tangential", `
	add("/v1/movement", own+`"from_condition": {"mc_pct": 24}, "to_condition": {"mc_pct": 6}}`, 15, 40)
	add("/v1/movement", own+`"from_condition": {"air": {"temperature": "20 C", "rh_pct": 90}}, "to_condition": {"air": {"temperature": "20 C", "rh_pct": 40}}}`, 15, 40)
	const section = `{"wood": "douglas-fir-coast", "thickness": "100 mm", "from_condition": {"mc_pct": 20}, "to_condition": {"mc_pct": 12}, "lengthwise": {"length": "2.4 m", "spiral_deg": 3, "spiral_sd_deg": 1}, `
	add("/v1/section-shape", section+`"width": "100 mm", "rings": {"pith": {"y": "%v mm", "z": "160 mm"}}}`, -250, 350)
	add("/v1/section-shape", section+`"width": "%v mm", "rings": {"pith": {"y": "62 mm", "z": "160 mm"}}}`, 5, 600)
	add("/v1/section-shape", section+`"width": "100 mm", "rings": {"pith": {"y": "50 mm", "z": "%v mm"}}}`, 100.01, 500)
	add("/v1/section-shape", section+`"width": "100 mm", "rings": {"pith": {"y": "%v mm", "z": "50 mm"}}}`, 0.1, 99.9)
	for _, rings := range []string{"0", "90"} {
		add("/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [{"wood": "beech-american", "thickness": "3 mm", "rings": {"angle_deg": `+rings+`}}, {"wood": "maple-sugar", "thickness": "3 mm", "rings": {"angle_deg": 0}, "grain_angle_deg": %v}], "glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 6}}`, -180, 180)
	}
	add("/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [{"wood": "beech-american", "thickness": "%v mm", "rings": {"angle_deg": 0}}, {"wood": "maple-sugar", "thickness": "3 mm", "rings": {"angle_deg": 0}}], "glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 6}}`, 0.5, 60)
	add("/v1/air", `{"air": {"temperature": "20 C", "rh_pct": %v}}`, 1, 100)
	add("/v1/air", `{"air": {"temperature": "%v C", "rh_pct": 60}, "heated_to": "20 C"}`, -39, 60)
	add("/v1/air", `{"air": {"temperature": "20 C", "wet_bulb": "%v C"}}`, 8, 20)
	const year = `{"room": {"station": "madison-wi", %s}, "build_condition": {"mc_pct": 8, "mc_sd_points": 0.5}, "parts": [{"id": "p", "wood": "maple-sugar", "thickness": "12 mm", "width": "300 mm", "rings": {"angle_deg": 0}, "finish": {"outside": "varnish", "inside": "bare"}}]}`
	add("/v1/year-in-service", fmt.Sprintf(year, `"heated_to": "%v C"`), 12, 24)
	add("/v1/year-in-service", fmt.Sprintf(year, `"heated_to": "20 C", "min_rh_pct": %v`), 20, 60)
	add("/v1/year-in-service", fmt.Sprintf(year, `"heated_to": "20 C", "added_vapour": "%v hPa"`), 0, 10)
	return all
}

// discrete are members that count, name or date, and what follows from a date by days.
// The ring angle in the middle of a section has no value where the pith is there, and the
// room tells the air of a day; the faces of a part are those on the day when its mean is
// driest, which moves at once where two days are alike. A wet bulb freezes: ice at 0 C takes
// more heat to leave than water does, and reads 0.17 C lower. A radius is endless where a
// curve turns over.
var discrete = []string{
	"wet_bulb", "radius", "date", "day_of_year", "years", "days", "series", "months", "samples", "times", "outline", "ring_angles", "room",
	"inside_mc_pct", "outside_mc_pct",
}

// numbersOf gathers the numbers of an answer by their places.
func numbersOf(at string, v any, into map[string]float64) {
	switch v := v.(type) {
	case map[string]any:
		for name, one := range v {
			skip := false
			for _, d := range discrete {
				skip = skip || strings.Contains(name, d)
			}
			if !skip {
				numbersOf(at+"/"+name, one, into)
			}
		}
	case []any:
		for i, one := range v {
			numbersOf(fmt.Sprintf("%s/%d", at, i), one, into)
		}
	case float64:
		into[at] = v
	}
}

func (s *jumpSweep) ask(t *testing.T, x float64, seen map[float64]map[string]float64) map[string]float64 {
	t.Helper()
	if got, known := seen[x]; known {
		return got
	}
	body := strings.Replace(s.body, "%v", fmt.Sprintf("%.12g", x), 1)
	text, err := asking.SharedService().Whole(t.Context(), s.route, []byte(body))
	got := map[string]float64{}
	if err == nil {
		var answer struct {
			Result any `json:"result"`
		}
		require.NoError(t, json.Unmarshal(text, &answer))
		numbersOf("", answer.Result, got)
	} else {
		r := asking.Posting(s.route, body).Of(t, asking.SharedService())
		require.Equal(t, http.StatusUnprocessableEntity, r.Code, r.Body.String())
	}
	seen[x] = got
	return got
}

// steepest looks for the steepest place of a number between the points of a grid by halving,
// and returns what it changes by over the last step, two millionths of the whole, as a share
// of all that it changes by. It looks where the number changes most, and where it changes
// least like on either side: a small step lies hidden in the slope elsewhere.
func steepest(grid []float64, value func(x float64) (float64, bool)) (where, share float64) {
	all, most, at := 0.0, 0.0, -1
	steps := make([]float64, len(grid)-1) // signed; NaN where it is not known
	for i := range steps {
		u, known := value(grid[i])
		v, too := value(grid[i+1])
		steps[i] = math.NaN()
		if !known || !too {
			continue
		}
		steps[i] = v - u
		all += math.Abs(v - u)
		if math.Abs(v-u) > most {
			most, at = math.Abs(v-u), i
		}
	}
	if at < 0 || all == 0 {
		return 0, 0
	}
	for _, i := range append(oddSteps(grid, steps), at) {
		if low, d := halved(grid[i], grid[i+1], 2e-6*(grid[len(grid)-1]-grid[0]), value); d/math.Max(all, 1e-9) > share {
			where, share = low, d/math.Max(all, 1e-9)
		}
	}
	return where, share
}

// oddSteps are the two steps whose slopes lie furthest from the mean of those on either
// side: on a fine grid a step shows there before a bend does.
func oddSteps(grid, steps []float64) []int {
	slope := func(i int) float64 { return steps[i] / (grid[i+1] - grid[i]) }
	odd := func(i int) float64 {
		return math.Abs(slope(i)-(slope(i-1)+slope(i+1))/2) * (grid[i+1] - grid[i])
	}
	var all []int
	for i := 1; i < len(steps)-1; i++ {
		if !math.IsNaN(odd(i)) {
			all = append(all, i)
		}
	}
	sort.Slice(all, func(a, b int) bool { return odd(all[a]) > odd(all[b]) })
	return all[:min(2, len(all))]
}

// halved follows the larger change from low to high down to a step so small, and returns
// where it is and what it changes by; nothing where the number is not known.
func halved(low, high, least float64, value func(x float64) (float64, bool)) (where, change float64) {
	for {
		middle := (low + high) / 2
		a, known := value(low)
		b, too := value(middle)
		c, all := value(high)
		if !known || !too || !all {
			return low, 0
		}
		if high-low <= least {
			return low, math.Abs(c - a)
		}
		if math.Abs(b-a) > math.Abs(c-b) {
			high = middle
		} else {
			low = middle
		}
	}
}

// mostJump is the share of all it changes by that a number may change by at once.
const mostJump = 2e-3

// The search finds a jump of a hundredth of all, and none in a bend.
func TestJumpsAreFound(t *testing.T) {
	grid := make([]float64, 33)
	for i := range grid {
		grid[i] = float64(i) / 32
	}
	_, share := steepest(grid, func(x float64) (float64, bool) {
		if x > 0.6180339 {
			return x + 0.02, true
		}
		return x, true
	})
	assert.Greater(t, share, mostJump)
	_, share = steepest(grid, func(x float64) (float64, bool) { return math.Max(0, x-0.6180339) * 3, true })
	assert.Less(t, share, mostJump)
	where, share := steepest(grid, func(x float64) (float64, bool) { // where the slope is a tenth of the steepest
		if x > 0.3141592 {
			return x*x*x + 0.005, true
		}
		return x * x * x, true
	})
	assert.Greater(t, share, mostJump)
	assert.InDelta(t, 0.3141592, where, 1e-4)
}

// A change of a millionth moves no answer by more than its slope allows.
func TestNoJumps(t *testing.T) {
	asking.OneByOne(t)
	if testing.Short() {
		t.Skip("asks some ten thousand questions")
	}
	total := 0
	for _, s := range jumpSweeps() {
		points := 129
		if s.route == "/v1/year-in-service" {
			points = 9
		}
		grid := make([]float64, points)
		for i := range grid { // off round numbers, so that a bound lies between two of them
			grid[i] = s.low + (s.high-s.low)*(float64(i)+0.37*float64(i%2))/float64(points-1)
		}
		grid[points-1] = s.high
		seen := map[float64]map[string]float64{}
		places := map[string]bool{}
		for _, x := range grid {
			for place := range s.ask(t, x, seen) {
				places[place] = true
			}
		}
		require.NotEmpty(t, places, s.body)
		sorted := make([]string, 0, len(places))
		for place := range places {
			sorted = append(sorted, place)
		}
		sort.Strings(sorted)
		for _, place := range sorted {
			where, share := steepest(grid, func(x float64) (float64, bool) {
				v, known := s.ask(t, x, seen)[place]
				return v, known
			})
			assert.Less(t, share, mostJump, "%s %s jumps at %.9g\n%s", s.route, place, where, s.body)
		}
		total += len(seen)
	}
	t.Logf("%d questions", total)
}
