package mill_test

import (
	"encoding/json"
	"math"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
)

// answered is what a program reads of a plan: the billets as they stand in the text.
type answered struct {
	Summary string
	Billets []struct {
		Billet json.RawMessage
		Bolt   int
	}
	Advice []string
}

// answer asks for a plan of a log. The billets of an answer are read as a program reads
// them, as text for the next request.
func answer(t *testing.T, body string) (out struct {
	Result   answered
	Warnings []struct{ Detail string }
}) {
	t.Helper()
	r := asking.Posting("/v1/log-plan", body).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	require.NoError(t, json.Unmarshal(r.Body.Bytes(), &out))
	return out
}

// The billets of an answer are taken by a plan as they are, whatever the pattern, and give
// what a plan of the same sizes gives.
func TestBilletsAreTakenByThePlan(t *testing.T) {
	asked := 0
	for _, body := range asking.ExampleBodies(t)["/v1/log-plan"] {
		for _, system := range []string{"metric", "inch"} {
			text := strings.Replace(string(body), `"report_in": "inch"`, `"pattern_is": 0`, 1)
			text = strings.Replace(text, `"pattern_is": 0`, `"sapwood_out": false`, 1)
			text = strings.Replace(text, `{`, `{"report_in": "`+system+`", `, 1)
			a := answer(t, text)
			require.NotEmpty(t, a.Result.Billets)
			var billets []string
			for i := range min(3, len(a.Result.Billets)) {
				billets = append(billets, string(a.Result.Billets[i].Billet))
			}
			plan := asking.AnswerTo[cut.ResawPlanResult](t, "/v1/resaw-plan", `{"billets": [`+strings.Join(billets, ",")+`],
				"saws": [{"kerf": "1 mm"}], "parts": [{"id": "brace", "length": "300 mm", "width": "60 mm", "final_thickness": "8 mm", "match": "none"}], "max_search_steps": 20000}`)
			assert.Positive(t, plan.Result.Parts[0].Sets, "%s: %s", system, plan.Result.Summary)
			for i := range plan.Result.Billets {
				assert.NotNil(t, plan.Result.Billets[i].Pith, "the plan knows the pith")
				assert.NotNil(t, plan.Result.Billets[i].Mass, "and the wood with its moisture")
			}
			asked++
		}
	}
	assert.Equal(t, 6, asked)
}

// Own figures of a wood are handed on, and a modulus in the units of the answer.
func TestWoodIsHandedOn(t *testing.T) {
	ask := func(wood, rest string) string {
		a := answer(t, `{"log": {"wood": `+wood+`, "length": "1 m", "start_diameter": "300 mm", "end_diameter": "300 mm"},
			"pattern": "through_and_through", "wanted": {"thickness": "50 mm", "min_width": "100 mm"}, "saw": {"kerf": "3 mm"}`+rest+`}`)
		var b struct{ Wood json.RawMessage }
		require.NoError(t, json.Unmarshal(a.Result.Billets[0].Billet, &b))
		return string(b.Wood)
	}
	assert.JSONEq(t, `"black walnut"`, ask(`"black walnut"`, ""))
	assert.JSONEq(t, `{"any": "maple"}`, ask(`{"any": "maple"}`, ""))
	own := `{"name": "yard", "specific_gravity": 0.5, "radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8, "modulus_of_elasticity": {"value": 10000, "unit": "MPa"}}`
	assert.JSONEq(t, own, ask(own, ""))
	var inch struct {
		Modulus struct {
			Value float64
			Unit  string
		} `json:"modulus_of_elasticity"`
	}
	require.NoError(t, json.Unmarshal([]byte(ask(own, `, "report_in": "inch"`)), &inch))
	assert.Equal(t, "psi", inch.Modulus.Unit)
	assert.InDelta(t, 1.450377e6, inch.Modulus.Value, 1)
}

// A log that is too thin is answered, told and drawn.
func TestThinLog(t *testing.T) {
	body := `{"log": {"length": "1 m", "start_diameter": "100 mm", "end_diameter": "90 mm"}, "pattern": "wedges",
		"wanted": {"thickness": "60 mm", "min_width": "90 mm"}, "saw": {"usual_kerf": "froe"}}`
	a := answer(t, body)
	assert.Empty(t, a.Result.Billets)
	assert.Contains(t, a.Result.Summary, "no billet fits")
	asking.DrawnOf(t, "/v1/log-plan", body)
}

// The usual cautions of logs stand with every answer, and what they are about.
func TestCautionsOfLogs(t *testing.T) {
	said := func(saw, pattern, rest string) string {
		a := answer(t, `{"log": {"wood": "maple-sugar", "length": "3 m", "start_diameter": "500 mm", "end_diameter": "450 mm", "sapwood_thickness": "40 mm"},
			"pattern": "`+pattern+`", "wanted": {"thickness": "50 mm", "min_width": "100 mm"}, "saw": {`+saw+`}`+rest+`}`)
		var all []string
		for _, w := range a.Warnings {
			all = append(all, w.Detail)
		}
		return strings.Join(append(all, a.Result.Advice...), "\n")
	}
	split := said(`"usual_kerf": "froe"`, "wedges", "")
	for _, words := range []string{", green at 57 %; a log rolls", "wear eye protection", "stains blue", "paint the ends", "facing of 4.5 mm"} {
		assert.Contains(t, split, words)
	}
	sawn := said(`"kerf": "3 mm"`, "quartered", `, "sapwood_out": true`)
	assert.Contains(t, sawn, "follow the machine's manual")
	assert.NotContains(t, sawn, "stains blue")
	assert.NotContains(t, sawn, "froe")
}

// Every billet of the first length is drawn where the answer says, inside the bark, and the
// sheet is narrow enough for a telephone.
func TestDrawingOfTheLog(t *testing.T) {
	for i, body := range asking.ExampleBodies(t)["/v1/log-plan"] {
		a := answer(t, string(body))
		first := 0
		for _, b := range a.Result.Billets {
			if b.Bolt == 1 {
				first++
			}
		}
		root := asking.Drawn(t, asking.DrawnOf(t, "/v1/log-plan", string(body)))
		assert.Equal(t, "480", root.Attr("width"))
		drawn, smallest := 0, math.Inf(1)
		root.All(func(s *asking.Shape) {
			switch {
			case s.XMLName.Local == "polygon" && s.Attr("fill-opacity") != "":
				drawn++
			case s.XMLName.Local == "text":
				smallest = math.Min(smallest, s.Number(t, "font-size"))
				if s.Attr("text-anchor") == "start" {
					assert.GreaterOrEqual(t, s.Number(t, "font-size"), 12.0, "lines to read")
				}
			}
		})
		assert.Equal(t, first, drawn, strconv.Itoa(i))
		assert.GreaterOrEqual(t, smallest, 8.0)
	}
}

// Where the ring angle alone leaves no billet, the answer says so, how many there are without
// it and the best that can be had; that many and that angle are had.
func TestTheRingAngleThatLeavesNoBilletIsNamed(t *testing.T) {
	asked := func(pattern, angle string) string {
		return `{"log": {"wood": "sugar maple", "length": "2400 mm", "start_diameter": "480 mm", "end_diameter": "430 mm", "sweep": "20 mm"},
			"pattern": "` + pattern + `", "saw": {"usual_kerf": "mill_band"}, "wanted": {"thickness": "54 mm", "min_width": "150 mm", "length": "600 mm"` + angle + `}}`
	}
	for pattern, steep := range map[string]int{"quartered": 70, "through_and_through": 85, "wedges": 88} {
		at := func(degrees int) answered {
			return answer(t, asked(pattern, `, "min_ring_angle_deg": `+strconv.Itoa(degrees))).Result
		}
		none := at(steep)
		require.Empty(t, none.Billets, pattern)
		all := answer(t, asked(pattern, "")).Result
		assert.Contains(t, none.Summary, "without min_ring_angle_deg there are "+strconv.Itoa(len(all.Billets))+", ", pattern)
		_, last, found := strings.Cut(none.Summary, "the most it can be for one is ")
		require.True(t, found, none.Summary)
		best, err := strconv.Atoi(strings.TrimSuffix(last, " degrees"))
		require.NoError(t, err)
		assert.NotEmpty(t, at(best).Billets, pattern)
		assert.Empty(t, at(best+1).Billets, pattern)
		assert.Contains(t, strings.Join(none.Advice, " "), "a lower min_ring_angle_deg", pattern)
	}
	thick := strings.Replace(asked("quartered", `, "min_ring_angle_deg": 60`), `"54 mm"`, `"400 mm"`, 1)
	assert.NotContains(t, answer(t, thick).Result.Summary, "degrees", "no angle would help")
}

// The thick edge that is told of wedges is the least that they have.
func TestWedgesAreToldAsThickAsTheyAre(t *testing.T) {
	r := answer(t, `{"log": {"length": "700 mm", "start_diameter": "600 mm", "end_diameter": "600 mm"}, "pattern": "wedges",
		"wanted": {"thickness": "62 mm", "min_width": "180 mm"}, "saw": {"usual_kerf": "froe"}}`).Result
	least := math.Inf(1)
	for _, b := range r.Billets {
		var billet struct{ Thickness struct{ Value float64 } }
		require.NoError(t, json.Unmarshal(b.Billet, &billet), string(b.Billet))
		least = math.Min(least, billet.Thickness.Value)
	}
	require.Greater(t, least, 80.0, "16 sectors of 600 mm are thicker than asked for")
	_, told, found := strings.Cut(r.Summary, "at least ")
	require.True(t, found, r.Summary)
	number, _, _ := strings.Cut(told, " mm")
	said, err := strconv.ParseFloat(number, 64)
	require.NoError(t, err)
	assert.True(t, said <= least && said > least-1, "%g of %g: a tape reads whole millimetres, and no more than there is", said, least)
}

// No length of an answer has digits that nobody could measure, in either system. What goes into the
// next request is finer: a size is the same in both systems, and still gives what was wanted.
func TestLengthsOfALogCanBeMeasured(t *testing.T) {
	quantities := regexp.MustCompile(`"(\w+)":\{"value":(-?[0-9.e+-]+),"unit":"(mm|in)"\}`)
	for i, body := range asking.ExampleBodies(t)["/v1/log-plan"] {
		for system, most := range map[string]int{"metric": 3, "inch": 4} {
			var asked map[string]any
			require.NoError(t, json.Unmarshal(body, &asked))
			asked["report_in"] = system
			text, err := json.Marshal(asked)
			require.NoError(t, err)
			r := asking.Posting("/v1/log-plan", string(text)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code)
			var answer struct {
				Result map[string]json.RawMessage `json:"result"`
			}
			require.NoError(t, json.Unmarshal(r.Body.Bytes(), &answer))
			var billets []map[string]json.RawMessage
			require.NoError(t, json.Unmarshal(answer.Result["billets"], &billets))
			for _, b := range billets {
				delete(b, "billet")
			}
			answer.Result["billets"], err = json.Marshal(billets)
			require.NoError(t, err)
			kept, err := json.Marshal(answer.Result)
			require.NoError(t, err)
			all := quantities.FindAllStringSubmatch(string(kept), -1)
			require.Greater(t, len(all), 20, i)
			for _, q := range all {
				_, digits, _ := strings.Cut(q[2], ".")
				assert.LessOrEqual(t, len(digits), most, "%s %s %s of %d", q[1], q[2], q[3], i)
			}
		}
	}
}
