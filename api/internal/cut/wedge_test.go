package cut_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// carvedTop is a wedge for a violin top of the table, 22 mm thick at the seam and 9 mm at the
// other edge.
const carvedTop = `{"billets": [{"wood": "spruce-norway", "length": "420 mm", "width": "150 mm", "thickness": "58 mm", "far_thickness": "22 mm", "rings": {"angle_deg": 88}}],
	"parts": [{"part_size": "violin-top", "id": "top"}], "saws": [{"usual_kerf": "bandsaw_thin"}]}`

// What is told of a carved part of the table is what the plan does: halves of a wedge meet the
// thin edge of the table, those of a parallel billet are parallel, and a count of leaves is too.
func TestCarvedPartsAreToldAsTheyArePlanned(t *testing.T) {
	parallel := strings.Replace(carvedTop, `"far_thickness": "22 mm", `, "", 1)
	for _, row := range []struct{ body, says, not string }{
		{carvedTop, "that thick at one edge, and at least 9 mm at the other", "parallel"},
		{parallel, "22 mm, as a parallel piece; two halves split", "at least"},
	} {
		told, many := "", 0
		for _, w := range planOf(t, row.body).Warnings {
			if w.Input == "/parts/0/final_thickness" {
				told, many = w.Detail, many+1
			}
		}
		assert.Equal(t, 1, many, row.says)
		assert.Contains(t, told, row.says)
		assert.NotContains(t, told, row.not)
	}
	type counted map[string]any
	yield := asking.AnswerTo[counted](t, "/v1/leaf-yield", `{"billet": {"length": "420 mm", "width": "150 mm", "thickness": "58 mm"},
		"part": {"part_size": "violin-top"}, "saw": {"kerf": "1 mm"}}`)
	assert.Contains(t, fmt.Sprint(yield.Warnings), "as a parallel piece")
}

// A wedge gives a pair of carved halves: it tells the line to saw along, both thicknesses of
// each half, and the thick edge as the seam.
func TestWedgeGivesACarvedPair(t *testing.T) {
	for _, far := range []bool{false, true} {
		body, edge := carvedTop, "near"
		if far {
			body = strings.NewReplacer(`"thickness": "58 mm"`, `"thickness": "22 mm"`, `"far_thickness": "22 mm"`, `"far_thickness": "58 mm"`).Replace(body)
			edge = "far"
		}
		a := planOf(t, body)
		require.Equal(t, 1, a.Result.Parts[0].Sets, a.Result.Summary)
		b := a.Result.Billets[0]
		require.Len(t, b.Blanks, 1)
		k := b.Blanks[0]
		require.NotNil(t, k.FarUsable)
		require.Len(t, k.Leaves, 2)
		for _, l := range k.Leaves {
			thick, thin := l.ZTo.Value-l.ZFrom.Value, l.FarTo.Value-l.FarFrom.Value
			if far {
				thick, thin = thin, thick
			}
			assert.GreaterOrEqual(t, thick, 22.0)
			assert.GreaterOrEqual(t, thin, 9.0)
			assert.Less(t, thin, thick)
		}
		found := false
		for _, s := range b.Steps {
			if s.Action == "resaw" {
				found = true
				require.NotNil(t, s.FarSetting)
				assert.InDelta(t, k.Leaves[0].ZTo.Value, s.Setting.Value, 1e-6)
				assert.InDelta(t, k.Leaves[0].FarTo.Value, s.FarSetting.Value, 1e-6)
				assert.Contains(t, s.Detail, "along the middle of both edges")
			}
		}
		assert.True(t, found)
		labels := ""
		for _, page := range asking.Printed(t, inForm(t, "labels", body)) {
			labels += strings.Join(page.Words, "\n") + "\n"
		}
		assert.Equal(t, 2, strings.Count(labels, fmt.Sprintf("seam: %s edge", edge)))
		for _, form := range []string{"svg", "template", "pdf", "template_pdf", "dxf", "csv"} {
			assert.NotEmpty(t, inForm(t, form, body))
		}
	}
}

// A wedge that is too thin for both halves says what they take, and what there is.
func TestWedgeTooThinForACarvedPair(t *testing.T) {
	body := strings.Replace(carvedTop, `"58 mm"`, `"48 mm"`, 1)
	a := planOf(t, body)
	assert.Zero(t, a.Result.Parts[0].Sets)
	said := ""
	for _, w := range a.Warnings {
		said += w.Detail + "\n"
	}
	assert.Contains(t, said, "of thickness with its cuts, and no billet has more than 46 mm left")
}
