package asking

import "strings"

// Parts of a right plan.
const (
	OkPlanBillet = `"length": "600 mm", "width": "220 mm", "thickness": "60 mm"`
	OkPlanSaw    = `"kerf": "1.5 mm"`
	OkPlanPart   = `"length": "560 mm", "width": "210 mm", "final_thickness": "3 mm"`
)

// PlanWith is a right request for a plan but for what a row puts into it.
func PlanWith(billet, saw, part, rest string) Asked {
	return Posting("/v1/resaw-plan", `{"billets": [{`+billet+`}], "saws": [{`+saw+`}], "parts": [{`+part+`}]`+rest+`}`)
}

func planBillet(rest string) Asked {
	return PlanWith(OkPlanBillet+`, `+rest, OkPlanSaw, OkPlanPart, "")
}

func planZone(zone string) Asked { return planBillet(`"zones": [{` + zone + `}]`) }

// PlanPart is a right plan but for its part.
func PlanPart(part string) Asked { return PlanWith(OkPlanBillet, OkPlanSaw, part, "") }

// PlanSawOf is a right plan but for its saw.
func PlanSawOf(saw string) Asked { return PlanWith(OkPlanBillet, saw, OkPlanPart, "") }

func planRest(rest string) Asked { return PlanWith(OkPlanBillet, OkPlanSaw, OkPlanPart, `, `+rest) }

var wrongResaw = []wrong{
	{"plan of nothing", Posting("/v1/resaw-plan", `{}`), 422, []string{"/billets missing", "/saws missing", "/parts missing"}, "billets is needed"},
	{"plan of no wood", Posting("/v1/resaw-plan", `{"billets": [], "saws": [{"kerf": "1 mm"}], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/billets too_few_items"}, "at least 1 entry"},
	{"plan of 51 billets", Posting("/v1/resaw-plan", `{"billets": [`+strings.TrimSuffix(strings.Repeat(`{`+OkPlanBillet+`},`, 51), ",")+`], "saws": [{"kerf": "1 mm"}], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/billets too_many_items"}, "at most 50 entries"},
	{"plan with seven saws", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [`+strings.TrimSuffix(strings.Repeat(`{"kerf": "1 mm"},`, 7), ",")+`], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/saws too_many_items"}, "at most 6 entries"},
	{"plan of 21 parts", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [`+strings.TrimSuffix(strings.Repeat(`{`+OkPlanPart+`, "worth": 1},`, 21), ",")+`]}`), 422, []string{"/parts too_many_items"}, "at most 20 entries"},

	// Billets.
	{"planned billet without a thickness", PlanWith(`"length": "600 mm", "width": "220 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/thickness missing"}, "thickness is needed"},
	{"planned billet of negative width", PlanWith(`"length": "600 mm", "width": "-220 mm", "thickness": "60 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/width out_of_range"}, "at least 5 mm"},
	{"negative taper", planBillet(`"end_thickness": "-5 mm"`), 422, []string{"/billets/0/end_thickness out_of_range"}, "at least 0 mm"},
	{"negative taper of the width", planBillet(`"end_width": "-5 mm"`), 422, []string{"/billets/0/end_width out_of_range"}, "at least 0 mm"},
	{"trims as long as the billet", planBillet(`"end_trim_start": "300 mm", "end_trim_end": "300 mm"`), 422, []string{"/billets/0/end_trim_start conflict"}, "leave nothing"},
	{"ends that eat the billet", planBillet(`"ends": "growth-stress"`), 422, []string{"/billets/0/ends conflict"}, "leave nothing"},
	{"ends in no table", planBillet(`"ends": "waxed"`), 422, []string{"/billets/0/ends not_found"}, "there are growth-stress"},
	{"ends and trims", planBillet(`"ends": "sealed-fresh", "end_trim_start": "10 mm", "end_trim_end": "10 mm"`), 422, []string{"/billets/0/ends conflict"}, "not all of them"},
	{"facings as thick as the billet", planBillet(`"facing_face_1": "30 mm", "facing_face_2": "30 mm"`), 422, []string{"/billets/0/facing_face_1 conflict"}, "leave nothing"},
	{"cup of a decimetre and more", planBillet(`"cup": "120 mm"`), 422, []string{"/billets/0/cup out_of_range"}, "at most 100 mm"},
	{"negative twist", planBillet(`"twist": "-1 mm"`), 422, []string{"/billets/0/twist out_of_range"}, "at least 0 mm"},
	{"mass of no wood", planBillet(`"mc_pct": 9`), 422, []string{"/billets/0/wood missing"}, "needs the wood"},
	{"spread of no moisture", planBillet(`"mc_sd_points": 1`), 422, []string{"/billets/0/mc_pct missing"}, "goes with mc_pct"},
	{"moisture past drowning", planBillet(`"mc_pct": 300`), 422, []string{"/billets/0/mc_pct out_of_range"}, "at most 250 %"},
	{"planned wood nobody knows", planBillet(`"wood": "maple-sugr"`), 422, []string{"/billets/0/wood not_found"}, "did you mean maple-sugar"},
	{"wood of all billets nobody knows", planRest(`"wood": "maple-sugr"`), 422, []string{"/wood not_found"}, "did you mean maple-sugar"},
	{"runout of nothing", planBillet(`"runout_one_in": 0`), 422, []string{"/billets/0/runout_one_in out_of_range"}, "at least 1"},
	{"two planned billets of one name", Posting("/v1/resaw-plan", `{"billets": [{"name": "a", `+OkPlanBillet+`}, {"name": "a", `+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/billets/1/name conflict"}, "another billet has this name"},

	// Zones.
	{"zone without a kind", planZone(`"x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/kind missing"}, "kind is needed"},
	{"zone of a kind not offered", planZone(`"kind": "nail", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/kind not_a_choice"}, "one of knot, check, shake"},
	{"zone beyond the end", planZone(`"kind": "knot", "x_from": "700 mm", "x_to": "720 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_from out_of_range"}, "outside the billet"},
	{"zone beside the billet", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "220 mm", "y_to": "230 mm"`), 422, []string{"/billets/0/zones/0/y_from out_of_range"}, "which is 220 mm wide"},
	{"zone below the billet", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm", "z_from": "60 mm", "z_to": "70 mm"`), 422, []string{"/billets/0/zones/0/z_from out_of_range"}, "which is 60 mm thick"},
	{"zone turned inside out", planZone(`"kind": "knot", "x_from": "9 mm", "x_to": "1 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_to conflict"}, "x_to must be more than 9 mm, which is x_from"},
	{"zone without a far side", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm", "z_from": "4 mm"`), 422, []string{"/billets/0/zones/0/z_to missing"}, "z_from and z_to go together"},

	// Rings.
	{"rings of no kind", planBillet(`"rings": {}`), 422, []string{"/billets/0/rings missing"}, "give pith, readings or ring_angle_deg"},
	{"pith and an angle", planBillet(`"rings": {"pith": {"y": "0 mm", "z": "90 mm"}, "ring_angle_deg": 80}`), 422, []string{"/billets/0/rings conflict"}, "one of pith, readings"},
	{"rings flatter than flat", planBillet(`"rings": {"ring_angle_deg": 0}`), 422, []string{"/billets/0/rings/ring_angle_deg out_of_range"}, "at least 0.01 degrees"},
	{"one reading of the rings", planBillet(`"rings": {"readings": [{"y": "0 mm", "ring_angle_deg": 60}]}`), 422, []string{"/billets/0/rings/readings/1 missing"}, "two readings give the pith"},
	{"rings read twice at one place", planBillet(`"rings": {"readings": [{"y": "9 mm", "ring_angle_deg": 60}, {"y": "9 mm", "ring_angle_deg": 70}]}`), 422, []string{"/billets/0/rings/readings/1/y conflict"}, "same place"},
	{"rings equal at two places", planBillet(`"rings": {"readings": [{"y": "9 mm", "ring_angle_deg": 60}, {"y": "99 mm", "ring_angle_deg": 60}]}`), 422, []string{"/billets/0/rings/readings/1/ring_angle_deg conflict"}, "no pith"},
	{"side of a pith that is known", planBillet(`"rings": {"ring_angle_deg": 80, "pith_before_face_1": true}`), 422, []string{"/billets/0/rings/pith_before_face_1 conflict"}, "goes with readings"},
	{"pith without a depth", planBillet(`"rings": {"pith": {"y": "0 mm"}}`), 422, []string{"/billets/0/rings/pith/z missing"}, "z is needed"},

	// Saws.
	{"saw without a kerf", PlanSawOf(`"name": "band"`), 422, []string{"/saws/0/kerf missing"}, "give kerf, or the saw by its id"},
	{"saw in no table", PlanSawOf(`"saw": "chainsaw"`), 422, []string{"/saws/0/saw not_found"}, "there are bandsaw-carbide"},
	{"kerf over the billet", PlanWith(`"length": "600 mm", "width": "220 mm", "thickness": "3 mm"`, `"kerf": "9 mm"`, OkPlanPart, ""), 422, []string{"/saws/0/kerf conflict"}, "wider than every billet is thick"},
	{"kerf of a hand's width", PlanSawOf(`"kerf": "90 mm"`), 422, []string{"/saws/0/kerf out_of_range"}, "at most 20 mm"},
	{"negative wander", PlanSawOf(OkPlanSaw + `, "wander": "-0.5 mm"`), 422, []string{"/saws/0/wander out_of_range"}, "at least 0 mm"},
	{"saw that cuts no height", PlanSawOf(OkPlanSaw + `, "max_cut_height": "0 mm"`), 422, []string{"/saws/0/max_cut_height out_of_range"}, "more than 0 mm"},
	{"two saws of one name", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"name": "a", "kerf": "1 mm"}, {"name": "a", "kerf": "2 mm"}], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/saws/1/name conflict"}, "another saw has this name"},

	// Parts.
	{"part longer than every billet", PlanPart(`"length": "700 mm", "width": "210 mm", "final_thickness": "3 mm"`), 422, []string{"/parts/0/length conflict"}, "part 1 is longer than every billet (700 mm against 600 mm)"},
	{"part wider and thicker than every billet", PlanPart(`"length": "560 mm", "width": "10 in", "final_thickness": "70 mm"`), 422, []string{"/parts/0/width conflict", "/parts/0/final_thickness conflict"}, "10 in against 8.66"},
	{"plate larger than every billet", PlanPart(`"plate": "double-bass-back-flat"`), 422, []string{"/parts/0/plate conflict", "/parts/0/plate conflict"}, "longer than every billet"},
	{"part without sizes", PlanPart(`"name": "top"`), 422, []string{"/parts/0/length missing", "/parts/0/width missing", "/parts/0/final_thickness missing"}, "or a plate of the table"},
	{"plate nearly in the table", PlanPart(`"plate": "steel-string-dreadnaught-back"`), 422, []string{"/parts/0/plate not_found"}, "did you mean steel-string-dreadnought-back"},
	{"plate unlike any", PlanPart(`"plate": "qqqqqqq"`), 422, []string{"/parts/0/plate not_found"}, `there is no plate called "qqqqqqq"`},
	{"plate and sizes of its own", PlanPart(`"plate": "steel-string-dreadnought-back", ` + OkPlanPart), 422, []string{"/parts/0/plate conflict"}, "replace all sizes"},
	{"part worth nothing", PlanPart(OkPlanPart + `, "worth": 0`), 422, []string{"/parts/0/worth out_of_range"}, "at least 1"},
	{"part worth a fraction", PlanPart(OkPlanPart + `, "worth": 1.5`), 422, []string{"/parts/0/worth wrong_type"}, "must be a whole number"},
	{"parts without a worth", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [{`+OkPlanPart+`}, {`+OkPlanPart+`, "worth": 2}]}`), 422, []string{"/parts/0/worth missing"}, "each needs its worth"},
	{"two planned parts of one name", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [{"name": "top", "worth": 1, `+OkPlanPart+`}, {"name": "top", "worth": 2, `+OkPlanPart+`}]}`), 422, []string{"/parts/1/name conflict"}, "another part is called top"},
	{"least over most", PlanPart(OkPlanPart + `, "least": 3, "most": 2`), 422, []string{"/parts/0/most conflict"}, "most is less than least"},
	{"negative least", PlanPart(OkPlanPart + `, "least": -1`), 422, []string{"/parts/0/least out_of_range"}, "at least 0"},
	{"set of no piece", PlanPart(OkPlanPart + `, "pieces_per_set": 0`), 422, []string{"/parts/0/pieces_per_set out_of_range"}, "at least 1"},
	{"match not offered", PlanPart(OkPlanPart + `, "match": "mirror"`), 422, []string{"/parts/0/match not_a_choice"}, "one of bookmatch, slip_match, none"},
	{"ring angle of a right angle", PlanPart(OkPlanPart + `, "min_ring_angle_deg": 90`), 422, []string{"/parts/0/min_ring_angle_deg out_of_range"}, "at most 89.99 degrees"},
	{"part sawn at without dried to", PlanPart(OkPlanPart + `, "sawn_at_pct": 12`), 422, []string{"/parts/0/dried_to_pct missing"}, "go together"},
	{"part that will swell", PlanWith(OkPlanBillet, OkPlanSaw, OkPlanPart+`, "sawn_at_pct": 6, "dried_to_pct": 8`, `, "wood": "maple-sugar"`), 422, []string{"/parts/0/dried_to_pct conflict"}, "wetter"},
	{"part that shrinks like no wood", PlanPart(OkPlanPart + `, "sawn_at_pct": 12, "dried_to_pct": 8`), 422, []string{"/wood missing"}, "needs the wood"},
	{"ring angle of a part that is dry", PlanPart(OkPlanPart + `, "shrinkage_ring_angle_deg": 80`), 422, []string{"/parts/0/sawn_at_pct missing"}, "goes with"},
	{"a million leaves", PlanWith(`"length": "20 m", "width": "5 m", "thickness": "2 m"`, OkPlanSaw, `"length": "200 mm", "width": "200 mm", "final_thickness": "1 mm"`, ""), 422, []string{"/parts/0 too_much_work"}, "more than 30000 leaves"},

	// The rest.
	{"chance past certainty", planRest(`"chance": {"hidden_fault_pct": 101}`), 422, []string{"/chance/hidden_fault_pct out_of_range"}, "at most 100 %"},
	{"kerf that varies backwards", planRest(`"chance": {"kerf_sd": "-0.1 mm"}`), 422, []string{"/chance/kerf_sd out_of_range"}, "at least 0 mm"},
	{"work without end", planRest(`"max_search_steps": 1000000000`), 422, []string{"/max_search_steps out_of_range"}, "at most 20000000"},
	{"template of a billet that is not there", planRest(`"template_billet": 2`), 422, []string{"/template_billet out_of_range"}, "there is no billet 2"},
	{"date in words", planRest(`"date": "14 March"`), 422, []string{"/date invalid_format"}, "a date such as 2026-03-01"},
	{"plan in cubits", planRest(`"report_in": "cubits"`), 422, []string{"/report_in not_a_choice"}, "one of metric, inch"},
	{"plan as csv", Posting("/v1/resaw-plan?as=csv", `{}`), 400, []string{"?as not_a_choice"}, "json, svg, template"},
	{"wrong billet, saw and part at once", PlanWith(OkPlanBillet+`, "ends": "waxed"`, `"name": "band"`, OkPlanPart, `, "template_billet": 9`), 422, []string{"/billets/0/ends not_found", "/saws/0/kerf missing", "/template_billet out_of_range"}, "there is no end trim"},
}
