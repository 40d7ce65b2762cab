package asking

// logSized is a right request but for the log.
func logSized(log string) Asked { return logWith(`"log": {`+log+`}`, "quartered", okWanted, okMill) }

// wrongLogLimits are logs beyond a limit: each error names the member, the limit and its unit.
var wrongLogLimits = []wrong{
	{"log longer than a mast", logSized(`"length": "21 m", "start_diameter": "400 mm", "end_diameter": "380 mm"`), 422, []string{"/log/length out_of_range"}, "at most 20 m"},
	{"log as thin as a pencil", logSized(`"length": "2 m", "start_diameter": "9 mm", "end_diameter": "9 mm"`), 422, []string{"/log/start_diameter out_of_range", "/log/end_diameter out_of_range"}, "at least 30 mm"},
	{"bark as thick as a fist", logOf(`"bark_thickness": "201 mm"`, ""), 422, []string{"/log/bark_thickness out_of_range"}, "at most 200 mm"},
	{"negative sapwood", logOf(`"sapwood_thickness": "-1 mm"`, ""), 422, []string{"/log/sapwood_thickness out_of_range"}, "at least 0 mm"},
	{"log bent like a bow", logOf(`"sweep": "3 m"`, ""), 422, []string{"/log/sweep out_of_range"}, "at most 1 m"},
	{"boards thicker than any log", logWith(okLogOnly, "quartered", `"wanted": {"thickness": "3 m", "min_width": "100 mm"}`, okMill), 422, []string{"/wanted/thickness out_of_range"}, "at most 2 m"},
	{"boards of no width", logWith(okLogOnly, "quartered", `"wanted": {"thickness": "50 mm", "min_width": "0 mm"}`, okMill), 422, []string{"/wanted/min_width out_of_range"}, "at least"},
	{"end trim of a whole log", wantedOf("quartered", `"end_trim": "6 m"`), 422, []string{"/wanted/end_trim out_of_range"}, "at most"},
	{"thin edge of nothing less", wantedOf("wedges", `"thin_edge": "-1 mm"`), 422, []string{"/wanted/thin_edge out_of_range"}, "at least 0 mm"},
	{"negative ring angle wanted of a log", wantedOf("quartered", `"min_ring_angle_deg": -1`), 422, []string{"/wanted/min_ring_angle_deg out_of_range"}, "at least 0"},
	{"kerf of a plough in a log", logWith(okLogOnly, "quartered", okWanted, `"saw": {"kerf": "21 mm"}`), 422, []string{"/saw/kerf out_of_range"}, "at most 20 mm"},
	{"log turned more than round the other way", logWith(okLogOnly, "quartered", okWanted, okMill+`, "turn_deg": -181`), 422, []string{"/turn_deg out_of_range"}, "at least -180"},
	{"clearance of a metre", logWith(okLogOnly, "quartered", okWanted, okMill+`, "pith_out": true, "pith_clearance": "2 m"`), 422, []string{"/pith_clearance out_of_range"}, "at most"},
	{"splints in inches", logWith(okLogOnly, "through_and_through", `"wanted": {"thickness": "0.04 in", "min_width": "0.4 in", "length": "2.4 in", "end_trim": "0 in"}`, okMill+`, "report_in": "inch"`), 422, []string{"/wanted/thickness too_much_work"}, "thickness must be at least"},
	{"log in cubits", logOf(`"bark_thickness": "9 mm"`, `, "report_in": "cubits"`), 422, []string{"/report_in not_a_choice"}, "one of metric, inch"},
}
