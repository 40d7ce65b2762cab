package asking

import "strings"

// wrongResawLimits are plans beyond a limit: each error names the member, the limit and its
// unit.
var wrongResawLimits = []wrong{
	// Billets.
	{"billet longer than a house", PlanWith(`"length": "21 m", "width": "220 mm", "thickness": "60 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/length out_of_range"}, "at most 20 m"},
	{"billet shorter than a thumb", PlanWith(`"length": "9 mm", "width": "220 mm", "thickness": "60 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/length out_of_range"}, "at least 10 mm"},
	{"billet wider than a door", PlanWith(`"length": "600 mm", "width": "5.1 m", "thickness": "60 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/width out_of_range"}, "at most 5 m"},
	{"billet as thick as a wall, in inches", PlanWith(`"length": "24 in", "width": "9 in", "thickness": "80 in"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/thickness out_of_range"}, "at most 78.7401 in"},
	{"veneer of a billet", PlanWith(`"length": "600 mm", "width": "220 mm", "thickness": "0.4 mm"`, OkPlanSaw, OkPlanPart, ""), 422, []string{"/billets/0/thickness out_of_range"}, "at least 0.5 mm"},
	{"far edge beyond all wood", planBillet(`"far_thickness": "2.1 m"`), 422, []string{"/billets/0/far_thickness out_of_range"}, "at most 2 m"},
	{"bow of a rocking chair", planBillet(`"bow": "201 mm"`), 422, []string{"/billets/0/bow out_of_range"}, "at most 200 mm"},
	{"facing of a hand's width", planBillet(`"facing_face_1": "101 mm"`), 422, []string{"/billets/0/facing_face_1 out_of_range"}, "at most 100 mm"},
	{"negative facing", planBillet(`"facing_face_2": "-1 mm"`), 422, []string{"/billets/0/facing_face_2 out_of_range"}, "at least 0 mm"},
	{"negative end trim", planBillet(`"trim": {"end": "-10 mm"}`), 422, []string{"/billets/0/trim/end out_of_range"}, "at least 0 mm"},
	{"trim of an edge beyond all wood", planBillet(`"trim": {"far": "2.1 m"}`), 422, []string{"/billets/0/trim/far out_of_range"}, "at most 2 m"},
	{"runout past all measuring", planBillet(`"grain": {"runout_one_in": 2000000}`), 422, []string{"/billets/0/grain/runout_one_in out_of_range"}, "at most 1000000"},
	{"figure that lies down", planBillet(`"grain": {"flame_lean_deg": 90}`), 422, []string{"/billets/0/grain/flame_lean_deg out_of_range"}, "at most 89 degrees"},
	{"name longer than a label", planBillet(`"name": "` + strings.Repeat("n", 101) + `"`), 422, []string{"/billets/0/name too_long"}, "at most 100"},
	{"sixty-one zones", planBillet(`"zones": [` + strings.TrimSuffix(strings.Repeat(`{"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm"},`, 61), ",") + `]`), 422, []string{"/billets/0/zones too_many_items"}, "at most 60 entries"},

	// Zones.
	{"zone that begins a street away", planZone(`"kind": "knot", "x_from": "-2 m", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_from out_of_range"}, "at least -1 m"},
	{"zone that ends a street away", planZone(`"kind": "check", "x_from": "1 mm", "x_to": "21 m", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_to out_of_range"}, "at most 20 m"},
	{"zone wider than all wood", planZone(`"kind": "wane", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "6 m"`), 422, []string{"/billets/0/zones/0/y_to out_of_range"}, "at most 5 m"},
	{"zone below all wood", planZone(`"kind": "shake", "x_from": "1 mm", "x_to": "9 mm", "y_from": "1 mm", "y_to": "9 mm", "z_from": "1 mm", "z_to": "3 m"`), 422, []string{"/billets/0/zones/0/z_to out_of_range"}, "at most 2 m"},
	{"zone before the billet", planZone(`"kind": "knot", "x_from": "-20 mm", "x_to": "-1 mm", "y_from": "1 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/x_to out_of_range"}, "more than 0 mm"},
	{"facing of face 2 that leaves nothing", planBillet(`"facing_face_1": "0 mm", "facing_face_2": "60 mm"`), 422, []string{"/billets/0/facing_face_2 conflict"}, "less than 60 mm"},
	{"far trim that leaves nothing, in inches", planBillet(`"trim": {"near": "10 mm", "far": "9 in"}`), 422, []string{"/billets/0/trim/far conflict"}, "less than 8.2677 in"},
	{"zone of no width", planZone(`"kind": "knot", "x_from": "1 mm", "x_to": "9 mm", "y_from": "9 mm", "y_to": "9 mm"`), 422, []string{"/billets/0/zones/0/y_to conflict"}, "y_to must be more than 9 mm, which is y_from"},
	{"zone of no depth, in inches", planZone(`"kind": "knot", "x_from": "1 in", "x_to": "2 in", "y_from": "1 in", "y_to": "2 in", "z_from": "1 in", "z_to": "1 in"`), 422, []string{"/billets/0/zones/0/z_to conflict"}, "z_to must be more than 1 in, which is z_from"},

	// Rings.
	{"pith beyond the hills", planBillet(`"rings": {"pith": {"y": "101 m", "z": "0 mm"}}`), 422, []string{"/billets/0/rings/pith/y out_of_range"}, "at most 100 m"},
	{"planned rings steeper than upright", planBillet(`"rings": {"angle_deg": 91}`), 422, []string{"/billets/0/rings/angle_deg out_of_range"}, "at most 90 degrees"},
	{"rings read three times", planBillet(`"rings": {"readings": [{"y": "0 mm", "angle_deg": 60}, {"y": "50 mm", "angle_deg": 65}, {"y": "90 mm", "angle_deg": 70}]}`), 422, []string{"/billets/0/rings/readings too_many_items"}, "at most 2 entries"},
	{"chord of no height", planBillet(`"rings": {"chord": {"from": {"y": "0 mm", "z": "0 mm"}, "to": {"y": "90 mm", "z": "0 mm"}, "height": "0 mm"}, "pith_side": "face_2"}`), 422, []string{"/billets/0/rings/chord/height out_of_range"}, "more than 0 mm"},

	// Saws.
	{"rip kerf of a plough", PlanSawOf(OkPlanSaw + `, "rip_kerf": "21 mm"`), 422, []string{"/saws/0/rip_kerf out_of_range"}, "at most 20 mm"},
	{"negative crosscut kerf", PlanSawOf(OkPlanSaw + `, "crosscut_kerf": "-1 mm"`), 422, []string{"/saws/0/crosscut_kerf out_of_range"}, "at least 0 mm"},
	{"saw that wanders off", PlanSawOf(OkPlanSaw + `, "wander": "51 mm"`), 422, []string{"/saws/0/wander out_of_range"}, "at most 50 mm"},
	{"clean-up thicker than a leaf, in inches", PlanSawOf(`"kerf": "1/16 in", "cleanup_show": "2 in"`), 422, []string{"/saws/0/cleanup_show out_of_range"}, "at most 1.9685 in"},
	{"refacing of a hand's width", PlanSawOf(OkPlanSaw + `, "reface": "90 mm"`), 422, []string{"/saws/0/reface out_of_range"}, "at most 50 mm"},

	// Parts.
	{"part longer than all wood", PlanPart(`"length": "21 m", "width": "210 mm", "final_thickness": "3 mm"`), 422, []string{"/parts/0/length out_of_range"}, "at most 20 m"},
	{"part narrower than a splinter", PlanPart(`"length": "500 mm", "width": "2 mm", "final_thickness": "3 mm"`), 422, []string{"/parts/0/width out_of_range"}, "at least 3 mm"},
	{"part thicker than a wall", PlanPart(`"length": "500 mm", "width": "210 mm", "final_thickness": "1.1 m"`), 422, []string{"/parts/0/final_thickness out_of_range"}, "at most 1 m"},
	{"leaf that is sawn to nothing", PlanPart(`"length": "500 mm", "width": "210 mm", "sawn_thickness": "0.1 mm"`), 422, []string{"/parts/0/sawn_thickness out_of_range"}, "at least 0.2 mm"},
	{"flattening of a plank", PlanPart(OkPlanPart + `, "flattening": "51 mm"`), 422, []string{"/parts/0/flattening out_of_range"}, "at most 50 mm"},
	{"a hundred and one pieces in a set", PlanPart(OkPlanPart + `, "pieces_per_set": 101`), 422, []string{"/parts/0/pieces_per_set out_of_range"}, "at most 100"},
	{"a million sets wanted", PlanPart(OkPlanPart + `, "max_sets": 1000000`), 422, []string{"/parts/0/max_sets out_of_range"}, "at most 10000"},
	{"part worth a fortune", PlanPart(OkPlanPart + `, "set_value": 1000001`), 422, []string{"/parts/0/set_value out_of_range"}, "at most 1000000"},
	{"part of steeper fibre than any", PlanPart(OkPlanPart + `, "max_runout_one_in": 0.5`), 422, []string{"/parts/0/max_runout_one_in out_of_range"}, "at least 1"},
	{"shrinkage past the quarter", PlanPart(OkPlanPart + `, "shrinkage_ring_angle_deg": 91`), 422, []string{"/parts/0/shrinkage_ring_angle_deg out_of_range"}, "at most 90 degrees"},

	// The rest.
	{"work of a moment", planRest(`"max_search_steps": 999`), 422, []string{"/max_search_steps out_of_range"}, "at least 1000"},
	{"kerf that varies by a thumb", planRest(`"variation": {"kerf_sd": "11 mm"}`), 422, []string{"/variation/kerf_sd out_of_range"}, "at most 10 mm"},
	{"paper of a poster", planRest(`"paper": "a0"`), 422, []string{"/paper not_a_choice"}, "one of a4, letter"},
	{"inches in tenths", planRest(`"report_in": "inch", "inch_fraction": "1/10"`), 422, []string{"/inch_fraction not_a_choice"}, "one of 1/32, 1/64"},
	{"millimetres in sixty-fourths", planRest(`"inch_fraction": "1/64"`), 422, []string{"/inch_fraction conflict"}, "goes with report_in inch"},
}
