package cut_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/shelf"
)

// A flamed maple at 15 degrees, opened: a slip-match, which would score better, is not
// chosen, and the answer says why.
func TestFlamedMapleIsOpened(t *testing.T) {
	body := `{"billet": {"wood": "bigleaf maple", "width": "7 1/4 in", "rings": {"angle_deg": 15, "ring_width": "2 mm"}, "grain": {"flame_lean_deg": 6}},
		"stack": {"leaves": 4, "sawn_thickness": "3/8 in"}, "saw": {"kerf": "1/32 in"}, "report_in": "inch"}`
	a := asking.AnswerTo[cut.BookmatchResult](t, "/v1/bookmatch", body)
	require.Len(t, a.Result.Chosen, 2)
	for _, c := range a.Result.Chosen {
		assert.Equal(t, "bookmatch", c.Opening)
	}
	assert.Contains(t, fmt.Sprint(a.Warnings), "figure is opened as a mirror")
	for _, l := range a.Result.Pairs[0].Openings {
		require.NotNil(t, l.Largest)
		assert.InDelta(t, l.Places[1].Shift.Value, l.Largest.Shift.Value, 1e-9, "planes miss by as much everywhere")
	}
	asked := asking.AnswerTo[cut.BookmatchResult](t, "/v1/bookmatch", strings.Replace(body, `"report_in"`, `"openings": ["slip_match"], "report_in"`, 1))
	assert.Equal(t, "slip_match", asked.Result.Chosen[0].Opening)
}

// Near the pith the largest miss is told with its place: here over the pith, where the line of
// the first face is 20 mm in radius and the second face 10 mm deeper.
func TestLargestMissIsTold(t *testing.T) {
	a := asking.AnswerTo[cut.BookmatchResult](t, "/v1/bookmatch", `{"billet": {"width": "200 mm", "rings": {"pith": {"y": "60 mm", "z": "20 mm"}}},
		"stack": {"leaves": 2, "sawn_thickness": "4 mm"}, "saw": {"kerf": "2 mm", "cleanup_show": "0 mm"}, "openings": ["wrong_way"]}`)
	l := a.Result.Pairs[0].Openings[0].Largest
	require.NotNil(t, l)
	assert.InDelta(t, math.Sqrt(300), l.Shift.Value, 5e-4)
	assert.InDelta(t, 60, l.Y.Value, 1e-9)
	assert.InDelta(t, 2*math.Sqrt(300), l.Unpaired.Value, 5e-4)
	assert.InDelta(t, 60-math.Sqrt(3300), math.Abs(a.Result.Pairs[0].Openings[0].Seams[0].AtEdge.Value), 5e-4)
	assert.Contains(t, fmt.Sprint(a.Warnings), "over 1 mm more than at the edges")
}

// What is taken for members that were left out is told.
func TestMatchTellsItsDefaults(t *testing.T) {
	told := func(rings, rest string) string {
		return fmt.Sprint(asking.AnswerTo[cut.BookmatchResult](t, "/v1/bookmatch", `{"billet": {"width": "200 mm", "rings": {`+rings+`}},
			"stack": {"leaves": 2, "sawn_thickness": "4 mm"}, "saw": {"kerf": "2 mm", "cleanup_show": "0 mm"}`+rest+`}`).Warnings)
	}
	left := told(`"pith": {"z": "90 mm"}`, "")
	assert.Contains(t, left, "rings.pith.y is not given")
	assert.Contains(t, left, "10 mm of width and as much of length may be given up")
	given := told(`"pith": {"y": "9 mm", "z": "90 mm"}`, `, "spare": {"width": "5 mm", "length": "9 mm"}`)
	assert.NotContains(t, given, "not given")
	assert.NotContains(t, given, "given up")
	assert.Contains(t, told(`"pith": {"z": "90 mm"}`, `, "spare": {"width": "5 mm"}`), "10 mm of length may be given up")
	two := `"readings": [{"y": "0 mm", "angle_deg": 60}, {"y": "180 mm", "angle_deg": 80}]`
	assert.Contains(t, told(two, ""), "pith_side is not given")
	assert.NotContains(t, told(two+`, "pith_side": "face_1"`, ""), "pith_side is not given")
}

// A yield says what it does not count and a plan does.
func TestYieldSaysWhatItLeavesOut(t *testing.T) {
	told := func(billet string) string {
		return fmt.Sprint(asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "220 mm", "thickness": "60 mm"`+billet+`},
			"saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "210 mm", "sawn_thickness": "4.5 mm"}}`).Warnings)
	}
	assert.Contains(t, told(`, "cup": "3 mm", "zones": [{"kind": "knot", "x_from": "9 mm", "x_to": "20 mm", "y_from": "0 mm", "y_to": "9 mm"}]`),
		"without zones, cup; /v1/resaw-plan counts these")
	assert.NotContains(t, told(""), "/v1/resaw-plan")
}
