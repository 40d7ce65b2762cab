package api

// sameShape asks about shapes in both systems of units.
var sameShape = []struct{ path, metric, inch string }{
	{"/v1/section", `{"species": "maple-sugar", "width": "203.2 mm", "thickness": "25.4 mm", "pith": {"depth": "101.6 mm", "offset": "50.8 mm"}, "from": {"air": {"dry_bulb": "20 C", "rh_pct": 60}}, "to": {"air": {"dry_bulb": "20 C", "rh_pct": 35}}, "lengthwise": {"length": "609.6 mm", "spiral_deg": 2}}`,
		`{"species": "maple-sugar", "width": "8 in", "thickness": "1 in", "pith": {"depth": "4 in", "offset": "2 in"}, "from": {"air": {"dry_bulb": "68 F", "rh_pct": 60}}, "to": {"air": {"dry_bulb": "68 F", "rh_pct": 35}}, "lengthwise": {"length": "2 ft", "spiral_deg": 2}, "report_in": "inch"}`},
	{"/v1/laminate", `{"length": "508 mm", "width": "304.8 mm", "layers": [{"species": "mahogany-true", "thickness": "38.1 mm", "ring_angle_deg": 90}, {"species": "maple-sugar", "thickness": "6.35 mm", "ring_angle_deg": 10, "bending_modulus": "13789.514586336 MPa"}], "at_glue_up": {"mc_pct": 9}, "later": {"air": {"dry_bulb": "20 C", "rh_pct": 30}}, "glue": {"thickness": "0.127 mm"}}`,
		`{"length": "20 in", "width": "1 ft", "layers": [{"species": "mahogany-true", "thickness": "1 1/2 in", "ring_angle_deg": 90}, {"species": "maple-sugar", "thickness": "1/4 in", "ring_angle_deg": 10, "bending_modulus": "2000000 psi"}], "at_glue_up": {"mc_pct": 9}, "later": {"air": {"dry_bulb": "68 F", "rh_pct": 30}}, "glue": {"thickness": "0.005 in"}, "report_in": "inch"}`},
}
