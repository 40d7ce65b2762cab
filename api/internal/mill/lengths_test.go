package mill_test

import (
	"encoding/json"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/mill"
)

// planned is the whole answer for a log.
func planned(t *testing.T, body string) *mill.LogPlanResult {
	t.Helper()
	r := asking.AnswerTo[mill.LogPlanResult](t, "/v1/log-plan", body)
	return &r.Result
}

// Every length tells its own cuts and setting, those that it has when it is asked for as a log of
// its own; the first has those of the plan.
func TestEveryLengthTellsItsCuts(t *testing.T) {
	const rest = `"saw": {"kerf": "3 mm", "crosscut_kerf": "0 mm"}`
	wanted := `"wanted": {"thickness": "50 mm", "min_width": "100 mm", "end_trim": "0 mm"`
	for _, pattern := range []string{"through_and_through", "quartered", "wedges"} {
		whole := planned(t, `{"log": {"length": "2 m", "start_diameter": "500 mm", "end_diameter": "300 mm"}, "pattern": "`+pattern+`", `+
			wanted+`, "length": "500 mm"}, `+rest+`}`)
		require.Len(t, whole.Bolts, 4, pattern)
		assert.Equal(t, whole.Cuts, whole.Bolts[0].Cuts, pattern)
		assert.Equal(t, whole.Setting, whole.Bolts[0].Setting, pattern)
		assert.Equal(t, whole.Sectors, whole.Bolts[0].Sectors, pattern)
		for i, sizes := range [][2]string{{"500 mm", "450 mm"}, {"450 mm", "400 mm"}, {"400 mm", "350 mm"}, {"350 mm", "300 mm"}} {
			alone := planned(t, `{"log": {"length": "500 mm", "start_diameter": "`+sizes[0]+`", "end_diameter": "`+sizes[1]+`"}, "pattern": "`+pattern+`", `+
				wanted+`}, `+rest+`}`)
			assert.Equal(t, alone.Cuts, whole.Bolts[i].Cuts, "%s %d", pattern, i)
			assert.Equal(t, alone.Setting, whole.Bolts[i].Setting, "%s %d", pattern, i)
			assert.Equal(t, alone.Sectors, whole.Bolts[i].Sectors, "%s %d", pattern, i)
			assert.NotEmpty(t, whole.Bolts[i].Cuts, "%s %d", pattern, i)
		}
		assert.NotEqual(t, whole.Bolts[0].Cuts, whole.Bolts[3].Cuts, pattern)
	}
}

// A length without a billet has no cuts and no setting; a summary has no cuts.
func TestLengthsWithoutBilletsHaveNoCuts(t *testing.T) {
	body := `{"log": {"length": "4 m", "start_diameter": "400 mm", "end_diameter": "150 mm"}, "pattern": "through_and_through",
		"wanted": {"thickness": "50 mm", "min_width": "200 mm", "length": "900 mm"}, "saw": {"kerf": "3 mm"}}`
	r := planned(t, body)
	last := r.Bolts[len(r.Bolts)-1]
	assert.Nil(t, last.Setting)
	assert.Empty(t, last.Cuts)
	assert.NotNil(t, r.Bolts[0].Setting)
	short := asking.Posting("/v1/log-plan?detail=summary", body).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, short.Code)
	var answer struct {
		Result struct{ Bolts []map[string]json.RawMessage }
	}
	require.NoError(t, json.Unmarshal(short.Body.Bytes(), &answer))
	assert.NotContains(t, answer.Result.Bolts[0], "cuts")
	assert.Contains(t, answer.Result.Bolts[0], "saw_setting")
}

// The length that is advised for a bent log is one that gives billets, in either system.
func TestAdvisedLengthOfABentLogGivesBillets(t *testing.T) {
	for _, unit := range []string{"metric", "inch"} {
		body := `{"log": {"length": "3 m", "start_diameter": "450 mm", "end_diameter": "400 mm", "sweep": "400 mm"}, "pattern": "quartered",
			"wanted": {"thickness": "50 mm", "min_width": "150 mm"}, "saw": {"kerf": "3 mm"}, "report_in": "` + unit + `"}`
		r := planned(t, body)
		require.Empty(t, r.Billets)
		assert.Regexp(t, `crosscut into \d+ lengths it has$`, r.Summary)
		said := regexp.MustCompile(`with a wanted length of (.+) at most`).FindStringSubmatch(strings.Join(r.Advice, "\n"))
		require.NotNil(t, said, r.Advice)
		assert.NotEmpty(t, planned(t, strings.Replace(body, `"min_width": "150 mm"`, `"min_width": "150 mm", "length": "`+said[1]+`"`, 1)).Billets, said[1])
	}
}
