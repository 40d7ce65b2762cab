package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/wire"
)

// wordsDrawn are all words of a drawing of a plan, joined as they were broken.
func wordsDrawn(t *testing.T, as, body string) string {
	t.Helper()
	var all []string
	asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as="+as, body)).All(func(s *asking.Shape) {
		if s.XMLName.Local == "text" {
			all = append(all, strings.TrimSpace(s.Words))
		}
	})
	return strings.Join(all, " ")
}

const twoBillets = asking.OkPlanBillet + `}, {` + asking.OkPlanBillet

// A billet is left whole because it is not needed, because the plan is as good
// without it, or because nothing fits, and the drawings say which.
func TestDrawingsSayWhyABilletStaysWhole(t *testing.T) {
	for _, row := range []struct{ name, body, says string }{
		{"wanted no more", planBody(twoBillets, asking.OkPlanSaw, asking.OkPlanPart+`, "max_sets": 1`, ""), "not needed; the billet stays whole"},
		{"too small", planBody(asking.OkPlanBillet+`}, {"length": "600 mm", "width": "100 mm", "thickness": "60 mm"`, asking.OkPlanSaw, asking.OkPlanPart, ""), "not cut in this plan; the billet stays whole"},
		{"nothing fits", onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "5 mm"`, "1 mm", "500 mm", "200 mm", "4 mm", ""), "no part fits; the billet stays whole"},
	} {
		t.Run(row.name, func(t *testing.T) {
			drawing := wordsDrawn(t, "svg", row.body)
			assert.Contains(t, drawing, wire.UpperFirst(row.says)+".")
			assert.Equal(t, 1, strings.Count(drawing, "stays whole"))
			template := wordsDrawn(t, "template", row.body) + wordsDrawn(t, "template", strings.TrimSuffix(row.body, "}")+`, "template_billet": `+map[bool]string{true: `"2"`, false: `"1"`}[row.name != "nothing fits"]+`}`)
			assert.Contains(t, template, row.says)
		})
	}
}

// A slab is told as one in the words of a drawing, as it is in the steps.
func TestDrawingsCallASlabASlab(t *testing.T) {
	drawing := wordsDrawn(t, "svg", slabbed)
	assert.Regexp(t, `slabs? \d+( to \d+)?: rejected for a fault or its rings`, drawing)
	assert.NotRegexp(t, `lea(f|ves) \d+( to \d+)?: rejected`, drawing)
}

// How rings are drawn is told where they are drawn, and as they are drawn.
func TestDrawingsSayHowRingsAreDrawn(t *testing.T) {
	const circles, planes = "circles about the pith", "planes"
	pith, angle := `, "rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `, "rings": {"angle_deg": 80}`
	for _, row := range []struct {
		billets string
		says    []string
	}{
		{asking.OkPlanBillet + pith, []string{circles}},
		{asking.OkPlanBillet + angle, []string{planes}},
		{asking.OkPlanBillet, nil},
		{asking.OkPlanBillet + pith + `}, {` + asking.OkPlanBillet + angle, []string{circles, planes}},
	} {
		words := wordsDrawn(t, "svg", planBody(row.billets, asking.OkPlanSaw, asking.OkPlanPart, ""))
		for _, one := range []string{circles, planes} {
			wanted := false
			for _, s := range row.says {
				wanted = wanted || s == one
			}
			assert.Equal(t, wanted, strings.Contains(words, one), "%s: %s", row.billets, one)
		}
		assert.Equal(t, row.says != nil, strings.Contains(words, "Rings are drawn"))
	}
}

// The axis of a view has the digits of the list below it.
func TestAxisHasTheDigitsOfTheList(t *testing.T) {
	body := planBody(`"length": "24 in", "width": "9 in", "thickness": "2 in"`, asking.OkPlanSaw, `"length": "21.125 in", "width": "8 in", "final_thickness": "0.125 in"`, `, "report_in": "inch"`)
	words := " " + wordsDrawn(t, "svg", body) + " "
	assert.Contains(t, words, " 21.125 ")
	assert.NotContains(t, words, "21.12 ")
}
