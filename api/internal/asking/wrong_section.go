package asking

// sectionWith is a right request but for what a row puts into it.
func sectionWith(place, rest string) Asked {
	return Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", `+place+`, `+rest+`}`)
}

const (
	okPith    = `"pith": {"depth": "100 mm"}`
	okFrom    = `"from_condition": {"mc_pct": 14, "mc_sd_points": 1}`
	okTo      = `"to_condition": {"mc_pct": 8, "mc_sd_points": 1}`
	okChange  = okFrom + ", " + okTo
	okUpper   = `{"depth": 0, "from_mc_pct": 9, "to_mc_pct": 8}`
	okLower   = `{"depth": 1, "from_mc_pct": 13, "to_mc_pct": 8}`
	okAlong   = `"length": "2 m", "spiral_deg": 3`
	heartPith = `"pith": {"depth": "-15 mm"}`
)

func levelled(levels string) Asked { return sectionWith(okPith, `"levels": [`+levels+`]`) }

func lengthwise(members string) Asked {
	return sectionWith(okPith, okChange+`, "lengthwise": {`+members+`}`)
}

var wrongSection = []wrong{
	{"nothing given: section", Posting("/v1/section-shape", `{}`), 422, []string{"/width missing", "/thickness missing"}, "width is needed"},
	{"section of no wood, no pith, no moisture", Posting("/v1/section-shape", `{"width": "200 mm", "thickness": "30 mm"}`), 422, []string{"/wood missing", "/pith missing", "/from_condition missing", "/to_condition missing"}, "name the wood"},
	{"section as a list", Posting("/v1/section-shape", `[]`), 422, []string{" wrong_type"}, "must be an object, got a list"},
	{"unknown member of section", sectionWith(okPith, okChange+`, "height": "3 mm"`), 422, []string{"/height unknown_member"}, "there is no member"},
	{"misspelt member of pith", sectionWith(`"pith": {"dept": "100 mm"}`, okChange), 422, []string{"/pith/dept unknown_member", "/pith/depth missing"}, `did you mean "depth"?`},
	{"NaN in section", sectionWith(`"pith": {"depth": NaN}`, okChange), 400, []string{"/pith/depth invalid_json"}, "not readable as JSON"},
	{"width as a number", Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": 200, "thickness": "30 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/width invalid_quantity"}, "is not a length"},
	{"section thinner than paper", Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 mm", "thickness": "0.1 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/thickness out_of_range"}, "at least 0.2 mm"},
	{"section wider than a tree, in inches", Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 in", "thickness": "1 in", `+okPith+`, `+okChange+`}`), 422, []string{"/width out_of_range"}, "at most 118.1102 in"},
	{"unknown wood of a section", Posting("/v1/section-shape", `{"wood": "mapel", "width": "200 mm", "thickness": "30 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/wood not_found"}, "did you mean"},
	{"own wood without the radial figure", Posting("/v1/section-shape", `{"wood": {"tangential_shrinkage_pct": 8}, "width": "200 mm", "thickness": "30 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/wood missing_data"}, "radial shrinkage"},

	// Where the pith is.
	{"pith and rings", sectionWith(okPith+`, "rings": {"ring_angle_deg": 80, "ring_radius": "150 mm"}`, okChange), 422, []string{"/rings conflict"}, "pith or rings"},
	{"rings without a radius", sectionWith(`"rings": {"ring_angle_deg": 80}`, okChange), 422, []string{"/rings/ring_radius missing"}, "ring_radius is needed"},
	{"rings steeper than upright", sectionWith(`"rings": {"ring_angle_deg": 95, "ring_radius": "150 mm"}`, okChange), 422, []string{"/rings/ring_angle_deg out_of_range"}, "at most 90 degrees"},
	{"ring of no radius", sectionWith(`"rings": {"ring_angle_deg": 80, "ring_radius": "0 mm"}`, okChange), 422, []string{"/rings/ring_radius out_of_range"}, "at least 1 mm"},
	{"pith out of town", sectionWith(`"pith": {"depth": "2000 m"}`, okChange), 422, []string{"/pith/depth out_of_range"}, "at most 100 m"},
	{"pith to the side without its depth", sectionWith(`"pith": {"offset": "20 mm"}`, okChange), 422, []string{"/pith/depth missing"}, "depth is needed"},

	// Moisture.
	{"section without an end", sectionWith(okPith, okFrom), 422, []string{"/to_condition missing"}, "to_condition is needed, or levels"},
	{"section from green at 12 %", sectionWith(okPith, `"from_condition": {"green": true, "mc_pct": 12}, `+okTo), 422, []string{"/from_condition conflict"}, "only one of mc_pct, air and green"},
	{"section from nothing", sectionWith(okPith, `"from_condition": {}, `+okTo), 422, []string{"/from_condition missing"}, "say mc_pct"},
	{"section into an air without vapour", sectionWith(okPith, okFrom+`, "to_condition": {"air": {"temperature": "20 C"}}`), 422, []string{"/to_condition/air missing"}, "needs one of rh_pct"},
	{"section wetter than a sponge", sectionWith(okPith, okFrom+`, "to_condition": {"mc_pct": 260}`), 422, []string{"/to_condition/mc_pct out_of_range"}, "at most 250 %"},

	// Levels.
	{"levels and from", sectionWith(okPith, okFrom+`, "levels": [`+okUpper+`, `+okLower+`]`), 422, []string{"/levels conflict"}, "from and to, or levels"},
	{"one level", levelled(okUpper), 422, []string{"/levels too_few_items"}, "at least 2 entries"},
	{"levels upside down", levelled(okLower + ", " + okUpper), 422, []string{"/levels/0/depth conflict"}, "upper face: depth 0"},
	{"levels at one depth", levelled(okUpper + ", " + okUpper + ", " + okLower), 422, []string{"/levels/1/depth conflict"}, "more than the one before"},
	{"levels that end in the middle", levelled(okUpper + `, {"depth": 0.5, "from_mc_pct": 12, "to_mc_pct": 8}`), 422, []string{"/levels/1/depth conflict"}, "lower face: depth 1"},
	{"level below the board", levelled(okUpper + `, {"depth": 1.2, "from_mc_pct": 12, "to_mc_pct": 8}`), 422, []string{"/levels/1/depth out_of_range"}, "at most 1"},
	{"level without its end", levelled(okUpper + `, {"depth": 1, "from_mc_pct": 12}`), 422, []string{"/levels/1/to_mc_pct missing"}, "to_mc_pct is needed"},
	{"levels in a boxed heart", sectionWith(heartPith, `"levels": [`+okUpper+`, `+okLower+`]`), 422, []string{"/levels not_supported"}, "holds the pith"},

	// Along the grain.
	{"lengthwise without a cause", lengthwise(`"length": "2 m"`), 422, []string{"/lengthwise missing"}, "spiral_deg for twist"},
	{"lengthwise without a length", lengthwise(`"spiral_deg": 3`), 422, []string{"/lengthwise/length missing"}, "length is needed"},
	{"spiral like a spring", lengthwise(`"length": "2 m", "spiral_deg": 60`), 422, []string{"/lengthwise/spiral_deg out_of_range"}, "at most 45 degrees"},
	{"spread of a spiral not given", lengthwise(`"length": "2 m", "near_minus_far_strain_pct": 0.1, "spiral_sd_deg": 1`), 422, []string{"/lengthwise/spiral_sd_deg conflict"}, "goes with spiral_deg"},
	{"twist about the pith itself", sectionWith(heartPith, okChange+`, "lengthwise": {`+okAlong+`}`), 422, []string{"/pith out_of_range"}, "1 to 1e+06 mm"},

	// Forms.
	{"section as pdf", Posting("/v1/section-shape?as=pdf", `{}`), 400, []string{"?as not_a_choice"}, "json, svg, csv"},
	{"look-up of a section", Getting("/v1/section-shape"), 405, nil, ""},
}
