package api

import "strings"

// laminateOf is a right request but for its layers and what a row adds.
func laminateOf(layers, rest string) asked {
	return posting("/v1/laminate", `{"length": "500 mm", "width": "300 mm", "layers": [`+layers+`]`+rest+`}`)
}

const (
	okLayer   = `{"species": "maple-sugar", "thickness": "6 mm", "ring_angle_deg": 0}`
	okGlued   = `, "at_glue_up": {"mc_pct": 9, "sd_pct": 0.5}, "later": {"mc_pct": 7, "sd_pct": 0.5}`
	ownLayer  = `"wood": {"radial_shrinkage_pct": 3, "tangential_shrinkage_pct": 6}, "thickness": "6 mm", "ring_angle_deg": 0`
	twoLayers = okLayer + ", " + okLayer
)

func layerWith(members string) string {
	return `{"species": "maple-sugar", "thickness": "6 mm", "ring_angle_deg": 0, ` + members + `}`
}

var wrongLaminate = []wrong{
	{"nothing given: laminate", posting("/v1/laminate", `{}`), 422, []string{"/layers missing", "/length missing", "/width missing"}, "layers is needed"},
	{"laminate of no layers", laminateOf("", okGlued), 422, []string{"/layers out_of_range"}, "at least 1 entry"},
	{"laminate of 33 layers", laminateOf(strings.TrimSuffix(strings.Repeat(okLayer+",", 33), ","), okGlued), 422, []string{"/layers out_of_range"}, "at most 32 entries"},
	{"layers as an object", posting("/v1/laminate", `{"length": "1 m", "width": "1 m", "layers": {}}`), 422, []string{"/layers wrong_type"}, "must be a list, got an object"},
	{"layer without anything", laminateOf(`{}`, okGlued), 422, []string{"/layers/0/thickness missing", "/layers/0/ring_angle_deg missing"}, "thickness is needed"},
	{"layer of no wood", laminateOf(`{"thickness": "6 mm", "ring_angle_deg": 0}`, okGlued), 422, []string{"/layers/0/species missing"}, "give the species"},
	{"second layer of an unknown wood", laminateOf(okLayer+`, {"species": "unobtainium", "thickness": "6 mm", "ring_angle_deg": 0}`, okGlued), 422, []string{"/layers/1/species unknown"}, "no wood called"},
	{"layer with two woods", laminateOf(`{"species": "maple-sugar", `+ownLayer+`}`, okGlued), 422, []string{"/layers/0/wood contradictory"}, "not both"},
	{"misspelt grain", laminateOf(layerWith(`"grain": 90`), okGlued), 422, []string{"/layers/0/grain unknown_member"}, "there is no member"},
	{"grain twice around", laminateOf(layerWith(`"grain_deg": 700`), okGlued), 422, []string{"/layers/0/grain_deg out_of_range"}, "at most 180 degrees"},
	{"rings past upright", laminateOf(`{"species": "maple-sugar", "thickness": "6 mm", "ring_angle_deg": 91}`, okGlued), 422, []string{"/layers/0/ring_angle_deg out_of_range"}, "at most 90 degrees"},
	{"layer as thin as light", laminateOf(`{"species": "maple-sugar", "thickness": "1 um", "ring_angle_deg": 0}`, okGlued), 422, []string{"/layers/0/thickness out_of_range"}, "at least 100 um"},
	{"panel longer than a hall", posting("/v1/laminate", `{"length": "31 m", "width": "300 mm", "layers": [`+okLayer+`]`+okGlued+`}`), 422, []string{"/length out_of_range"}, "at most 30 m"},

	// Moisture.
	{"never glued", laminateOf(okLayer, `, "later": {"mc_pct": 7}`), 422, []string{"/layers/0/at_glue_up missing"}, "or once for the panel"},
	{"nothing later", laminateOf(twoLayers, `, "at_glue_up": {"mc_pct": 7}`), 422, []string{"/layers/0/later missing", "/layers/1/later missing"}, "or once for the panel"},
	{"later of nothing", laminateOf(okLayer, `, "at_glue_up": {"mc_pct": 7}, "later": {}`), 422, []string{"/later missing"}, "say mc_pct"},
	{"glued in two states", laminateOf(layerWith(`"at_glue_up": {"mc_pct": 7, "green": true}`), okGlued), 422, []string{"/layers/0/at_glue_up contradictory"}, "only one of"},
	{"later in an air without vapour", laminateOf(layerWith(`"later": {"air": {"dry_bulb": "20 C"}}`), okGlued), 422, []string{"/layers/0/later/air missing"}, "needs one of rh_pct"},
	{"later drier than bone", laminateOf(okLayer, `, "at_glue_up": {"mc_pct": 7}, "later": {"mc_pct": -1}`), 422, []string{"/later/mc_pct out_of_range"}, "at least 0 %"},

	// Stiffness.
	{"own layer without its group", laminateOf(`{`+ownLayer+`, "bending_modulus": "11000 MPa"}`, okGlued), 422, []string{"/layers/0/group missing"}, "hardwood or a softwood"},
	{"own layer without its modulus", laminateOf(`{`+ownLayer+`, "group": "softwood"}`, okGlued), 422, []string{"/layers/0/bending_modulus missing"}, "such as 11000 MPa"},
	{"no modulus in the tables", laminateOf(`{"species": "koa", "thickness": "3 mm", "ring_angle_deg": 90}`, okGlued), 422, []string{"/layers/0/bending_modulus missing"}, "no modulus of elasticity of"},
	{"stiffer than steel", laminateOf(layerWith(`"bending_modulus": "210000 MPa"`), okGlued), 422, []string{"/layers/0/bending_modulus out_of_range"}, "at most 50000 MPa"},
	{"modulus as a length", laminateOf(layerWith(`"bending_modulus": "12 mm"`), okGlued), 422, []string{"/layers/0/bending_modulus quantity"}, "is not a pressure"},
	{"group of a fruit", laminateOf(layerWith(`"group": "fruitwood"`), okGlued), 422, []string{"/layers/0/group not_offered"}, "one of hardwood, softwood"},
	{"own layer without the radial figure", laminateOf(`{"wood": {"tangential_shrinkage_pct": 6}, "thickness": "6 mm", "ring_angle_deg": 0, "group": "softwood", "bending_modulus": "9000 MPa"}`, okGlued), 422, []string{"/layers/0/wood unsupported"}, "radial shrinkage"},

	// Glue and strip.
	{"glue of one layer", laminateOf(okLayer, okGlued+`, "glue": {"thickness": "0.1 mm"}`), 422, []string{"/glue contradictory"}, "no glue line"},
	{"glue like putty", laminateOf(twoLayers, okGlued+`, "glue": {"thickness": "12 mm"}`), 422, []string{"/glue/thickness out_of_range"}, "at most 10 mm"},
	{"glue like air", laminateOf(twoLayers, okGlued+`, "glue": {"shear_modulus": "0.1 MPa"}`), 422, []string{"/glue/shear_modulus out_of_range"}, "at least 1 MPa"},
	{"strip of three", laminateOf(twoLayers+", "+okLayer, okGlued+`, "strip": {"stiffness_ratio": 1}`), 422, []string{"/strip contradictory"}, "two layers"},
	{"strip of crossed layers", laminateOf(okLayer+", "+layerWith(`"grain_deg": 90`), okGlued+`, "strip": {"stiffness_ratio": 1}`), 422, []string{"/strip contradictory"}, "grain along the length"},
	{"strip without its ratio", laminateOf(twoLayers, okGlued+`, "strip": {}`), 422, []string{"/strip/stiffness_ratio missing"}, "stiffness_ratio is needed"},

	// Forms.
	{"laminate as a table", posting("/v1/laminate", `{}`, "Accept", "text/csv"), 406, nil, "listed in offers"},
	{"look-up of a laminate", getting("/v1/laminate"), 405, nil, ""},
}
