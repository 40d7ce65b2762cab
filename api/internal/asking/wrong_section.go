package asking

// sectionWith is a right request but for what a row puts into it.
func sectionWith(place, rest string) Asked {
	return Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", `+place+`, `+rest+`}`)
}

const (
	okPith    = `"rings": {"pith": {"z": "130 mm"}}`
	okFrom    = `"from_condition": {"mc_pct": 14, "mc_sd_points": 1}`
	okTo      = `"to_condition": {"mc_pct": 8, "mc_sd_points": 1}`
	okChange  = okFrom + ", " + okTo
	okUpper   = `{"z": "0 mm", "from_mc_pct": 9, "to_mc_pct": 8}`
	okLower   = `{"z": "30 mm", "from_mc_pct": 13, "to_mc_pct": 8}`
	heartPith = `"rings": {"pith": {"z": "15 mm"}}`
)

func levelled(levels string) Asked { return sectionWith(okPith, `"profile": [`+levels+`]`) }

func lengthwise(members string) Asked {
	return sectionWith(okPith, okChange+`, "lengthwise": {`+members+`}`)
}

var wrongSection = []wrong{
	{"nothing given: section", Posting("/v1/section-shape", `{}`), 422, []string{"/width missing", "/thickness missing", "/rings missing"}, "width is needed"},
	{"section of no rings", Posting("/v1/section-shape", `{"width": "200 mm", "thickness": "30 mm"}`), 422, []string{"/rings missing"}, "rings is needed"},
	{"section of no wood, no pith, no moisture", Posting("/v1/section-shape", `{"width": "200 mm", "thickness": "30 mm", "rings": {}}`), 422, []string{"/wood missing", "/rings missing", "/from_condition missing", "/to_condition missing"}, "name the wood"},
	{"section as a list", Posting("/v1/section-shape", `[]`), 422, []string{" wrong_type"}, "must be an object, got a list"},
	{"unknown member of section", sectionWith(okPith, okChange+`, "height": "3 mm"`), 422, []string{"/height unknown_member"}, "there is no member"},
	{"misspelt member of rings", sectionWith(`"rings": {"angl_deg": 80}`, okChange), 422, []string{"/rings/angl_deg unknown_member"}, `did you mean "angle_deg"?`},
	{"NaN in section", sectionWith(`"rings": {"pith": {"z": NaN}}`, okChange), 400, []string{"/rings/pith/z invalid_json"}, "not readable as JSON"},
	{"width as a number", Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": 200, "thickness": "30 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/width invalid_quantity"}, "is not a length"},
	{"section thinner than paper", Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 mm", "thickness": "0.1 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/thickness out_of_range"}, "at least 0.2 mm"},
	{"section wider than a tree, in inches", Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 in", "thickness": "1 in", `+okPith+`, `+okChange+`}`), 422, []string{"/width out_of_range"}, "at most 118.1102 in"},
	{"unknown wood of a section", Posting("/v1/section-shape", `{"wood": "mapel", "width": "200 mm", "thickness": "30 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/wood not_found"}, "did you mean"},
	{"own wood without the radial figure", Posting("/v1/section-shape", `{"wood": {"tangential_shrinkage_pct": 8}, "width": "200 mm", "thickness": "30 mm", `+okPith+`, `+okChange+`}`), 422, []string{"/wood missing_data"}, "radial shrinkage"},

	// Where the pith is.
	{"pith and angle of a section", sectionWith(`"rings": {"pith": {"z": "130 mm"}, "angle_deg": 80}`, okChange), 422, []string{"/rings conflict"}, "only one of pith, readings, chord and angle_deg"},
	{"radius of a pith", sectionWith(`"rings": {"pith": {"z": "130 mm"}, "radius": "150 mm"}`, okChange), 422, []string{"/rings/radius conflict"}, "radius goes with angle_deg"},
	{"lean of a pith", sectionWith(`"rings": {"pith": {"z": "130 mm"}, "lean": "near"}`, okChange), 422, []string{"/rings/lean conflict"}, "a pith tells it"},
	{"pith side of a pith", sectionWith(`"rings": {"pith": {"z": "130 mm"}, "pith_side": "near"}`, okChange), 422, []string{"/rings/pith_side conflict"}, "goes with two readings"},
	{"chord without a side", sectionWith(`"rings": {"chord": {"from": {"y": "0 mm", "z": "5 mm"}, "to": {"y": "60 mm", "z": "5 mm"}, "height": "4 mm"}}`, okChange), 422, []string{"/rings/pith_side missing"}, "pith_side"},
	{"chord along its side", sectionWith(`"rings": {"chord": {"from": {"y": "0 mm", "z": "5 mm"}, "to": {"y": "60 mm", "z": "5 mm"}, "height": "4 mm"}, "pith_side": "near"}`, okChange), 422, []string{"/rings/pith_side conflict"}, "lies across it"},
	{"chord of one place", sectionWith(`"rings": {"chord": {"from": {"y": "9 mm", "z": "5 mm"}, "to": {"y": "9 mm", "z": "5 mm"}, "height": "4 mm"}, "pith_side": "near"}`, okChange), 422, []string{"/rings/chord/to conflict"}, "one place"},
	{"two readings at one place", sectionWith(`"rings": {"readings": [{"y": "0 mm", "angle_deg": 70}, {"y": "0 mm", "angle_deg": 50}]}`, okChange), 422, []string{"/rings/readings/1/y conflict"}, "same place"},
	{"readings towards an edge", sectionWith(`"rings": {"readings": [{"y": "0 mm", "angle_deg": 80}, {"y": "90 mm", "angle_deg": 70}], "pith_side": "near"}`, okChange), 422, []string{"/rings/pith_side conflict"}, "along a face"},
	{"radius of readings", sectionWith(`"rings": {"readings": [{"y": "0 mm", "angle_deg": 80}], "radius": "1 m"}`, okChange), 422, []string{"/rings/radius conflict"}, "goes with angle_deg"},
	{"rings steeper than upright", sectionWith(`"rings": {"angle_deg": 95, "radius": "150 mm"}`, okChange), 422, []string{"/rings/angle_deg out_of_range"}, "at most 90 degrees"},
	{"ring of no radius", sectionWith(`"rings": {"angle_deg": 80, "radius": "0 mm"}`, okChange), 422, []string{"/rings/radius out_of_range"}, "at least 1 mm"},
	{"pith out of town", sectionWith(`"rings": {"pith": {"z": "2000 m"}}`, okChange), 422, []string{"/rings/pith/z out_of_range"}, "at most 100 m"},
	{"pith to the side without its depth", sectionWith(`"rings": {"pith": {"y": "20 mm"}}`, okChange), 422, []string{"/rings/pith/z missing"}, "z is needed"},

	// Moisture.
	{"section without an end", sectionWith(okPith, okFrom), 422, []string{"/to_condition missing"}, "to_condition is needed, or profile"},
	{"section from green at 12 %", sectionWith(okPith, `"from_condition": {"green": true, "mc_pct": 12}, `+okTo), 422, []string{"/from_condition conflict"}, "only one of mc_pct, air and green"},
	{"section from nothing", sectionWith(okPith, `"from_condition": {}, `+okTo), 422, []string{"/from_condition missing"}, "say mc_pct"},
	{"section into an air without vapour", sectionWith(okPith, okFrom+`, "to_condition": {"air": {"temperature": "20 C"}}`), 422, []string{"/to_condition/air missing"}, "needs one of rh_pct"},
	{"section wetter than a sponge", sectionWith(okPith, okFrom+`, "to_condition": {"mc_pct": 260}`), 422, []string{"/to_condition/mc_pct out_of_range"}, "at most 250 %"},

	// Levels.
	{"profile and from", sectionWith(okPith, okFrom+`, "profile": [`+okUpper+`, `+okLower+`]`), 422, []string{"/profile conflict"}, "from_condition and to_condition, or profile"},
	{"one level", levelled(okUpper), 422, []string{"/profile too_few_items"}, "at least 2 entries"},
	{"levels upside down", levelled(okLower + ", " + okUpper), 422, []string{"/profile/0/z conflict"}, "face 1: z 0"},
	{"levels at one depth", levelled(okUpper + ", " + okUpper + ", " + okLower), 422, []string{"/profile/1/z conflict"}, "more than the one before"},
	{"levels that end in the middle", levelled(okUpper + `, {"z": "15 mm", "from_mc_pct": 12, "to_mc_pct": 8}`), 422, []string{"/profile/1/z conflict"}, "face 2: z the thickness"},
	{"level below the board", levelled(okUpper + `, {"z": "36 mm", "from_mc_pct": 12, "to_mc_pct": 8}`), 422, []string{"/profile/1/z conflict"}, "face 2: z the thickness"},
	{"level without its end", levelled(okUpper + `, {"z": "30 mm", "from_mc_pct": 12}`), 422, []string{"/profile/1/to_mc_pct missing"}, "to_mc_pct is needed"},
	{"levels in a boxed heart", sectionWith(heartPith, `"profile": [`+okUpper+`, `+okLower+`]`), 422, []string{"/profile not_supported"}, "holds the pith"},

	// Along the grain.
	{"lengthwise without a cause", lengthwise(`"length": "2 m"`), 422, []string{"/lengthwise missing"}, "spiral_deg for twist"},
	{"lengthwise without a length", lengthwise(`"spiral_deg": 3`), 422, []string{"/lengthwise/length missing"}, "length is needed"},
	{"spiral like a spring", lengthwise(`"length": "2 m", "spiral_deg": 60`), 422, []string{"/lengthwise/spiral_deg out_of_range"}, "at most 45 degrees"},
	{"spread of a spiral not given", lengthwise(`"length": "2 m", "near_minus_far_strain_pct": 0.1, "spiral_sd_deg": 1`), 422, []string{"/lengthwise/spiral_sd_deg conflict"}, "goes with spiral_deg"},

	// Forms.
	{"section as pdf", Posting("/v1/section-shape?as=pdf", `{}`), 400, []string{"?as not_a_choice"}, "json, svg, csv"},
	{"look-up of a section", Getting("/v1/section-shape"), 405, nil, ""},
}
