package asking

// timingWith is a right request but for its moisture, storage and the rest.
func timingWith(moisture, storage, rest string) Asked {
	return Posting("/v1/resaw-timing", Together(`{"billet": {"wood": "maple-sugar", "length": "620 mm", "width": "225 mm", "thickness": "58 mm"}, "as_of": "2026-03-01",
		"saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "200 mm", "final_thickness": "2.6 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"moisture_profile": {`+moisture+`}, "stays": [`+storage+`]`+rest+`}`))
}

// timingPart is a right request but for its part.
func timingPart(part string) Asked {
	return Posting("/v1/resaw-timing", `{"billet": {"wood": "maple-sugar", "length": "620 mm", "width": "225 mm", "thickness": "58 mm"}, "as_of": "2026-03-01",
		"saw": {"kerf": "1.5 mm"}, "part": {`+part+`}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "moisture_profile": {"mean_mc_pct": 18}, "stays": [{"station": "madison-wi"}]}`)
}

// timingBillet is a right request but for its wood and billet.
func timingBillet(members string) Asked {
	return Posting("/v1/resaw-timing", `{`+members+`, "as_of": "2026-03-01", "saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "200 mm", "sawn_thickness": "5 mm"},
		"target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "moisture_profile": {"mean_mc_pct": 18}, "stays": [{"station": "madison-wi"}]}`)
}

const (
	okMean      = `"mean_mc_pct": 18`
	okTimingBed = `"billet": {"length": "620 mm", "width": "225 mm", "thickness": "58 mm"}`
	mapleBed    = `"billet": {"wood": "maple-sugar", "length": "620 mm", "width": "225 mm", "thickness": "58 mm"}`
)

var wrongTiming = []wrong{
	{"nothing given: timing", Posting("/v1/resaw-timing", `{}`), 422, []string{"/billet missing", "/moisture_profile missing", "/as_of missing", "/stays missing", "/target_condition missing", "/saw missing", "/part missing"}, "billet is needed"},
	{"timing as a text", Posting("/v1/resaw-timing", `"now"`), 422, []string{" wrong_type"}, "must be an object"},
	{"NaN in timing", timingWith(`"mean_mc_pct": NaN`, okStay, ``), 400, []string{"/moisture_profile/mean_mc_pct invalid_json"}, "not readable as JSON"},
	{"unknown member of timing", timingWith(okMean, okStay, `, "stacked_on": "2026-01-01"`), 422, []string{"/stacked_on unknown_member"}, "there is no member"},
	{"timing without a moisture", timingWith(``, okStay, ``), 422, []string{"/moisture_profile/mean_mc_pct missing"}, "mean_mc_pct is needed"},
	{"wetter than the model takes", timingWith(`"mean_mc_pct": 141`, okStay, ``), 422, []string{"/moisture_profile/mean_mc_pct out_of_range"}, "at most 140 %"},
	{"drier than any room", timingWith(`"mean_mc_pct": 2`, okStay, ``), 422, []string{"/moisture_profile/mean_mc_pct out_of_range"}, "at least 3 %"},
	{"timing of a part longer than the billet", timingPart(`"length": "700 mm", "width": "200 mm", "final_thickness": "2.6 mm"`), 422, []string{"/part/length conflict"}, "longer than the billet between its trims (700 mm against 620 mm)"},
	{"timing of a part wider than the billet", timingPart(`"length": "560 mm", "width": "9 in", "final_thickness": "2.6 mm"`), 422, []string{"/part/width conflict"}, "wider than the billet between its trims (9 in against 8.8582 in)"},
	{"timing of a part thicker than the billet", timingPart(`"length": "560 mm", "width": "200 mm", "final_thickness": "70 mm"`), 422, []string{"/part/final_thickness conflict"}, "thicker than the billet (70 mm against 58 mm)"},
	{"timing of a leaf thicker than the billet", timingPart(`"length": "560 mm", "width": "200 mm", "sawn_thickness": "58.01 mm"`), 422, []string{"/part/sawn_thickness conflict"}, "58.01 mm against 58 mm"},
	{"timing of a part between trims", timingBillet(`"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm", "trim": {"start": "25 mm", "end": "25 mm"}}`), 422, []string{"/part/length conflict"}, "560 mm against 550 mm"},
	{"shell without core", timingWith(okMean+`, "shell_mc_pct": 15`, okStay, ``), 422, []string{"/moisture_profile/core_mc_pct missing"}, "go together"},
	{"core without shell", timingWith(okMean+`, "core_mc_pct": 21`, okStay, ``), 422, []string{"/moisture_profile/shell_mc_pct missing"}, "go together"},
	{"mean outside of shell and core", timingWith(okMean+`, "shell_mc_pct": 10, "core_mc_pct": 14`, okStay, ``), 422, []string{"/moisture_profile/mean_mc_pct conflict"}, "between shell and core"},
	{"moisture too sure", timingWith(okMean+`, "mean_mc_sd_points": 0`, okStay, ``), 422, []string{"/moisture_profile/mean_mc_sd_points out_of_range"}, "at least 0.1 points"},
	{"no storage: timing", timingWith(okMean, ``, ``), 422, []string{"/stays too_few_items"}, "at least 1 entry"},
	{"timing in two places at once", timingWith(okMean, `{"station": "madison-wi", "air": {"temperature": "20 C", "rh_pct": 45}}`, ``), 422, []string{"/stays/0 conflict"}, "only one of"},
	{"timing at no such place", timingWith(okMean, `{"station": "atlantis"}`, ``), 422, []string{"/stays/0/station not_found"}, "there is no place called"},
	{"leaves in two places at once", timingWith(okMean, okStay, `, "leaf_stays": [{"station": "madison-wi", "air": {"temperature": "20 C", "rh_pct": 45}}]`), 422, []string{"/leaf_stays/0 conflict"}, "only one of"},
	{"leaves at no such place", timingWith(okMean, okStay, `, "leaf_stays": [{"station": "atlantis"}]`), 422, []string{"/leaf_stays/0/station not_found"}, "there is no place called"},
	{"prongs that turn nowhere", timingWith(okMean, okStay, `, "prong_test": {}`), 422, []string{"/prong_test/prongs missing"}, "prongs is needed"},
	{"prongs that turn sideways", timingWith(okMean, okStay, `, "prong_test": {"prongs": "sideways"}`), 422, []string{"/prong_test/prongs not_a_choice"}, "inward, straight, outward"},
	{"a turn of prongs of no length", timingWith(okMean, okStay, `, "prong_test": {"prongs": "inward", "tip_travel": "3 mm"}`), 422, []string{"/prong_test/prong_length missing"}, "goes with prong_length"},
	{"a turn of straight prongs", timingWith(okMean, okStay, `, "prong_test": {"prongs": "straight", "tip_travel": "3 mm", "prong_length": "100 mm"}`), 422, []string{"/prong_test/tip_travel conflict"}, "have not moved"},
	{"prongs that moved too far", timingWith(okMean, okStay, `, "prong_test": {"prongs": "inward", "tip_travel": "80 mm", "prong_length": "100 mm"}`), 422, []string{"/prong_test/tip_travel conflict"}, "half of its length"},
	{"leaves nowhere", timingWith(okMean, okStay, `, "leaf_stays": []`), 422, []string{"/leaf_stays too_few_items"}, "at least 1 entry"},
	{"stay that ends before today", timingWith(okMean, `{"station": "madison-wi", "until": "2026-02-01"}, {"station": "madison-wi"}`, ``), 422, []string{"/stays/0/until out_of_range"}, "after"},
	{"record shorter than the forecast", timingWith(okMean, `{"log_csv": "time,temperature_c,rh_pct\n2026-01-01,20,45\n2026-06-01,21,40"}`, ``), 422, []string{"/stays/0/log_csv missing"}, "the record ends on 2026-06-01"},
	{"no such day: timing", Posting("/v1/resaw-timing", `{`+mapleBed+`, "as_of": "2026-02-30", "saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "200 mm", "sawn_thickness": "5 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "moisture_profile": {"mean_mc_pct": 18}, "stays": [{"station": "madison-wi"}]}`), 422, []string{"/as_of invalid_format"}, "a date such as"},
	{"build room without humidity", Posting("/v1/resaw-timing", `{`+mapleBed+`, "as_of": "2026-03-01", "saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "200 mm", "sawn_thickness": "5 mm"}, "target_condition": {"air": {"temperature": "20 C"}}, "moisture_profile": {"mean_mc_pct": 18}, "stays": [{"station": "madison-wi"}]}`), 422, []string{"/target_condition/air missing"}, "needs one of"},
	{"limits of glue", timingWith(okMean, okStay, `, "step_limits": [{"step": "glue", "max_above_mc_points": 1}]`), 422, []string{"/step_limits/0/step not_a_choice"}, "resaw and thickness"},
	{"limits of resaw twice", timingWith(okMean, okStay, `, "step_limits": [{"step": "resaw", "max_above_mc_points": 1}, {"step": "resaw", "max_above_mc_points": 2}]`), 422, []string{"/step_limits/1/step conflict"}, "given twice"},
	{"ends not offered", timingWith(okMean, okStay, `, "billet": {"end_seal": "waxed"}`), 422, []string{"/billet/end_seal not_a_choice"}, "one of sealed_fresh"},
	{"horizon of a week less a day", timingWith(okMean, okStay, `, "horizon_days": 6`), 422, []string{"/horizon_days out_of_range"}, "at least 7 days"},
	{"factor of nothing", timingWith(okMean, okStay, ``).knowing(`"drying_factor": {"value": 0}`), 422, []string{"/billet/wood/drying_factor/value out_of_range"}, "at least 0.005"},
	{"extra as thick as a board", timingWith(okMean, okStay, `, "thick_and_thin": "21 mm"`), 422, []string{"/thick_and_thin out_of_range"}, "at most 20 mm"},
	{"part without thickness: timing", timingPart(`"length": "560 mm", "width": "200 mm"`), 422, []string{"/part/final_thickness missing"}, "give final_thickness"},
	{"timing of no wood", timingBillet(okTimingBed), 422, []string{"/billet/wood missing"}, "name the wood"},
	{"timing of no such wood", timingBillet(Together(okTimingBed + `, "billet": {"wood": "sugar plum tree"}`)), 422, []string{"/billet/wood not_found"}, "there is no wood called"},
	{"wood without its shrinkage", timingBillet(Together(okTimingBed + `, "billet": {"wood": {"specific_gravity": 0.5}}`)), 422, []string{"/billet/wood missing_data"}, "shrinkage"},
	{"billet like a log", timingBillet(`"billet": {"wood": "maple-sugar", "length": "2 m", "width": "225 mm", "thickness": "301 mm"}`), 422, []string{"/billet/thickness out_of_range"}, "drying model"},
	{"kerf of a chain saw", Posting("/v1/resaw-timing", `{`+mapleBed+`, "as_of": "2026-03-01", "saw": {"kerf": "1 in"}, "part": {"length": "560 mm", "width": "200 mm", "sawn_thickness": "5 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "moisture_profile": {"mean_mc_pct": 18}, "stays": [{"station": "madison-wi"}]}`), 422, []string{"/saw/kerf out_of_range"}, "at most 0.7874 in"},
}
