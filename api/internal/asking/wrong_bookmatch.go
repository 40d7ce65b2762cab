package asking

// bookmatchWith is a right request but for what a row puts into it.
func bookmatchWith(members string) Asked {
	return Posting("/v1/bookmatch", `{`+members+`}`)
}

const (
	okWidth  = `"width": "210 mm"`
	okLeaves = `"leaves": {"count": 4, "thickness": "4.5 mm", "kerf": "1.5 mm"}`
	okRings  = `"rings": {"ring_angle_deg": 75}`
)

func matchWith(rest string) Asked {
	return bookmatchWith(okWidth + `, ` + okLeaves + `, ` + okRings + `, ` + rest)
}

func ringsWith(rings string) Asked {
	return bookmatchWith(okWidth + `, ` + okLeaves + `, "rings": {` + rings + `}`)
}

func facesWith(faces string) Asked {
	return bookmatchWith(okWidth + `, ` + okRings + `, "cleanup": {"show": "0.5 mm"}, "faces": [` + faces + `]`)
}

var wrongBookmatch = []wrong{
	{"nothing given: bookmatch", bookmatchWith(``), 422, []string{"/width missing", "/rings missing"}, "width is needed"},
	{"bookmatch as a list", Posting("/v1/bookmatch", `[1]`), 422, []string{" wrong_type"}, "must be an object"},
	{"NaN in bookmatch", matchWith(`"ring_angle_sd_deg": NaN`), 400, []string{"/ring_angle_sd_deg invalid_json"}, "not readable as JSON"},
	{"unknown member of bookmatch", matchWith(`"ring_angle_deg": 75`), 422, []string{"/ring_angle_deg unknown_member"}, "there is no member"},
	{"no leaves", bookmatchWith(okWidth + `, ` + okRings), 422, []string{"/leaves missing"}, "give leaves"},
	{"leaves and faces", bookmatchWith(okWidth + `, ` + okLeaves + `, ` + okRings + `, "faces": [{"front": "0 mm", "back": "4 mm"}, {"front": "5 mm", "back": "9 mm"}]`), 422, []string{"/faces conflict"}, "not both"},
	{"one leaf", bookmatchWith(okWidth + `, ` + okRings + `, "leaves": {"count": 1, "thickness": "4 mm", "kerf": "1 mm"}`), 422, []string{"/leaves/count out_of_range"}, "at least 2"},
	{"too many leaves", bookmatchWith(okWidth + `, ` + okRings + `, "leaves": {"count": 201, "thickness": "4 mm", "kerf": "1 mm"}`), 422, []string{"/leaves/count out_of_range"}, "at most 200"},
	{"leaf without kerf", bookmatchWith(okWidth + `, ` + okRings + `, "leaves": {"count": 2, "thickness": "4 mm"}`), 422, []string{"/leaves/kerf missing"}, "kerf is needed"},
	{"kerf as wide as a beam", bookmatchWith(okWidth + `, ` + okRings + `, "leaves": {"count": 2, "thickness": "4 mm", "kerf": "1 in"}`), 422, []string{"/leaves/kerf out_of_range"}, "at most 0.7874 in"},
	{"leaf of no thickness", bookmatchWith(okWidth + `, ` + okRings + `, "leaves": {"count": 2, "thickness": "0 mm", "kerf": "1 mm"}`), 422, []string{"/leaves/thickness out_of_range"}, "at least 0.2 mm"},
	{"one face", facesWith(`{"front": "0 mm", "back": "4 mm"}`), 422, []string{"/faces out_of_range"}, "two leaves"},
	{"face without back", facesWith(`{"front": "0 mm"}, {"front": "5 mm", "back": "9 mm"}`), 422, []string{"/faces/0/back missing"}, "back is needed"},
	{"leaf inside out", facesWith(`{"front": "0 mm", "back": "4 mm"}, {"front": "9 mm", "back": "5 mm"}`), 422, []string{"/faces/1/back conflict"}, "deeper"},
	{"leaves that overlap", facesWith(`{"front": "0 mm", "back": "4 mm"}, {"front": "3 mm", "back": "8 mm"}`), 422, []string{"/faces/1/front conflict"}, "before the one above it ends"},
	{"spoiled leaf that is not there", matchWith(`"spoiled": [5]`), 422, []string{"/spoiled/0 out_of_range"}, "there is no leaf 5; they are numbered 1 to 4"},
	{"spoiled leaf 0", matchWith(`"spoiled": [0]`), 422, []string{"/spoiled/0 out_of_range"}, "at least 1"},
	{"clean-up that leaves nothing", matchWith(`"cleanup": {"show": "3 mm", "back": "1.5 mm"}`), 422, []string{"/cleanup/show conflict"}, "leaves nothing"},
	{"seam edge of half the width", matchWith(`"seam_edge": "105 mm"`), 422, []string{"/seam_edge conflict"}, "half of the width"},
	{"rings of nothing", ringsWith(``), 422, []string{"/rings missing"}, "give pith, readings or ring_angle_deg"},
	{"pith and angle", ringsWith(`"pith": {"x": "0 mm", "z": "50 mm"}, "ring_angle_deg": 60`), 422, []string{"/rings conflict"}, "only one of"},
	{"half a pith", ringsWith(`"pith": {"x": "0 mm"}`), 422, []string{"/rings/pith/z missing"}, "z is needed"},
	{"pith in the next county", ringsWith(`"pith": {"x": "51 m", "z": "0 mm"}`), 422, []string{"/rings/pith/x out_of_range"}, "at most 50 m"},
	{"three readings", ringsWith(`"readings": [{"x": "0 mm", "ring_angle_deg": 50}, {"x": "50 mm", "ring_angle_deg": 60}, {"x": "90 mm", "ring_angle_deg": 70}]`), 422, []string{"/rings/readings too_many_items"}, "at most 2 entries"},
	{"two angles at one place", ringsWith(`"readings": [{"x": "50 mm", "ring_angle_deg": 50}, {"x": "50 mm", "ring_angle_deg": 60}]`), 422, []string{"/rings/readings conflict"}, "same place"},
	{"reading without its place", ringsWith(`"readings": [{"ring_angle_deg": 50}]`), 422, []string{"/rings/readings/0/x missing"}, "x is needed"},
	{"ring angle past upright", ringsWith(`"ring_angle_deg": 91`), 422, []string{"/rings/ring_angle_deg out_of_range"}, "at most 90 degrees"},
	{"ring angle of 0", ringsWith(`"ring_angle_deg": 0`), 422, []string{"/rings/ring_angle_deg out_of_range"}, "at least 0.01 degrees"},
	{"lean with a pith", ringsWith(`"pith": {"x": "0 mm", "z": "50 mm"}, "lean": "left"`), 422, []string{"/rings/lean conflict"}, "a pith tells it"},
	{"pith side with one angle", ringsWith(`"ring_angle_deg": 60, "pith_before_face_1": true`), 422, []string{"/rings/pith_before_face_1 conflict"}, "two readings"},
	{"lean not offered", ringsWith(`"ring_angle_deg": 60, "lean": "up"`), 422, []string{"/rings/lean not_a_choice"}, "one of left, right"},
	{"steep runout", matchWith(`"grain": {"runout_one_in": 0.5}`), 422, []string{"/grain/runout_one_in out_of_range"}, "at least 1"},
	{"flame along the board", matchWith(`"grain": {"flame_lean_deg": 90}`), 422, []string{"/grain/flame_lean_deg out_of_range"}, "at most 89 degrees"},
	{"edge not offered", matchWith(`"edges": {"left": "sapwood"}`), 422, []string{"/edges/left not_a_choice"}, "one of bark, heart"},
	{"opening not offered", matchWith(`"openings": ["random"]`), 422, []string{"/openings/0 not_a_choice"}, "one of bookmatch, slip_match, wrong_way"},
	{"opening twice", matchWith(`"openings": ["bookmatch", "bookmatch"]`), 422, []string{"/openings/1 conflict"}, "stands twice"},
	{"no spare width", matchWith(`"spare": {"width": "0 mm"}`), 422, []string{"/spare/width out_of_range"}, "more than 0 mm"},
	{"weight below nothing", matchWith(`"weights": {"flame": -1}`), 422, []string{"/weights/flame out_of_range"}, "at least 0"},
	{"bookmatch of no such wood", matchWith(`"wood": "mahagony tree"`), 422, []string{"/wood not_found"}, "there is no wood called"},
	{"ring angle too unsure", matchWith(`"ring_angle_sd_deg": 31`), 422, []string{"/ring_angle_sd_deg out_of_range"}, "at most 30 degrees"},
}
