package api

// The same parts in the same rooms in both systems.
var sameInService = []struct{ path, metric, inch string }{
	{"/v1/in-service", `{"room": {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa", "at_least_rh_pct": 35}, "made_at": {"air": {"dry_bulb": "20 C", "rh_pct": 45}},
		"parts": [{"name": "top", "species": "spruce-sitka", "thickness": "3.175 mm", "width": "203.2 mm", "length": "508 mm", "ring_angle_deg": 88, "finish": {"outside": "lacquer", "inside": "bare"}},
		{"name": "neck", "species": "mahogany-true", "thickness": "25.4 mm", "made_at": {"mc_pct": 9, "sd_pct": 0.5}}]}`,
		`{"room": {"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa", "at_least_rh_pct": 35}, "made_at": {"air": {"dry_bulb": "68 F", "rh_pct": 45}},
		"parts": [{"name": "top", "species": "spruce-sitka", "thickness": "1/8 in", "width": "8 in", "length": "20 in", "ring_angle_deg": 88, "finish": {"outside": "lacquer", "inside": "bare"}},
		{"name": "neck", "species": "mahogany-true", "thickness": "1 in", "made_at": {"mc_pct": 9, "sd_pct": 0.5}}], "report_in": "inch"}`},
	{"/v1/movement-figures", `{"driest": {"air": {"dry_bulb": "20 C", "rh_pct": 30}}, "wettest": {"air": {"dry_bulb": "25 C", "rh_pct": 70}}, "made_at": {"mc_pct": 8, "sd_pct": 0.5},
		"parts": [{"name": "board", "species": "maple-sugar", "thickness": "19.05 mm", "width": "304.8 mm", "ring_angle_deg": 10}, {"name": "inlay", "species": "walnut-black", "thickness": "3.175 mm", "width": "25.4 mm", "ring_angle_deg": 45}],
		"pairs": [{"name": "inlay", "outer": {"part": "board", "dimension": "width", "over": "25.4 mm"}, "inner": {"part": "inlay", "dimension": "width"}, "least": "0 mm", "most": "1.27 mm", "season": "apart"}]}`,
		`{"driest": {"air": {"dry_bulb": "68 F", "rh_pct": 30}}, "wettest": {"air": {"dry_bulb": "77 F", "rh_pct": 70}}, "made_at": {"mc_pct": 8, "sd_pct": 0.5},
		"parts": [{"name": "board", "species": "maple-sugar", "thickness": "3/4 in", "width": "12 in", "ring_angle_deg": 10}, {"name": "inlay", "species": "walnut-black", "thickness": "1/8 in", "width": "1 in", "ring_angle_deg": 45}],
		"pairs": [{"name": "inlay", "outer": {"part": "board", "dimension": "width", "over": "1 in"}, "inner": {"part": "inlay", "dimension": "width"}, "least": "0 in", "most": "0.05 in", "season": "apart"}], "report_in": "inch"}`},
}
