package asking

import "strings"

// seasoningWith is a right request but for what a row puts into it.
func seasoningWith(storage, rest string) Asked {
	return Posting("/v1/seasoning", Together(`{"billet": {"wood": "maple-sugar", "thickness": "50 mm", "stacked_on": "2024-04-01"}, "stays": [`+storage+`]`+rest+`}`))
}

// seasoningOf is a right request but for its wood, thickness and day.
func seasoningOf(members string) Asked {
	return Posting("/v1/seasoning", `{`+members+`, "stays": [{"station": "madison-wi"}], "target_condition": {"mc_pct": 12}}`)
}

// loggedWith is a right request but for the record of its air.
func loggedWith(rows string) Asked { return seasoningWith(`{"log": [`+rows+`]}`, okTarget) }

func loggedCSV(text string) Asked {
	return seasoningWith(`{"log_csv": "`+text+`"}`, okTarget)
}

const (
	okStay   = `{"station": "madison-wi"}`
	okPhase  = `{"days": 3, "air": {"temperature": "45 C", "rh_pct": 60}}`
	okTarget = `, "target_condition": {"mc_pct": 12}`
	csvHead  = `time,temperature_c,rh_pct\n`
)

var wrongSeasoning = []wrong{
	{"nothing given: seasoning", Posting("/v1/seasoning", `{}`), 422, []string{"/billet missing", "/stays missing", "/target_condition missing"}, "billet is needed"},
	{"seasoning as a number", Posting("/v1/seasoning", `52`), 422, []string{" wrong_type"}, "must be an object, got a number"},
	{"NaN in seasoning", seasoningWith(okStay, `, "target_condition": {"mc_pct": NaN}`), 400, []string{"/target_condition/mc_pct invalid_json"}, "not readable as JSON"},
	{"unknown member of seasoning", seasoningWith(okStay, okTarget+`, "colour": "amber"`), 422, []string{"/colour unknown_member"}, "there is no member"},
	{"misspelt member of a stay", seasoningWith(`{"staton": "madison-wi"}`, okTarget), 422, []string{"/stays/0/staton unknown_member"}, `did you mean "station"?`},

	// Wood and piece.
	{"seasoning of no wood", seasoningOf(`"billet": {"thickness": "50 mm", "stacked_on": "2024-04-01"}`), 422, []string{"/billet/wood missing"}, "name the wood"},
	{"thinner than veneer", seasoningOf(`"billet": {"wood": "maple-sugar", "thickness": "0.5 mm", "stacked_on": "2024-04-01"}`), 422, []string{"/billet/thickness out_of_range"}, "at least 1 mm"},
	{"thicker than any tree", seasoningOf(`"billet": {"wood": "maple-sugar", "thickness": "2000 mm", "stacked_on": "2024-04-01"}`), 422, []string{"/billet/thickness out_of_range"}, "at most 300 mm"},
	{"thicker than a beam, in inches", seasoningOf(`"billet": {"wood": "maple-sugar", "thickness": "13 in", "stacked_on": "2024-04-01"}`), 422, []string{"/billet/thickness out_of_range"}, "at most 11.811 in"},
	{"own wood without green moisture", seasoningOf(`"billet": {"wood": {"specific_gravity": 0.5}, "thickness": "50 mm", "stacked_on": "2024-04-01"}`), 422, []string{"/billet/start_condition missing"}, "say start_condition"},
	{"own wood without a start", seasoningOf(`"billet": {"wood": {"specific_gravity": 0.5}, "thickness": "50 mm", "stacked_on": "2024-04-01"}`), 422, []string{"/billet/start_condition missing"}, "say start_condition"},
	{"own wood without its density", seasoningOf(`"billet": {"wood": {"radial_shrinkage_pct": 4}, "thickness": "50 mm", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 60}}`), 422, []string{"/billet/wood/specific_gravity missing_data"}, "specific gravity"},
	{"spread of a start not given", seasoningWith(okStay, okTarget+`, "billet": {"start_condition": {"mc_sd_points": 5}}`), 422, []string{"/billet/start_condition missing"}, "say mc_pct, or the air"},
	{"wetter than any wood", seasoningWith(okStay, okTarget+`, "billet": {"start_condition": {"mc_pct": 200}}`), 422, []string{"/billet/start_condition/mc_pct out_of_range"}, "at most 150 %"},
	{"ring angle of no board", seasoningWith(okStay, okTarget+`, "billet": {"rings": {"angle_deg": 120}}`), 422, []string{"/billet/rings/angle_deg out_of_range"}, "at most 90 degrees"},
	{"drying factor without its middle", seasoningWith(okStay, okTarget).knowing(`"drying_factor": {"sd_ratio": 1.3}`), 422, []string{"/billet/wood/drying_factor/value missing"}, "value is needed"},
	{"drying factor of a sponge", seasoningWith(okStay, okTarget).knowing(`"drying_factor": {"value": 25}`), 422, []string{"/billet/wood/drying_factor/value out_of_range"}, "at most 20"},
	{"drying factor known to nothing", seasoningWith(okStay, okTarget).knowing(`"drying_factor": {"value": 0.5, "sd_ratio": 1}`), 422, []string{"/billet/wood/drying_factor/sd_ratio out_of_range"}, "at least 1.01"},

	// Target.
	{"no target", seasoningWith(okStay, ""), 422, []string{"/target_condition missing"}, "target_condition is needed"},
	{"two targets", seasoningWith(okStay, `, "target_condition": {"mc_pct": 12, "air": {"temperature": "20 C", "rh_pct": 45}}`), 422, []string{"/target_condition conflict"}, "only one of"},
	{"target drier than any room", seasoningWith(okStay, `, "target_condition": {"mc_pct": 2}`), 422, []string{"/target_condition/mc_pct out_of_range"}, "at least 3 %"},
	{"within nothing", seasoningWith(okStay, okTarget+`, "tolerance_mc_points": 0`), 422, []string{"/tolerance_mc_points out_of_range"}, "at least 0.1"},
	{"build room without vapour", seasoningWith(okStay, `, "target_condition": {"air": {"temperature": "20 C"}}`), 422, []string{"/target_condition/air missing"}, "needs one of rh_pct"},

	// Days.
	{"stacked on no day", seasoningOf(`"billet": {"wood": "maple-sugar", "thickness": "50 mm", "stacked_on": "2024-02-30"}`), 422, []string{"/billet/stacked_on invalid_format"}, "a date such as 2026-03-01"},
	{"until before stacking", seasoningWith(`{"station": "madison-wi", "until": "2024-03-01"}, `+okStay, okTarget), 422, []string{"/stays/0/until out_of_range"}, "after 2024-04-01"},
	{"stays out of order", seasoningWith(`{"station": "madison-wi", "until": "2025-04-01"}, {"station": "madison-wi", "until": "2025-01-01"}, `+okStay, okTarget), 422, []string{"/stays/1/until out_of_range"}, "after 2025-04-01"},
	{"missing until", seasoningWith(okStay+", "+okStay, okTarget), 422, []string{"/stays/0/until missing"}, "every stay but the last"},
	{"until on the last stay", seasoningWith(`{"station": "madison-wi", "until": "2025-04-01"}`, okTarget), 422, []string{"/stays/0/until conflict"}, "lasts to the end"},
	{"until in another age", seasoningWith(`{"station": "madison-wi", "until": "2040-04-01"}, `+okStay, okTarget), 422, []string{"/stays/0/until out_of_range"}, "more than ten years"},
	{"horizon before the last stay", seasoningWith(`{"station": "madison-wi", "until": "2025-04-01"}, `+okStay, okTarget+`, "horizon_days": 300`), 422, []string{"/horizon_days conflict"}, "reach into the last stay"},
	{"horizon of a few days", seasoningWith(okStay, okTarget+`, "horizon_days": 3`), 422, []string{"/horizon_days out_of_range"}, "at least 7"},
	{"horizon past ten years", seasoningWith(okStay, okTarget+`, "horizon_days": 4000`), 422, []string{"/horizon_days out_of_range"}, "at most 3650"},

	// Places.
	{"nowhere", seasoningWith("", okTarget), 422, []string{"/stays too_few_items"}, "at least 1 entry"},
	{"too many places", seasoningWith(strings.TrimSuffix(strings.Repeat(okStay+",", 13), ","), okTarget), 422, []string{"/stays too_many_items"}, "at most 12 entries"},
	{"two sources of air", seasoningWith(`{"station": "madison-wi", "air": {"temperature": "20 C", "rh_pct": 45}}`, okTarget), 422, []string{"/stays/0 conflict"}, "only one of station, months, air, log, log_csv and phases"},
	{"no source of air", seasoningWith(`{"exposure": "shed"}`, okTarget), 422, []string{"/stays/0 missing"}, "exactly one of station, months, air, log, log_csv and phases"},
	{"a schedule and a room", seasoningWith(`{"air": {"temperature": "20 C", "rh_pct": 45}, "phases": [`+okPhase+`]}, `+okStay, okTarget), 422, []string{"/stays/0 conflict"}, "only one of"},
	{"a schedule of nothing", seasoningWith(`{"phases": []}, `+okStay, okTarget), 422, []string{"/stays/0/phases too_few_items"}, "at least 1 entry"},
	{"a schedule that is the last stay", seasoningWith(`{"phases": [`+okPhase+`]}`, okTarget), 422, []string{"/stays/0/phases conflict"}, "where the wood goes from the kiln"},
	{"a schedule with an end of its own", seasoningWith(`{"phases": [`+okPhase+`], "until": "2024-05-01"}, `+okStay, okTarget), 422, []string{"/stays/0/until conflict"}, "as long as they do"},
	{"a phase of no length", seasoningWith(`{"phases": [{"air": {"temperature": "45 C", "rh_pct": 60}}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/days missing"}, "days, or until_mc_pct"},
	{"a phase of two lengths", seasoningWith(`{"phases": [{"days": 3, "until_mc_pct": 20, "air": {"temperature": "45 C", "rh_pct": 60}}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/until_mc_pct conflict"}, "not both"},
	{"a phase in no air", seasoningWith(`{"phases": [{"days": 3}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/air missing"}, "needs air, or temperature"},
	{"a phase in two airs", seasoningWith(`{"phases": [{"days": 3, "emc_pct": 8, "air": {"temperature": "45 C", "rh_pct": 60}}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/air conflict"}, "not both"},
	{"a phase with half of its air", seasoningWith(`{"phases": [{"days": 3, "temperature": "45 C"}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/emc_pct missing"}, "goes with emc_pct"},
	{"a phase with the other half", seasoningWith(`{"phases": [{"days": 3, "emc_pct": 9}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/temperature missing"}, "goes with temperature"},
	{"a phase hotter than the model goes", seasoningWith(`{"phases": [{"days": 3, "temperature": "95 C", "emc_pct": 9}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/temperature out_of_range"}, "at most 80 C"},
	{"a phase in hotter air than the model goes", seasoningWith(`{"phases": [{"days": 3, "air": {"temperature": "95 C", "rh_pct": 30}}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/air/temperature out_of_range"}, "80 C"},
	{"conditioning until it is dry", seasoningWith(`{"phases": [{"kind": "conditioning", "until_mc_pct": 8, "temperature": "60 C", "emc_pct": 12}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/until_mc_pct conflict"}, "give days"},
	{"a phase that never ends", seasoningWith(`{"phases": [{"until_mc_pct": 6, "temperature": "45 C", "emc_pct": 10}]}, `+okStay, okTarget), 422, []string{"/stays/0/phases/0/until_mc_pct out_of_range"}, "does not come down to 6 %"},
	{"a speed of air in a pile", seasoningWith(`{"station": "madison-wi", "air_speed_m_per_s": 1}`, okTarget), 422, []string{"/stays/0/air_speed_m_per_s conflict"}, "blown through the stack"},
	{"a gale in a kiln", seasoningWith(`{"air": {"temperature": "45 C", "rh_pct": 60}, "exposure": "kiln", "air_speed_m_per_s": 40}`, okTarget), 422, []string{"/stays/0/air_speed_m_per_s out_of_range"}, "at most 10"},
	{"unknown station", seasoningWith(`{"station": "madisson-wi"}`, okTarget), 422, []string{"/stays/0/station not_found"}, "did you mean madison-wi"},
	{"unlike any station", seasoningWith(`{"station": "qqqqqqqqqq"}`, okTarget), 422, []string{"/stays/0/station not_found"}, "there is no place called"},
	{"station with humidity only", seasoningWith(`{"station": "charleston-sc"}`, okTarget), 422, []string{"/stays/0/station not_supported"}, "temperature"},
	{"heated without a station", seasoningWith(`{"air": {"temperature": "20 C", "rh_pct": 45}, "heated_to": "20 C"}`, okTarget), 422, []string{"/stays/0/heated_to conflict"}, "goes with station"},
	{"vapour without heating", seasoningWith(`{"station": "madison-wi", "added_vapour": "2 hPa"}`, okTarget), 422, []string{"/stays/0/added_vapour conflict"}, "goes with heated_to"},
	{"heated like a kiln", seasoningWith(`{"station": "madison-wi", "heated_to": "160 F"}`, okTarget), 422, []string{"/stays/0/heated_to out_of_range"}, "at most 122 F"},
	{"a place like a bath", seasoningWith(`{"station": "madison-wi", "heated_to": "20 C", "added_vapour": "40 hPa"}`, okTarget), 422, []string{"/stays/0/added_vapour out_of_range"}, "at most 30 hPa"},
	{"exposure not offered", seasoningWith(`{"station": "madison-wi", "exposure": "oven"}`, okTarget), 422, []string{"/stays/0/exposure not_a_choice"}, "one of open_stack, small_stack, moving_air, shed, closed_room, wrapped, kiln, dehumidifier, solar_kiln"},
	{"room too hot for wood", seasoningWith(`{"air": {"temperature": "95 C", "rh_pct": 45}}`, okTarget), 422, []string{"/stays/0/air/temperature out_of_range"}, "temperature"},

	// Records of air.
	{"record of one row", loggedWith(`{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70}`), 422, []string{"/stays/0/log out_of_range"}, "2 to"},
	{"record out of order", loggedWith(`{"time": "2024-04-02", "temperature": "10 C", "rh_pct": 70}, {"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70}`), 422, []string{"/stays/0/log/1/time conflict"}, ""},
	{"record that starts too late", loggedWith(`{"time": "2024-05-01", "temperature": "10 C", "rh_pct": 70}, {"time": "2034-05-01", "temperature": "10 C", "rh_pct": 70}`), 422, []string{"/stays/0 missing"}, "does not cover"},
	{"record that ends too early", loggedWith(`{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70}, {"time": "2024-06-01", "temperature": "10 C", "rh_pct": 70}`), 422, []string{"/stays/0/log missing"}, "the record ends on 2024-06-01"},
	{"record with a time in words", loggedWith(`{"time": "1 April", "temperature": "10 C", "rh_pct": 70}, {"time": "2024-06-01", "temperature": "10 C", "rh_pct": 70}`), 422, []string{"/stays/0/log/0/time out_of_range"}, "is not a day or a time"},
	{"record without a temperature", loggedWith(`{"time": "2024-04-01", "rh_pct": 70}`), 422, []string{"/stays/0/log/0/temperature missing"}, "temperature is needed"},
	{"record of a humidity past 100", loggedWith(`{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 104}`), 422, []string{"/stays/0/log/0/rh_pct out_of_range"}, "at most 100 %"},
	{"record of 5001 rows", loggedWith(strings.TrimSuffix(strings.Repeat(`{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70},`, 5001), ",")), 422, []string{"/stays/0/log too_many_items"}, "at most 5000 entries"},
	{"CSV without its header", loggedCSV(`2024-04-01,10,70\n2024-05-01,12,70\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "time,temperature_c,rh_pct"},
	{"CSV without a unit", loggedCSV(`time,temperature,rh_pct\n2024-04-01,50,70\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "C or F"},
	{"CSV in both units", loggedCSV(`time,temperature_c,temperature_f,rh_pct\n2024-04-01,10,50,70\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "one column"},
	{"CSV without humidity", loggedCSV(`time,temperature_c,dew_point_c\n2024-04-01,50,70\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "relative humidity"},
	{"CSV with a cell too few", loggedCSV(csvHead + `2024-04-01,10,70\n2024-05-01,12\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "row 2 after the header: it must have as many cells as the header"},
	{"CSV with words in a cell", loggedCSV(csvHead + `2024-04-01,ten,70\n`), 422, []string{"/stays/0/log_csv out_of_range"}, `row 1 after the header: temperature_c must be a number, got "ten"`},
	{"CSV with NaN", loggedCSV(csvHead + `2024-04-01,10,NaN\n`), 422, []string{"/stays/0/log_csv out_of_range"}, `0 to 100`},
	{"CSV with a cell that is infinite", loggedCSV(csvHead + `2024-04-01,+Inf,50\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "must be a number"},
	{"CSV hotter than steam", loggedCSV(csvHead + `2024-04-01,10,50\n2024-04-02,1000,50\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "row 2 after the header: temperature"},
	{"CSV of 5001 rows", loggedCSV(csvHead + strings.Repeat(`2024-04-01,10,70\n`, 5001)), 422, []string{"/stays/0/log_csv too_much_work"}, "more than 5000 rows"},
	{"CSV with a quote left open", loggedCSV(csvHead + `\"2024-04-01,10,70\n`), 422, []string{"/stays/0/log_csv out_of_range"}, "row"},

	// Forms.
	{"seasoning as pdf", Posting("/v1/seasoning?as=pdf", `{}`), 400, []string{"?as not_a_choice"}, "json, svg or csv"},
	{"seasoning with as twice", Posting("/v1/seasoning?as=svg&as=csv", `{}`), 400, []string{"?as duplicate_parameter"}, "more than once"},
	{"seasoning as a photograph", Posting("/v1/seasoning", `{}`, "Accept", "image/jpeg"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
	{"seasoning, wrong, as a drawing", Posting("/v1/seasoning?as=svg", `{}`), 422, []string{"/billet missing", "/stays missing", "/target_condition missing"}, "billet is needed"},
	{"look-up of seasoning", Getting("/v1/seasoning"), 405, nil, ""},
}
