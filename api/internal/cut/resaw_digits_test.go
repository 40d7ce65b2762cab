package cut_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// Figures of a plan have no more digits than mean something: shares, scores and
// angles a millionth, lengths the nanometre, all others a billionth; inches keep so
// many that they are the same lengths.
func TestFiguresOfAPlanAreTidy(t *testing.T) {
	long := regexp.MustCompile(`"\w+":-?\d+\.\d{13,}`)
	metric := regexp.MustCompile(`"(\w+":-?\d+\.\d{10,}|((leaf|kerf|shavings|remainder)_share_pct|score|ring_angle_deg)":-?\d+\.\d{7,})`)
	lengths := regexp.MustCompile(`"value":-?\d+\.\d{7,},"unit":"mm"`)
	for _, rest := range []string{"", `, "report_in": "inch"`} {
		reply := planBody(`"length": "611 mm", "width": "227 mm", "thickness": "61.3 mm", "wood": "maple-sugar", "condition": {"mc_pct": 14}, "rings": {"pith": {"y": "300 mm", "z": "-41 mm"}}`, asking.OkPlanSaw,
			asking.OkPlanPart+`, "final_condition": {"mc_pct": 8}`, rest)
		r := asking.Posting("/v1/resaw-plan", reply).Of(t, asking.SharedService())
		require.Equal(t, 200, r.Code, r.Body.String())
		text := r.Body.String()
		assert.Contains(t, text, `"ring_shift"`)
		assert.Contains(t, text, `"mass"`)
		assert.Empty(t, long.FindAllString(text, 5), rest)
		if rest == "" {
			assert.Empty(t, metric.FindAllString(text, 5))
			assert.Empty(t, lengths.FindAllString(text, 5))
		}
	}
}
