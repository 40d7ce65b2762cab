package moist_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
)

// The sentence of an answer says the numbers of the answer, in its units.
func TestSummaries(t *testing.T) {
	for _, c := range []struct{ path, body, says string }{
		{"/v1/movement", `{"wood": "maple-sugar", "size": "330 mm", "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`,
			`^from 9 to 6 % it shrinks by [0-9.]+ mm \(90 %: [0-9.]+ mm to [0-9.]+ mm\): 330 mm become 32[0-9.]+ mm$`},
		{"/v1/movement", `{"wood": "maple-sugar", "size": "13 in", "direction": "tangential", "from_condition": {"mc_pct": 6}, "to_condition": {"mc_pct": 9}, "report_in": "inch"}`,
			`^from 6 to 9 % it swells by [0-9.]+ in \(90 %: [0-9.]+ in to [0-9.]+ in\): 13 in become 13[0-9.]+ in$`},
		{"/v1/movement", `{"wood": "maple-sugar", "size": "330 mm", "direction": "radial", "from_condition": {"mc_pct": 9, "mc_sd_points": 3}, "to_condition": {"mc_pct": 9.5}}`,
			`it changes by [-0-9.]+ mm \(90 %: -[0-9.]+ mm to [0-9.]+ mm\)`},
		{"/v1/air", `{"air": {"temperature": "-4 C", "rh_pct": 85}, "heated_to": "20 C"}`,
			`^at -4 C and 85 % relative humidity wood settles at [0-9.]+ % \(90 %: .*\); with its vapour kept, at 20 C and 16\.5[0-9]* % relative humidity wood settles at 3\.`},
		{"/v1/emc", `{"air": {"temperature": "68 F", "rh_pct": 45}, "report_in": "inch"}`, `^wood settles at 8\.[0-9]+ % .* in air of 68 F and 45 % relative humidity$`},
		{"/v1/emc", `{"temperature": "20 C", "wanted_emc_pct": 8}`, `^air of 20 C and 41\.[0-9] % \(90 %: [0-9.]+ % to [0-9.]+ %\) relative humidity keeps the wood at 8 %$`},
		{"/v1/moisture", `{"readings": [{"kind": "stated", "mc_pct": 10}]}`, `^it holds 10 % \(90 %: `},
		{"/v1/moisture", `{"readings": [{"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 mm", "thickness": "50 mm"}]}`, `^no reading speaks for the whole section$`},
	} {
		var result struct{ Summary string }
		assert.NoError(t, json.Unmarshal(asking.InFull[json.RawMessage](t, c.path, c.body).Result, &result))
		assert.Regexp(t, c.says, result.Summary, c.body)
	}
}
