package cut_test

import (
	"encoding/json"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
)

// Leaves of blanks on their side are numbered, one below the other where they are thinner than a
// number is wide, on a telephone and on a desk alike.
func TestLeavesOnTheirSideAreNumbered(t *testing.T) {
	var body map[string]any
	for _, example := range asking.ExampleBodies(t)["/v1/resaw-plan"] {
		var one map[string]any
		require.NoError(t, json.Unmarshal(example, &one))
		if billets, is := one["billets"].([]any); is && len(billets) == 2 {
			body = one
		}
	}
	require.NotNil(t, body, "the example with two billets")
	text, err := json.Marshal(body)
	require.NoError(t, err)
	turned, leaves := 0, map[string]int{}
	for _, b := range asking.AnswerTo[cut.ResawPlanResult](t, "/v1/resaw-plan", string(text)).Result.Billets {
		for i := range b.Blanks {
			if b.Blanks[i].Turned {
				turned++
			}
			for n := range b.Blanks[i].Leaves {
				leaves[strconv.Itoa(n+1)]++
			}
		}
	}
	require.Greater(t, turned, 10)
	for _, form := range []string{"?width=360", "?width=1100"} {
		drawn := map[string]int{}
		asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan"+form, string(text))).All(func(s *asking.Shape) {
			if s.XMLName.Local == "text" && s.Attr("text-anchor") == "middle" {
				drawn[s.Words]++
			}
		})
		for _, n := range []string{"1", "2", "3"} {
			assert.GreaterOrEqual(t, drawn[n], leaves[n], "%s: leaves %s", form, n)
		}
	}
}
