package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// A part that names its wood or its billets comes from no other, whatever it is worth there; one
// that finds no such billet says so.
func TestPartsComeFromTheirWood(t *testing.T) {
	billet := func(id, wood string) string {
		return `{"id": "` + id + `", "wood": ` + wood + `, "length": "600 mm", "width": "220 mm", "thickness": "40 mm"}`
	}
	ask := func(part string) (from map[string]int, told string) {
		body := `{"billets": [` + billet("m", `"maple-sugar"`) + `,` + billet("s", `"spruce-sitka"`) + `,` + billet("own", `{"name": "Barn Pear", "radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 9}`) + `],
			"saws": [{"kerf": "1.2 mm"}], "parts": [{` + asking.OkPlanPart + `, "set_value": 1` + part + `}]}`
		a := planOf(t, body)
		from = map[string]int{}
		for _, b := range a.Result.Billets {
			for _, k := range b.Blanks {
				from[b.ID] += len(k.Leaves)
			}
		}
		for _, w := range a.Warnings {
			told += w.Input + ": " + w.Detail + "\n"
		}
		return from, told
	}
	for part, ids := range map[string][]string{
		"":                                {"m", "s", "own"},
		`, "wood": "Sitka spruce"`:        {"s"},
		`, "wood": {"any": "maple"}`:      {"m"},
		`, "wood": {"name": "barn pear"}`: {"own"},
		`, "billets": ["own", "m"]`:       {"own", "m"},
		`, "wood": "maple-sugar", "billets": ["s", "m"]`: {"m"},
	} {
		from, told := ask(part)
		assert.Len(t, from, len(ids), part)
		for _, id := range ids {
			assert.Positive(t, from[id], "%s from %s", part, id)
		}
		assert.NotContains(t, told, "no billet", part)
	}
	from, told := ask(`, "wood": "walnut-black", "min_sets": 1`)
	assert.Empty(t, from)
	assert.Contains(t, told, "/parts/0/wood: no billet that this part may come from is of the wood that it asks for")
	assert.Contains(t, told, "it may come from none of them by its wood and billets")
}

// Only the shrinkage in the billets that a part may come from is allowed for.
func TestPartsShrinkAsTheirBilletsDo(t *testing.T) {
	ask := func(part string) float64 {
		body := `{"billets": [{"id": "wet", "wood": "maple-sugar", "condition": {"mc_pct": 20}, "length": "600 mm", "width": "260 mm", "thickness": "40 mm"},
			{"id": "dry", "wood": "maple-sugar", "condition": {"mc_pct": 10}, "length": "600 mm", "width": "260 mm", "thickness": "40 mm"}],
			"saws": [{"kerf": "1.2 mm"}], "parts": [{` + strings.Replace(asking.OkPlanPart, `"final_thickness"`, `"final_condition": {"mc_pct": 8}, "final_thickness"`, 1) + part + `}]}`
		return planOf(t, body).Result.Parts[0].Width.Value
	}
	all, dry := ask(""), ask(`, "billets": ["dry"]`)
	require.Greater(t, all, dry+2)
	assert.InDelta(t, all, ask(`, "billets": ["wet"]`), 1e-9)
}
