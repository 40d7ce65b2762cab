package cut_test

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
)

func demoPlank(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/demo/plank/walnut-plank.json")
	require.NoError(t, err)
	return string(text)
}

func planOf(t testing.TB, body string) serve.Answer[cut.ResawPlanResult] {
	t.Helper()
	return asking.AnswerTo[cut.ResawPlanResult](t, "/v1/resaw-plan", body)
}

// onePartPlan is a plan of one part whose leaf is sawn as thick as given, with
// nothing lost to anything else.
func onePartPlan(billet, kerf, length, width, leaf, rest string) string {
	return `{"billets": [{` + billet + `, "facing_face_1": "1 mm", "facing_face_2": "1 mm"}], "saws": [{"kerf": "` + kerf + `", "wander": "0 mm", "cleanup_show": "0 mm", "cleanup_back": "0 mm"}],
		"parts": [{"id": "top", "length": "` + length + `", "width": "` + width + `", "final_thickness": "` + leaf + `", "flattening": "0 mm"` + rest + `}]}`
}

// The plank of the demo: what README tells of it.
func TestDemoPlank(t *testing.T) {
	a := planOf(t, demoPlank(t))
	r := a.Result
	assert.Regexp(t, "^9 sets of back; 5 sets of sides; 6 sets of headplate; 4 sets of bindings; worth 2102; not proven: other cuts may give more", r.Summary)
	assert.Equal(t, int64(9*160+5*110+6*12+4*10), r.Proof.Worth)
	assert.Equal(t, "thin-band", r.Saw)
	require.Len(t, r.Matches, 14)
	for i, m := range r.Matches {
		assert.Equal(t, i+1, m.Rank)
		// d = kerf + two clean-ups of a show face: 0.9 + 2 x 0.8 mm.
		assert.InDelta(t, 2.5, m.Distance.Value, 1e-9)
		assert.GreaterOrEqual(t, m.AngleDeg, 60.0)
		if i > 0 {
			assert.GreaterOrEqual(t, m.Score, r.Matches[i-1].Score)
		}
	}
	require.NotNil(t, r.Chance)
	assert.Equal(t, 6, r.Chance.Parts[0].Safe, "nine backs are planned; six can be counted on")
	// Black walnut, basic specific gravity 0.51, volumetric shrinkage 12.8 %, FSP 30:
	// 510 x 1.09/(1 - 0.128 x 0.7) kg/m3 over 1.905 x 0.36 x 0.051 m3.
	require.NotNil(t, r.Mass)
	assert.InDelta(t, 510*1.09/(1-0.128*0.7)*1.905*0.36*0.051, r.Mass.Value, 0.01)
	assert.InDelta(t, 1.905*0.36*0.051/0.002359737216, r.Volume.BoardFeet, 0.0005)
	spread := r.Mass.High/r.Mass.Value - 1
	step := (r.Mass.High - r.Mass.Low) / 100 / r.Mass.Value // to which both are rounded
	assert.Greater(t, spread, 1.6448*0.10-step)
	assert.Less(t, spread, 1.6448*0.102+step)
	b := r.Billets[0]
	assert.InDelta(t, 100, b.Shares.Leaf+b.Shares.Kerf+b.Shares.Shavings+b.Shares.Remainder, 0.0201,
		"each is rounded to a hundredth")
	assert.Equal(t, len(b.Steps), b.Cuts+len(b.Blanks), "every step is a cut or flattens a blank")
}

// Steps name every leaf once, in an order that a bench can follow: no piece is
// cut before it is made, and none twice.
func TestPlanStepsMakeEveryLeafOnce(t *testing.T) {
	slabs := 0
	for name, body := range map[string]string{"demo": demoPlank(t), "slab": slabbed,
		"order": asking.ExampleText(t, "resaw-plan.two-billets-and-an-order.json"),
		"zone": strings.Replace(demoPlank(t), `"z_from": "20 mm", "z_to": "44 mm"`,
			`"z_from": "2 mm", "z_to": "9 mm"`, 1)} {
		for _, b := range planOf(t, body).Result.Billets {
			made, done, named := map[int]bool{0: true}, map[int]bool{}, map[string]int{}
			for i, s := range b.Steps {
				assert.Equal(t, i+1, s.Number)
				assert.True(t, made[s.Piece], "%s: step %d works on piece %d before it is made", name, s.Number,
					s.Piece)
				assert.False(t, done[s.Piece], "%s: piece %d is cut twice", name, s.Piece)
				done[s.Piece] = true
				for _, w := range []*cut.PlanWood{s.Low, s.High} {
					if w != nil {
						made[w.Piece] = true
						named[w.Name]++
						assert.Contains(t, s.Detail, w.Name)
					}
				}
			}
			for _, k := range b.Blanks {
				for _, l := range k.Leaves {
					kind := "leaf "
					if l.Role == "rejected" {
						kind = "slab "
						slabs++
					}
					assert.Equal(t, 1, named[fmt.Sprintf("%s%s%d", kind, k.ID, l.Number)], "%s: %s%d", name,
						k.ID, l.Number)
					assert.Equal(t, l.Role != "set", len(l.GoodFor) > 0)
				}
			}
		}
	}
	assert.Positive(t, slabs)
}

// The published yields that the count for one part is held to hold for a plan
// of one part too: testdata/published/resaw_problems.csv, Y01, Y02 and others.
func TestPlanOfOnePartIsTheCount(t *testing.T) {
	for _, row := range []struct {
		billet, kerf, leaf string
		leaves             int
		short, kerfAtMost  float64 // of one more leaf
	}{
		{`"length": "560 mm", "width": "210 mm", "thickness": "60 mm"`, "1.5 mm", "4.5 mm", 9, 0.5, (58 - 45) / 9.0},
		{`"length": "560 mm", "width": "210 mm", "thickness": "60.5 mm"`, "1.5 mm", "4.5 mm", 10, 6, 9.0 / 10},
	} {
		r := planOf(t, onePartPlan(row.billet, row.kerf, "560 mm", "210 mm", row.leaf, `, "pieces_per_set": 1`)).Result
		require.Len(t, r.Billets[0].Blanks, 1)
		k := r.Billets[0].Blanks[0]
		assert.Len(t, k.Leaves, row.leaves)
		require.NotNil(t, k.OneMore)
		assert.InDelta(t, row.short, k.OneMore.ShortBy.Value, 1e-9)
		require.NotNil(t, k.OneMore.MaxKerf)
		assert.InDelta(t, math.Floor(1e3*row.kerfAtMost+1e-9)/1e3, k.OneMore.MaxKerf.Value, 1e-9, "rounded down")
		y := asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield",
			`{"billet": {`+row.billet+`}, "saw": {"kerf": "`+row.kerf+`"}, "part": {"length": "560 mm", "width": "210 mm", "sawn_thickness": "`+row.leaf+`"}}`).Result
		assert.Equal(t, y.Leaves, len(k.Leaves))
		assert.InDelta(t, y.OneMoreLeaf.ShortBy.Value, k.OneMore.ShortBy.Value, 1e-9)
	}
}

// The small integer programs of testdata/planner, solved by a general-purpose
// solver, asked over HTTP a centimetre for every unit.
func TestPlansAgainstIntegerPrograms(t *testing.T) {
	text, err := os.ReadFile("../../../testdata/planner/instances.json")
	require.NoError(t, err)
	var all []map[string]any
	require.NoError(t, json.Unmarshal(text, &all))
	asked := 0
	for n := 0; n < len(all); n += 5 {
		in := all[n]
		body := programBody(t, in)
		r := asking.Posting("/v1/resaw-plan", body).Of(t, asking.SharedService())
		if r.Code == http.StatusUnprocessableEntity { // a part or a kerf larger than every billet, or nothing left of it
			assert.Regexp(t, "than every billet|leave nothing|leaves nothing|lies outside|at least 5 mm",
				r.Body.String())
			continue
		}
		require.Equal(t, http.StatusOK, r.Code, "%v: %s", in["id"], r.Body.String())
		p := asking.Decoded[serve.Answer[cut.ResawPlanResult]](t, r.Body.Bytes()).Result.Proof
		short, worth := in["short"], in["worth"]
		require.LessOrEqual(t, float64(p.Missing), short, "%v", in["id"])
		if float64(p.Missing) == short { // the programs know crosscuts, rips and trims in that order only
			assert.GreaterOrEqual(t, float64(p.Worth), worth, "%v", in["id"])
		}
		asked++
	}
	assert.Greater(t, asked, 50)
	t.Logf("%d of %d programs", asked, len(all)/5)
}

// programBody writes an instance as a request.
func programBody(t testing.TB, in map[string]any) string {
	t.Helper()
	cm := func(v any) string {
		n, is := v.(float64)
		require.True(t, is)
		return fmt.Sprintf("%g cm", n)
	}
	rename := func(from map[string]any, to map[string]any, names ...string) {
		for i := 0; i < len(names); i += 2 {
			if v, has := from[names[i]]; has && v != nil {
				to[names[i+1]] = cm(v)
			}
		}
	}
	object := func(v any) map[string]any {
		m, is := v.(map[string]any)
		require.True(t, is)
		return m
	}
	list := func(v any) []any {
		l, _ := v.([]any)
		return l
	}
	saw := object(in["saw"])
	s := map[string]any{"wander": "0 mm", "cleanup_show": "0 mm", "cleanup_back": "0 mm",
		"face_2_rough": saw["far"] == false}
	rename(saw, s, "resaw", "kerf", "rip", "rip_kerf", "cross", "crosscut_kerf", "reface", "reface")
	body := map[string]any{"saws": []any{s}, "billets": []any{}, "parts": []any{}}
	var billets, parts []any
	for _, one := range list(in["billets"]) {
		b := object(one)
		out := map[string]any{}
		rename(b, out, "length", "length", "width", "width", "thickness", "thickness", "face1", "facing_face_1",
			"far_face", "facing_face_2",
			"cup", "cup", "bow", "bow", "twist", "twist", "width_end", "end_width", "thickness_end", "end_thickness",
			"thickness_far_edge", "far_thickness")
		trim := map[string]any{}
		rename(b, trim, "trim0", "start", "trim1", "end")
		out["trim"] = trim
		var zones []any
		for _, z := range list(b["zones"]) {
			zone := map[string]any{"kind": "knot"}
			rename(object(z), zone, "x0", "x_from", "x1", "x_to", "y0", "y_from", "y1", "y_to", "z0", "z_from", "z1",
				"z_to")
			zones = append(zones, zone)
		}
		if zones != nil {
			out["zones"] = zones
		}
		if pith, has := b["pith"]; has {
			at := map[string]any{}
			rename(object(pith), at, "x", "y", "z", "z")
			out["rings"] = map[string]any{"pith": at}
		} else if angle, has := b["ring_angle"]; has {
			out["rings"] = map[string]any{"angle_deg": angle}
		}
		if runout, has := b["runout"]; has {
			out["grain"] = map[string]any{"runout_one_in": runout}
		}
		billets = append(billets, out)
	}
	for i, one := range list(in["parts"]) {
		p := object(one)
		out := map[string]any{"id": fmt.Sprint("part-", i), "flattening": "0 mm", "match": "none",
			"pieces_per_set": p["pieces"], "set_value": p["worth"], "min_sets": p["least"]}
		rename(p, out, "length", "length", "width", "width", "thickness", "final_thickness")
		if p["ringed"] == true {
			out["min_ring_angle_deg"] = 45
		}
		if runout, is := p["runout"].(float64); is && runout > 0 {
			out["max_runout_one_in"] = runout
		}
		if most, has := p["most"]; has && most != nil {
			out["max_sets"] = most
		}
		parts = append(parts, out)
	}
	body["billets"], body["parts"] = billets, parts
	text, err := json.Marshal(body)
	require.NoError(t, err)
	return string(text)
}

// Two leaves that may each hide a fault: the pair is had with (1 - q) squared;
// with a kerf as likely over as under, an exact fit is had half of the time.
func TestChanceOfAPlan(t *testing.T) {
	const billet = `"length": "560 mm", "width": "210 mm", "thickness": "12.5 mm"` // 2 x 4.5 + 1.5 + 2
	ask := func(chance string) *cut.SetProbabilities {
		body := strings.TrimSuffix(onePartPlan(billet, "1.5 mm", "560 mm", "210 mm", "4.5 mm", ""), "}") +
			`, "variation": {` + chance + `}}`
		return planOf(t, body).Result.Chance
	}
	c := ask(`"hidden_fault_probability": 0.1`)
	require.Len(t, c.Parts[0].AtLeast, 1)
	assert.InDelta(t, 0.81, c.Parts[0].AtLeast[0], 1e-9)
	assert.Equal(t, 0, c.Parts[0].Safe)
	assert.InDelta(t, 0.50, ask(`"kerf_sd": "0.1 mm"`).Parts[0].AtLeast[0], 0.0001)
	assert.InDelta(t, 1, ask(``).Parts[0].AtLeast[0], 1e-9)
	assert.InDelta(t, 0, ask(`"wander_sd": "0.1 mm"`).Parts[0].AtLeast[0], 1e-9, "no wander was allowed for")
}

// The pith found from two ring angles: 45 degrees 60 mm from its plane and
// steeper beyond; tan 45 = 1, so it lies 60 mm deep when 0 lies at x = -60.
func TestPlanFindsThePith(t *testing.T) {
	angle := math.Atan(160.0/60) * 180 / math.Pi
	body := strings.Replace(onePartPlan(`"length": "560 mm", "width": "210 mm", "thickness": "60 mm"`, "1.5 mm",
		"560 mm", "210 mm", "4.5 mm", ""), `"thickness": "60 mm"`,
		fmt.Sprintf(`"thickness": "60 mm", "rings": {"readings": [{"y": "0 mm", "angle_deg": 45}, {"y": "100 mm", "angle_deg": %v}]}`, angle), 1)
	b := planOf(t, body).Result.Billets[0]
	require.NotNil(t, b.Pith)
	assert.InDelta(t, -60, b.Pith.Y.Value, 1e-6)
	assert.InDelta(t, 60, b.Pith.Z.Value, 1e-6)
}

// A leaf sawn wet is sawn thicker and wider: walnut dried from 12 to 8 %, with rings that are not
// known, either way along them, by the coefficient 0.00274 a percent.
func TestPlanAllowsForShrinkage(t *testing.T) {
	body := onePartPlan(`"length": "560 mm", "width": "230 mm", "thickness": "60 mm", "wood": "walnut-black", "condition": {"mc_pct": 12}`,
		"1.5 mm", "560 mm", "210 mm", "4.5 mm", `, "final_condition": {"mc_pct": 8}`)
	y := planOf(t, body).Result.Parts[0]
	assert.InDelta(t, 4.5/(1-4*0.00274), y.Leaf.Thickness.Value, 0.002)
	assert.InDelta(t, 210/(1-4*0.00274), y.Width.Value, 0.05)
}

// tooLarge is a request of that many unlike billets and parts, with limits on
// half of the parts: more than can be proven in the budget.
func tooLarge(billets, parts int, thick string) string {
	var b, p []string
	for i := range billets {
		b = append(b, fmt.Sprintf(`{"length": "%d mm", "width": "%d mm", "thickness": %q, "zones": [{"kind": "knot", "x_from": "%d mm", "x_to": "%d mm", "y_from": "80 mm", "y_to": "120 mm"}]}`, 1500+37*i, 240+7*i%60, thick, 300+11*i, 340+11*i))
	}
	for i := range parts {
		limit := ""
		if i%2 == 0 {
			limit = fmt.Sprintf(`, "min_sets": %d, "max_sets": %d`, i%3, 3+i*2)
		}
		p = append(p, fmt.Sprintf(`{"id": "part-%d", "length": "%d mm", "width": "%d mm", "final_thickness": "%g mm", "set_value": %d%s}`, i, 200+47*i, 70+11*i%150, 2+0.37*float64(i), 20+i*i, limit))
	}
	return `{"billets": [` + strings.Join(b, ",") +
		`], "saws": [{"kerf": "1.5 mm"}, {"kerf": "0.9 mm", "wander": "0.8 mm"}], "parts": [` + strings.Join(p, ",") +
		`]}`
}

// A request of the largest size is answered within the budget of work: with a
// plan, a bound, and the truth about the proof.
func TestLargestPlanEndsInTime(t *testing.T) {
	asking.OneByOne(t)
	for _, body := range []string{tooLarge(50, 20, "70 mm"), tooLarge(1, 20, "400 mm"), tooLarge(20, 12, "55 mm")} {
		start := asking.ProcessorTime()
		r := planOf(t, body).Result
		t.Log("processor time", asking.ProcessorTime()-start, r.Proof)
		assert.Positive(t, r.Proof.Worth)
		assert.GreaterOrEqual(t, r.Proof.Bound, r.Proof.Worth)
		assert.Equal(t, r.Proof.Bound-r.Proof.Worth, r.Proof.Gap)
		assert.LessOrEqual(t, r.Proof.Work, r.Proof.Budget+r.Proof.Budget/10)
		if !r.Proof.Optimal {
			assert.True(t, r.Proof.EndedEarly)
			assert.Contains(t, r.Summary, "not proven")
		}
	}
}

// A small budget is told, and the same request has the same answer.
func TestPlanTellsThatItEndedEarly(t *testing.T) {
	body := strings.TrimSuffix(tooLarge(3, 6, "60 mm"), "}") + `, "max_search_steps": 20000}`
	a, b := planOf(t, body), planOf(t, body)
	assert.Equal(t, a.Result, b.Result)
	assert.True(t, a.Result.Proof.EndedEarly)
	assert.False(t, a.Result.Proof.Optimal)
	told := false
	for _, w := range a.Warnings {
		told = told || strings.Contains(w.Detail, "the work ended before the plan was proven")
	}
	assert.True(t, told)
}
