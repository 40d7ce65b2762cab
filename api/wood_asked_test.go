package api_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
)

// The figures given beside a name replace those of the tables: with all that a movement
// rests on replaced, the wood moves as one that is in no table. What was not given stays.
func TestFiguresBesideAName(t *testing.T) {
	movement := func(wood string) moist.MovementResult {
		t.Helper()
		return asking.AnswerTo[moist.MovementResult](t, "/v1/movement", `{"wood": `+wood+`, "size": "200 mm", "direction": "tangential",
			"from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}}`).Result
	}
	const figures = `"radial_shrinkage_pct": 3, "tangential_shrinkage_pct": 6, "fibre_saturation_mc_pct": 26, "specific_gravity": 0.5`
	own, beside, named := movement(`{`+figures+`}`), movement(`{"species": "maple-sugar", `+figures+`}`), movement(`{"species": "maple-sugar"}`)
	assert.InEpsilon(t, own.Change.Value, beside.Change.Value, 1e-12)
	assert.Equal(t, named, movement(`"maple-sugar"`))
	assert.Greater(t, math.Abs(own.Change.Value-named.Change.Value), 0.1)
	sources := map[string]string{}
	for _, f := range beside.Wood.Figures {
		sources[f.Name] = f.Source
	}
	assert.Equal(t, map[string]string{"radial": "given by the caller", "tangential": "given by the caller", "fibre_saturation": "given by the caller"}, sources)
	mine := movement(`{"species": "maple-sugar", "name": "the tree from the yard", "specific_gravity": 0.6}`)
	assert.Equal(t, "the tree from the yard", mine.Wood.Common)
	assert.InEpsilon(t, named.Change.Value, mine.Change.Value, 1e-12)
	// a rate for a point in place of those of the tables; the total shrinkage stays
	rate := movement(`{"species": "maple-sugar", "tangential_swelling_pct_per_point": 0.3}`)
	forms := []string{}
	for _, f := range rate.Forms {
		forms = append(forms, f.Form)
	}
	assert.Equal(t, []string{"total_shrinkage", "differential_shrinkage"}, forms)
	assert.InDelta(t, -0.3*4*2, asking.FormOf(t, rate.Forms, "differential_shrinkage").Change.Value, 1e-9)
	either := movement(`{"any": "maple"}`)
	require.NotEqual(t, named.Change, either.Change)
	assert.Equal(t, movement(`"any maple"`).Change, either.Change)
}
