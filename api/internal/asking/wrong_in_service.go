package asking

import "strings"

// inServiceWith is a right request but for what a row puts into it.
func inServiceWith(room, parts, rest string) Asked {
	return Posting("/v1/year-in-service", `{"room": {`+room+`}, "parts": [`+parts+`]`+rest+`}`)
}

// figuresWith is a right request but for its parts, pairs and conditions.
func figuresWith(parts, pairs, rest string) Asked {
	return Posting("/v1/assembly-movement", `{"parts": [`+parts+`], "pairs": [`+pairs+`]`+rest+`}`)
}

const (
	okRoom       = `"station": "madison-wi", "heated_to": "20 C"`
	okMade       = `, "build_condition": {"mc_pct": 8, "mc_sd_points": 0.5}`
	okServed     = `{"id": "top", "wood": "spruce-sitka", "thickness": "3 mm", "width": "400 mm", "rings": {"angle_deg": 85}}`
	okServedBack = `{"id": "back", "wood": "walnut-black", "thickness": "3 mm", "rings": {"angle_deg": 85}}`
	okSeasons    = okMade + `, "driest_condition": {"mc_pct": 5, "mc_sd_points": 0.5}, "wettest_condition": {"mc_pct": 11, "mc_sd_points": 0.5}`
	winterAir    = `"winter_air": {"temperature": "20 C", "rh_pct": 25}`
	okMeeting    = `{"id": "rebate", "outer": {"part": "back", "dimension": "thickness"}, "inner": {"part": "top", "dimension": "width"}, "max_clearance": "2 mm"}`
)

// okGluedSides are those of a right glued joint.
const okGluedSides = `"first": {"part": "top", "dimension": "width"}, "second": {"part": "back", "dimension": "thickness"}`

// gluedWith is a right request for the figures of an assembly but for its glued joint.
func gluedWith(members string) Asked {
	return figuresWith(okServed+", "+okServedBack, "", okSeasons+`, "glued_joints": [{`+members+`}]`)
}

// laminated is a right request for the year of a laminate but for its layers and what a row adds.
func laminated(layers, rest string) Asked {
	return Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`, "laminates": [{"length": "450 mm", "width": "330 mm", "layers": [`+layers+`]`+rest+`}]}`)
}

// served is a right part but for what a row puts into it.
func served(members string) Asked {
	return inServiceWith(okRoom, `{"id": "top", "thickness": "3 mm", `+members+`}`, okMade)
}

func meeting(members string) Asked {
	return figuresWith(okServed+", "+okServedBack, `{"id": "rebate", `+members+`}`, okSeasons)
}

var wrongInService = []wrong{
	// The year in a room.
	{"nothing given: in service", Posting("/v1/year-in-service", `{}`), 422, []string{"/room missing"}, "room is needed"},
	{"no parts", inServiceWith(okRoom, "", okMade), 422, []string{"/parts missing"}, "give parts, laminates, or both"},
	{"too many parts", inServiceWith(okRoom, strings.Repeat(okServed+",", 60)+okServed, okMade), 422, []string{"/parts too_many_items"}, "at most 60 entries"},
	{"a part without a build of its own, and none for all", inServiceWith(okRoom, okServed, ""), 422, []string{"/build_condition missing"}, "for what has none of its own"},
	{"a laminate with the id of a part", Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`, "parts": [`+okServed+`], "laminates": [{"id": "top", "length": "450 mm", "width": "330 mm", "layers": [`+OkLayer+`]}]}`), 422, []string{"/laminates/0/id duplicate_id"}, "part 1 and laminate 1"},
	{"two parts of one id", inServiceWith(okRoom, okServed+","+okServed, okMade), 422, []string{"/parts/1/id duplicate_id"}, "have the same id"},
	{"a part with the id of a position", inServiceWith(okRoom, `{"id": "2", "wood": "teak", "thickness": "3 mm"}, {"wood": "teak", "thickness": "3 mm"}`, okMade), 422, []string{"/parts/1/id duplicate_id"}, "have the same id"},
	{"part without a wood", served(`"width": "100 mm"`), 422, []string{"/parts/0/wood missing"}, "name the wood"},
	{"wood not in the tables", served(`"wood": "spruce-moon"`), 422, []string{"/parts/0/wood not_found"}, "there is no wood called"},
	{"own wood without density", served(`"wood": {"radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8}`), 422, []string{"/parts/0/wood/specific_gravity missing_data"}, "no specific gravity"},
	{"own wood without shrinkage", served(`"wood": {"specific_gravity": 0.6}`), 422, []string{"/parts/0/wood missing_data"}, "neither the total shrinkage nor the coefficient"},
	{"part thinner than a veneer", inServiceWith(okRoom, `{"id": "top", "wood": "teak", "thickness": "0.2 mm"}`, okMade), 422, []string{"/parts/0/thickness out_of_range"}, "at least 0.5 mm"},
	{"part thicker than a beam", inServiceWith(okRoom, `{"id": "top", "wood": "teak", "thickness": "13 in"}`, okMade), 422, []string{"/parts/0/thickness out_of_range"}, "at most 11.811 in"},
	{"spread of an angle that is not given", served(`"wood": "teak", "rings": {"angle_sd_deg": 5}`), 422, []string{"/parts/0/rings missing"}, "give pith, readings, chord or angle_deg"},
	{"ring angle beyond quartersawn", served(`"wood": "teak", "rings": {"angle_deg": 91}`), 422, []string{"/parts/0/rings/angle_deg out_of_range"}, "at most 90 degrees"},
	{"a finish nobody knows", served(`"wood": "teak", "finish": {"outside": "paint"}`), 422, []string{"/parts/0/finish/outside not_a_choice"}, "one of bare, wax, oil"},
	{"a resistance below nothing", served(`"wood": "teak", "finish": {"inside": {"resistance_s_per_m": -1}}`), 422, []string{"/parts/0/finish/inside/resistance_s_per_m out_of_range"}, "at least 0"},
	{"both faces closed", served(`"wood": "teak", "finish": {"outside": "impermeable"}`), 422, []string{"/parts/0/finish conflict"}, "nothing would ever reach the wood"},
	{"drying factor without its median", served(`"wood": {"species": "teak", "drying_factor": {"sd_ratio": 1.3}}`), 422, []string{"/parts/0/wood/drying_factor/value missing"}, "value is needed"},
	{"nothing known of the build", inServiceWith(okRoom, okServed, `, "build_condition": {}`), 422, []string{"/build_condition missing"}, "say mc_pct, or the air"},
	{"the build of one part told twice", served(`"wood": "teak", "build_condition": {"mc_pct": 8, "green": true}`), 422, []string{"/parts/0/build_condition conflict"}, "only one of mc_pct, air and green"},
	{"air of the build without a humidity", inServiceWith(okRoom, okServed, `, "build_condition": {"air": {"temperature": "20 C"}}`), 422, []string{"/build_condition/air missing"}, "one of rh_pct, wet_bulb or dew_point"},
	{"misspelt member of a part", served(`"wood": "teak", "finnish": {}`), 422, []string{"/parts/0/finnish unknown_member"}, `did you mean "finish"?`},

	// Laminates through the year.
	{"neither parts nor laminates", Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`}`), 422, []string{"/parts missing"}, "give parts, laminates, or both"},
	{"laminate of nothing", Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`, "laminates": [{}]}`), 422, []string{"/laminates/0/layers missing", "/laminates/0/length missing", "/laminates/0/width missing"}, "layers is needed"},
	{"no laminates", Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`, "laminates": []}`), 422, []string{"/parts missing"}, "give parts, laminates, or both"},
	{"laminate of 33 layers in service", laminated(strings.TrimSuffix(strings.Repeat(OkLayer+",", 33), ","), ""), 422, []string{"/laminates/0/layers too_many_items"}, "at most 32 entries"},
	{"two laminates of one id", Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`, "laminates": [{"id": "a", "length": "450 mm", "width": "330 mm", "layers": [`+OkLayer+`]}, {"id": "a", "length": "450 mm", "width": "330 mm", "layers": [`+OkLayer+`]}]}`), 422, []string{"/laminates/1/id duplicate_id"}, "have the same id"},
	{"two layers of one id", laminated(LayerWith(`"id": "a"`)+", "+LayerWith(`"id": "a"`), ""), 422, []string{"/laminates/0/layers/1/id duplicate_id"}, "have the same id"},
	{"laminate glued in no air", laminated(OkLayer, `, "build_condition": {"air": {"temperature": "20 C", "wet_bulb": "25 C"}}`), 422, []string{"/laminates/0/build_condition/air/wet_bulb conflict"}, "above the dry bulb"},
	{"layer in service of an unknown wood", laminated(OkLayer+`, {"wood": "unobtainium", "thickness": "6 mm", "rings": {"angle_deg": 0}}`, ""), 422, []string{"/laminates/0/layers/1/wood not_found"}, "no wood called"},
	{"own layer in service without density", laminated(OkLayer+`, {`+ownLayerOf(`, "group": "softwood", "modulus_of_elasticity": "11000 MPa"`)+`}`, ""), 422, []string{"/laminates/0/layers/1/wood/specific_gravity missing_data"}, "no specific gravity"},
	{"own layer in service without its modulus", laminated(`{`+ownLayerOf(`, "group": "softwood", "specific_gravity": 0.4`)+`}`, ""), 422, []string{"/laminates/0/layers/0/wood/modulus_of_elasticity missing"}, "such as 11000 MPa"},
	{"laminate behind closed faces", laminated(twoLayers, `, "finish": "impermeable"`), 422, []string{"/laminates/0/finish conflict"}, "nothing would ever reach the wood"},
	{"laminate with a finish nobody knows", laminated(twoLayers, `, "finish": {"inside": "paint"}`), 422, []string{"/laminates/0/finish/inside not_a_choice"}, "one of bare, wax, oil"},
	{"laminate of one layer with glue", laminated(OkLayer, `, "glue": {"resistance_s_per_m": 100}`), 422, []string{"/laminates/0/glue conflict"}, "no glue line"},
	{"glue that draws vapour", laminated(twoLayers, `, "glue": {"resistance_s_per_m": -1}`), 422, []string{"/laminates/0/glue/resistance_s_per_m out_of_range"}, "at least 0"},
	{"layer glued in two states", laminated(LayerWith(`"glue_up_condition": {"mc_pct": 7, "green": true}`), ""), 422, []string{"/laminates/0/layers/0/glue_up_condition conflict"}, "only one of"},
	{"laminate built in two states", laminated(twoLayers, `, "build_condition": {"mc_pct": 7, "green": true}`), 422, []string{"/laminates/0/build_condition conflict"}, "only one of"},
	{"laminate thicker than a beam", laminated(OkLayer+`, {"wood": "teak", "thickness": "0.8 m", "rings": {"angle_deg": 0}}`, ""), 422, []string{"/laminates/0/layers/1/thickness out_of_range"}, "600 mm"},
	{"nine laminates", Posting("/v1/year-in-service", `{"room": {`+okRoom+`}`+okMade+`, "laminates": [`+strings.TrimSuffix(strings.Repeat(`{"length": "450 mm", "width": "330 mm", "layers": [`+OkLayer+`]},`, 9), ",")+`]}`), 422, []string{"/laminates too_many_items"}, "at most 8 entries"},

	// Rooms.
	{"a room of nothing", inServiceWith(``, okServed, okMade), 422, []string{"/room missing"}, "exactly one of station, months, air, seasons, log, log_csv and outdoors"},
	{"a room told twice", inServiceWith(okRoom+`, "air": {"temperature": "20 C", "rh_pct": 25}`, okServed, okMade), 422, []string{"/room conflict"}, "only one of"},
	{"a place without heating", inServiceWith(`"station": "madison-wi"`, okServed, okMade), 422, []string{"/room/heated_to missing"}, "say heated_to"},
	{"a place of several", inServiceWith(`"station": "Portland", "heated_to": "20 C"`, okServed, okMade), 422, []string{"/room/station not_found"}, "portland-me (Maine); portland-or (Oregon)"},
	{"outdoors nowhere", inServiceWith(`"outdoors": {}`, okServed, okMade), 422, []string{"/room/outdoors/station missing"}, "station or months"},
	{"outdoors at a place that is not there", inServiceWith(`"outdoors": {"station": "madisson-wi"}`, okServed, okMade), 422, []string{"/room/outdoors/station not_found"}, "did you mean madison-wi"},
	{"outdoors and indoors", inServiceWith(okRoom+`, "outdoors": {"station": "madison-wi"}`, okServed, okMade), 422, []string{"/room conflict"}, "only one of"},
	{"outdoors and heated", inServiceWith(`"outdoors": {"station": "madison-wi"}, "heated_to": "20 C"`, okServed, okMade), 422, []string{"/room/heated_to conflict"}, "goes with station or months"},
	{"a place that is not there", inServiceWith(`"station": "madisson-wi", "heated_to": "20 C"`, okServed, okMade), 422, []string{"/room/station not_found"}, "did you mean madison-wi"},
	{"a place without temperatures", inServiceWith(`"station": "charleston-sc", "heated_to": "20 C"`, okServed, okMade), 422, []string{"/room/station not_supported"}, "temperatures"},
	{"heated like an oven", inServiceWith(`"station": "madison-wi", "heated_to": "80 C"`, okServed, okMade), 422, []string{"/room/heated_to out_of_range"}, "at most 50 C"},
	{"a drier below the humidifier", inServiceWith(okRoom+`, "min_rh_pct": 50, "max_rh_pct": 45`, okServed, okMade), 422, []string{"/room/max_rh_pct conflict"}, "the drier holds 45 %, and the humidifier more, 50 %"},
	{"winter without summer", inServiceWith(`"seasons": {`+winterAir+`}`, okServed, okMade), 422, []string{"/room/seasons/summer_air missing"}, "summer_air is needed"},
	{"a humidifier in a room of two seasons", inServiceWith(`"seasons": {`+winterAir+`, "summer_air": {"temperature": "22 C", "rh_pct": 60}}, "min_rh_pct": 35`, okServed, okMade), 422, []string{"/room/min_rh_pct conflict"}, "goes with station"},
	{"a thirteenth month", inServiceWith(`"seasons": {`+winterAir+`, "summer_air": {"temperature": "22 C", "rh_pct": 60}, "winter_month": 13}`, okServed, okMade), 422, []string{"/room/seasons/winter_month out_of_range"}, "at most 12"},
	{"summer without a humidity", inServiceWith(`"seasons": {`+winterAir+`, "summer_air": {"temperature": "22 C"}}`, okServed, okMade), 422, []string{"/room/seasons/summer_air missing"}, "one of rh_pct"},
	{"a winter hotter than wood is known in", inServiceWith(`"seasons": {"winter_air": {"temperature": "95 C", "rh_pct": 20}, "summer_air": {"temperature": "22 C", "rh_pct": 60}}`, okServed, okMade), 422, []string{"/room/seasons/winter_air/temperature out_of_range"}, "80"},
	{"a record of one row", inServiceWith(`"log": [{"time": "2025-01-01", "temperature": "20 C", "rh_pct": 40}]`, okServed, okMade), 422, []string{"/room/log out_of_range"}, "2 to"},
	{"a record that goes back", inServiceWith(`"log": [{"time": "2025-01-02", "temperature": "20 C", "rh_pct": 40}, {"time": "2025-01-01", "temperature": "20 C", "rh_pct": 40}]`, okServed, okMade), 422, []string{"/room/log/1/time conflict"}, "later than the row before"},
	{"weeks on top of a record", inServiceWith(`"weekly_rh_swing_points": 5, "log_csv": "time,temperature_c,rh_pct\n2025-01-01,20,40\n2025-02-01,20,45\n"`, okServed, okMade), 422, []string{"/room/weekly_rh_swing_points conflict"}, "a record has its own weeks"},

	// Figures of an assembly.
	{"nothing given: figures", Posting("/v1/assembly-movement", `{}`), 422, []string{"/parts missing"}, "parts is needed"},
	{"glued joint of nothing", gluedWith(``), 422, []string{"/glued_joints/0/first missing", "/glued_joints/0/second missing"}, "first is needed"},
	{"glued to an unknown part", gluedWith(`"first": {"part": "top", "dimension": "width"}, "second": {"part": "backk", "dimension": "thickness"}`), 422, []string{"/glued_joints/0/second/part not_found"}, `did you mean "back"?`},
	{"glued over a length that is not told", gluedWith(`"first": {"part": "top", "dimension": "width"}, "second": {"part": "back", "dimension": "length"}`), 422, []string{"/glued_joints/0/second/dimension missing"}, "has no length"},
	{"glued to itself", gluedWith(`"first": {"part": "top", "dimension": "width"}, "second": {"part": "top", "dimension": "thickness"}`), 422, []string{"/glued_joints/0/second/part conflict"}, "not to itself"},
	{"a clearance of what is glued", gluedWith(`"first": {"part": "top", "dimension": "width"}, "second": {"part": "back", "dimension": "thickness"}, "max_clearance": "1 mm"`), 422, []string{"/glued_joints/0/max_clearance unknown_member"}, "there is no member"},
	{"two glued joints of one id", figuresWith(okServed+", "+okServedBack, "", okSeasons+`, "glued_joints": [{"id": "a", `+okGluedSides+`}, {"id": "a", `+okGluedSides+`}]`), 422, []string{"/glued_joints/1/id duplicate_id"}, "have the same id"},
	{"neither room nor seasons", figuresWith(okServed, "", okMade), 422, []string{"/room missing"}, "give room, or driest_condition and wettest_condition"},
	{"room and seasons", figuresWith(okServed, "", okSeasons+`, "room": {`+okRoom+`}`), 422, []string{"/room conflict"}, "not both"},
	{"driest alone", figuresWith(okServed, "", okMade+`, "driest_condition": {"mc_pct": 5}`), 422, []string{"/wettest_condition missing"}, "goes with driest"},
	{"seasons exchanged", figuresWith(okServed, "", okMade+`, "driest_condition": {"mc_pct": 12}, "wettest_condition": {"mc_pct": 6}`), 422, []string{"/wettest_condition conflict"}, "are they exchanged?"},
	{"wettest told twice", figuresWith(okServed, "", okMade+`, "driest_condition": {"mc_pct": 5}, "wettest_condition": {"mc_pct": 9, "green": true}`), 422, []string{"/wettest_condition conflict"}, "only one of"},
	{"pair of an unknown part", meeting(`"outer": {"part": "backk", "dimension": "thickness"}, "inner": {"part": "top", "dimension": "width"}, "max_clearance": "2 mm"`), 422, []string{"/pairs/0/outer/part not_found"}, `did you mean "back"?`},
	{"pair over a dimension that was not given", meeting(`"outer": {"part": "back", "dimension": "width"}, "inner": {"part": "top", "dimension": "width"}, "max_clearance": "2 mm"`), 422, []string{"/pairs/0/outer/dimension missing"}, "has no width"},
	{"pair across nothing known", meeting(`"outer": {"part": "back", "dimension": "height"}, "inner": {"part": "top", "dimension": "width"}, "max_clearance": "2 mm"`), 422, []string{"/pairs/0/outer/dimension not_a_choice"}, "one of thickness, width, length"},
	{"pair without a widest gap", meeting(`"outer": {"part": "back", "dimension": "thickness"}, "inner": {"part": "top", "dimension": "width"}`), 422, []string{"/pairs/0/max_clearance missing"}, "max_clearance is needed"},
	{"widest gap below the least", meeting(`"outer": {"part": "back", "dimension": "thickness"}, "inner": {"part": "top", "dimension": "width"}, "min_clearance": "3 mm", "max_clearance": "2 mm"`), 422, []string{"/pairs/0/max_clearance conflict"}, "smaller than the least"},
	{"pair of one side", meeting(`"outer": {"part": "back", "dimension": "thickness"}, "max_clearance": "2 mm"`), 422, []string{"/pairs/0/inner missing"}, "inner is needed"},
	{"too many pairs", figuresWith(okServed+","+okServedBack, strings.Repeat(okMeeting+",", 100)+okMeeting, okSeasons), 422, []string{"/pairs too_many_items"}, "at most 100 entries"},
	{"several wrong parts at once", figuresWith(`{"id": "a", "wood": "xylophone", "thickness": "3 mm"}, {"id": "b", "thickness": "3 mm"}`, "", okMade), 422, []string{"/room missing", "/parts/0/wood not_found", "/parts/1/wood missing"}, "give room"},
	{"a year as a table with a name that is a formula", servedTabled(`"name": "=1+1", `), 422, []string{"/parts/0/name not_supported"}, "for a formula"},
	{"figures as a table with a name that is a formula", figuresTabled("csv", `"name": "@top", `, ""), 422, []string{"/parts/0/name not_supported"}, "ask for JSON"},
	{"pairs as a table with a name that is a formula", figuresTabled("pairs_csv", "", `"name": "-2", `), 422, []string{"/pairs/0/name not_supported"}, "for a formula"},
}

// servedTabled is a right year but for its form, with more members of its part.
func servedTabled(members string) Asked {
	return Posting("/v1/year-in-service?as=csv", `{"room": {`+okRoom+`}, "parts": [{`+members+okServed[1:]+`]`+okMade+`}`)
}

// figuresTabled are right figures but for their form, with more members of a part and a pair.
func figuresTabled(form, part, pair string) Asked {
	a := figuresWith("{"+part+okServed[1:]+", "+okServedBack, "{"+pair+okMeeting[1:], okSeasons)
	a.Target += "?as=" + form
	return a
}
