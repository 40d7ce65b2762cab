package asking

const (
	okLogOnly = `"log": {"wood": "maple-sugar", "length": "2 m", "start_diameter": "400 mm", "end_diameter": "380 mm"}`
	okWanted  = `"wanted": {"thickness": "50 mm", "min_width": "100 mm"}`
	okMill    = `"saw": {"kerf": "3 mm"}`
)

// logWith is a right request but for what a row puts into it.
func logWith(log, pattern, wanted, rest string) Asked {
	return Posting("/v1/log-plan", `{`+log+`, "pattern": "`+pattern+`", `+wanted+`, `+rest+`}`)
}

// logOf is a right request of a log with more members.
func logOf(more, rest string) Asked {
	return logWith(okLogOnly[:len(okLogOnly)-1]+`, `+more+`}`, "through_and_through", okWanted, okMill+rest)
}

// wantedOf is a right request with more members of what is wanted.
func wantedOf(pattern, more string) Asked {
	return logWith(okLogOnly, pattern, okWanted[:len(okWanted)-1]+`, `+more+`}`, okMill)
}

var wrongLog = []wrong{
	{"nothing given: log", Posting("/v1/log-plan", `{}`), 422, []string{"/log missing", "/pattern missing", "/wanted missing", "/saw missing"}, "log is needed"},
	{"log of no size", logWith(`"log": {}`, "quartered", okWanted, okMill), 422, []string{"/log/length missing", "/log/start_diameter missing", "/log/end_diameter missing"}, "length is needed"},
	{"log as a text", logWith(`"log": "oak"`, "quartered", okWanted, okMill), 422, []string{"/log wrong_type"}, "must be an object"},
	{"pattern of no sawyer", logWith(okLogOnly, "spiral", okWanted, okMill), 422, []string{"/pattern not_a_choice"}, "through_and_through"},
	{"nothing wanted of a log", logWith(okLogOnly, "wedges", `"wanted": {}`, okMill), 422, []string{"/wanted/thickness missing", "/wanted/min_width missing"}, "thickness is needed"},
	{"log without a kerf", logWith(okLogOnly, "wedges", okWanted, `"saw": {"wander": "1 mm"}`), 422, []string{"/saw/kerf missing"}, "give kerf or usual_kerf"},
	{"misspelt member of a log", logOf(`"bark_thicknes": "9 mm"`, ""), 422, []string{"/log/bark_thicknes unknown_member"}, `did you mean "bark_thickness"?`},
	{"diameter as a number", logWith(`"log": {"length": "2 m", "start_diameter": 400, "end_diameter": "380 mm"}`, "wedges", okWanted, okMill), 422, []string{"/log/start_diameter invalid_quantity"}, "is not a length"},
	{"log thicker than a house, in inches", logWith(`"log": {"length": "8 ft", "start_diameter": "200 in", "end_diameter": "20 in"}`, "wedges", okWanted, okMill), 422, []string{"/log/start_diameter out_of_range"}, "at most 118.1102 in"},
	{"nothing but bark", logOf(`"bark_thickness": "190 mm"`, ""), 422, []string{"/log/bark_thickness conflict"}, "less than 190 mm"},
	{"pith in the bark", logOf(`"pith": {"y": "150 mm", "z": "150 mm"}`, ""), 422, []string{"/log/pith conflict"}, "less than 200 mm from the middle"},
	{"pith outside the other end, in inches", logOf(`"end_pith": {"z": "-8 in"}`, `, "report_in": "inch"`), 422, []string{"/log/end_pith conflict"}, "less than 7.4803 in from the middle"},
	{"sapwood that is not told apart", logWith(okLogOnly, "quartered", okWanted, okMill+`, "sapwood_out": true`), 422, []string{"/log/sapwood_thickness missing"}, "needs the sapwood_thickness"},
	{"nothing but sapwood", logOf(`"sapwood_thickness": "190 mm"`, `, "sapwood_out": true`), 422, []string{"/log/sapwood_thickness conflict"}, "no heartwood"},
	{"clearance of a pith that stays", logWith(okLogOnly, "quartered", okWanted, okMill+`, "pith_clearance": "9 mm"`), 422, []string{"/pith_clearance conflict"}, "pith_out"},
	{"thin edge thicker than the thick one", wantedOf("wedges", `"thin_edge": "51 mm"`), 422, []string{"/wanted/thin_edge conflict"}, "at most 50 mm"},
	{"greatest width below the least", wantedOf("wedges", `"max_width": "90 mm"`), 422, []string{"/wanted/max_width conflict"}, "at least 100 mm"},
	{"billet longer than the log", wantedOf("wedges", `"length": "2.2 m", "end_trim": "20 mm"`), 422, []string{"/wanted/length conflict"}, "at most 1.96 m"},
	{"nothing between the end trims", wantedOf("wedges", `"end_trim": "1 m"`), 422, []string{"/wanted/end_trim conflict"}, "leave nothing of the log"},
	{"rings steeper than upright in a log", wantedOf("quartered", `"min_ring_angle_deg": 90`), 422, []string{"/wanted/min_ring_angle_deg out_of_range"}, "at most 89"},
	{"dry billets of no wood", logWith(`"log": {"length": "2 m", "start_diameter": "400 mm", "end_diameter": "380 mm"}`, "quartered", okWanted[:len(okWanted)-1]+`, "final_condition": {"mc_pct": 8}}`, okMill), 422, []string{"/log/wood missing"}, "needs the wood"},
	{"billets wetter than the log", logWith(okLogOnly[:len(okLogOnly)-1]+`, "condition": {"mc_pct": 12}}`, "quartered", okWanted[:len(okWanted)-1]+`, "final_condition": {"mc_pct": 18}}`, okMill), 422, []string{"/wanted/final_condition conflict"}, "wetter than the log"},
	{"own wood of a log without figures", logWith(`"log": {"wood": {"specific_gravity": 0.5}, "length": "2 m", "start_diameter": "400 mm", "end_diameter": "380 mm"}`, "quartered", okWanted[:len(okWanted)-1]+`, "final_condition": {"mc_pct": 8}}`, okMill), 422, []string{"/log/wood missing_data"}, "give its radial shrinkage"},
	{"boards with a froe", logWith(okLogOnly, "through_and_through", okWanted, `"saw": {"usual_kerf": "froe"}`), 422, []string{"/saw/usual_kerf conflict"}, "goes with the pattern wedges"},
	{"a thousand splints", logWith(okLogOnly, "through_and_through", `"wanted": {"thickness": "1 mm", "min_width": "10 mm", "length": "60 mm", "end_trim": "0 mm"}`, okMill), 422, []string{"/wanted/thickness too_much_work"}, "1000 are answered at most"},
	{"turned more than round", logWith(okLogOnly, "quartered", okWanted, okMill+`, "turn_deg": 270`), 422, []string{"/turn_deg out_of_range"}, "at most 180"},
	{"log as csv", Posting("/v1/log-plan?as=csv", `{}`), 400, []string{"?as not_a_choice"}, "as is json or svg"},
	{"look-up of a log", Getting("/v1/log-plan"), 405, nil, ""},
	{"together: log", logWith(`"log": {"wood": "no such wood", "length": "2 m", "start_diameter": "400 mm", "end_diameter": "380 mm", "pith": {"y": "1 m"}}`, "wedges", `"wanted": {"thickness": "50 mm", "min_width": "90 mm", "thin_edge": "60 mm"}`, `"saw": {"usual_kerf": "chainsaw"}`), 422,
		[]string{"/log/wood not_found", "/saw/usual_kerf not_found", "/log/pith conflict", "/wanted/thin_edge conflict"}, "no wood called"},
}
