package year_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/year"
	"latewood/woodphys/method"
)

// drawerIn is a front of red oak of 200 mm in an opening of maple.
func drawerIn(opening, build, room string) string {
	return `{"parts": [{"id": "front", "wood": "oak-northern-red", "thickness": "20 mm", "width": "200 mm", "rings": {"angle_deg": 5}},
			{"id": "case", "wood": "maple-sugar", "thickness": "20 mm", "length": "` + opening + `", "rings": {"angle_deg": 45}}],
		"pairs": [{"id": "drawer", "outer": {"part": "case", "dimension": "length"}, "inner": {"part": "front", "dimension": "width"},
			"min_clearance": "0.5 mm", "max_clearance": "8 mm"}],
		"build_condition": ` + build + `, "room": ` + room + `}`
}

// A drawer is told by the sizes it was given, first of all: whatever clearance it could be built
// with does not help the one that was made.
func TestPairsAreToldByTheirSizes(t *testing.T) {
	const air, indoors = `{"air": {"temperature": "20 C", "rh_pct": 45}}`, `{"station": "madison-wi", "heated_to": "20 C", "added_vapour": "3 hPa"}`
	for _, c := range []struct{ opening, verdict, says string }{
		{"150 mm", "too_large", "with the sizes given, drawer does not go in: the inner part is 50 mm larger"},
		{"201 mm", "binds", "with the sizes given, drawer binds: the gap of 1 mm closes in the wettest state"},
		{"203 mm", "may_bind", "with the sizes given, drawer may bind: the gap of 3 mm can"},
		{"204.5 mm", "fits", "the width of front moves most"},
		{"212 mm", "gapes", "with the sizes given, drawer gapes: the gap of 12 mm can open to"},
	} {
		r := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", drawerIn(c.opening, air, indoors)).Result
		p := r.Pairs[0]
		require.NotNil(t, p.AsMade, c.opening)
		assert.Equal(t, c.verdict, p.AsMade.Verdict, c.opening)
		assert.True(t, strings.HasPrefix(r.Summary, c.says), "%s: %s", c.opening, r.Summary)
		assert.InDelta(t, p.AsMade.Clearance.Value+p.ToDriest.Value, p.AsMade.Driest.Value, 0.02)
		assert.True(t, p.Feasible)
	}
	same := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", drawerIn("200 mm", air, indoors)).Result
	assert.Nil(t, same.Pairs[0].AsMade, "one size for both: the clearance is still to be taken")
}

// Where no clearance serves none is told to build, and why.
func TestNoClearanceIsToldWithItsCause(t *testing.T) {
	const outdoors = `{"outdoors": {"station": "madison-wi"}}`
	wet := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", drawerIn("200 mm", `{"green": true}`, outdoors)).Result
	p := wet.Pairs[0]
	require.False(t, p.Feasible)
	assert.Equal(t, p.AtBuild.Min, p.AtBuild.Usual)
	assert.Contains(t, p.Detail, "let it dry first")
	assert.Equal(t, "Madison, WI, outdoors under cover", wet.Room.Name)
}

// Wood that is glued while it is green is not answered without a word.
func TestWetGlueIsTold(t *testing.T) {
	a := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", `{"driest_condition": {"mc_pct": 6}, "wettest_condition": {"mc_pct": 11},
		"build_condition": {"green": true}, "parts": [{"id": "a", "wood": "maple-sugar", "thickness": "20 mm", "length": "300 mm"},
			{"id": "b", "wood": "oak-northern-red", "thickness": "20 mm", "width": "200 mm"}],
		"glued_joints": [{"first": {"part": "a", "dimension": "length"}, "second": {"part": "b", "dimension": "width"}}]}`)
	told := 0
	for _, w := range a.Warnings {
		if strings.Contains(w.Detail, "too wet to be glued") {
			told++
			assert.Equal(t, method.Caution, w.Code)
			assert.Equal(t, "/build_condition", w.Input)
		}
	}
	assert.Equal(t, 2, told, "once for each part")
}
