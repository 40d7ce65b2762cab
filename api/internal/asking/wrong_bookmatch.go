package asking

// bookmatchWith is a right request but for what a row puts into it.
func bookmatchWith(members string) Asked {
	return Posting("/v1/bookmatch", `{`+members+`}`)
}

const (
	okStack  = `"stack": {"leaves": 4, "sawn_thickness": "4.5 mm"}`
	okKerf   = `"saw": {"kerf": "1.5 mm"}`
	okRings  = `"rings": {"angle_deg": 75}`
	okLeaved = `"billet": {"width": "210 mm", ` + okRings + `}`
)

func matchWith(rest string) Asked {
	return bookmatchWith(okLeaved + `, ` + okStack + `, ` + okKerf + `, ` + rest)
}

func matchBillet(billet string) Asked {
	return bookmatchWith(`"billet": {"width": "210 mm", ` + okRings + `, ` + billet + `}, ` + okStack + `, ` + okKerf)
}

func ringsWith(rings string) Asked {
	return bookmatchWith(`"billet": {"width": "210 mm", "rings": {` + rings + `}}, ` + okStack + `, ` + okKerf)
}

func stackWith(stack string) Asked {
	return bookmatchWith(okLeaved + `, ` + okKerf + `, "stack": {` + stack + `}`)
}

func leavesWith(leaves string) Asked {
	return bookmatchWith(okLeaved + `, "saw": {"cleanup_show": "0.5 mm"}, "leaves": [` + leaves + `]`)
}

var wrongBookmatch = []wrong{
	{"stack thicker than its billet", bookmatchWith(`"billet": {"width": "210 mm", "thickness": "20 mm", ` + okRings + `}, ` + okStack + `, ` + okKerf), 422, []string{"/stack/leaves conflict"}, "reach 22.5 mm deep, beyond the billet: the billet is 20 mm thick"},
	{"leaf beyond its billet, in inches", bookmatchWith(`"billet": {"width": "8 in", "thickness": "1 in", ` + okRings + `}, "leaves": [{"z_from": "0 in", "z_to": "0.5 in"}, {"z_from": "0.6 in", "z_to": "1.1 in"}], "report_in": "inch"`), 422, []string{"/leaves/1/z_to conflict"}, "the billet is 1 in thick"},
	{"idle zone of a match that ends before it begins", matchBillet(`"zones": [{"kind": "knot", "x_from": "0 mm", "x_to": "9 mm", "y_from": "9 mm", "y_to": "3 mm"}]`), 422, []string{"/billet/zones/0/y_to conflict"}, "more than 9 mm"},
	{"nothing given: bookmatch", bookmatchWith(``), 422, []string{"/billet missing"}, "billet is needed"},
	{"bookmatch as a list", Posting("/v1/bookmatch", `[1]`), 422, []string{" wrong_type"}, "must be an object"},
	{"NaN in bookmatch", matchWith(`"seam_edge": NaN`), 400, []string{"/seam_edge invalid_json"}, "not readable as JSON"},
	{"unknown member of bookmatch", matchWith(`"angle_deg": 75`), 422, []string{"/angle_deg unknown_member"}, "there is no member"},
	{"no leaves", bookmatchWith(okLeaved), 422, []string{"/stack missing"}, "give stack"},
	{"a stack and leaves", matchWith(`"leaves": [{"z_from": "0 mm", "z_to": "4 mm"}, {"z_from": "5 mm", "z_to": "9 mm"}]`), 422, []string{"/leaves conflict"}, "not both"},
	{"one leaf", stackWith(`"leaves": 1, "sawn_thickness": "4 mm"`), 422, []string{"/stack/leaves out_of_range"}, "at least 2"},
	{"too many leaves", stackWith(`"leaves": 201, "sawn_thickness": "4 mm"`), 422, []string{"/stack/leaves out_of_range"}, "at most 200"},
	{"stack without a saw", bookmatchWith(okLeaved + `, ` + okStack), 422, []string{"/saw missing"}, "needs the saw with its kerf"},
	{"stack without a kerf", bookmatchWith(okLeaved + `, ` + okStack + `, "saw": {"reface": "1 mm"}`), 422, []string{"/saw/kerf missing"}, "give kerf, or usual_kerf"},
	{"kerf as wide as a beam", bookmatchWith(okLeaved + `, ` + okStack + `, "saw": {"kerf": "1 in"}`), 422, []string{"/saw/kerf out_of_range"}, "at most 0.7874 in"},
	{"leaf of no thickness", stackWith(`"leaves": 2, "sawn_thickness": "0 mm"`), 422, []string{"/stack/sawn_thickness out_of_range"}, "at least 0.2 mm"},
	{"one face", leavesWith(`{"z_from": "0 mm", "z_to": "4 mm"}`), 422, []string{"/leaves too_few_items"}, "at least 2 entries"},
	{"face without back", leavesWith(`{"z_from": "0 mm"}, {"z_from": "5 mm", "z_to": "9 mm"}`), 422, []string{"/leaves/0/z_to missing"}, "z_to is needed"},
	{"leaf inside out", leavesWith(`{"z_from": "0 mm", "z_to": "4 mm"}, {"z_from": "9 mm", "z_to": "5 mm"}`), 422, []string{"/leaves/1/z_to conflict"}, "deeper"},
	{"leaves that overlap", leavesWith(`{"z_from": "0 mm", "z_to": "4 mm"}, {"z_from": "3 mm", "z_to": "8 mm"}`), 422, []string{"/leaves/1/z_from conflict"}, "before the one above it ends"},
	{"spoiled leaf that is not there", matchWith(`"rejected_leaves": [5]`), 422, []string{"/rejected_leaves/0 out_of_range"}, "there is no leaf 5; they are numbered 1 to 4"},
	{"spoiled leaf 0", matchWith(`"rejected_leaves": [0]`), 422, []string{"/rejected_leaves/0 out_of_range"}, "at least 1"},
	{"clean-up that leaves nothing", bookmatchWith(okLeaved + `, ` + okStack + `, "saw": {"kerf": "1.5 mm", "cleanup_show": "3 mm", "cleanup_back": "1.5 mm"}`), 422, []string{"/saw/cleanup_show conflict"}, "leaves nothing"},
	{"clean-up of the back that leaves nothing, in inches", bookmatchWith(okLeaved + `, ` + okStack + `, "saw": {"kerf": "1.5 mm", "cleanup_back": "0.2 in"}, "report_in": "inch"`), 422, []string{"/saw/cleanup_back conflict"}, "it must be less than 0."},
	{"seam edge of half the width", matchWith(`"seam_edge": "105 mm"`), 422, []string{"/seam_edge conflict"}, "half of the width"},
	{"arch below nothing", matchWith(`"arch_height": "-1 mm"`), 422, []string{"/arch_height out_of_range"}, "at least 0"},
	{"arch higher than its leaf", matchWith(`"arch_height": "6 mm"`), 422, []string{"/arch_height conflict"}, "leaves nothing of a leaf at its outer edge"},
	{"arch as an angle", matchWith(`"arch_height": 15`), 422, []string{"/arch_height invalid_quantity"}, ""},
	{"rings of nothing", ringsWith(``), 422, []string{"/billet/rings missing"}, "give pith, readings, chord or angle_deg"},
	{"pith and angle", ringsWith(`"pith": {"y": "0 mm", "z": "50 mm"}, "angle_deg": 60`), 422, []string{"/billet/rings conflict"}, "only one of"},
	{"half a pith", ringsWith(`"pith": {"y": "0 mm"}`), 422, []string{"/billet/rings/pith/z missing"}, "z is needed"},
	{"pith in the next county", ringsWith(`"pith": {"y": "101 m", "z": "0 mm"}`), 422, []string{"/billet/rings/pith/y out_of_range"}, "at most 100 m"},
	{"three readings", ringsWith(`"readings": [{"y": "0 mm", "angle_deg": 50}, {"y": "50 mm", "angle_deg": 60}, {"y": "90 mm", "angle_deg": 70}]`), 422, []string{"/billet/rings/readings too_many_items"}, "at most 2 entries"},
	{"two angles at one place", ringsWith(`"readings": [{"y": "50 mm", "angle_deg": 50}, {"y": "50 mm", "angle_deg": 60}]`), 422, []string{"/billet/rings/readings/1/y conflict"}, "same place"},
	{"reading without its place", ringsWith(`"readings": [{"angle_deg": 50}]`), 422, []string{"/billet/rings/readings/0/y missing"}, "y is needed"},
	{"ring angle past upright", ringsWith(`"angle_deg": 91`), 422, []string{"/billet/rings/angle_deg out_of_range"}, "at most 90 degrees"},
	{"ring angle below 0", ringsWith(`"angle_deg": -0.1`), 422, []string{"/billet/rings/angle_deg out_of_range"}, "at least 0 degrees"},
	{"lean with a pith", ringsWith(`"pith": {"y": "0 mm", "z": "50 mm"}, "lean": "near"`), 422, []string{"/billet/rings/lean conflict"}, "a pith tells it"},
	{"pith side with one angle", ringsWith(`"angle_deg": 60, "pith_side": "face_1"`), 422, []string{"/billet/rings/pith_side conflict"}, "two readings"},
	{"lean not offered", ringsWith(`"angle_deg": 60, "lean": "up"`), 422, []string{"/billet/rings/lean not_a_choice"}, "one of near, far"},
	{"steep runout", matchBillet(`"grain": {"runout_one_in": 0.5}`), 422, []string{"/billet/grain/runout_one_in out_of_range"}, "at least 1"},
	{"flame along the board", matchBillet(`"grain": {"flame_lean_deg": 90}`), 422, []string{"/billet/grain/flame_lean_deg out_of_range"}, "at most 89 degrees"},
	{"edge not offered", matchBillet(`"edges_in_tree": {"near": "sapwood"}`), 422, []string{"/billet/edges_in_tree/near not_a_choice"}, "one of bark, pith"},
	{"opening not offered", matchWith(`"openings": ["random"]`), 422, []string{"/openings/0 not_a_choice"}, "one of bookmatch, slip_match, wrong_way"},
	{"opening twice", matchWith(`"openings": ["bookmatch", "bookmatch"]`), 422, []string{"/openings/1 conflict"}, "stands twice"},
	{"no spare width", matchWith(`"spare": {"width": "0 mm"}`), 422, []string{"/spare/width out_of_range"}, "more than 0 mm"},
	{"weight below nothing", matchWith(`"score_weights": {"flame": -1}`), 422, []string{"/score_weights/flame out_of_range"}, "at least 0"},
	{"bookmatch of no such wood", matchBillet(`"wood": "mahagony tree"`), 422, []string{"/billet/wood not_found"}, "there is no wood called"},
	{"ring angle too unsure", ringsWith(`"angle_deg": 75, "angle_sd_deg": 31`), 422, []string{"/billet/rings/angle_sd_deg out_of_range"}, "at most 30 degrees"},
}
