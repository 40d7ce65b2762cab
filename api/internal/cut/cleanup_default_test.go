package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

// allowancesOf are the lines of a leaf by their names, in millimetres.
func allowancesOf(l shelf.LeafBuild) map[string]float64 {
	lost := map[string]float64{}
	for _, p := range l.Terms {
		lost[p.Kind] = p.Thickness.Value
	}
	return lost
}

// defaultsTold are the details of the warnings of defaults for an input.
func defaultsTold(warnings []method.Warning, input string) []string {
	var all []string
	for _, w := range warnings {
		if w.Code == "default_used" && w.Input == "/"+input && strings.Contains(w.Detail, "stand in") {
			all = append(all, w.Detail)
		}
	}
	return all
}

const standInsAre = "usual allowances stand in for those not given: "

// The clean-up of the back is that of the show face where it has none of its own,
// also of what is split; what is given is not told as a default.
func TestCleanupOfTheBackIsThatOfTheShowFace(t *testing.T) {
	for _, one := range []struct {
		saw        string
		show, back float64
		told       string
	}{
		{`"kerf": "1 mm", "cleanup_show": "0.3 mm", "wander": "0.4 mm"`, 0.3, 0.3, ""},
		{`"kerf": "1 mm", "cleanup_show": "0.3 mm"`, 0.3, 0.3, "0.5 mm wander"},
		{`"kerf": "1 mm", "cleanup_back": "0.2 mm", "wander": "0.4 mm"`, 0.8, 0.2, "0.8 mm clean-up of the show face"},
		{`"kerf": "1 mm", "wander": "0.4 mm"`, 0.8, 0.8, "0.8 mm clean-up a face"},
		{`"kerf": "1 mm"`, 0.8, 0.8, "0.8 mm clean-up a face, 0.5 mm wander"},
		{`"usual_kerf": "froe", "cleanup_show": "2 mm", "wander": "0 mm"`, 2, 2, ""},
		{`"usual_kerf": "froe", "wander": "0 mm"`, 4.5, 4.5, "4.5 mm clean-up a face"},
	} {
		a := planOf(t, planBody(asking.OkPlanBillet, one.saw, asking.OkPlanPart, ""))
		lost := allowancesOf(a.Result.Parts[0].Leaf)
		assert.InDelta(t, one.show, lost["cleanup_show"], 1e-9, one.saw)
		assert.InDelta(t, one.back, lost["cleanup_back"], 1e-9, one.saw)
		told := defaultsTold(a.Warnings, "saws/0")
		if one.told == "" {
			assert.Empty(t, told, one.saw)
			continue
		}
		assert.Equal(t, []string{standInsAre + one.told + "; defaults_used has their sources"}, told, one.saw)
	}
	froe := toldOf(t, planBody(asking.OkPlanBillet, `"usual_kerf": "froe", "cleanup_show": "2 mm", "wander": "0 mm"`, asking.OkPlanPart, ""))
	assert.NotContains(t, froe, "4.5 mm")
}

// Of several saws the warning says which.
func TestDefaultsAreToldOfTheirSaw(t *testing.T) {
	a := planOf(t, planBody(asking.OkPlanBillet, `"id": "a", "kerf": "1 mm", "cleanup_show": "0.3 mm", "wander": "0.4 mm"}, {"id": "b", "kerf": "2 mm", "wander": "0.4 mm"`, asking.OkPlanPart, ""))
	assert.Empty(t, defaultsTold(a.Warnings, "saws/0"))
	assert.Equal(t, []string{standInsAre + "0.8 mm clean-up a face; defaults_used has their sources"}, defaultsTold(a.Warnings, "saws/1"))
}

func TestCleanupOfAYieldIsThatOfTheShowFace(t *testing.T) {
	yieldOf := func(saw, part string) serve.Answer[shelf.LeafYieldResult] {
		return asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "220 mm", "thickness": "60 mm"}, "saw": {"kerf": "1.5 mm", `+saw+`},
			"part": {"length": "560 mm", "width": "210 mm", "final_thickness": "2.5 mm", `+part+`}}`)
	}
	a := yieldOf(`"cleanup_show": "0.3 mm"`, `"flattening": "0 mm"`)
	assert.InDelta(t, 0.3, allowancesOf(a.Result.Leaf)["cleanup_back"], 1e-9)
	assert.Equal(t, []string{standInsAre + "0.5 mm wander; defaults_used has their sources"}, defaultsTold(a.Warnings, "saw"))
	require.NotEmpty(t, a.Result.StandIns)
	for _, s := range a.Result.StandIns {
		assert.NotContains(t, s.Name, "clean-up")
	}
}
