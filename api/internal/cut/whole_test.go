package cut_test

import (
	"reflect"
	"strings"
	"testing"

	json "github.com/go-json-experiment/json"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// A billet, a saw and a part that say all that can be said of them.
const (
	wholeBillet = `{"id": "W1", "name": "the plank behind the door", "wood": "black walnut", "length": "1905 mm", "width": "360 mm", "thickness": "62 mm",
		"end_width": "350 mm", "end_thickness": "60 mm", "far_thickness": "55 mm", "trim": {"usual": "sealed_fresh", "end": "40 mm", "near": "5 mm", "far": "8 mm"},
		"facing_face_1": "1 mm", "facing_face_2": "1.5 mm", "cup": "1.5 mm", "bow": "2 mm", "twist": "1 mm", "twist_packed": true,
		"rings": {"pith": {"y": "395 mm", "z": "25 mm"}, "angle_sd_deg": 2, "ring_width": "2 mm"}, "grain": {"runout_one_in": 40, "dip_one_in": 60, "flame_lean_deg": 10},
		"edges_in_tree": {"near": "bark", "far": "pith"},
		"zones": [{"kind": "check", "x_from": "0 mm", "x_to": "140 mm", "y_from": "228 mm", "y_to": "236 mm", "z_from": "0 mm", "z_to": "30 mm"}],
		"end_seal": "sealed_fresh", "condition": {"mc_pct": 14, "mc_sd_points": 1}, "start_condition": {"mc_pct": 60}, "stacked_on": "2025-03-01", "note": "bought in spring"}`
	wholeSaw = `{"id": "band", "name": "thin band", "kerf": "0.9 mm", "usual_kerf": "bandsaw_thin", "rip_kerf": "3.2 mm", "crosscut_kerf": "3 mm", "wander": "0.8 mm",
		"cleanup_show": "0.8 mm", "cleanup_back": "0.5 mm", "reface": "0.2 mm", "face_2_rough": true, "max_cut_height": "305 mm"}`
	wholePart = `{"id": "back", "name": "back of a small guitar", "part_size": "steel-string-dreadnought-back", "wood": "black walnut", "billets": ["W1"], "length": "500 mm", "final_thickness": "2.5 mm", "thin_edge": "2 mm", "width": "190 mm",
		"flattening": "0.4 mm", "pieces_per_set": 2, "match": "bookmatch", "min_ring_angle_deg": 10, "max_runout_one_in": 12, "min_sets": 1, "max_sets": 5, "set_value": 100,
		"final_condition": {"mc_pct": 8}, "shrinkage_ring_angle_deg": 80}`
)

// saysAll requires that an object holds every member of its type but for those named.
func saysAll[T any](t *testing.T, text string, but ...string) {
	t.Helper()
	var members map[string]any
	require.NoError(t, json.Unmarshal([]byte(text), &members))
	of := reflect.TypeFor[T]()
	for i := range of.NumField() {
		name := wire.MemberName(of.Field(i))
		if name != "" && !assert.ObjectsAreEqual(but, []string{name}) {
			assert.Contains(t, members, name, of.Name())
		}
	}
}

// What is kept of a billet, a saw and a part is taken whole by every route, and what has
// no bearing is named once.
func TestOneBilletIsTakenWhole(t *testing.T) {
	saysAll[shelf.Billet](t, wholeBillet)
	saysAll[shelf.Saw](t, wholeSaw)
	saysAll[shelf.Part](t, wholePart, "sawn_thickness")
	part := strings.Replace(wholePart, `"width": "190 mm",`, "", 1) // else all sizes of the table were replaced
	for path, c := range map[string]struct {
		body      string
		has, lack []string
	}{
		"/v1/leaf-yield": {`{"billet": ` + wholeBillet + `, "saw": ` + wholeSaw + `, "part": ` + part + `}`,
			[]string{"billet.cup", "billet.zones", "billet.end_seal", "part.set_value"}, []string{"billet.trim", "saw.kerf", "billet.condition", "billet.note"}},
		"/v1/resaw-plan": {`{"billets": [` + wholeBillet + `], "saws": [` + wholeSaw + `], "parts": [` + part + `]}`,
			[]string{"billets.rings.ring_width", "billets.edges_in_tree", "billets.grain.dip_one_in"}, []string{"billets.zones", "billets.condition", "billets.rings.pith", "set_value", "saws"}},
		"/v1/bookmatch": {`{"billet": ` + wholeBillet + `, "saw": ` + wholeSaw + `, "stack": {"leaves": 4, "sawn_thickness": "4.5 mm"}}`,
			[]string{"billet.length", "billet.zones", "saw.wander"}, []string{"billet.rings", "billet.grain", "saw.reface", "saw.cleanup_back"}},
	} {
		a := asking.AnswerTo[any](t, path, c.body)
		told := map[string]string{}
		for _, w := range a.Warnings {
			if w.Code == "not_used" {
				name, is := strings.CutSuffix(w.Detail, " has no bearing on this answer")
				assert.True(t, is, w.Detail)
				assert.NotContains(t, told, name)
				told[name] = w.Input
				assert.True(t, strings.HasSuffix(name, w.Input[strings.LastIndexByte(w.Input, '/')+1:]), "%s is told at %s", name, w.Input)
			}
		}
		for _, name := range c.has {
			assert.Contains(t, told, name, path)
		}
		for _, name := range c.lack {
			assert.NotContains(t, told, name, path)
		}
	}
}

// Nothing is named where nothing is idle.
func TestNothingIdleIsToldOfAPlainQuestion(t *testing.T) {
	for path, body := range map[string]string{
		"/v1/leaf-yield": `{"billet": {"id": "a", "name": "b", "note": "c", "length": "600 mm", "width": "220 mm", "thickness": "60 mm"}, "saw": {"kerf": "1.5 mm"}, "part": {` + asking.OkPlanPart + `}}`,
		"/v1/resaw-plan": planBody(asking.OkPlanBillet, asking.OkPlanSaw, asking.OkPlanPart, ""),
		"/v1/bookmatch":  pairAsked("1 mm", "0 mm", angled(60), ""),
	} {
		for _, w := range asking.AnswerTo[any](t, path, body).Warnings {
			assert.NotEqualValues(t, "not_used", w.Code, w.Detail)
		}
	}
}

// A yield takes the kerf of the table, the trim of the table and a part of the table, as a
// plan does.
func TestAYieldUsesTheTables(t *testing.T) {
	ask := func(billet, saw, part string) shelf.LeafYieldResult {
		return asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {"length": "1200 mm", "width": "440 mm", "thickness": "60 mm"`+billet+`}, "saw": {`+saw+`}, "part": {`+part+`}}`).Result
	}
	const sizes = `"length": "535 mm", "width": "210 mm", "final_thickness": "2.5 mm"`
	assert.Equal(t, ask("", `"kerf": "0.9 mm"`, sizes).Leaves, ask("", `"usual_kerf": "bandsaw_thin"`, sizes).Leaves)
	trimmed := ask(`, "trim": {"usual": "sealed_late"}`, `"kerf": "0.9 mm"`, sizes)
	assert.Equal(t, 1, trimmed.Rows, "75 mm at each end")
	assert.Equal(t, 2, ask(`, "trim": {"start": "10 mm", "end": "10 mm"}`, `"kerf": "0.9 mm"`, sizes).Rows)
	table := ask("", `"kerf": "0.9 mm"`, `"part_size": "violin-ribs"`)
	assert.Positive(t, table.Sets)
	names := ""
	for _, d := range table.StandIns {
		names += d.Name + "; "
	}
	assert.Contains(t, names, "violin ribs, length; violin ribs, width; violin ribs, thickness")
}

// A billet that is thicker at its far edge is the same wood turned round: the columns are
// counted from the near edge, and the far one is the thick one.
func TestAWedgeMayBeThickerAtItsFarEdge(t *testing.T) {
	ask := func(thickness string) shelf.LeafYieldResult {
		return asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {"length": "560 mm", "width": "430 mm", `+thickness+`}, "saw": {"kerf": "1.5 mm"},
			"part": {"length": "560 mm", "width": "210 mm", "sawn_thickness": "4.5 mm"}}`).Result
	}
	near, far := ask(`"thickness": "60 mm", "far_thickness": "20 mm"`), ask(`"thickness": "20 mm", "far_thickness": "60 mm"`)
	require.Len(t, near.Stacks, 2)
	require.Len(t, far.Stacks, 2)
	assert.Equal(t, near.Leaves, far.Leaves)
	assert.Equal(t, near.Stacks[0].Leaves, far.Stacks[1].Leaves)
	assert.Equal(t, 1, far.Stacks[0].Column)
	assert.Less(t, far.Stacks[0].Thickness.Value, far.Stacks[1].Thickness.Value)
	assert.Equal(t, near.OneMoreLeaf, far.OneMoreLeaf, "of the thickest stack")
}

// A plan keeps its parts between the trims of the edges, also of a billet that narrows.
func TestAPlanKeepsOffTheTrimsOfTheEdges(t *testing.T) {
	for end, most := range map[string]float64{"": 300 - 25, `, "end_width": "280 mm"`: 280 - 25} {
		body := onePartPlan(`"length": "700 mm", "width": "300 mm", "thickness": "40 mm", "trim": {"near": "20 mm", "far": "25 mm"}`+end, "1 mm", "600 mm", "100 mm", "4 mm", "")
		r := planOf(t, body).Result
		require.Len(t, r.Billets[0].Blanks, 2)
		for _, b := range r.Billets[0].Blanks {
			assert.GreaterOrEqual(t, b.Y.Value, 20.0)
			assert.LessOrEqual(t, b.Y.Value+b.Width.Value, most+1e-9)
			for _, l := range b.Leaves {
				assert.NotEqual(t, "rejected", l.Role)
			}
		}
	}
}

// The rings of a billet mean the same in a plan and in a match: one reading is one angle,
// and so are two that agree.
func TestOneReadingIsOneRingAngle(t *testing.T) {
	var first string
	for _, rings := range []string{
		`"angle_deg": 70`, `"readings": [{"y": "30 mm", "angle_deg": 70}]`,
		`"readings": [{"y": "30 mm", "angle_deg": 70}, {"y": "130 mm", "angle_deg": 70}]`,
	} {
		r := planOf(t, planBody(asking.OkPlanBillet+`, "rings": {`+rings+`}`, asking.OkPlanSaw, asking.OkPlanPart+`, "min_ring_angle_deg": 60`, "")).Result
		text, err := json.Marshal(r.Matches)
		require.NoError(t, err)
		require.NotEmpty(t, r.Matches)
		if first == "" {
			first = string(text)
		}
		assert.Equal(t, first, string(text), rings)
	}
}

// A part may be told as it is sawn: the plan adds nothing to it, in thickness.
func TestAPlanOfPartsAsSawn(t *testing.T) {
	r := planOf(t, planBody(asking.OkPlanBillet+`, "rings": {"angle_deg": 80}`, asking.OkPlanSaw, `"length": "560 mm", "width": "210 mm", "sawn_thickness": "1.2 mm"`, "")).Result
	assert.InDelta(t, 1.2, r.Parts[0].Leaf.Thickness.Value, 1e-12)
	assert.Empty(t, r.Parts[0].Leaf.Terms)
	leaf := r.Billets[0].Blanks[0].Leaves[0]
	assert.InDelta(t, 1.2, leaf.ZTo.Value-leaf.ZFrom.Value, 1e-9)
	require.NotEmpty(t, r.Matches, "thinner than what the clean-up would take, which is not counted")
	assert.InDelta(t, 1.5, r.Matches[0].Distance.Value, 1e-9)
}

// What was given no id is called by its position, and names come back as they were.
func TestPlansCallThingsByTheirIDs(t *testing.T) {
	r := planOf(t, `{"billets": [{`+asking.OkPlanBillet+`}, {"id": "plank-2", "name": "the other plank", `+asking.OkPlanBillet+`}],
		"saws": [{"kerf": "3 mm"}, {"id": "fine", "name": "fine band", "kerf": "0.8 mm"}], "parts": [{"name": "back, left and right", `+asking.OkPlanPart+`}]}`).Result
	assert.Equal(t, []string{"1", "plank-2", "", "the other plank"}, []string{r.Billets[0].ID, r.Billets[1].ID, r.Billets[0].Name, r.Billets[1].Name})
	assert.Equal(t, "fine", r.Saw)
	assert.Equal(t, []string{"1", "fine", "fine band"}, []string{r.Saws[0].ID, r.Saws[1].ID, r.Saws[1].Name})
	assert.Equal(t, []string{"1", "back, left and right"}, []string{r.Parts[0].ID, r.Parts[0].Name})
	assert.Contains(t, r.Summary, "of back, left and right")
	assert.Equal(t, "1", r.Billets[0].Blanks[0].Leaves[0].Part)
}

// A saw that does not clear a part is told in a yield.
func TestAYieldTellsOfASawThatIsTooLow(t *testing.T) {
	told := func(height string) string {
		all := ""
		for _, w := range asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {`+asking.OkPlanBillet+`}, "saw": {"kerf": "1.5 mm", "max_cut_height": "`+height+`"}, "part": {`+asking.OkPlanPart+`}}`).Warnings {
			if w.Input == "/saw/max_cut_height" {
				all += w.Detail
			}
		}
		return all
	}
	assert.Contains(t, told("150 mm"), "more than the 150 mm that this saw resaws")
	assert.Empty(t, told("250 mm"))
}
