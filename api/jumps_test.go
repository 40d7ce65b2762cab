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
		w := `{"species": "` + wood + `", `
		add("/v1/movement", w+`"dimension": "330 mm", "direction": "tangential", "from": {"mc_pct": 9}, "to": {"mc_pct": %v}}`, 0, 40)
		add("/v1/movement", w+`"dimension": "330 mm", "direction": "radial", "from": {"mc_pct": %v, "sd_pct": 1}, "to": {"mc_pct": 8}}`, 2, 40)
		add("/v1/movement", w+`"dimension": "330 mm", "direction": "tangential", "from": {"air": {"dry_bulb": "20 C", "rh_pct": 45}}, "to": {"air": {"dry_bulb": "20 C", "rh_pct": %v}}}`, 1, 100)
		add("/v1/movement", w+`"dimension": "330 mm", "direction": "tangential", "from": {"air": {"dry_bulb": "20 C", "rh_pct": 45}}, "to": {"air": {"dry_bulb": "%v C", "rh_pct": 70}}}`, -30, 60)
		add("/v1/movement", w+`"dimension": "330 mm", "ring_angle_deg": %v, "from": {"mc_pct": 9}, "to": {"mc_pct": 6}}`, 0, 90)
		add("/v1/movement", w+`"dimension": "330 mm", "ring_angle_deg": 10, "ring_angle_sd_deg": %v, "from": {"mc_pct": 9}, "to": {"mc_pct": 6}}`, 0, 20)
		add("/v1/emc", w+`"air": {"dry_bulb": "20 C", "rh_pct": %v}}`, 0.5, 100)
		add("/v1/emc", w+`"air": {"dry_bulb": "%v C", "rh_pct": 80}}`, -39, 99)
		add("/v1/emc", w+`"dry_bulb": "20 C", "wanted_emc_pct": %v}`, 0.5, 17)
		add("/v1/section", w+`"width": "200 mm", "thickness": "30 mm", "pith": {"depth": "85 mm"}, "from": {"mc_pct": 14}, "to": {"mc_pct": %v}}`, 1, 40)
		add("/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [{"species": "`+wood+`", "thickness": "38 mm", "ring_angle_deg": 90}, {"species": "maple-sugar", "thickness": "6 mm", "ring_angle_deg": 0}], "at_glue_up": {"mc_pct": 9}, "later": {"mc_pct": %v}}`, 1, 40)
		add("/v1/movement-figures", `{"made_at": {"mc_pct": 9}, "driest": {"mc_pct": 5}, "wettest": {"mc_pct": %v}, "parts": [{"name": "p", "species": "`+wood+`", "thickness": "20 mm", "width": "300 mm", "ring_angle_deg": 0}]}`, 9, 40)
	}
	own := `{"wood": {"radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8, "fibre_saturation_pct": %v}, "dimension": "330 mm", "direction": "tangential", `
	add("/v1/movement", own+`"from": {"mc_pct": 24}, "to": {"mc_pct": 6}}`, 15, 40)
	add("/v1/movement", own+`"from": {"air": {"dry_bulb": "20 C", "rh_pct": 90}}, "to": {"air": {"dry_bulb": "20 C", "rh_pct": 40}}}`, 15, 40)
	const section = `{"species": "douglas-fir-coast", "thickness": "100 mm", "from": {"mc_pct": 20}, "to": {"mc_pct": 12}, "lengthwise": {"length": "2.4 m", "spiral_deg": 3, "spiral_sd_deg": 1}, `
	add("/v1/section", section+`"width": "100 mm", "pith": {"depth": "60 mm", "offset": "%v mm"}}`, -300, 300)
	add("/v1/section", section+`"width": "%v mm", "pith": {"depth": "60 mm", "offset": "12 mm"}}`, 5, 600)
	add("/v1/section", section+`"width": "100 mm", "pith": {"depth": "%v mm", "offset": "0 mm"}}`, 0.01, 400)
	add("/v1/section", section+`"width": "100 mm", "pith": {"depth": "-50 mm", "offset": "%v mm"}}`, -49.9, 49.9)
	for _, rings := range []string{"0", "90"} {
		add("/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [{"species": "beech-american", "thickness": "3 mm", "ring_angle_deg": `+rings+`}, {"species": "maple-sugar", "thickness": "3 mm", "ring_angle_deg": 0, "grain_deg": %v}], "at_glue_up": {"mc_pct": 9}, "later": {"mc_pct": 6}}`, -180, 180)
	}
	add("/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [{"species": "beech-american", "thickness": "%v mm", "ring_angle_deg": 0}, {"species": "maple-sugar", "thickness": "3 mm", "ring_angle_deg": 0}], "at_glue_up": {"mc_pct": 9}, "later": {"mc_pct": 6}}`, 0.5, 60)
	add("/v1/air", `{"air": {"dry_bulb": "20 C", "rh_pct": %v}}`, 1, 100)
	add("/v1/air", `{"air": {"dry_bulb": "%v C", "rh_pct": 60}, "heated_to": "20 C"}`, -39, 60)
	add("/v1/air", `{"air": {"dry_bulb": "20 C", "wet_bulb": "%v C"}}`, 8, 20)
	const year = `{"room": {"station": "madison-wi", %s}, "made_at": {"mc_pct": 8, "sd_pct": 0.5}, "parts": [{"name": "p", "species": "maple-sugar", "thickness": "12 mm", "width": "300 mm", "ring_angle_deg": 0, "finish": {"outside": "varnish", "inside": "bare"}}]}`
	add("/v1/in-service", fmt.Sprintf(year, `"heated_to": "%v C"`), 12, 24)
	add("/v1/in-service", fmt.Sprintf(year, `"heated_to": "20 C", "at_least_rh_pct": %v`), 20, 60)
	add("/v1/in-service", fmt.Sprintf(year, `"heated_to": "20 C", "added_vapour": "%v hPa"`), 0, 10)
	return all
}

// discrete are members that count, name or date, and what follows from a date by days.
// The ring angle in the middle of a section has no value where the pith is there, and the
// room tells the air of a day.
var discrete = []string{"date", "years", "days", "series", "months", "times", "outline", "ring_angles", "room"}

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
	r := asking.Posting(s.route, strings.Replace(s.body, "%v", fmt.Sprintf("%.12g", x), 1)).Of(t, asking.SharedService())
	got := map[string]float64{}
	if r.Code == http.StatusOK {
		var answer struct {
			Result any `json:"result"`
		}
		require.NoError(t, json.Unmarshal(r.Body.Bytes(), &answer))
		numbersOf("", answer.Result, got)
	} else {
		require.Equal(t, http.StatusUnprocessableEntity, r.Code, r.Body.String())
	}
	seen[x] = got
	return got
}

// steepest looks for the steepest place of a number between the points of a grid by halving,
// and returns what it changes by over the last step, two millionths of the whole, as a share
// of all that it changes by.
func steepest(grid []float64, value func(x float64) (float64, bool)) (where, share float64) {
	change := func(a, b float64) (float64, bool) {
		u, known := value(a)
		v, too := value(b)
		return math.Abs(v - u), known && too
	}
	all, most, at := 0.0, 0.0, -1
	for i := range len(grid) - 1 {
		if d, known := change(grid[i], grid[i+1]); known {
			all += d
			if d > most {
				most, at = d, i
			}
		}
	}
	if at < 0 || all == 0 {
		return 0, 0
	}
	low, high := grid[at], grid[at+1]
	for high-low > 2e-6*(grid[len(grid)-1]-grid[0]) {
		middle := (low + high) / 2
		first, known := change(low, middle)
		second, too := change(middle, high)
		if !known || !too {
			return low, 0
		}
		if first > second {
			high = middle
		} else {
			low = middle
		}
	}
	d, _ := change(low, high)
	return low, d / math.Max(all, 1e-9)
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
}

// A change of a millionth moves no answer by more than its slope allows.
func TestNoJumps(t *testing.T) {
	if testing.Short() {
		t.Skip("asks some ten thousand questions")
	}
	total := 0
	for _, s := range jumpSweeps() {
		points := 33
		if s.route == "/v1/in-service" {
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
