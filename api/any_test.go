package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/species"
)

// Asked for any wood of a name, the band of a movement holds that of every wood of it.
func TestAnyWoodHoldsThemAll(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	type answer struct {
		Result struct {
			Change struct{ Value, Low, High float64 }
		}
		Warnings []struct{ Detail string }
	}
	ask := func(name string) answer {
		body := fmt.Sprintf(`{"wood": %q, "size": "200 mm", "direction": "tangential", "from_condition": {"mc_pct": 12, "mc_sd_points": 0}, "to_condition": {"mc_pct": 7, "mc_sd_points": 0}}`, name)
		reply := asking.Posting("/v1/movement", body).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, reply.Code, "%s: %s", name, reply.Body)
		var a answer
		require.NoError(t, json.Unmarshal(reply.Body.Bytes(), &a))
		return a
	}
	for _, name := range tables.BareNames() {
		all := ask("any " + name)
		choices, _ := tables.BareName(name)
		assert.Contains(t, fmt.Sprint(all.Warnings), "the band holds each of them", name)
		for _, c := range choices {
			one := ask(c.Wood.ID)
			assert.LessOrEqual(t, all.Result.Change.Low, one.Result.Change.Value+1e-9, "%s %s", name, c.Wood.ID)
			assert.GreaterOrEqual(t, all.Result.Change.High, one.Result.Change.Value-1e-9, "%s %s", name, c.Wood.ID)
		}
		if _, isID := tables.Wood(name); isID {
			continue
		}
		refused := asking.Posting("/v1/movement", fmt.Sprintf(`{"wood": %q, "size": "200 mm", "direction": "radial", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 7}}`, name)).Of(t, asking.SharedService())
		assert.Equal(t, http.StatusUnprocessableEntity, refused.Code, name)
		assert.Contains(t, refused.Body.String(), "the likeliest first: "+choices[0].Wood.ID, name)
	}
	for name, woods := range map[string][]string{
		"hard maple":           {"maple-sugar", "maple-black"},
		"Southern yellow pine": {"pine-longleaf", "pine-shortleaf", "pine-loblolly", "pine-slash"},
	} {
		all := ask("any " + name)
		assert.Contains(t, fmt.Sprint(all.Warnings), "the band holds each of them", name)
		for _, id := range woods {
			one := ask(id)
			assert.LessOrEqual(t, all.Result.Change.Low, one.Result.Change.Value+1e-9, "%s %s", name, id)
			assert.GreaterOrEqual(t, all.Result.Change.High, one.Result.Change.Value-1e-9, "%s %s", name, id)
		}
	}
}
