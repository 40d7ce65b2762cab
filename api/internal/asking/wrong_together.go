package asking

// Several faults of the domain in one request, none of which hangs on another: all
// are told at once.
const (
	wetAir     = `{"temperature": "20 C", "wet_bulb": "25 C"}` // a wet bulb above the dry one
	badStays   = `{"station": "nowhere at all", "until": "2025-01-01"}, {"air": ` + wetAir + `}`
	noSuchWood = `"wood": "no such wood"`
)

var wrongTogether = []wrong{
	{"together: emc", Posting("/v1/emc", `{`+noSuchWood+`, "air": `+wetAir+`}`), 422, []string{"/wood not_found", "/air/wet_bulb conflict"}, "no wood called"},
	{"together: moisture", Posting("/v1/moisture", `{`+noSuchWood+`, "readings": [{"kind": "ovendry_sample", "wet_mass": "50 g", "ovendry_mass": "60 g"}, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 in", "thickness": "1 in"}, {"kind": "size_and_weight", "length": "1 m", "width": "100 mm", "thickness": "50 mm", "mass": "3 kg"}]}`), 422,
		[]string{"/wood not_found", "/readings/0/ovendry_mass conflict", "/readings/1/depth conflict"}, "no wood called"},
	{"together: movement", Posting("/v1/movement", `{`+noSuchWood+`, "size": "1 m", "from_condition": {"air": `+wetAir+`}, "to_condition": {"air": {"temperature": "20 C"}}}`), 422,
		[]string{"/wood not_found", "/direction missing", "/from_condition/air/wet_bulb conflict", "/to_condition/air missing"}, "no wood called"},
	{"together: yield", Posting("/v1/leaf-yield", `{"billet": {"wood": "no such wood", "length": "1 m", "width": "200 mm", "thickness": "50 mm", "trim": {"usual": "waxed"}}, "saw": {"usual_kerf": "chainsaw"}, "part": {"length": "500 mm", "width": "100 mm", "final_thickness": "3 mm", "sawn_thickness": "4 mm"}}`), 422,
		[]string{"/billet/wood not_found", "/billet/trim/usual not_found", "/saw/usual_kerf not_found", "/part/sawn_thickness conflict"}, "no wood called"},
	{"together: yield, an allowance without its wood", Posting("/v1/leaf-yield", `{"billet": {"wood": "no such wood", "length": "1 m", "width": "200 mm", "thickness": "50 mm", "condition": {"mc_pct": 12}, "trim": {"start": "600 mm", "end": "600 mm"}}, "saw": {"kerf": "1 mm"}, "part": {"length": "500 mm", "width": "100 mm", "final_thickness": "3 mm", "final_condition": {"mc_pct": 8}}}`), 422,
		[]string{"/billet/wood not_found"}, "no wood called"},
	{"together: section", Posting("/v1/section-shape", `{`+noSuchWood+`, "width": "200 mm", "thickness": "50 mm", "rings": {}, "from_condition": {"air": {"temperature": "20 C"}}, "to_condition": {"air": `+wetAir+`}}`), 422,
		[]string{"/wood not_found", "/rings missing", "/from_condition/air missing", "/to_condition/air/wet_bulb conflict"}, "no wood called"},
	{"together: laminate", Posting("/v1/laminate", `{"length": "500 mm", "width": "300 mm", "glue_up_condition": {"air": {"temperature": "20 C"}}, "later_condition": {"mc_pct": 8}, "layers": [{`+noSuchWood+`, "thickness": "6 mm", "rings": {"angle_deg": 0}}, {"wood": {"radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8}, "thickness": "6 mm", "rings": {"angle_deg": 0}}], "strip": {"stiffness_ratio": 1}}`), 422,
		[]string{"/layers/0/wood not_found", "/glue_up_condition/air missing", "/layers/1/wood/group missing"}, "no wood called"},
	{"together: bookmatch", Posting("/v1/bookmatch", `{"billet": {"wood": "no such wood", "width": "200 mm", "rings": {}}}`), 422, []string{"/billet/wood not_found", "/stack missing", "/billet/rings missing"}, "no wood called"},
	{"together: seasoning", Posting("/v1/seasoning", `{"billet": {`+noSuchWood+`, "thickness": "50 mm", "width": "40 mm", "length": "1 m", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 200}}, "stays": [`+badStays+`], "target_condition": {"air": `+wetAir+`}}`), 422,
		[]string{"/billet/wood not_found", "/target_condition/air/wet_bulb conflict", "/billet/start_condition/mc_pct out_of_range", "/stays/0/station not_found", "/stays/1/air/wet_bulb conflict", "/billet/width conflict"}, "no wood called"},
	{"together: seasoning of a wood without gravity", Posting("/v1/seasoning", `{"billet": {"wood": {}, "thickness": "50 mm", "stacked_on": "2024-04-01"}, "stays": [`+badStays+`], "target_condition": {"mc_pct": 8}}`), 422,
		[]string{"/stays/0/station not_found", "/stays/1/air/wet_bulb conflict", "/billet/wood/specific_gravity missing_data", "/billet/start_condition missing"}, "no place called"},
	{"together: readiness", Posting("/v1/readiness", `{"billet": {`+noSuchWood+`, "length": "1 m", "width": "200 mm", "thickness": "50 mm", "end_thickness": "60 mm"}, "target_condition": {"air": `+wetAir+`},
		"readings": [{"kind": "weight", "date": "2026-02-01", "mass": "9 kg"}, {"kind": "weight", "date": "2026-01-01", "mass": "9 kg"}, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 in", "thickness": "1 in"}, {"kind": "ovendry_sample", "wet_mass": "50 g", "ovendry_mass": "60 g"}], "step_limits": [{"step": "glue"}, {"step": "glue"}], "saw": {"kerf": "1 mm"},
		"part": {"length": "500 mm", "width": "100 mm", "final_thickness": "3 mm", "sawn_thickness": "4 mm"}}`), 422,
		[]string{"/billet/wood not_found", "/step_limits/1/step conflict", "/part/sawn_thickness conflict", "/target_condition/air/wet_bulb conflict", "/readings/1/date out_of_range", "/readings/2/depth conflict", "/readings/3/ovendry_mass conflict"}, "no wood called"},
	{"together: readiness with a history", Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "1 m", "width": "200 mm", "thickness": "50 mm", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 200}}, "target_condition": {"air": `+wetAir+`},
		"readings": [{"kind": "weight", "date": "2026-02-01", "mass": "9 kg"}, {"kind": "weight", "date": "2026-01-01", "mass": "9 kg"}, {"kind": "stated", "date": "2030-01-01", "mc_pct": 12, "mc_sd_points": 1}, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 in", "thickness": "1 in"}], "saw": {"kerf": "1 mm"}, "as_of": "2023-01-01",
		"stays": [`+badStays+`]}`), 422,
		[]string{"/part missing", "/target_condition/air/wet_bulb conflict", "/billet/start_condition/mc_pct out_of_range", "/stays/0/station not_found", "/stays/1/air/wet_bulb conflict", "/readings/3/depth conflict"}, "saw and part go together"},
	{"together: readiness, readings of a history", Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "1 m", "width": "200 mm", "thickness": "50 mm", "stacked_on": "2024-04-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"readings": [{"kind": "weight", "date": "2026-02-01", "mass": "9 kg"}, {"kind": "weight", "date": "2026-01-01", "mass": "9 kg"}, {"kind": "weight", "date": "2020-01-01", "mass": "9 kg"}, {"kind": "stated", "date": "2020-01-01", "mc_pct": 12}, {"kind": "stated", "date": "2030-01-01", "mc_pct": 12, "mc_sd_points": 1}, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 in", "thickness": "1 in"}], "as_of": "2026-03-01",
		"stays": [`+okStay+`]}`), 422,
		[]string{"/readings/3/date out_of_range", "/readings/4/date out_of_range", "/readings/5/depth conflict", "/readings/1/date out_of_range", "/readings/2/date out_of_range"}, "must lie between"},
	{"together: timing", Posting("/v1/resaw-timing", `{"billet": {`+noSuchWood+`, "length": "1 m", "width": "200 mm", "thickness": "350 mm", "end_thickness": "360 mm"}, "as_of": "2026-03-01", "saw": {"kerf": "1.5 mm"},
		"part": {"length": "500 mm", "width": "100 mm", "final_thickness": "3 mm", "sawn_thickness": "4 mm"}, "target_condition": {"air": `+wetAir+`}, "moisture_profile": {"mean_mc_pct": 18, "shell_mc_pct": 14},
		"stays": [`+badStays+`], "step_limits": [{"step": "glue"}, {"step": "resaw"}, {"step": "resaw"}]}`), 422, []string{"/step_limits too_many_items"}, "at most 2 entries"},
	{"together: timing of the domain", Posting("/v1/resaw-timing", `{"billet": {`+noSuchWood+`, "length": "1 m", "width": "200 mm", "thickness": "350 mm", "end_thickness": "360 mm"}, "as_of": "2026-03-01", "saw": {"kerf": "1.5 mm"},
		"part": {"length": "500 mm", "width": "100 mm", "final_thickness": "3 mm", "sawn_thickness": "4 mm"}, "target_condition": {"air": `+wetAir+`}, "moisture_profile": {"mean_mc_pct": 18, "shell_mc_pct": 14},
		"stays": [{"station": "nowhere at all", "until": "2026-06-01"}, {"air": `+wetAir+`}], "step_limits": [{"step": "resaw"}, {"step": "resaw"}]}`), 422,
		[]string{"/billet/wood not_found", "/moisture_profile/core_mc_pct missing", "/billet/thickness out_of_range", "/step_limits/1/step conflict", "/target_condition/air/wet_bulb conflict", "/part/sawn_thickness conflict", "/stays/0/station not_found", "/stays/1/air/wet_bulb conflict"}, "no wood called"},
	{"together: in-service", Posting("/v1/year-in-service", `{"room": {"station": "nowhere at all", "heated_to": "20 C"}, "build_condition": {"mc_pct": 8}, "parts": [{"id": "a", `+noSuchWood+`, "thickness": "3 mm"}, {"id": "a", "wood": "maple-sugar", "thickness": "3 mm", "build_condition": {"air": `+wetAir+`}}, {"id": "c", "wood": {}, "thickness": "3 mm"}]}`), 422,
		[]string{"/room/station not_found", "/parts/1/id duplicate_id", "/parts/0/wood not_found", "/parts/1/build_condition/air/wet_bulb conflict", "/parts/2/wood/specific_gravity missing_data"}, "no place called"},
	{"together: movement-figures", Posting("/v1/assembly-movement", `{"room": {"station": "madison-wi", "heated_to": "20 C"}, "build_condition": {"mc_pct": 8}, "parts": [{"id": "a", "wood": "maple-sugar", "thickness": "3 mm"}, {"id": "b", "wood": {}, "thickness": "3 mm"}, {"id": "c", "wood": {}, "thickness": "3 mm"}]}`), 422,
		[]string{"/parts/1/wood/specific_gravity missing_data", "/parts/2/wood/specific_gravity missing_data"}, "specific gravity"},
}
