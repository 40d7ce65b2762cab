package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is missing of the least wanted is named with the reason, whether a part fits
// nowhere, wants more than the wood holds, or has to share it.
func TestPlanTellsWhyWantedSetsAreMissing(t *testing.T) {
	const saw = `"saws": [{"kerf": "1 mm"}]`
	const zone = `"zones": [{"kind": "check", "x_from": "0 mm", "x_to": "1000 mm", "y_from": "120 mm", "y_to": "125 mm"}]`
	part := func(name, length, width, least string) string {
		return `{"name": "` + name + `", "length": "` + length + `", "width": "` + width +
			`", "final_thickness": "2 mm", "match": "none", "pieces_per_set": 1, "set_value": 10, "min_sets": ` + least + `}`
	}
	for _, c := range []struct{ billet, parts, summary, warning string }{
		{`"length": "1000 mm", "width": "250 mm", "thickness": "40 mm", ` + zone,
			part("wide", "990 mm", "180 mm", "2") + `,` + part("small", "200 mm", "50 mm", "0"),
			"2 sets missing (2 of wide)",
			"no billet gives a set of wide: zones, taper, warp or the rings round the pith leave no clear place"},
		// 2 + 1.6 + 0.5 + 0.5 and 1 of kerf: (8 - 2 + 1)/5.6 gives one leaf.
		{`"length": "500 mm", "width": "100 mm", "thickness": "8 mm"`, part("board", "500 mm", "100 mm", "3"),
			"2 sets missing (2 of board)", "2 sets of board are missing: with no other part the wood would give 1 set"},
		{`"length": "500 mm", "width": "100 mm", "thickness": "8 mm"`, part("board", "500 mm", "100 mm", "1") + `,` +
			part("strip", "500 mm", "45 mm", "2"),
			"1 set missing (1 of board)",
			"the parts compete for the same wood, which would give at least 1 set of this one alone"},
	} {
		a := planOf(t, `{"billets": [{`+c.billet+`}], `+saw+`, "parts": [`+c.parts+`]}`)
		assert.Contains(t, a.Result.Summary, c.summary)
		told := 0
		for _, w := range a.Warnings {
			if strings.Contains(w.Detail, c.warning) {
				assert.Equal(t, "/parts/0", w.Input)
				told++
			}
		}
		assert.Equal(t, 1, told, "%s: %+v", c.warning, a.Warnings)
	}
}

// A leaf that is larger than its part is crosscut and ripped to it, by steps of the plan.
func TestPlanPartsLargerLeaves(t *testing.T) {
	body := `{"billets": [{"length": "600 mm", "width": "200 mm", "thickness": "20 mm"}], "saws": [{"kerf": "1 mm"}], "parts": [
		{"id": "board", "length": "600 mm", "width": "200 mm", "final_thickness": "8 mm", "match": "none", "pieces_per_set": 1, "set_value": 100, "max_sets": 1},
		{"id": "slip", "length": "300 mm", "width": "50 mm", "final_thickness": "2 mm", "match": "none", "pieces_per_set": 1, "set_value": 1}]}`
	r := planOf(t, body).Result
	// The leaf behind the board: 1 x 3 of 300 x 50 mm, as 2 x 300 and a kerf are longer than it.
	assert.Equal(t, []int{1, 3}, []int{r.Parts[0].Sets, r.Parts[1].Sets})
	parted := 0
	for _, l := range r.Billets[0].Blanks[0].Leaves {
		for i, p := range l.Pieces {
			parted++
			assert.Equal(t, "slip", l.Part)
			assert.InDelta(t, 300, p.Length.Value, 1e-9)
			assert.InDelta(t, 50, p.Width.Value, 1e-9)
			assert.InDelta(t, 51*float64(i), p.Y.Value, 1e-9)
		}
	}
	assert.Equal(t, 3, parted)
	cuts := map[string]int{}
	for _, s := range r.Billets[0].Steps {
		cuts[s.Action]++
	}
	assert.Equal(t, 1, cuts["crosscut"])
	assert.Equal(t, 3, cuts["rip"])
}
