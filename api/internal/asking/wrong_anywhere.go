package asking

import (
	"net/http"
	"strings"

	"latewood/api/internal/serve"
)

// Bodies that are right but for what a row puts into them.
func airWith(members string) Asked {
	return Posting("/v1/air", `{"air": {"temperature": "20 C", `+members+`}}`)
}

func yieldWith(billet, saw, part, rest string) Asked {
	return Posting("/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "220 mm", `+billet+`}, "saw": {`+saw+`}, "part": {"length": "560 mm", "width": "210 mm", `+part+`}`+rest+`}`)
}

func movementWith(members string) Asked {
	return Posting("/v1/movement", `{"size": "100 mm", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}, `+members+`}`)
}

func reading(members string) Asked { return Posting("/v1/moisture", `{"readings": [`+members+`]}`) }

func readinessWith(members string) Asked {
	return Posting("/v1/readiness", Together(`{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, `+members+`}`))
}

const (
	okBillet = `"thickness": "60 mm"`
	okSaw    = `"kerf": "1.5 mm"`
	okPart   = `"sawn_thickness": "4.5 mm"`
	maple    = `"wood": "maple-sugar", "direction": "tangential"`
)

var wrongAnywhere = []wrong{
	{"idle rings and zones of a yield", Posting("/v1/leaf-yield", `{"billet": {"length": "1 m", "width": "200 mm", "thickness": "50 mm", "rings": {"pith": {"z": "9 mm"}, "angle_deg": 80}, "zones": [{"kind": "knot", "x_from": "50 mm", "x_to": "20 mm", "y_from": "0 mm", "y_to": "9 mm", "z_from": "3 mm"}]}, "saw": {"kerf": "1 mm"}, "part": {"length": "500 mm", "width": "100 mm", "sawn_thickness": "4 mm"}}`), 422,
		[]string{"/billet/rings conflict", "/billet/zones/0/x_to conflict", "/billet/zones/0/z_to missing"}, "only one of pith"},
	{"idle zones of a readiness", Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "thickness": "50 mm", "zones": [{"kind": "knot", "x_from": "50 mm", "x_to": "20 mm", "y_from": "0 mm", "y_to": "9 mm"}], "length": "1 m", "width": "200 mm"}, "target_condition": {"mc_pct": 9}, "readings": [{"kind": "stated", "mc_pct": 10}]}`), 422,
		[]string{"/billet/zones/0/x_to conflict"}, "more than 50 mm"},
	// Not JSON, or not one JSON object.
	{"empty body", Posting("/v1/air", ""), 400, []string{" missing"}, "the body is empty"},
	{"blank body", Posting("/v1/air", " \n\t "), 400, []string{" missing"}, "the body is empty"},
	{"not JSON", Posting("/v1/emc", "dry_bulb=20"), 400, []string{" invalid_json"}, "not readable as JSON at byte"},
	{"cut short", Posting("/v1/air", `{"air": {"temperature": "20 C"`), 400, []string{"/air invalid_json"}, "ends before the JSON does"},
	{"text after the object", Posting("/v1/air", `{"air": {"temperature": "20 C", "rh_pct": 50}} x`), 400, []string{" trailing_text"}, "text after the JSON value"},
	{"two objects", Posting("/v1/air", `{"air": {"temperature": "20 C", "rh_pct": 50}}{}`), 400, []string{" trailing_text"}, "text after the JSON value"},
	{"a member twice", airWith(`"rh_pct": 50, "rh_pct": 60`), 400, []string{"/air/rh_pct duplicate_member"}, "given twice"},
	{"a member twice in a quantity", Posting("/v1/movement", `{"size": {"value": 1, "value": 2, "unit": "mm"}}`), 400, []string{"/size/value duplicate_member"}, "given twice"},
	{"NaN", airWith(`"rh_pct": NaN`), 400, []string{"/air/rh_pct invalid_json"}, "not readable as JSON"},
	{"Infinity", airWith(`"rh_pct": Infinity`), 400, []string{"/air/rh_pct invalid_json"}, "not readable as JSON"},
	{"-Infinity", airWith(`"rh_pct": -Infinity`), 400, []string{"/air/rh_pct invalid_json"}, "not readable as JSON"},
	{"leading plus", airWith(`"rh_pct": +50`), 400, []string{"/air/rh_pct invalid_json"}, "not readable as JSON"},
	{"comma at the end", airWith(`"rh_pct": 50,`), 400, []string{"/air invalid_json"}, "not readable as JSON"},
	{"not UTF-8", Posting("/v1/emc", "{\"wood\": \"\xff\xfe\"}"), 400, []string{"/wood invalid_json"}, "not readable as JSON"},
	{"null", Posting("/v1/air", "null"), 422, []string{" null_value"}, "null"},
	{"array", Posting("/v1/air", `[{"temperature": "20 C"}]`), 422, []string{" wrong_type"}, "must be an object, got a list"},
	{"text", Posting("/v1/leaf-yield", `"a billet"`), 422, []string{" wrong_type"}, "must be an object, got a text"},
	{"number", Posting("/v1/readiness", `7`), 422, []string{" wrong_type"}, "must be an object, got a number"},

	// Members missing, unknown, null or of another type.
	{"nothing given: air", Posting("/v1/air", `{}`), 422, []string{"/air missing"}, "air is needed"},
	{"nothing given: emc", Posting("/v1/emc", `{}`), 422, []string{" missing"}, "give air for its EMC"},
	{"nothing given: moisture", Posting("/v1/moisture", `{}`), 422, []string{"/readings missing"}, "readings is needed"},
	{"nothing given: movement", Posting("/v1/movement", `{}`), 422, []string{"/size missing", "/from_condition missing", "/to_condition missing"}, "size is needed"},
	{"nothing given: yield", Posting("/v1/leaf-yield", `{}`), 422, []string{"/billet missing", "/saw missing", "/part missing"}, "billet is needed"},
	{"nothing given: readiness", Posting("/v1/readiness", `{}`), 422, []string{"/billet missing", "/target_condition missing"}, "billet is needed"},
	{"air without dry bulb", Posting("/v1/emc", `{"air": {"rh_pct": 40}}`), 422, []string{"/air/temperature missing"}, "temperature is needed"},
	{"nested air without dry bulb", Posting("/v1/movement", `{"wood": "maple-sugar", "size": "1 m", "direction": "radial", "from_condition": {"air": {}}, "to_condition": {"mc_pct": 8}}`), 422, []string{"/from_condition/air/temperature missing"}, "temperature is needed"},
	{"unknown member", airWith(`"rh_pct": 50, "colour": 3`), 422, []string{"/air/colour unknown_member"}, `there is no member "colour" here`},
	{"misspelt member", airWith(`"rh_pct": 50, "elevatoin": "100 m"`), 422, []string{"/air/elevatoin unknown_member"}, `did you mean "elevation"?`},
	{"wrong case", airWith(`"RH_pct": 50`), 422, []string{"/air/RH_pct unknown_member"}, `did you mean "rh_pct"?`},
	{"misspelt member of the whole", movementWith(maple + `, "reportin": "inch"`), 422, []string{"/reportin unknown_member"}, `did you mean "report_in"?`},
	{"misspelt member of a reading", reading(`{"kind": "pin_meter", "reading_pct": 12}`), 422, []string{"/readings/0/reading_pct unknown_member", "/readings/0/reading_mc_pct missing"}, `did you mean "reading_mc_pct"?`},
	{"escaped name", Posting("/v1/air", `{"a/b~c": 1, "air": {"temperature": "20 C", "rh_pct": 50}}`), 422, []string{"/a~1b~0c unknown_member"}, "there is no member"},
	{"null member", airWith(`"rh_pct": null`), 422, []string{"/air/rh_pct null_value"}, "leave the member out"},
	{"null object", Posting("/v1/leaf-yield", `{"billet": null, "saw": {"kerf": "1 mm"}, "part": null}`), 422, []string{"/billet null_value", "/part null_value"}, "leave the member out"},
	{"null in an unknown member", airWith(`"rh_pct": 50, "note": null`), 422, []string{"/air/note unknown_member"}, "there is no member"},
	{"null in a list", Posting("/v1/moisture", `{"readings": [null]}`), 422, []string{"/readings/0 null_value"}, "null is not a value here"},
	{"text for a number", airWith(`"rh_pct": "50"`), 422, []string{"/air/rh_pct wrong_type"}, "must be a number, got a text"},
	{"a misspelt condition", Posting("/v1/movement", `{"wood": "teak", "size": "13 in", "direction": "radial", "from_condition": {"mc_pct": 9}, "to_condition": {"mc": 6}}`), 422, []string{"/to_condition missing", "/to_condition/mc unknown_member"}, "say mc_pct"},
	{"number for a text", movementWith(`"wood": 7, "direction": "radial"`), 422, []string{"/wood wrong_type"}, "must be a text or an object, got a number"},
	{"text for true or false", airWith(`"wet_bulb": "15 C", "ice_bulb": "yes"`), 422, []string{"/air/ice_bulb wrong_type"}, "must be true or false, got a text"},
	{"part of a piece", yieldWith(okBillet, okSaw, okPart+`, "pieces_per_set": 2.5`, ""), 422, []string{"/part/pieces_per_set wrong_type"}, "must be a whole number"},
	{"object for a list", Posting("/v1/moisture", `{"readings": {"kind": "pin_meter", "reading_mc_pct": 12}}`), 422, []string{"/readings wrong_type"}, "must be a list, got an object"},
	{"text for an object", Posting("/v1/leaf-yield", `{"billet": "600 x 220 x 60 mm", "saw": {"kerf": "1 mm"}, "part": {"length": "1 m", "width": "1 m", "sawn_thickness": "5 mm"}}`), 422, []string{"/billet wrong_type"}, "must be an object, got a text"},
	{"text too long", movementWith(`"wood": "` + strings.Repeat("oak ", 26) + `", "direction": "radial"`), 422, []string{"/wood too_long"}, "at most 100 characters"},
	{"number too large", airWith(`"rh_pct": 1e999`), 422, []string{"/air/rh_pct number_too_large"}, "too large"},
	{"word not offered", movementWith(`"wood": "maple-sugar", "direction": "flatsawn"`), 422, []string{"/direction not_a_choice"}, "one of tangential, radial, longitudinal"},
	{"system not offered", Posting("/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}, "report_in": "imperial"}`), 422, []string{"/report_in not_a_choice"}, "one of metric, inch"},
	{"history not offered", Posting("/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}, "sorption": "Drying"}`), 422, []string{"/sorption not_a_choice"}, "one of unknown, drying, wetting"},

	// Quantities.
	{"wrong kind of unit", Posting("/v1/movement", `{"wood": "maple-sugar", "direction": "radial", "size": "52 kg", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}}`), 422, []string{"/size invalid_quantity"}, `"kg" is not a unit of length`},
	{"wrong kind of unit, as object", yieldWith(`"thickness": {"value": 60, "unit": "C"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, `"C" is not a unit of length`},
	{"length for a temperature", Posting("/v1/air", `{"air": {"temperature": "20 mm", "rh_pct": 50}}`), 422, []string{"/air/temperature invalid_quantity"}, `"mm" is not a unit of temperature`},
	{"length for a mass", reading(`{"kind": "ovendry_sample", "wet_mass": "60 mm", "ovendry_mass": "55 g"}`), 422, []string{"/readings/0/wet_mass invalid_quantity"}, `"mm" is not a unit of mass`},
	{"length for a pressure", airWith(`"rh_pct": 50, "pressure": "760 mm"`), 422, []string{"/air/pressure invalid_quantity"}, `"mm" is not a unit of pressure`},
	{"unit missing in text", yieldWith(`"thickness": "60"`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "the unit is missing"},
	{"unit missing in object", yieldWith(`"thickness": {"value": 60}`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "needs both value and unit"},
	{"value missing in object", yieldWith(`"thickness": {"unit": "mm"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "needs both value and unit"},
	{"bare number", yieldWith(`"thickness": 60`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, `"unit": "mm"`},
	{"bare number for a temperature", Posting("/v1/air", `{"air": {"temperature": 20, "rh_pct": 50}}`), 422, []string{"/air/temperature invalid_quantity"}, `"unit": "C"`},
	{"list for a quantity", yieldWith(`"thickness": [60, "mm"]`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "is not a length"},
	{"unknown member of a quantity", yieldWith(`"thickness": {"value": 60, "unit": "mm", "note": "rough"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness/note unknown_member"}, `there is no member "note" here`},
	{"misspelt member of a quantity", yieldWith(`"thickness": {"vale": 60, "unit": "mm"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness/vale unknown_member"}, `did you mean "value"?`},
	{"text as value", yieldWith(`"thickness": {"value": "60", "unit": "mm"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness/value wrong_type"}, "must be a number, got a text"},
	{"null as value", yieldWith(`"thickness": {"value": null, "unit": "mm"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness/value null_value"}, "null is not a value here"},
	{"1e999 mm", yieldWith(`"thickness": "1e999 mm"`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "the value is too large"},
	{"1e999 in an object", yieldWith(`"thickness": {"value": 1e999, "unit": "mm"}`, okSaw, okPart, ""), 422, []string{"/billet/thickness/value number_too_large"}, "too large"},
	{"NaN mm", yieldWith(`"thickness": "NaN mm"`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "no number in it"},
	{"comma in a number", yieldWith(`"thickness": "60,500 mm"`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "may be 60500 or 60.500"},
	{"fraction over nothing", yieldWith(`"thickness": "2 1/0 in"`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "0 below the line"},
	{"empty text", yieldWith(`"thickness": ""`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "empty"},
	{"long text", yieldWith(`"thickness": "`+strings.Repeat("1", 70)+` mm"`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "longer than 64 characters"},

	// Values out of range, in the caller's unit.
	{"negative length", yieldWith(`"thickness": "-60 mm"`, okSaw, okPart, ""), 422, []string{"/billet/thickness out_of_range"}, "thickness must be at least 0.5 mm"},
	{"negative kerf in inches", yieldWith(okBillet, `"kerf": "-1/16 in"`, okPart, ""), 422, []string{"/saw/kerf out_of_range"}, "kerf must be at least 0 in"},
	{"kerf wider than any saw's", yieldWith(okBillet, `"kerf": "75 mm"`, okPart, ""), 422, []string{"/saw/kerf out_of_range"}, "kerf must be at most 20 mm"},
	{"too cold, in F", Posting("/v1/air", `{"air": {"temperature": "-60 F", "rh_pct": 50}}`), 422, []string{"/air/temperature out_of_range"}, "temperature must be at least -40 F"},
	{"too hot, in K", Posting("/v1/air", `{"air": {"temperature": "400 K", "rh_pct": 50}}`), 422, []string{"/air/temperature out_of_range"}, "temperature must be at most 373.15 K"},
	{"below absolute zero", Posting("/v1/air", `{"air": {"temperature": "-300 C", "rh_pct": 50}}`), 422, []string{"/air/temperature out_of_range"}, "at least -40 C"},
	{"humidity above saturation", airWith(`"rh_pct": 101`), 422, []string{"/air/rh_pct out_of_range"}, "rh_pct must be at most 100 %"},
	{"humidity as a negative", airWith(`"rh_pct": -1`), 422, []string{"/air/rh_pct out_of_range"}, "at least 0 %"},
	{"wet bulb above dry bulb", airWith(`"wet_bulb": "25 C"`), 422, []string{"/air/wet_bulb conflict"}, "wet_bulb"},
	{"wet bulb no psychrometer shows", airWith(`"wet_bulb": "-5 C"`), 422, []string{"/air/wet_bulb conflict"}, "wet_bulb"},
	{"dew point above dry bulb", airWith(`"dew_point": "25 C"`), 422, []string{"/air/dew_point conflict"}, "dew_point"},
	{"pressure of no place", airWith(`"rh_pct": 50, "pressure": "39.9 inHg"`), 422, []string{"/air/pressure out_of_range"}, "inHg"},
	{"pressure in the wrong unit", airWith(`"rh_pct": 50, "pressure": "29.9 hPa"`), 422, []string{"/air/pressure out_of_range"}, "at least 300 hPa"},
	{"above the mountains", airWith(`"rh_pct": 50, "elevation": "40000 ft"`), 422, []string{"/air/elevation out_of_range"}, "at most 29527.559 ft"},
	{"impossible moisture", Posting("/v1/movement", `{"size": "100 mm", "from_condition": {"mc_pct": 300}, "to_condition": {"mc_pct": 8}, `+maple+`}`), 422, []string{"/from_condition/mc_pct out_of_range"}, "mc_pct must be at most 250 %"},
	{"negative moisture", Posting("/v1/movement", `{"size": "100 mm", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": -1}, `+maple+`}`), 422, []string{"/to_condition/mc_pct out_of_range"}, "at least 0 %"},
	{"no dimension to speak of", Posting("/v1/movement", `{"size": "0 mm", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}, `+maple+`}`), 422, []string{"/size out_of_range"}, "at least 0.1 mm"},
	{"ring angle past square", movementWith(`"wood": "maple-sugar", "size_ring_angle_deg": 91`), 422, []string{"/size_ring_angle_deg out_of_range"}, "at most 90 degrees"},
	{"own wood shrinks too much", movementWith(`"wood": {"radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 80}, "direction": "tangential"`), 422, []string{"/wood/tangential_shrinkage_pct out_of_range"}, "at most 25 %"},
	{"unreachable equilibrium", Posting("/v1/emc", `{"temperature": "95 C", "wanted_emc_pct": 26}`), 422, []string{"/wanted_emc_pct out_of_range"}, "below 98 % RH keeps this wood"},
	{"equilibrium above fibre saturation", Posting("/v1/emc", `{"temperature": "20 C", "wanted_emc_pct": 45}`), 422, []string{"/wanted_emc_pct out_of_range"}, "at most 27 %"},
	{"meter reading out of its scale", reading(`{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}, {"kind": "pin_meter", "reading_mc_pct": 75}`), 422, []string{"/readings/1/reading_mc_pct out_of_range"}, "at most 60 %"},
	{"no weight", reading(`{"kind": "ovendry_sample", "wet_mass": "0 g", "ovendry_mass": "55 g"}`), 422, []string{"/readings/0/wet_mass out_of_range"}, "wet_mass must be more than 0 g"},
	{"scale coarser than the weight", reading(`{"kind": "ovendry_sample", "wet_mass": "61 g", "ovendry_mass": "55 g", "scale_division": "100 g"}`), 422, []string{"/readings/0/scale_division conflict"}, "larger than the mass"},
	{"scale without a step", reading(`{"kind": "ovendry_sample", "wet_mass": "61 g", "ovendry_mass": "55 g", "scale_division": "0 g"}`), 422, []string{"/readings/0/scale_division out_of_range"}, "more than 0 g"},
	{"ovendry above wet", reading(`{"kind": "ovendry_sample", "wet_mass": "55 g", "ovendry_mass": "61 g"}`), 422, []string{"/readings/0/ovendry_mass conflict"}, "ovendry"},
	{"weight below ovendry", reading(`{"kind": "running_weight", "start_mass": "1000 g", "start_mc_pct": 20, "mass": "700 g"}`), 422, []string{"/readings/0/mass conflict"}, "ovendry"},
	{"too many readings", reading(strings.Repeat(`{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1},`, 50) + `{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}`), 422, []string{"/readings too_many_items"}, "at most 50 entries"},
	{"no readings", Posting("/v1/moisture", `{"readings": []}`), 422, []string{"/readings too_few_items"}, "at least 1 entry"},
	{"spoiled leaf of no stack", yieldWith(okBillet, okSaw, okPart, `, "rejected_leaves": [{"row": 7, "column": 1, "leaf": 1}]`), 422, []string{"/rejected_leaves/0 out_of_range"}, "no stack in row 7"},
	{"spoiled leaf without a row", yieldWith(okBillet, okSaw, okPart, `, "rejected_leaves": [{"column": 1, "leaf": 1}]`), 422, []string{"/rejected_leaves/0/row missing"}, "row is needed"},
	{"spoiled leaf in row 0", yieldWith(okBillet, okSaw, okPart, `, "rejected_leaves": [{"row": 0, "column": 1, "leaf": 1}]`), 422, []string{"/rejected_leaves/0/row out_of_range"}, "at least 1"},
	{"spoiled leaf the stack does not have", yieldWith(`"thickness": "60 mm"`, okSaw, okPart, `, "rejected_leaves": [{"row": 1, "column": 1, "leaf": 2}, {"row": 1, "column": 1, "leaf": 11}]`), 422, []string{"/rejected_leaves/1 out_of_range"}, "numbered 1 to 9"},
	{"leaf spoiled twice", yieldWith(okBillet, okSaw, okPart, `, "rejected_leaves": [{"row": 1, "column": 1, "leaf": 2}, {"row": 1, "column": 1, "leaf": 2}]`), 422, []string{"/rejected_leaves conflict"}, "named twice"},
	{"set of none", yieldWith(okBillet, okSaw, okPart+`, "pieces_per_set": 0`, ""), 422, []string{"/part/pieces_per_set out_of_range"}, "at least 1"},

	// Members that contradict each other or need each other.
	{"two measures of vapour", airWith(`"rh_pct": 50, "dew_point": "9 C"`), 422, []string{"/air conflict"}, "only one of rh_pct, wet_bulb and dew_point"},
	{"no measure of vapour", airWith(`"elevation": "10 m"`), 422, []string{"/air missing"}, "needs one of rh_pct, wet_bulb or dew_point"},
	{"altitude and pressure", airWith(`"rh_pct": 50, "elevation": "10 m", "pressure": "1000 hPa"`), 422, []string{"/air/elevation conflict"}, "elevation or the pressure, not both"},
	{"ice without a bulb", airWith(`"rh_pct": 50, "ice_bulb": true`), 422, []string{"/air/ice_bulb conflict"}, "ice_bulb"},
	{"air and wanted", Posting("/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}, "wanted_emc_pct": 8}`), 422, []string{"/air conflict"}, "not both"},
	{"wanted without temperature", Posting("/v1/emc", `{"wanted_emc_pct": 8}`), 422, []string{"/temperature missing"}, "temperature is needed"},
	{"a species and any of a name", Posting("/v1/movement", WithWood(movementWith(maple).Body, `"any": "maple"`)), 422, []string{"/wood/any conflict"}, "species or any, not both"},
	{"a name longer than any", movementWith(`"wood": "` + strings.Repeat("maple ", 20) + `"`), 422, []string{"/wood too_long"}, "at most 100 characters"},
	{"neither species nor own wood", movementWith(`"direction": "radial"`), 422, []string{"/wood missing"}, "name the wood"},
	{"direction and ring angle", movementWith(maple + `, "size_ring_angle_deg": 30`), 422, []string{"/size_ring_angle_deg conflict"}, "direction or size_ring_angle_deg"},
	{"neither direction nor ring angle", movementWith(`"wood": "maple-sugar"`), 422, []string{"/direction missing"}, "give direction"},
	{"two conditions in one", Posting("/v1/movement", `{"size": "100 mm", "from_condition": {"mc_pct": 12, "green": true}, "to_condition": {"mc_pct": 8}, `+maple+`}`), 422, []string{"/from_condition conflict"}, "only one of"},
	{"no condition", Posting("/v1/movement", `{"size": "100 mm", "from_condition": {"mc_pct": 12}, "to_condition": {}, `+maple+`}`), 422, []string{"/to_condition missing"}, "say mc_pct"},
	{"a spread of nothing", Posting("/v1/movement", `{"size": "100 mm", "from_condition": {"mc_pct": 12}, "to_condition": {"green": true, "mc_sd_points": 1}, `+maple+`}`), 422, []string{"/to_condition/mc_sd_points unknown_member"}, "there is no member"},
	{"two readings in one", reading(`{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1, "reading_mc_pct": 9}`), 422, []string{"/readings/0/reading_mc_pct unknown_member"}, "there is no member"},
	{"no reading in one", reading(`{}`), 422, []string{"/readings/0/kind missing"}, "kind is needed"},
	{"half a species correction", reading(`{"kind": "pin_meter", "reading_mc_pct": 12, "correction": {"a": 0.9}}`), 422, []string{"/readings/0/correction/b_mc_points missing"}, "b_mc_points is needed"},
	{"depth of what", reading(`{"kind": "pin_meter", "reading_mc_pct": 12, "depth": "10 mm"}`), 422, []string{"/readings/0/thickness missing"}, "thickness of the piece"},
	{"pins through the piece", reading(`{"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 in", "thickness": "1 in"}`), 422, []string{"/readings/0/depth conflict"}, "deeper than the piece is thick"},
	{"size and weight of what wood", reading(`{"kind": "size_and_weight", "length": "1 m", "width": "100 mm", "thickness": "25 mm", "mass": "1.5 kg"}`), 422, []string{"/wood missing"}, "specific gravity"},
	{"readings that cannot both be true", reading(`{"kind": "stated", "mc_pct": 8, "mc_sd_points": 0.5}, {"kind": "stated", "mc_pct": 20, "mc_sd_points": 0.5}`), 422, []string{"/readings/1 conflict"}, ""},
	{"wedge of less than no thickness", yieldWith(okBillet+`, "far_thickness": "-1 mm"`, okSaw, okPart, ""), 422, []string{"/billet/far_thickness out_of_range"}, "at least 0 mm"},
	{"facing of face 2 thicker than the billet, in inches", yieldWith(okBillet+`, "facing_face_1": "0 in", "facing_face_2": "2.5 in"`, okSaw, okPart, `, "report_in": "inch"`), 422, []string{"/billet/facing_face_2 conflict"}, "it must be less than 2.3622 in"},
	{"kerf thicker than a thin billet, in inches", yieldWith(`"thickness": "10 mm", "facing_face_1": "0 mm", "facing_face_2": "0 mm"`, `"kerf": "15 mm"`, okPart, `, "report_in": "inch"`), 422, []string{"/saw/kerf conflict"}, "it must be at most 0.3937 in"},
	{"re-facing thicker than a thin billet", yieldWith(`"thickness": "10 mm", "facing_face_1": "0 mm", "facing_face_2": "0 mm"`, `"kerf": "1 mm", "reface": "15 mm"`, okPart, ""), 422, []string{"/saw/reface conflict"}, "it must be at most 10 mm"},
	{"facing thicker than the billet", yieldWith(okBillet+`, "facing_face_1": "70 mm"`, okSaw, okPart, ""), 422, []string{"/billet/facing_face_1 conflict"}, "the facings leave nothing of the thickness of 60 mm; it must be less than 59 mm"},
	{"yield with a saw of no table", yieldWith(okBillet, `"usual_kerf": "chainsaw"`, okPart, ""), 422, []string{"/saw/usual_kerf not_found"}, "there are bandsaw_carbide"},
	{"yield with a trim of no table", yieldWith(okBillet+`, "trim": {"usual": "waxed"}`, okSaw, okPart, ""), 422, []string{"/billet/trim/usual not_found"}, "there are growth_stress"},
	{"yield of a part of no table", yieldWith(okBillet, okSaw, `"part_size": "qqqqqqq"`, ""), 422, []string{"/part/part_size not_found"}, "there is no part called"},
	{"sawn and final", yieldWith(okBillet, okSaw, okPart+`, "final_thickness": "3 mm"`, ""), 422, []string{"/part/sawn_thickness conflict"}, "not both"},
	{"neither sawn nor final", yieldWith(okBillet, okSaw, `"pieces_per_set": 2`, ""), 422, []string{"/part/final_thickness missing"}, "give final_thickness, sawn_thickness or part_size"},
	{"dried from nobody knows what", yieldWith(okBillet+`, "wood": "maple-sugar"`, okSaw, `"final_thickness": "3 mm", "final_condition": {"mc_pct": 8}`, ""), 422, []string{"/billet/condition missing"}, "needs the condition of the billet"},
	{"a leaf that will swell", yieldWith(okBillet+`, "wood": "maple-sugar", "condition": {"mc_pct": 6}`, okSaw, `"final_thickness": "3 mm", "final_condition": {"mc_pct": 8}`, ""), 422, []string{"/part/final_condition conflict"}, "wetter than the condition of the billet"},
	{"shrinkage of what wood", yieldWith(okBillet+`, "condition": {"mc_pct": 14}`, okSaw, `"final_thickness": "3 mm", "final_condition": {"mc_pct": 8}`, ""), 422, []string{"/billet/wood missing"}, "needs the wood"},
	{"parts like matches", Posting("/v1/leaf-yield", `{"billet": {"length": "20 m", "width": "5 m", "thickness": "60 mm"}, "saw": {"kerf": "1 mm"}, "part": {"length": "100 mm", "width": "0.5 m", "sawn_thickness": "4 mm"}}`), 422, []string{"/part too_much_work"}, "more than 1000 stacks"},

	// Woods.
	{"unknown wood", movementWith(`"wood": "mapel sugr", "direction": "radial"`), 422, []string{"/wood not_found"}, "maple-sugar"},
	{"unlike any wood", movementWith(`"wood": "qqqqqqqqqq", "direction": "radial"`), 422, []string{"/wood not_found"}, "GET /v1/species lists them"},
	{"bare name", movementWith(`"wood": "Maple", "direction": "radial"`), 422, []string{"/wood ambiguous"}, `names several woods, the likeliest first: maple-sugar (hard maple`},
	{"any of a name that one wood has", movementWith(`"wood": "any padouk", "direction": "radial"`), 422, []string{"/wood not_found"}, "is no name that several woods share"},
	{"ambiguous wood", movementWith(`"wood": "hard maple", "direction": "radial"`), 422, []string{"/wood ambiguous"}, "names several woods: maple-black; maple-sugar; say which, or"},
	{"unknown wood in emc", Posting("/v1/emc", `{"wood": "unobtainium", "air": {"temperature": "20 C", "rh_pct": 50}}`), 422, []string{"/wood not_found"}, "there is no wood called"},
	{"own wood without the figure", movementWith(`"wood": {"radial_shrinkage_pct": 4}, "direction": "tangential"`), 422, []string{"/wood missing_data"}, "is known in this direction"},

	// Readiness.
	{"nothing known", readinessWith(`"report_in": "metric"`), 422, []string{"/readings missing"}, "nothing is known of the moisture"},
	{"dates out of order", readinessWith(`"readings": [{"kind": "weight", "date": "2026-02-01", "mass": "5 kg"}, {"kind": "weight", "date": "2026-01-01", "mass": "4.9 kg"}]`), 422, []string{"/readings/1/date out_of_range"}, "in order of date"},
	{"the same day twice", readinessWith(`"readings": [{"kind": "weight", "date": "2026-02-01", "mass": "5 kg"}, {"kind": "weight", "date": "2026-02-01", "mass": "4.9 kg"}]`), 422, []string{"/readings/1/date out_of_range"}, "in order of date"},
	{"a day of no month", readinessWith(`"readings": [{"kind": "weight", "date": "2026-02-30", "mass": "5 kg"}]`), 422, []string{"/readings/0/date invalid_format"}, "a date such as 2026-03-01"},
	{"a date in another order", readinessWith(`"readings": [{"kind": "weight", "date": "01/02/2026", "mass": "5 kg"}]`), 422, []string{"/readings/0/date invalid_format"}, "a date such as 2026-03-01; 01/02/2026 may be 1 February 2026 (2026-02-01) or 2 January 2026 (2026-01-02)"},
	{"two units that do not go together", yieldWith(`"thickness": "2' 14\""`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "in behind ft are fewer than 12"},
	{"known on a day not weighed", readinessWith(`"readings": [{"kind": "weight", "date": "2026-02-01", "mass": "5 kg"}, {"kind": "stated", "date": "2026-01-01", "mc_pct": 12}]`), 422, []string{"/readings/1/date conflict"}, "not weighed"},
	{"known on two days", readinessWith(`"readings": [{"kind": "weight", "date": "2026-01-01", "mass": "5 kg"}, {"kind": "weight", "date": "2026-02-01", "mass": "4.9 kg"}, {"kind": "stated", "date": "2026-01-01", "mc_pct": 12}, {"kind": "stated", "date": "2026-02-01", "mc_pct": 11}]`), 422, []string{"/readings/3/date conflict"}, "stated of two days"},
	{"lost more than its water", readinessWith(`"readings": [{"kind": "weight", "date": "2026-01-01", "mass": "5 kg"}, {"kind": "weight", "date": "2026-02-01", "mass": "3 kg"}, {"kind": "stated", "date": "2026-01-01", "mc_pct": 12}]`), 422, []string{"/readings/1/mass conflict"}, "ovendry"},
	{"saw without a part", readinessWith(`"readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}], "saw": {"kerf": "1 mm"}`), 422, []string{"/part missing"}, "go together"},
	{"part without a saw", readinessWith(`"readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}], "part": {"length": "560 mm", "width": "210 mm", "sawn_thickness": "4 mm"}`), 422, []string{"/saw missing"}, "go together"},
	{"only the shell read", readinessWith(`"readings": [{"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 mm", "thickness": "58 mm"}]`), 422, []string{"/readings missing"}, "no reading speaks for the whole section"},
	{"step not offered", readinessWith(`"readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}], "step_limits": [{"step": "carve"}]`), 422, []string{"/step_limits/0/step not_a_choice"}, "one of resaw, thickness, glue"},
	{"a step twice", readinessWith(`"readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}], "step_limits": [{"step": "glue", "max_above_mc_points": 1}, {"step": "glue", "max_above_mc_points": 2}]`), 422, []string{"/step_limits/1/step conflict"}, "given twice"},

	// An empty text is no value, whatever the member.
	{"empty choice", Posting("/v1/air", `{"air": {"temperature": "20 C", "rh_pct": 50}, "report_in": ""}`), 422, []string{"/report_in empty_text"}, "leave the member out"},
	{"empty name", movementWith(`"wood": "", "direction": "tangential"`), 422, []string{"/wood empty_text"}, "leave the member out"},
	{"empty date", Posting("/v1/moisture", `{"readings": [{"kind": "stated", "date": "", "mc_pct": 10, "mc_sd_points": 1}]}`), 422, []string{"/readings/0/date empty_text"}, "leave the member out"},
	{"empty quantity", yieldWith(`"thickness": ""`, okSaw, okPart, ""), 422, []string{"/billet/thickness invalid_quantity"}, "is not a length"},
	{"empty name of an unknown member", Posting("/v1/air", `{"air": {"temperature": "20 C", "rh_pct": 50}, "": 1}`), 422, []string{"/ unknown_member"}, "no member"},

	// Several at once.
	{"wrong things in a list", Posting("/v1/moisture", `{"readings": [5, "x", [null], {"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}]}`), 422, []string{"/readings/0 wrong_type", "/readings/1 wrong_type", "/readings/2 wrong_type"}, "must be an object, got a number"},
	{"everything wrong at once", Posting("/v1/leaf-yield", `{"billet": {"length": "600", "width": 220, "thickness": "-60 mm", "bark": true}, "saw": {"kerf": "1.5 kg"}, "part": {"length": "560 mm", "sawn_thickness": null}, "report_in": "cubits"}`), 422,
		[]string{"/part/sawn_thickness null_value", "/billet/length invalid_quantity", "/billet/width invalid_quantity", "/billet/bark unknown_member", "/saw/kerf invalid_quantity", "/billet/thickness out_of_range", "/report_in not_a_choice", "/part/width missing"}, "null"},
	{"two wrong readings", reading(`{"kind": "pin_meter", "reading_mc_pct": "12"}, {"kind": "pinless_meter", "reading_mc_pct": 99}, {"kind": "stated"}`), 422,
		[]string{"/readings/0/reading_mc_pct wrong_type", "/readings/1/reading_mc_pct out_of_range", "/readings/2/mc_pct missing"}, "must be a number"},

	// HTTP.
	{"body too large", Posting("/v1/air", `{"air": "`+strings.Repeat("x", serve.CalculationBody)+`"}`), 413, []string{" too_long"}, "at most 262144 bytes"},
	{"form as body", Posting("/v1/air", "a=b", "Content-Type", "application/x-www-form-urlencoded"), 415, []string{"?Content-Type not_a_choice"}, "application/json"},
	{"plain text as body", Posting("/v1/leaf-yield", "{}", "Content-Type", "text/plain; charset=utf-8"), 415, []string{"?Content-Type not_a_choice"}, "not text/plain"},
	{"form not offered", Getting("/v1/methods", "Accept", "application/pdf"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
	{"form refused", Getting("/v1/methods", "Accept", "application/json;q=0"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
	{"form of a calculation not offered", Posting("/v1/air", `{}`, "Accept", "image/png"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
	{"no such path", Getting("/v1/tables"), 404, nil, ""},
	{"no such version", Posting("/v2/air", `{}`), 404, nil, ""},
	{"root of nothing", Getting("/v1"), 404, nil, ""},
	{"look-up of a calculation", Getting("/v1/air"), 405, nil, ""},
	{"calculation of a look-up", Posting("/v1/species", `{}`), 405, nil, ""},
	{"deleting a wood", Asked{http.MethodDelete, "/v1/species/maple-sugar", "", nil}, 405, nil, ""},
	{"unknown query parameter", Getting("/v1/species?name=maple"), 400, []string{"?name unknown_parameter"}, "it has q, listing, limit, offset"},
	{"query parameter of a calculation", Posting("/v1/air?units=inch", `{}`), 400, []string{"?units unknown_parameter"}, `no query parameter "units"`},
	{"two unknown query parameters", Getting("/v1/methods?b=1&a=2"), 400, []string{"?a unknown_parameter", "?b unknown_parameter"}, "no query parameter"},
	{"repeated query parameter", Getting("/v1/species?q=maple&q=oak"), 400, []string{"?q duplicate_parameter"}, "more than once"},
	{"malformed query", Getting("/v1/species?q=%zz"), 400, []string{" invalid_format"}, "malformed"},
	{"limit of none", Getting("/v1/species?limit=0"), 400, []string{"?limit out_of_range"}, "from 1 to 500"},
	{"limit of too many", Getting("/v1/stations?limit=501"), 400, []string{"?limit out_of_range"}, "from 1 to 500"},
	{"limit in words", Getting("/v1/methods?limit=ten"), 400, []string{"?limit out_of_range"}, `got "ten"`},
	{"negative offset", Getting("/v1/methods?offset=-1"), 400, []string{"?offset out_of_range"}, "from 0 to 1000000"},
	{"part of an offset", Getting("/v1/methods?offset=1.5"), 400, []string{"?offset out_of_range"}, "a whole number"},
	{"unknown wood in the path", Getting("/v1/species/maple-sugr"), 404, []string{"?id not_found"}, "did you mean maple-sugar"},
	{"unknown station in the path", Getting("/v1/stations/madisson-wi"), 404, []string{"?id not_found"}, "did you mean madison-wi"},
	{"climb in the path", Getting("/v1/species/%2e%2e%2fplates"), 404, []string{"?id not_found"}, `"../plates"`},
	{"no wood in the path", Getting("/v1/species/"), 404, nil, ""},
	{"unknown group", Getting("/v1/species?listing=conifer"), 400, []string{"?listing not_a_choice"}, "hardwood, softwood or imported"},
	{"unknown chapter", Getting("/v1/methods?chapter=moving"), 400, []string{"?chapter not_found"}, "no method stands in a chapter"},
	{"near in words", Getting("/v1/stations?near=madison"), 400, []string{"?near out_of_range"}, "such as 43.1,-89.4"},
	{"near one number", Getting("/v1/stations?near=43.1"), 400, []string{"?near out_of_range"}, "such as 43.1,-89.4"},
	{"near three numbers", Getting("/v1/stations?near=43.1,-89.4,7"), 400, []string{"?near out_of_range"}, "such as 43.1,-89.4"},
	{"north of the pole", Getting("/v1/stations?near=91,0"), 400, []string{"?near out_of_range"}, "such as 43.1,-89.4"},
	{"near nowhere", Getting("/v1/stations?near=NaN,0"), 400, []string{"?near out_of_range"}, "such as 43.1,-89.4"},
	{"near and name", Getting("/v1/stations?near=43,-89&q=madison"), 400, []string{"?near conflict"}, "q or near, not both"},
	{"system of a station not offered", Getting("/v1/stations/madison-wi?report_in=SI"), 400, []string{"?report_in not_a_choice"}, "metric or inch"},
	{"unknown kind of problem", Getting("/problems/bad-luck"), 404, nil, "no such kind"},
}
