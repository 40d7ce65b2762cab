package year_test

import (
	"encoding/csv"
	"encoding/json"
	"net/http"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/shape"
	"latewood/api/internal/year"
	"latewood/woodphys/method"
)

const capOnBody = "year-in-service.cap-on-a-body-and-a-neck-of-staves.json"

// The example: a maple cap on a mahogany body bends hollow on the cap's side in winter and on
// the back in late summer; three staves stay flat. What is told of both days is what
// /v1/laminate says of the layers at those moisture contents, but for what runs through a layer
// in a straight line.
func TestLaminatesThroughTheYear(t *testing.T) {
	a := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", asking.ExampleText(t, capOnBody))
	r := a.Result
	assert.Regexp(t, `^pickguard is driest .*; body: cup 0\.\d+ mm hollow on face 1 on its driest day, about \d+ (February|March), and 1\.\d+ mm hollow on face 2 on its wettest, about \d+ September, a swing of 2\.\d+ mm; the glue bears peel of the order of \d(\.\d)? MPa at its edges; neck, three staves: flat, but for differences between pieces, which may bow it 0\.\d+ mm either way, from`, r.Summary)
	require.Len(t, r.Laminates, 2)
	body, neck := r.Laminates[0], r.Laminates[1]
	assert.InDelta(t, body.Wettest.Cup.Value-body.Driest.Cup.Value, body.Swing.Cup.Value, 1e-9, "swing is wettest less driest")
	assert.InDelta(t, body.Wettest.Width.Value-body.Driest.Width.Value, body.Swing.Width.Value, 1e-9)
	assert.InDelta(t, body.Wettest.Mean.Value-body.Driest.Mean.Value, body.SwingMC, 1e-9)
	assert.Less(t, body.Layers[0].TimeConstant, body.Layers[1].TimeConstant, "the cap lies nearer to its face")
	assert.Less(t, body.Layers[0].Delay, body.Layers[1].Delay)
	assert.Less(t, body.Driest.Layers[0].Face1MC, body.Driest.Layers[0].Face2MC, "dry from outside")
	assert.LessOrEqual(t, body.CupExtremes.Min.Bend.Value, body.Wettest.Cup.Value)
	assert.Len(t, body.Series, 74)
	assert.Len(t, body.Wettest.GlueLines, 1)
	assert.InDelta(t, 0, neck.Swing.Cup.Value, 1e-6)
	assert.Greater(t, neck.Layers[1].TimeConstant, neck.Layers[0].TimeConstant, "the middle stave is deeper")
	assert.Equal(t, "1", neck.Layers[0].ID)

	number := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	for _, s := range []year.LaminateState{body.Driest, body.Wettest} {
		still := asking.InFull[shape.LaminateResult](t, "/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [
			{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 10}, "glue_up_condition": {"mc_pct": `+number(body.Layers[0].GlueUp.Value)+`}, "later_condition": {"mc_pct": `+number(s.Layers[0].MC.Value)+`}},
			{"wood": "mahogany-true", "thickness": "38 mm", "rings": {"angle_deg": 60}, "glue_up_condition": {"mc_pct": `+number(body.Layers[1].GlueUp.Value)+`}, "later_condition": {"mc_pct": `+number(s.Layers[1].MC.Value)+`}}]}`).Result
		assert.InEpsilon(t, still.Width.Value, s.Width.Value, 0.1)
		assert.InEpsilon(t, still.GlueLines[0].Width.Value, s.GlueLines[0].Width.Value, 1e-6, "free differences are those of the means")
		assert.Equal(t, still.Cup.Value > 0, s.Cup.Value > 0)
	}
	for _, w := range a.Warnings {
		if strings.HasPrefix(w.Input, "/laminates/0/layers/0") {
			assert.Equal(t, "cap", w.Subject, w.Detail)
		}
		if strings.HasPrefix(w.Input, "/laminates/1/layers/2") {
			assert.Equal(t, "layer 3, Cherry, black", w.Subject, w.Detail)
		}
		if strings.HasPrefix(w.Input, "/parts/") {
			assert.Equal(t, "pickguard", w.Subject, w.Detail)
		}
	}
}

// The drawing has a panel for each; the table has the rows of parts, then those of laminates.
func TestFormsOfLaminates(t *testing.T) {
	for _, body := range []string{asking.ExampleText(t, capOnBody), laminateAlone} {
		words := asking.TextsOf(t, asking.Drawn(t, asking.DrawnOf(t, "/v1/year-in-service?as=svg", body)))
		assert.Contains(t, words, "cup, up: hollow on face 1")
		assert.NotContains(t, words, "NaN")
		assert.NotContains(t, words, "Inf")
	}
	table := asking.Posting("/v1/year-in-service?as=csv", asking.ExampleText(t, capOnBody)).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, table.Code)
	rows, err := csv.NewReader(table.Body).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+3*74)
	assert.Equal(t, "cup", rows[0][10])
	assert.Empty(t, rows[1][10], "a part has no bend")
	assert.Equal(t, "mm", rows[75][16])
	assert.NotEmpty(t, rows[75][10])
}

const laminateAlone = `{"room": {"air": {"temperature": "20 C", "rh_pct": 45}}, "build_condition": {"mc_pct": 8}, "report_in": "inch",
	"laminates": [{"length": "18 in", "width": "12 in", "layers": [{"wood": "maple-sugar", "thickness": "1/4 in", "rings": {"angle_deg": 0}, "later_condition": {"mc_pct": 4}}, {"wood": "maple-sugar", "thickness": "1/4 in", "rings": {"angle_deg": 0}}]}]}`

// Who says of each layer what it was glued at says nothing of a build for all, and an empty
// list of parts is none.
func TestEachWithItsOwnBuild(t *testing.T) {
	all := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", laminateAlone)
	own := strings.Replace(laminateAlone, `"build_condition": {"mc_pct": 8}, `, `"parts": [], `, 1)
	own = strings.ReplaceAll(own, `"wood": "maple-sugar"`, `"wood": "maple-sugar", "glue_up_condition": {"mc_pct": 8}`)
	each := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", own)
	assert.Equal(t, all.Result.Laminates, each.Result.Laminates)
}

// Without parts no air to build in is told; a later condition of a layer has no bearing, and
// that is said.
func TestLaminateAlone(t *testing.T) {
	a := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", laminateAlone)
	assert.Nil(t, a.Result.BuildAir)
	assert.Empty(t, a.Result.Parts)
	assert.Regexp(t, `^laminate 1: flat, but for differences between pieces, which may cup it 0\.\d+ in either way, from .* to its wettest, about \d+ \w+$`, a.Result.Summary)
	said := ""
	for _, w := range a.Warnings {
		said += w.Detail + "\n"
	}
	assert.Contains(t, said, "laminates.layers.later_condition has no bearing on this answer")
}

// Whatever warns of one part or layer among several points at it and names it, in every route
// that takes several.
func TestWarningsNamePartsAndLayers(t *testing.T) {
	body, err := os.ReadFile(instrument)
	require.NoError(t, err)
	for path, text := range map[string]string{"/v1/assembly-movement": string(body), "/v1/year-in-service": asking.ExampleText(t, capOnBody),
		"/v1/laminate": asking.ExampleText(t, "laminate.crossed-veneers.json")} {
		pointed := 0
		for _, w := range asking.AnswerTo[json.RawMessage](t, path, text).Warnings {
			of := strings.HasPrefix(w.Method, "movement.") || strings.HasPrefix(w.Method, "drying.") || w.Method == "laminate.elastic" ||
				w.Method == "laminate.group-ratios" || w.Code == method.Disagreement
			if of {
				pointed++
				assert.Regexp(t, `^/(parts|layers|laminates)/\d+`, w.Input, "%s: %s", path, w.Detail)
				assert.NotEmpty(t, w.Subject, "%s: %s", path, w.Detail)
			}
		}
		assert.Positive(t, pointed, path)
	}
}
