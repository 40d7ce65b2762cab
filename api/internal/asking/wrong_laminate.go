package asking

import "strings"

// LaminateOf is a right request but for its layers and what a row adds.
func LaminateOf(layers, rest string) Asked {
	return Posting("/v1/laminate", `{"length": "500 mm", "width": "300 mm", "layers": [`+layers+`]`+rest+`}`)
}

// Parts of a right laminate.
const (
	OkLayer   = `{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 0}}`
	OkGlued   = `, "glue_up_condition": {"mc_pct": 9, "mc_sd_points": 0.5}, "later_condition": {"mc_pct": 7, "mc_sd_points": 0.5}`
	twoLayers = OkLayer + ", " + OkLayer
)

func ownLayerOf(more string) string {
	return `"wood": {"radial_shrinkage_pct": 3, "tangential_shrinkage_pct": 6` + more + `}, "thickness": "6 mm", "rings": {"angle_deg": 0}`
}

// LayerWith is a right layer but for what a row puts into it.
func LayerWith(members string) string {
	return `{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 0}, ` + members + `}`
}

var wrongLaminate = []wrong{
	{"nothing given: laminate", Posting("/v1/laminate", `{}`), 422, []string{"/layers missing", "/length missing", "/width missing"}, "layers is needed"},
	{"laminate of no layers", LaminateOf("", OkGlued), 422, []string{"/layers too_few_items"}, "at least 1 entry"},
	{"laminate of 33 layers", LaminateOf(strings.TrimSuffix(strings.Repeat(OkLayer+",", 33), ","), OkGlued), 422, []string{"/layers too_many_items"}, "at most 32 entries"},
	{"layers as an object", Posting("/v1/laminate", `{"length": "1 m", "width": "1 m", "layers": {}}`), 422, []string{"/layers wrong_type"}, "must be a list, got an object"},
	{"layer without anything", LaminateOf(`{}`, OkGlued), 422, []string{"/layers/0/thickness missing", "/layers/0/rings missing"}, "thickness is needed"},
	{"layer of no wood", LaminateOf(`{"thickness": "6 mm", "rings": {"angle_deg": 0}}`, OkGlued), 422, []string{"/layers/0/wood missing"}, "name the wood"},
	{"second layer of an unknown wood", LaminateOf(OkLayer+`, {"wood": "unobtainium", "thickness": "6 mm", "rings": {"angle_deg": 0}}`, OkGlued), 422, []string{"/layers/1/wood not_found"}, "no wood called"},
	{"layer with two woods", LaminateOf(WithWood(OkLayer, `"any": "maple"`), OkGlued), 422, []string{"/layers/0/wood/any conflict"}, "not both"},
	{"misspelt grain", LaminateOf(LayerWith(`"grain": 90`), OkGlued), 422, []string{"/layers/0/grain unknown_member"}, "there is no member"},
	{"grain twice around", LaminateOf(LayerWith(`"grain_angle_deg": 700`), OkGlued), 422, []string{"/layers/0/grain_angle_deg out_of_range"}, "at most 180 degrees"},
	{"rings past upright", LaminateOf(`{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 91}}`, OkGlued), 422, []string{"/layers/0/rings/angle_deg out_of_range"}, "at most 90 degrees"},
	{"layer as thin as light", LaminateOf(`{"wood": "maple-sugar", "thickness": "1 um", "rings": {"angle_deg": 0}}`, OkGlued), 422, []string{"/layers/0/thickness out_of_range"}, "at least 100 um"},
	{"panel longer than a hall", Posting("/v1/laminate", `{"length": "31 m", "width": "300 mm", "layers": [`+OkLayer+`]`+OkGlued+`}`), 422, []string{"/length out_of_range"}, "at most 30 m"},

	// Moisture.
	{"never glued", LaminateOf(OkLayer, `, "later_condition": {"mc_pct": 7}`), 422, []string{"/layers/0/glue_up_condition missing"}, "or once for the panel"},
	{"nothing later", LaminateOf(twoLayers, `, "glue_up_condition": {"mc_pct": 7}`), 422, []string{"/layers/0/later_condition missing", "/layers/1/later_condition missing"}, "or once for the panel"},
	{"later of nothing", LaminateOf(OkLayer, `, "glue_up_condition": {"mc_pct": 7}, "later_condition": {}`), 422, []string{"/later_condition missing"}, "say mc_pct"},
	{"glued in two states", LaminateOf(LayerWith(`"glue_up_condition": {"mc_pct": 7, "green": true}`), OkGlued), 422, []string{"/layers/0/glue_up_condition conflict"}, "only one of"},
	{"later in an air without vapour", LaminateOf(LayerWith(`"later_condition": {"air": {"temperature": "20 C"}}`), OkGlued), 422, []string{"/layers/0/later_condition/air missing"}, "needs one of rh_pct"},
	{"later drier than bone", LaminateOf(OkLayer, `, "glue_up_condition": {"mc_pct": 7}, "later_condition": {"mc_pct": -1}`), 422, []string{"/later_condition/mc_pct out_of_range"}, "at least 0 %"},

	// Stiffness.
	{"own layer without its group", LaminateOf(`{`+ownLayerOf(`, "modulus_of_elasticity": "11000 MPa"`)+`}`, OkGlued), 422, []string{"/layers/0/wood/group missing"}, "hardwood or a softwood"},
	{"own layer without its modulus", LaminateOf(`{`+ownLayerOf(`, "group": "softwood"`)+`}`, OkGlued), 422, []string{"/layers/0/wood/modulus_of_elasticity missing"}, "such as 11000 MPa"},
	{"stiffer than steel", LaminateOf(WithWood(OkLayer, `"modulus_of_elasticity": "210000 MPa"`), OkGlued), 422, []string{"/layers/0/wood/modulus_of_elasticity out_of_range"}, "at most 50000 MPa"},
	{"modulus as a length", LaminateOf(WithWood(OkLayer, `"modulus_of_elasticity": "12 mm"`), OkGlued), 422, []string{"/layers/0/wood/modulus_of_elasticity invalid_quantity"}, "is not a stiffness"},
	{"group of a fruit", LaminateOf(WithWood(OkLayer, `"group": "fruitwood"`), OkGlued), 422, []string{"/layers/0/wood/group not_a_choice"}, "one of hardwood, softwood"},
	{"own layer without the radial figure", LaminateOf(`{"wood": {"tangential_shrinkage_pct": 6, "group": "softwood", "modulus_of_elasticity": "9000 MPa"}, "thickness": "6 mm", "rings": {"angle_deg": 0}}`, OkGlued), 422, []string{"/layers/0/wood missing_data"}, "radial shrinkage"},

	// Glue and strip.
	{"glue of one layer", LaminateOf(OkLayer, OkGlued+`, "glue": {"thickness": "0.1 mm"}`), 422, []string{"/glue conflict"}, "no glue line"},
	{"glue like putty", LaminateOf(twoLayers, OkGlued+`, "glue": {"thickness": "12 mm"}`), 422, []string{"/glue/thickness out_of_range"}, "at most 10 mm"},
	{"glue like air", LaminateOf(twoLayers, OkGlued+`, "glue": {"shear_modulus": "0.1 MPa"}`), 422, []string{"/glue/shear_modulus out_of_range"}, "at least 1 MPa"},
	{"strip of three", LaminateOf(twoLayers+", "+OkLayer, OkGlued+`, "strip": {"stiffness_ratio": 1}`), 422, []string{"/strip conflict"}, "two layers"},
	{"strip of crossed layers", LaminateOf(OkLayer+", "+LayerWith(`"grain_angle_deg": 90`), OkGlued+`, "strip": {"stiffness_ratio": 1}`), 422, []string{"/strip conflict"}, "grain along the length"},
	{"strip without its ratio", LaminateOf(twoLayers, OkGlued+`, "strip": {}`), 422, []string{"/strip/stiffness_ratio missing"}, "stiffness_ratio is needed"},

	// Forms.
	{"laminate as a table", Posting("/v1/laminate", `{}`, "Accept", "text/csv"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
	{"look-up of a laminate", Getting("/v1/laminate"), 405, nil, ""},
}
