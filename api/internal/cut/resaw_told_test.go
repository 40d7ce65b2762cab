package cut_test

import (
	"encoding/json"
	"net/http"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/shelf"
)

// toldOf are the warnings of a plan, input and detail, a line each.
func toldOf(t testing.TB, body string) string {
	t.Helper()
	var all []string
	for _, w := range planOf(t, body).Warnings {
		all = append(all, strings.TrimPrefix(w.Input, "/")+": "+w.Detail)
	}
	return strings.Join(all, "\n")
}

func planBody(billet, saw, part, rest string) string {
	return asking.PlanWith(billet, saw, part, rest).Body
}

// What stands in for what is not given is told, and not told where it is given.
func TestPlanTellsItsStandIns(t *testing.T) {
	told := toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, asking.OkPlanPart, ""))
	for _, says := range []string{
		"parts/0: part 1: neither match nor pieces_per_set is given: a set is taken as a bookmatched pair, 2 pieces",
		"parts: 0.5 mm is allowed for flattening each leaf",
		"0.8 mm clean-up a face, 0.5 mm wander",
		"saws/0/max_cut_height: no max_cut_height is given, so this saw is taken to resaw a blank of any width",
	} {
		assert.Contains(t, told, says)
	}
	given := toldOf(t, planBody(asking.OkPlanBillet,
		asking.OkPlanSaw+`, "max_cut_height": "250 mm", "rip_kerf": "3 mm", "crosscut_kerf": "3 mm", "wander": "0 mm", "cleanup_show": "1 mm", "cleanup_back": "1 mm"`, asking.OkPlanPart+`, "match": "bookmatch", "pieces_per_set": 2, "flattening": "0 mm"`, ""))
	for _, says := range []string{"parts", "saws/0: usual", "saws/0/", "flattening", "max_cut_height"} {
		assert.NotContains(t, given, says)
	}
	for part, says := range map[string]string{
		`, "match": "slip_match"`:     "pieces_per_set is not given: a set is taken as 2 pieces",
		`, "match": "none"`:           "pieces_per_set is not given: a set is taken as 1 piece",
		`, "pieces_per_set": 4`:       "match is not given: a set is taken as bookmatched",
		`, "pieces_per_set": 1`:       "a part of one piece",
		`, "id": "rib"`:               "rib: neither match",
		`, "flattening": "0.0197 in"`: "neither match",
	} {
		told := toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, asking.OkPlanPart+part, ""))
		if part == `, "pieces_per_set": 1` { // the match of one piece is no guess
			assert.NotContains(t, told, "match")
			continue
		}
		assert.Contains(t, told, says)
	}
	assert.Contains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, asking.OkPlanPart,
		`, "report_in": "inch"`)), "0.0197 in is allowed for flattening")
}

// A table saw of the tables cuts no 200 mm high: that no height was given is told.
func TestPlanTellsThatNoHighestCutIsGiven(t *testing.T) {
	assert.Contains(t, toldOf(t, planBody(asking.OkPlanBillet, `"usual_kerf": "table_saw_full"`, asking.OkPlanPart, "")),
		"saws/0/max_cut_height: no max_cut_height is given")
}

// What is split has no kerf, but the allowance split_face of the tables: 3 to 6 mm
// a face, 4.5 in the middle.
func TestPlanOfSplitWood(t *testing.T) {
	body := planBody(asking.OkPlanBillet, `"usual_kerf": "froe"`, asking.OkPlanPart, "")
	r := planOf(t, body).Result
	lost := map[string]float64{}
	for _, p := range r.Parts[0].Leaf.Terms {
		lost[p.Kind] = p.Thickness.Value
	}
	assert.InDelta(t, 4.5, lost["cleanup_show"], 1e-9)
	assert.InDelta(t, 4.5, lost["cleanup_back"], 1e-9)
	told := toldOf(t, body)
	assert.Contains(t, told, "leaves rough faces: each face that has no clean-up of its own loses 4.5 mm")
	assert.Contains(t, told, "counted as taking nothing")
	assert.NotContains(t, told, "max_cut_height")
	found := false
	for _, s := range r.StandIns {
		assert.NotEqual(t, "clean-up of a face", s.Name)
		found = found || s.Name == "clean-up of a split face" && s.Value == 4.5
	}
	assert.True(t, found)
}

// A plate that is preferred on the quarter says so where no ring angle is asked,
// whether makers state an angle or not.
func TestPlanTellsThatTheQuarterIsPreferred(t *testing.T) {
	const wanted = "the quarter is preferred (common practice, no source)"
	assert.Contains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, `"part_size": "steel-string-dreadnought-back"`, "")),
		wanted)
	assert.NotContains(t, toldOf(t, planBody(asking.OkPlanBillet+`, "rings": {"angle_deg": 80}`,
		asking.OkPlanSaw, `"part_size": "steel-string-dreadnought-back", "min_ring_angle_deg": 60`, "")), wanted)
	assert.Contains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, `"part_size": "steel-string-dreadnought-top"`, "")),
		"makers tolerate no less than 75 degrees")
	assert.NotContains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, `"part_size": "guitar-headplate"`, "")),
		wanted)
}

// Pieces of a set that need no neighbour are still taken as neighbours: that is told.
func TestPlanTellsThatPiecesOfASetAreNeighbours(t *testing.T) {
	const says = "order pieces that need no neighbour with pieces_per_set 1"
	assert.Contains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw,
		asking.OkPlanPart+`, "match": "none", "pieces_per_set": 3`, "")), says)
	assert.Contains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, `"part_size": "violin-ribs"`, "")), says)
	assert.NotContains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw,
		asking.OkPlanPart+`, "match": "none", "pieces_per_set": 1`, "")), says)
	assert.NotContains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw,
		asking.OkPlanPart+`, "match": "bookmatch", "pieces_per_set": 2`, "")), says)
}

// A part that fits nowhere says why, with the limit.
func TestPlanTellsWhyNothingFits(t *testing.T) {
	for _, row := range []struct{ billet, saw, part, says string }{
		{asking.OkPlanBillet, asking.OkPlanSaw + `, "max_cut_height": "150 mm"`, asking.OkPlanPart,
			"at 210 mm it is wider than the highest cut of every saw, at most 150 mm"},
		{`"length": "600 mm", "width": "220 mm", "thickness": "10 mm"`, asking.OkPlanSaw, asking.OkPlanPart,
			"a set of 2 pieces takes 12.7 mm of thickness with its cuts, and no billet has more than 8 mm left"},
		// 2 x (3 + 2 x 0.8 + 0.5 + 0.5) + 1.5
		{asking.OkPlanBillet + `, "trim": {"start": "50 mm"}`, asking.OkPlanSaw, asking.OkPlanPart,
			"at 560 mm it is longer than every billet between its end trims, at most 550 mm"},
		{asking.OkPlanBillet + `, "rings": {"angle_deg": 50}`, asking.OkPlanSaw, asking.OkPlanPart +
			`, "min_ring_angle_deg": 60`, "its rings stand at 60 degrees or more"},
		{asking.OkPlanBillet + `, "grain": {"runout_one_in": 12}`, asking.OkPlanSaw, asking.OkPlanPart +
			`, "max_runout_one_in": 20`, "by 1 in 20 at most"},
		{asking.OkPlanBillet + `, "zones": [{"kind": "check", "x_from": "300 mm", "x_to": "310 mm", "y_from": "0 mm", "y_to": "220 mm"}]`, asking.OkPlanSaw, asking.OkPlanPart, "no clear place that is large enough"},
	} {
		body := planBody(row.billet, row.saw, row.part, "")
		assert.Contains(t, planOf(t, body).Result.Summary, "no set of any part fits")
		told := toldOf(t, body)
		assert.Contains(t, told, "parts/0: no billet gives a set of part 1: ")
		assert.Contains(t, told, row.says)
	}
	assert.NotContains(t, toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, asking.OkPlanPart, "")),
		"no billet gives")
	// One billet is long and thin, the other short and thick.
	several := `{"billets": [{"length": "600 mm", "width": "220 mm", "thickness": "10 mm"}, {"length": "500 mm", "width": "220 mm", "thickness": "60 mm"}], "saws": [{` + asking.OkPlanSaw + `}], "parts": [{` + asking.OkPlanPart + `}]}`
	assert.Contains(t, toldOf(t, several),
		"none offers all that it needs at once, which each fails by its length or thickness")
}

// Steps say what lies against the fence or the stop and what that is set to, and the
// settings join those that need no new one.
func TestStepsAreSettings(t *testing.T) {
	b := planOf(t, demoPlank(t)).Result.Billets[0]
	crosscuts, rips, cuts := 0, 0, 0
	for _, s := range b.Steps {
		switch s.Action {
		case "crosscut", "trim":
			crosscuts++
			assert.Regexp(t, "its (start|end) against the stop, set to [0-9.]+ mm", s.Detail)
		case "rip":
			rips++
			assert.Regexp(t, "its (near|far) edge against the fence, set to [0-9.]+ mm", s.Detail)
		case "resaw":
			assert.InDelta(t, s.Low.Thickness.Value, s.Setting.Value, 1e-9, "what comes off is as thick as the fence is set")
		}
	}
	assert.Positive(t, crosscuts)
	assert.Positive(t, rips)
	for _, s := range b.Settings {
		cuts += s.Times
	}
	assert.Equal(t, len(b.Steps), cuts, "every step has its setting")
	assert.Less(t, len(b.Settings), 2*len(b.Steps)/3, "and many share one")
}

// What is left is a billet of the next request, as it stands.
func TestOffcutsAreBillets(t *testing.T) {
	found := 0
	for _, o := range planOf(t, demoPlank(t)).Result.Billets[0].Offcuts {
		text, err := json.Marshal(o.Billet)
		require.NoError(t, err)
		billet := string(text)
		for _, q := range regexp.MustCompile(`\{"value":([-0-9.e]+),"unit":"mm"\}`).FindAllStringSubmatch(billet, -1) {
			billet = strings.Replace(billet, q[0], `"`+q[1]+` mm"`, 1)
		}
		planOf(t, planBody(billet[1:len(billet)-1], asking.OkPlanSaw, `"length": "20 mm", "width": "5 mm", "final_thickness": "2 mm", "pieces_per_set": 1, "max_sets": 1`, ""))
		found++
	}
	assert.Positive(t, found)
}

// The contract offers the end trims and the saws that the tables have.
func TestEndsAndSawsAreThoseOfTheTables(t *testing.T) {
	var trims, saws []string
	tables, err := shelf.LoadTables()
	require.NoError(t, err)
	for _, e := range tables.Species.EndTrims() {
		trims = append(trims, e.ID)
	}
	for _, s := range tables.Species.Saws() {
		saws = append(saws, s.ID)
	}
	field, known := reflect.TypeFor[shelf.Trim]().FieldByName("Usual")
	require.True(t, known)
	assert.Equal(t, strings.Join(trims, ","), field.Tag.Get("enum"))
	field, known = reflect.TypeFor[shelf.Saw]().FieldByName("UsualKerf")
	require.True(t, known)
	assert.Equal(t, strings.Join(saws, ","), field.Tag.Get("enum"))
	_, text := asking.SharedService().Ask(http.MethodGet, "/openapi.json", "", nil)
	assert.Contains(t, string(text), `"growth_stress"`)
}

// What was known of a billet is known of its offcuts: where the pith lies from each, the
// runout, wood, condition and the zones that reach into it; and the next request takes them.
func TestOffcutsCarryWhatIsKnown(t *testing.T) {
	const runout = `"grain": {"runout_one_in": 40}, "rings"`
	body := strings.Replace(demoPlank(t), `"rings"`, runout, 1)
	angled := strings.NewReplacer(`"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`,
		`"grain": {"runout_one_in": 40}, "rings": {"angle_deg": 78, "lean": "near"}`).Replace(demoPlank(t))
	require.NotEqual(t, demoPlank(t), angled)
	for _, asked := range []string{body, angled} {
		r := planOf(t, asked).Result
		b := r.Billets[0]
		require.NotEmpty(t, b.Offcuts)
		var again []string
		for _, o := range b.Offcuts {
			text, err := json.Marshal(o.Billet)
			require.NoError(t, err)
			again = append(again, string(text))
			assert.InDelta(t, 40, *o.Billet.Grain.Runout, 1e-9)
			require.NotNil(t, o.Billet.Rings)
			require.NotNil(t, o.Billet.Condition)
			require.NotNil(t, o.Billet.Wood)
			y0, z0 := offcutPlace(t, &b, o.Piece)
			if pith := o.Billet.Rings.Pith; pith != nil {
				assert.InDelta(t, 395-y0, lengthIn(pith.Y), 1e-5)
				assert.InDelta(t, 25-z0, lengthIn(pith.Z), 1e-5)
			} else {
				assert.InDelta(t, 78, *o.Billet.Rings.Angle, 1e-9)
				assert.Equal(t, "near", o.Billet.Rings.Lean)
			}
		}
		planOf(t, `{"billets": [`+strings.Join(again, ",")+`], "saws": [{"kerf": "1 mm"}],
			"parts": [{"length": "60 mm", "width": "20 mm", "final_thickness": "2 mm", "min_ring_angle_deg": 10, "max_runout_one_in": 30}]}`)
	}
}

// offcutPlace finds where a piece begins by following the steps: from the near edge, and
// below face 1.
func offcutPlace(t *testing.T, b *cut.BilletAnswer, piece int) (y, z float64) {
	t.Helper()
	face := map[string]float64{}
	for _, k := range b.Blanks {
		face[k.ID] = k.Z.Value
	}
	type at struct {
		y, z float64
		flat bool
	}
	places := map[int]at{0: {}}
	for _, s := range b.Steps {
		low := places[s.Piece]
		high := low
		switch s.Action {
		case "rip":
			high.y = s.Position.Value + s.Removed.Value
		case "flatten":
			low = at{low.y, face[strings.TrimPrefix(s.Low.Name, "blank ")], true}
		case "resaw", "reface", "plane":
			if s.Against == "near" {
				high.y = low.y + s.Setting.Value + s.Removed.Value
			} else {
				high.z = low.z + s.Setting.Value + s.Removed.Value
			}
		}
		if s.Low != nil {
			places[s.Low.Piece] = low
		}
		if s.High != nil {
			places[s.High.Piece] = high
		}
	}
	found, known := places[piece]
	require.True(t, known)
	return found.y, found.z
}
