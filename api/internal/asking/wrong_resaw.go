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
	{"plan of 21 parts", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [`+strings.TrimSuffix(strings.Repeat(`{`+OkPlanPart+`, "set_value": 1},`, 21), ",")+`]}`), 422, []string{"/parts too_many_items"}, "at most 20 entries"},

	// Billets.
	{"planned billet without a thickness", PlanWith(`"length": "600 mm", "width": "220 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/thickness missing"}, "thickness is needed"},
	{"planned billet of negative width", PlanWith(`"length": "600 mm", "width": "-220 mm", "thickness": "60 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/width out_of_range"}, "at least 5 mm"},
	{"negative taper", planBillet(`"end_thickness": "-5 mm"`), 422, []string{"/billets/0/end_thickness out_of_range"}, "at least 0 mm"},
	{"negative taper of the width", planBillet(`"end_width": "-5 mm"`), 422, []string{"/billets/0/end_width out_of_range"}, "at least 0 mm"},
	{"trims as long as the billet", planBillet(`"trim": {"start": "300 mm", "end": "300 mm"}`), 422, []string{"/billets/0/trim/start conflict"}, "leave nothing"},
	{"ends that eat the billet", planBillet(`"trim": {"usual": "growth_stress"}`), 422, []string{"/billets/0/trim/usual conflict"}, "leave nothing"},
	{"ends in no table", planBillet(`"trim": {"usual": "waxed"}`), 422, []string{"/billets/0/trim/usual not_found"}, "there are growth_stress"},
	{"ends and trims", planBillet(`"trim": {"usual": "sealed_fresh", "start": "10 mm", "end": "10 mm"}`), 422, []string{"/billets/0/trim/usual conflict"}, "leave usual or one of them out"},
	{"facings as thick as the billet", planBillet(`"facing_face_1": "30 mm", "facing_face_2": "30 mm"`), 422, []string{"/billets/0/facing_face_1 conflict"}, "leave nothing"},
	{"cup of a decimetre and more", planBillet(`"cup": "120 mm"`), 422, []string{"/billets/0/cup out_of_range"}, "at most 100 mm"},
	{"negative twist", planBillet(`"twist": "-1 mm"`), 422, []string{"/billets/0/twist out_of_range"}, "at least 0 mm"},
	{"spread of no moisture", PlanWith(OkPlanBillet+`, "wood": "maple-sugar", "condition": {"mc_sd_points": 1}`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/condition missing"}, "say mc_pct"},
	{"moisture past drowning", planBillet(`"condition": {"mc_pct": 300}`), 422, []string{"/billets/0/condition/mc_pct out_of_range"}, "at most 250 %"},
	{"planned wood nobody knows", planBillet(`"wood": "maple-sugr"`), 422, []string{"/billets/0/wood not_found"}, "did you mean maple-sugar"},
	{"trims of the edges as wide as the billet", planBillet(`"trim": {"near": "110 mm", "far": "110 mm"}`), 422, []string{"/billets/0/trim/near conflict"}, "leave nothing of the width"},
	{"planned billet with an id of two words", planBillet(`"id": "a b"`), 422, []string{"/billets/0/id invalid_format"}, "1 to 64 letters, digits"},
	{"runout of nothing", planBillet(`"grain": {"runout_one_in": 0}`), 422, []string{"/billets/0/grain/runout_one_in out_of_range"}, "at least 1"},
	{"two planned billets of one id", Posting("/v1/resaw-plan", `{"billets": [{"id": "a", `+OkPlanBillet+`}, {"id": "a", `+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/billets/1/id duplicate_id"}, "another billet has the id a"},

	// Zones.
	{"zone without a kind", planZone(`"x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/kind missing"}, "kind is needed"},
	{"zone of a kind not offered", planZone(`"kind": "nail", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/kind not_a_choice"}, "one of knot, check, shake"},
	{"zone beyond the end", planZone(`"kind": "knot", "x_from": "700 mm", "x_to": "720 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_from out_of_range"}, "outside the billet"},
	{"zone beside the billet", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "220 mm", "y_to": "230 mm"`), 422, []string{"/billets/0/zones/0/y_from out_of_range"}, "which is 220 mm wide"},
	{"zone below the billet", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm", "z_from": "60 mm", "z_to": "70 mm"`), 422, []string{"/billets/0/zones/0/z_from out_of_range"}, "which is 60 mm thick"},
	{"zone turned inside out", planZone(`"kind": "knot", "x_from": "9 mm", "x_to": "1 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_to conflict"}, "x_to must be more than 9 mm, which is x_from"},
	{"zone without a far side", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm", "z_from": "4 mm"`), 422, []string{"/billets/0/zones/0/z_to missing"}, "z_from and z_to go together"},

	// Rings.
	{"rings of no kind", planBillet(`"rings": {}`), 422, []string{"/billets/0/rings missing"}, "give pith, readings, chord or angle_deg"},
	{"pith and an angle", planBillet(`"rings": {"pith": {"y": "0 mm", "z": "90 mm"}, "angle_deg": 80}`), 422, []string{"/billets/0/rings conflict"}, "one of pith, readings"},
	{"rings flatter than flat", planBillet(`"rings": {"angle_deg": -1}`), 422, []string{"/billets/0/rings/angle_deg out_of_range"}, "at least 0 degrees"},
	{"rings read at two depths", planBillet(`"rings": {"readings": [{"y": "0 mm", "angle_deg": 60}, {"y": "90 mm", "z": "9 mm", "angle_deg": 70}]}`), 422, []string{"/billets/0/rings/readings/1/z conflict"}, "at the same depth"},
	{"rings read twice at one place", planBillet(`"rings": {"readings": [{"y": "9 mm", "angle_deg": 60}, {"y": "9 mm", "angle_deg": 70}]}`), 422, []string{"/billets/0/rings/readings/1/y conflict"}, "same place"},
	{"side of a pith that is known", planBillet(`"rings": {"angle_deg": 80, "pith_side": "face_1"}`), 422, []string{"/billets/0/rings/pith_side conflict"}, "goes with two readings"},
	{"pith without a depth", planBillet(`"rings": {"pith": {"y": "0 mm"}}`), 422, []string{"/billets/0/rings/pith/z missing"}, "z is needed"},

	// Saws.
	{"saw without a kerf", PlanSawOf(`"id": "band"`), 422, []string{"/saws/0/kerf missing"}, "give kerf or usual_kerf"},
	{"saw in no table", PlanSawOf(`"usual_kerf": "chainsaw"`), 422, []string{"/saws/0/usual_kerf not_found"}, "there are bandsaw_carbide"},
	{"kerf over the billet", PlanWith(`"length": "600 mm", "width": "220 mm", "thickness": "3 mm"`, `"kerf": "9 mm"`, OkPlanPart, ""), 422, []string{"/saws/0/kerf conflict"}, "wider than every billet is thick"},
	{"kerf of a hand's width", PlanSawOf(`"kerf": "90 mm"`), 422, []string{"/saws/0/kerf out_of_range"}, "at most 20 mm"},
	{"negative wander", PlanSawOf(OkPlanSaw + `, "wander": "-0.5 mm"`), 422, []string{"/saws/0/wander out_of_range"}, "at least 0 mm"},
	{"saw that cuts no height", PlanSawOf(OkPlanSaw + `, "max_cut_height": "0 mm"`), 422, []string{"/saws/0/max_cut_height out_of_range"}, "more than 0 mm"},
	{"two saws of one id", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"id": "a", "kerf": "1 mm"}, {"id": "a", "kerf": "2 mm"}], "parts": [{`+OkPlanPart+`}]}`), 422, []string{"/saws/1/id duplicate_id"}, "another saw has the id a"},

	// Parts.
	{"part of no thickness", PlanPart(`"length": "500 mm", "width": "210 mm", "final_thickness": "0 mm"`), 422, []string{"/parts/0/final_thickness out_of_range"}, "at least 0.2 mm"},
	{"part without sizes", PlanPart(`"id": "top"`), 422, []string{"/parts/0/length missing", "/parts/0/width missing", "/parts/0/final_thickness missing"}, "or part_size"},
	{"plate nearly in the table", PlanPart(`"part_size": "steel-string-dreadnaught-back"`), 422, []string{"/parts/0/part_size not_found"}, "did you mean steel-string-dreadnought-back"},
	{"plate unlike any", PlanPart(`"part_size": "qqqqqqq"`), 422, []string{"/parts/0/part_size not_found"}, `there is no part called "qqqqqqq"`},
	{"plate and sizes of its own", PlanPart(`"part_size": "steel-string-dreadnought-back", ` + OkPlanPart), 422, []string{"/parts/0/part_size conflict"}, "replace all sizes"},
	{"part worth nothing", PlanPart(OkPlanPart + `, "set_value": 0`), 422, []string{"/parts/0/set_value out_of_range"}, "at least 1"},
	{"part worth a fraction", PlanPart(OkPlanPart + `, "set_value": 1.5`), 422, []string{"/parts/0/set_value wrong_type"}, "must be a whole number"},
	{"parts without a worth", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [{`+OkPlanPart+`}, {`+OkPlanPart+`, "set_value": 2}]}`), 422, []string{"/parts/0/set_value missing"}, "each needs its set_value"},
	{"two planned parts of one id", Posting("/v1/resaw-plan", `{"billets": [{`+OkPlanBillet+`}], "saws": [{"kerf": "1 mm"}], "parts": [{"id": "top", "set_value": 1, `+OkPlanPart+`}, {"id": "top", "set_value": 2, `+OkPlanPart+`}]}`), 422, []string{"/parts/1/id duplicate_id"}, "another part has the id top"},
	{"least over most", PlanPart(OkPlanPart + `, "min_sets": 3, "max_sets": 2`), 422, []string{"/parts/0/max_sets conflict"}, "max_sets is less than min_sets"},
	{"negative least", PlanPart(OkPlanPart + `, "min_sets": -1`), 422, []string{"/parts/0/min_sets out_of_range"}, "at least 0"},
	{"set of no piece", PlanPart(OkPlanPart + `, "pieces_per_set": 0`), 422, []string{"/parts/0/pieces_per_set out_of_range"}, "at least 1"},
	{"match not offered", PlanPart(OkPlanPart + `, "match": "mirror"`), 422, []string{"/parts/0/match not_a_choice"}, "one of bookmatch, slip_match, none"},
	{"ring angle of a right angle", PlanPart(OkPlanPart + `, "min_ring_angle_deg": 90`), 422, []string{"/parts/0/min_ring_angle_deg out_of_range"}, "at most 89.99 degrees"},
	{"part that dries from nobody knows what", PlanPart(OkPlanPart + `, "final_condition": {"mc_pct": 8}`), 422, []string{"/billets/0/condition missing"}, "needs the condition of the billet"},
	{"part that will swell", PlanWith(OkPlanBillet+`, "wood": "maple-sugar", "condition": {"mc_pct": 6}`, OkPlanSaw, OkPlanPart+`, "final_condition": {"mc_pct": 8}`, ""), 422, []string{"/parts/0/final_condition conflict"}, "wetter"},
	{"part that shrinks like no wood", PlanWith(OkPlanBillet+`, "condition": {"mc_pct": 12}`, OkPlanSaw, OkPlanPart+`, "final_condition": {"mc_pct": 8}`, ""), 422, []string{"/billets/0/wood missing"}, "needs the wood"},
	{"part sawn and finished", PlanPart(OkPlanPart + `, "sawn_thickness": "5 mm"`), 422, []string{"/parts/0/sawn_thickness conflict"}, "not both"},
	{"thin edge thicker than the thick one of a part", PlanPart(OkPlanPart + `, "thin_edge": "4 mm"`), 422, []string{"/parts/0/thin_edge conflict"}, "at most 3 mm, the thick edge"},
	{"thin edge of single pieces", PlanPart(OkPlanPart + `, "thin_edge": "2 mm", "pieces_per_set": 1`), 422, []string{"/parts/0/thin_edge conflict"}, "that of a bookmatched pair"},
	{"a million leaves", PlanWith(`"length": "20 m", "width": "5 m", "thickness": "2 m"`, OkPlanSaw, `"length": "200 mm", "width": "200 mm", "final_thickness": "1 mm"`, ""), 422, []string{"/parts/0 too_much_work"}, "more than 30000 leaves"},

	// The rest.
	{"chance past certainty", planRest(`"variation": {"hidden_fault_probability": 1.01}`), 422, []string{"/variation/hidden_fault_probability out_of_range"}, "at most 1"},
	{"kerf that varies backwards", planRest(`"variation": {"kerf_sd": "-0.1 mm"}`), 422, []string{"/variation/kerf_sd out_of_range"}, "at least 0 mm"},
	{"work without end", planRest(`"max_search_steps": 1000000000`), 422, []string{"/max_search_steps out_of_range"}, "at most 20000000"},
	{"part from a billet that is not there", PlanWith(OkPlanBillet, OkPlanSaw, OkPlanPart+`, "billets": ["1", "7"]`, ""), 422, []string{"/parts/0/billets/1 not_found"}, "there is no billet with the id 7; there are 1"},
	{"part from no billet", PlanWith(OkPlanBillet, OkPlanSaw, OkPlanPart+`, "billets": []`, ""), 422, []string{"/parts/0/billets too_few_items"}, "at least 1 entry"},
	{"part of a wood that is not known", PlanWith(OkPlanBillet, OkPlanSaw, OkPlanPart+`, "wood": "gravel"`, ""), 422, []string{"/parts/0/wood not_found"}, "gravel"},
	{"template of a billet that is not there", planRest(`"template_billet": "2"`), 422, []string{"/template_billet not_found"}, "there is no billet with the id 2; there are 1"},
	{"date in words", planRest(`"as_of": "14 March"`), 422, []string{"/as_of invalid_format"}, "a date such as 2026-03-01"},
	{"plan in cubits", planRest(`"report_in": "cubits"`), 422, []string{"/report_in not_a_choice"}, "one of metric, inch"},
	{"plan as a form that it has not", Posting("/v1/resaw-plan?as=pairs_csv", `{}`), 400, []string{"?as not_a_choice"}, "json, svg, csv, pdf, dxf, template, template_pdf or labels"},
	{"wrong billet, saw and part at once", PlanWith(OkPlanBillet+`, "trim": {"usual": "waxed"}`, `"usual_kerf": "chainsaw"`, OkPlanPart, `, "template_billet": "9"`), 422, []string{"/billets/0/trim/usual not_found", "/saws/0/usual_kerf not_found", "/template_billet not_found"}, "there is no end trim"},
}
