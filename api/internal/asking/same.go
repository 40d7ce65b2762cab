package asking

import "slices"

// Same is one question in both systems of units.
type Same struct{ Path, Metric, Inch string }

// The same piece and the same weighings in both systems; a record of air and a
// heated shop too.
var sameCourse = []Same{
	{"/v1/seasoning", `{"billet": {"wood": {"species": "maple-sugar", "drying_factor": {"value": 0.25, "sd_ratio": 1.5}}, "thickness": "50.8 mm", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 60, "mc_sd_points": 6}, "rings": {"angle_deg": 70}}, "horizon_days": 700,
		"stays": [{"station": "madison-wi", "until": "2025-05-01", "exposure": "shed"}, {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa"}], "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}}`,
		`{"billet": {"wood": {"species": "maple-sugar", "drying_factor": {"value": 0.25, "sd_ratio": 1.5}}, "thickness": "2 in", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 60, "mc_sd_points": 6}, "rings": {"angle_deg": 70}}, "horizon_days": 700,
		"stays": [{"station": "madison-wi", "until": "2025-05-01", "exposure": "shed"}, {"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa"}], "target_condition": {"air": {"temperature": "68 F", "rh_pct": 45}}, "report_in": "inch"}`},
	{"/v1/seasoning", `{"billet": {"wood": {"specific_gravity": 0.45, "radial_shrinkage_pct": 4}, "thickness": "25.4 mm", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 40}}, "horizon_days": 120, "target_condition": {"mc_pct": 14},
		"stays": [{"log": [{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70}, {"time": "2024-05-01T12:00:00Z", "temperature": "15 C", "rh_pct": 65}, {"time": "2024-08-01", "temperature": "20 C", "rh_pct": 60}]}]}`,
		`{"billet": {"wood": {"specific_gravity": 0.45, "radial_shrinkage_pct": 4}, "thickness": "1 in", "stacked_on": "2024-04-01", "start_condition": {"mc_pct": 40}}, "horizon_days": 120, "target_condition": {"mc_pct": 14},
		"stays": [{"log": [{"time": "2024-04-01", "temperature": "50 F", "rh_pct": 70}, {"time": "2024-05-01T12:00:00Z", "temperature": "59 F", "rh_pct": 65}, {"time": "2024-08-01", "temperature": "68 F", "rh_pct": 60}]}], "report_in": "inch"}`},
	{"/v1/readiness", `{"billet": {"wood": "walnut-black", "length": "609.6 mm", "width": "228.6 mm", "thickness": "50.8 mm", "rings": {"angle_deg": 60}, "stacked_on": "2024-04-20", "start_condition": {"mc_pct": 80, "mc_sd_points": 12}}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2026-03-14", "horizon_days": 1500,
		"stays": [{"station": "columbus-oh", "until": "2025-10-15", "exposure": "shed"}, {"air": {"temperature": "20 C", "rh_pct": 45}}],
		"readings": [{"kind": "weight", "date": "2025-06-01", "mass": "4.6266421740 kg"}, {"kind": "weight", "date": "2025-10-15", "mass": "4.5359237000 kg"}, {"kind": "weight", "date": "2026-03-14", "mass": "4.3544867520 kg"}, {"kind": "weight", "of": "sample_board", "date": "2025-10-15", "mass": "0.45359237 kg"}, {"kind": "pin_meter", "date": "2026-03-14", "reading_mc_pct": 11, "wood_temperature": "20 C", "depth": "12.7 mm", "thickness": "50.8 mm"}], "scale_division": "4.5359237 g"}`,
		`{"billet": {"wood": "walnut-black", "length": "2 ft", "width": "9 in", "thickness": "2 in", "rings": {"angle_deg": 60}, "stacked_on": "2024-04-20", "start_condition": {"mc_pct": 80, "mc_sd_points": 12}}, "target_condition": {"air": {"temperature": "68 F", "rh_pct": 45}}, "as_of": "2026-03-14", "horizon_days": 1500,
		"stays": [{"station": "columbus-oh", "until": "2025-10-15", "exposure": "shed"}, {"air": {"temperature": "68 F", "rh_pct": 45}}],
		"readings": [{"kind": "weight", "date": "2025-06-01", "mass": "10.2 lb"}, {"kind": "weight", "date": "2025-10-15", "mass": "10 lb"}, {"kind": "weight", "date": "2026-03-14", "mass": "9.6 lb"}, {"kind": "weight", "of": "sample_board", "date": "2025-10-15", "mass": "1 lb"}, {"kind": "pin_meter", "date": "2026-03-14", "reading_mc_pct": 11, "wood_temperature": "68 F", "depth": "1/2 in", "thickness": "2 in"}], "scale_division": "0.01 lb", "report_in": "inch"}`},
	{"/v1/resaw-timing", `{"billet": {"wood": "maple-sugar", "length": "609.6 mm", "width": "228.6 mm", "thickness": "57.15 mm", "trim": {"start": "25.4 mm", "end": "25.4 mm"}, "facing_face_1": "1.27 mm", "facing_face_2": "1.27 mm", "rings": {"angle_deg": 80}}, "moisture_profile": {"mean_mc_pct": 16, "shell_mc_pct": 14, "core_mc_pct": 17}, "as_of": "2026-03-01", "horizon_days": 900,
		"stays": [{"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa"}], "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "saw": {"kerf": "1.27 mm"},
		"part": {"length": "533.4 mm", "width": "203.2 mm", "sawn_thickness": "5.08 mm"}, "thick_and_thin": "1.27 mm"}`,
		`{"billet": {"wood": "maple-sugar", "length": "2 ft", "width": "9 in", "thickness": "2 1/4 in", "trim": {"start": "1 in", "end": "1 in"}, "facing_face_1": "0.05 in", "facing_face_2": "0.05 in", "rings": {"angle_deg": 80}}, "moisture_profile": {"mean_mc_pct": 16, "shell_mc_pct": 14, "core_mc_pct": 17}, "as_of": "2026-03-01", "horizon_days": 900,
		"stays": [{"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa"}], "target_condition": {"air": {"temperature": "68 F", "rh_pct": 45}}, "saw": {"kerf": "0.05 in"},
		"part": {"length": "21 in", "width": "8 in", "sawn_thickness": "0.2 in"}, "thick_and_thin": "0.05 in", "report_in": "inch"}`},
}

// The same parts in the same rooms in both systems.
var sameInService = []Same{
	{"/v1/year-in-service", `{"room": {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa"}, "build_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"laminates": [{"length": "457.2 mm", "width": "330.2 mm", "layers": [{"wood": "maple-sugar", "thickness": "6.35 mm", "rings": {"angle_deg": 5}}, {"wood": "mahogany-true", "thickness": "38.1 mm", "rings": {"angle_deg": 70}}], "finish": "lacquer", "glue": {"thickness": "0.127 mm", "shear_modulus": "344.7378646584 MPa"}}]}`,
		`{"room": {"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa"}, "build_condition": {"air": {"temperature": "68 F", "rh_pct": 45}},
		"laminates": [{"length": "18 in", "width": "13 in", "layers": [{"wood": "maple-sugar", "thickness": "1/4 in", "rings": {"angle_deg": 5}}, {"wood": "mahogany-true", "thickness": "1 1/2 in", "rings": {"angle_deg": 70}}], "finish": "lacquer", "glue": {"thickness": "0.005 in", "shear_modulus": "50000 psi"}}], "report_in": "inch"}`},
	{"/v1/year-in-service", `{"room": {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa", "min_rh_pct": 35}, "build_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"parts": [{"id": "top", "wood": "spruce-sitka", "thickness": "3.175 mm", "width": "203.2 mm", "length": "508 mm", "rings": {"angle_deg": 88}, "finish": {"outside": "lacquer", "inside": "bare"}},
		{"name": "neck", "wood": "mahogany-true", "thickness": "25.4 mm", "build_condition": {"mc_pct": 9, "mc_sd_points": 0.5}}]}`,
		`{"room": {"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa", "min_rh_pct": 35}, "build_condition": {"air": {"temperature": "68 F", "rh_pct": 45}},
		"parts": [{"id": "top", "wood": "spruce-sitka", "thickness": "1/8 in", "width": "8 in", "length": "20 in", "rings": {"angle_deg": 88}, "finish": {"outside": "lacquer", "inside": "bare"}},
		{"name": "neck", "wood": "mahogany-true", "thickness": "1 in", "build_condition": {"mc_pct": 9, "mc_sd_points": 0.5}}], "report_in": "inch"}`},
	{"/v1/assembly-movement", `{"driest_condition": {"air": {"temperature": "20 C", "rh_pct": 30}}, "wettest_condition": {"air": {"temperature": "25 C", "rh_pct": 70}}, "build_condition": {"mc_pct": 8, "mc_sd_points": 0.5},
		"parts": [{"id": "board", "wood": "maple-sugar", "thickness": "19.05 mm", "width": "304.8 mm", "rings": {"angle_deg": 10}}, {"id": "inlay", "wood": "walnut-black", "thickness": "3.175 mm", "width": "25.4 mm", "rings": {"angle_deg": 45}}],
		"pairs": [{"id": "inlay", "outer": {"part": "board", "dimension": "width", "size": "25.4 mm"}, "inner": {"part": "inlay", "dimension": "width"}, "min_clearance": "0 mm", "max_clearance": "1.27 mm", "extremes": "apart"}],
		"glued_joints": [{"first": {"part": "board", "dimension": "width", "size": "25.4 mm"}, "second": {"part": "inlay", "dimension": "width"}}]}`,
		`{"driest_condition": {"air": {"temperature": "68 F", "rh_pct": 30}}, "wettest_condition": {"air": {"temperature": "77 F", "rh_pct": 70}}, "build_condition": {"mc_pct": 8, "mc_sd_points": 0.5},
		"parts": [{"id": "board", "wood": "maple-sugar", "thickness": "3/4 in", "width": "12 in", "rings": {"angle_deg": 10}}, {"id": "inlay", "wood": "walnut-black", "thickness": "1/8 in", "width": "1 in", "rings": {"angle_deg": 45}}],
		"pairs": [{"id": "inlay", "outer": {"part": "board", "dimension": "width", "size": "1 in"}, "inner": {"part": "inlay", "dimension": "width"}, "min_clearance": "0 in", "max_clearance": "0.05 in", "extremes": "apart"}],
		"glued_joints": [{"first": {"part": "board", "dimension": "width", "size": "1 in"}, "second": {"part": "inlay", "dimension": "width"}}], "report_in": "inch"}`},
}

// sameShape asks about shapes in both systems of units.
var sameShape = []Same{
	{"/v1/section-shape", `{"wood": "maple-sugar", "width": "203.2 mm", "thickness": "25.4 mm", "rings": {"pith": {"y": "152.4 mm", "z": "127 mm"}}, "from_condition": {"air": {"temperature": "20 C", "rh_pct": 60}}, "to_condition": {"air": {"temperature": "20 C", "rh_pct": 35}}, "lengthwise": {"length": "609.6 mm", "spiral_deg": 2}}`,
		`{"wood": "maple-sugar", "width": "8 in", "thickness": "1 in", "rings": {"pith": {"y": "6 in", "z": "5 in"}}, "from_condition": {"air": {"temperature": "68 F", "rh_pct": 60}}, "to_condition": {"air": {"temperature": "68 F", "rh_pct": 35}}, "lengthwise": {"length": "2 ft", "spiral_deg": 2}, "report_in": "inch"}`},
	{"/v1/laminate", `{"length": "508 mm", "width": "304.8 mm", "layers": [{"wood": {"species": "maple-sugar", "modulus_of_elasticity": "13789.514586336 MPa"}, "thickness": "6.35 mm", "rings": {"angle_deg": 10}}, {"wood": "mahogany-true", "thickness": "38.1 mm", "rings": {"angle_deg": 90}}], "glue_up_condition": {"mc_pct": 9}, "later_condition": {"air": {"temperature": "20 C", "rh_pct": 30}}, "glue": {"thickness": "0.127 mm"}}`,
		`{"length": "20 in", "width": "1 ft", "layers": [{"wood": {"species": "maple-sugar", "modulus_of_elasticity": "2000000 psi"}, "thickness": "1/4 in", "rings": {"angle_deg": 10}}, {"wood": "mahogany-true", "thickness": "1 1/2 in", "rings": {"angle_deg": 90}}], "glue_up_condition": {"mc_pct": 9}, "later_condition": {"air": {"temperature": "68 F", "rh_pct": 30}}, "glue": {"thickness": "0.005 in"}, "report_in": "inch"}`},
}

// Each pair is one question asked in both systems: quantities that are equal by
// definition (1 in = 25.4 mm, 1 lb = 0.45359237 kg, 68 F = 20 C).
var sameQuestion = []Same{
	{"/v1/air", `{"air": {"temperature": "20 C", "wet_bulb": "15 C", "elevation": "304.8 m"}, "heated_to": "30 C"}`,
		`{"air": {"temperature": "68 F", "wet_bulb": "59 F", "elevation": "1000 ft"}, "heated_to": "86 F", "report_in": "inch"}`},
	{"/v1/emc", `{"wood": "maple-sugar", "air": {"temperature": "20 C", "dew_point": "10 C", "pressure": "1000 hPa"}}`,
		`{"wood": "maple-sugar", "air": {"temperature": {"value": 68, "unit": "F"}, "dew_point": "283.15 K", "pressure": "100000 Pa"}, "report_in": "inch"}`},
	{"/v1/emc", `{"temperature": "25 C", "wanted_emc_pct": 8}`, `{"temperature": "77 F", "wanted_emc_pct": 8, "report_in": "inch"}`},
	{"/v1/moisture", `{"wood": "maple-sugar",
		"readings": [{"kind": "ovendry_sample", "wet_mass": "453.59237 g", "ovendry_mass": "400 g", "scale_division": "0.1 g"}, {"kind": "size_and_weight", "length": "609.6 mm", "width": "228.6 mm", "thickness": "50.8 mm", "mass": "4.8 kg"}, {"kind": "pin_meter", "reading_mc_pct": 12, "wood_temperature": "15 C", "depth": "12.7 mm", "thickness": "50.8 mm"}]}`,
		`{"wood": "maple-sugar",
		"readings": [{"kind": "ovendry_sample", "wet_mass": "1 lb", "ovendry_mass": "0.4 kg", "scale_division": "100e-6 kg"}, {"kind": "size_and_weight", "length": "2 ft", "width": "9 in", "thickness": "2 in", "mass": "4800 g"}, {"kind": "pin_meter", "reading_mc_pct": 12, "wood_temperature": "59 F", "depth": "1/2 in", "thickness": "2 in"}]}`},
	{"/v1/movement", `{"wood": "walnut-black", "size": "241.3 mm", "size_ring_angle_deg": 20, "from_condition": {"mc_pct": 12, "mc_sd_points": 1}, "to_condition": {"air": {"temperature": "20 C", "rh_pct": 35}}}`,
		`{"wood": "walnut-black", "size": "9-1/2 in", "size_ring_angle_deg": 20, "from_condition": {"mc_pct": 12, "mc_sd_points": 1}, "to_condition": {"air": {"temperature": "68 F", "rh_pct": 35}}, "report_in": "inch"}`},
	{"/v1/bookmatch", `{"billet": {"width": "203.2 mm", "rings": {"pith": {"y": "-50.8 mm", "z": "76.2 mm"}, "angle_sd_deg": 2, "ring_width": "2.54 mm"}, "grain": {"dip_one_in": 60, "runout_one_in": 30}}, "stack": {"leaves": 4, "sawn_thickness": "4.7625 mm", "z_from": "1.5875 mm"}, "seam_edge": "3.175 mm", "spare": {"width": "6.35 mm", "length": "12.7 mm"}, "arch_height": "2.54 mm", "saw": {"cleanup_show": "0.508 mm", "kerf": "1.27 mm"}}`,
		`{"billet": {"width": "8 in", "rings": {"pith": {"y": "-2 in", "z": "3 in"}, "angle_sd_deg": 2, "ring_width": "0.1 in"}, "grain": {"dip_one_in": 60, "runout_one_in": 30}}, "stack": {"leaves": 4, "sawn_thickness": "3/16 in", "z_from": "1/16 in"}, "seam_edge": "1/8 in", "spare": {"width": "1/4 in", "length": "1/2 in"}, "arch_height": "0.1 in", "report_in": "inch", "saw": {"cleanup_show": "0.02 in", "kerf": "0.05 in"}}`},
	{"/v1/log-plan", `{"log": {"wood": "walnut-black", "length": "2438.4 mm", "start_diameter": "457.2 mm", "end_diameter": "406.4 mm", "bark_thickness": "12.7 mm", "pith": {"y": "12.7 mm", "z": "-19.05 mm"}, "sweep": "25.4 mm"}, "pattern": "quartered", "wanted": {"length": "762 mm", "end_trim": "25.4 mm", "thickness": "50.8 mm", "min_width": "101.6 mm", "final_condition": {"mc_pct": 9}}, "saw": {"kerf": "3.175 mm"}, "pith_out": true, "pith_clearance": "12.7 mm"}`,
		`{"log": {"wood": "walnut-black", "length": "8 ft", "start_diameter": "18 in", "end_diameter": "16 in", "bark_thickness": "1/2 in", "pith": {"y": "1/2 in", "z": "-3/4 in"}, "sweep": "1 in"}, "pattern": "quartered", "wanted": {"length": "30 in", "end_trim": "1 in", "thickness": "2 in", "min_width": "4 in", "final_condition": {"mc_pct": 9}}, "saw": {"kerf": "1/8 in"}, "pith_out": true, "pith_clearance": "1/2 in", "report_in": "inch"}`},
	{"/v1/leaf-yield", `{"billet": {"length": "609.6 mm", "width": "260.35 mm", "thickness": "69.85 mm", "far_thickness": "25.4 mm", "condition": {"mc_pct": 14}, "wood": "walnut-black", "trim": {"start": "25.4 mm", "end": "25.4 mm"}}, "saw": {"kerf": "1.5875 mm"}, "part": {"length": "533.4 mm", "width": "200.025 mm", "final_thickness": "2.54 mm", "final_condition": {"mc_pct": 8}, "shrinkage_ring_angle_deg": 80}}`,
		`{"billet": {"length": "24 in", "width": "10 1/4 in", "thickness": "2 3/4 in", "far_thickness": "1 in", "condition": {"mc_pct": 14}, "wood": "walnut-black", "trim": {"start": "1 in", "end": "1 in"}}, "saw": {"kerf": "1/16 in"}, "part": {"length": "21 in", "width": "7 7/8 in", "final_thickness": "0.1 in", "final_condition": {"mc_pct": 8}, "shrinkage_ring_angle_deg": 80}, "report_in": "inch"}`},
	{"/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "254 mm", "thickness": "50.8 mm", "facing_face_1": "0 mm", "facing_face_2": "0 mm"}, "saw": {"kerf": "1.27 mm"}, "part": {"length": "508 mm", "width": "203.2 mm", "sawn_thickness": "5.08 mm"}}`,
		`{"billet": {"length": "60 cm", "width": "10 in", "thickness": "2 in", "facing_face_1": "0 in", "facing_face_2": "0 in"}, "saw": {"kerf": "0.05 in"}, "part": {"length": "20 in", "width": "8 in", "sawn_thickness": "0.2 in"}, "report_in": "inch"}`},
	{"/v1/resaw-plan", `{"billets": [{"wood": "walnut-black", "length": "914.4 mm", "width": "254 mm", "thickness": "57.15 mm", "far_thickness": "38.1 mm", "condition": {"mc_pct": 9}, "cup": "1.5875 mm", "trim": {"start": "25.4 mm", "end": "25.4 mm"}, "facing_face_1": "0.79375 mm", "facing_face_2": "0.79375 mm", "zones": [{"kind": "knot", "x_from": "254 mm", "x_to": "279.4 mm", "y_from": "25.4 mm", "y_to": "50.8 mm", "z_from": "12.7 mm", "z_to": "25.4 mm"}], "rings": {"pith": {"y": "-25.4 mm", "z": "25.4 mm"}}}], "saws": [{"kerf": "1.5875 mm", "wander": "0.396875 mm", "cleanup_show": "0.79375 mm", "cleanup_back": "0.79375 mm"}], "parts": [{"id": "back", "length": "533.4 mm", "width": "203.2 mm", "final_thickness": "2.54 mm", "flattening": "0.396875 mm", "set_value": 9}, {"id": "strip", "length": "203.2 mm", "width": "50.8 mm", "final_thickness": "6.35 mm", "flattening": "0 mm", "set_value": 1, "match": "none"}], "variation": {"kerf_sd": "0.127 mm"}}`,
		`{"billets": [{"wood": "walnut-black", "length": "36 in", "width": "10 in", "thickness": "2 1/4 in", "far_thickness": "1 1/2 in", "condition": {"mc_pct": 9}, "cup": "1/16 in", "trim": {"start": "1 in", "end": "1 in"}, "facing_face_1": "1/32 in", "facing_face_2": "1/32 in", "zones": [{"kind": "knot", "x_from": "10 in", "x_to": "11 in", "y_from": "1 in", "y_to": "2 in", "z_from": "1/2 in", "z_to": "1 in"}], "rings": {"pith": {"y": "-1 in", "z": "1 in"}}}], "saws": [{"kerf": "1/16 in", "wander": "1/64 in", "cleanup_show": "1/32 in", "cleanup_back": "1/32 in"}], "parts": [{"id": "back", "length": "21 in", "width": "8 in", "final_thickness": "0.1 in", "flattening": "1/64 in", "set_value": 9}, {"id": "strip", "length": "8 in", "width": "2 in", "final_thickness": "1/4 in", "flattening": "0 in", "set_value": 1, "match": "none"}], "variation": {"kerf_sd": "0.005 in"}, "report_in": "inch"}`},
	{"/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "609.6 mm", "width": "228.6 mm", "thickness": "57.15 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"readings": [{"kind": "weight", "date": "2026-01-01", "mass": "5.44310844 kg"}, {"kind": "weight", "date": "2026-02-01", "mass": "5.307030729 kg"}, {"kind": "weight", "date": "2026-03-01", "mass": "5.261671492 kg"}, {"kind": "stated", "date": "2026-01-01", "mc_pct": 15, "mc_sd_points": 0.6}, {"kind": "pin_meter", "reading_mc_pct": 11, "wood_temperature": "20 C", "depth": "6.35 mm", "thickness": "57.15 mm"}, {"kind": "pin_meter", "reading_mc_pct": 12, "wood_temperature": "20 C", "depth": "25.4 mm", "thickness": "57.15 mm"}], "scale_division": "4.5359237 g", "saw": {"kerf": "1.27 mm"},
		"part": {"length": "533.4 mm", "width": "215.9 mm", "sawn_thickness": "4.445 mm"}}`,
		`{"billet": {"wood": "maple-sugar", "length": "2 ft", "width": "9 in", "thickness": "2 1/4 in"}, "target_condition": {"air": {"temperature": "68 F", "rh_pct": 45}},
		"readings": [{"kind": "weight", "date": "2026-01-01", "mass": "12 lb"}, {"kind": "weight", "date": "2026-02-01", "mass": "11.7 lb"}, {"kind": "weight", "date": "2026-03-01", "mass": "11.6 lb"}, {"kind": "stated", "date": "2026-01-01", "mc_pct": 15, "mc_sd_points": 0.6}, {"kind": "pin_meter", "reading_mc_pct": 11, "wood_temperature": "68 F", "depth": "1/4 in", "thickness": "2 1/4 in"}, {"kind": "pin_meter", "reading_mc_pct": 12, "wood_temperature": "68 F", "depth": "1 in", "thickness": "2 1/4 in"}], "scale_division": "0.01 lb", "saw": {"kerf": "0.05 in"},
		"part": {"length": "21 in", "width": "8 1/2 in", "sawn_thickness": "0.175 in"}, "report_in": "inch"}`},
}

// SameQuestions are questions of all routes, each in both systems of units.
var SameQuestions = slices.Concat(sameQuestion, sameInService, sameShape, sameCourse)

// SameUsual are those but for the shapes.
var SameUsual = slices.Concat(sameQuestion, sameInService, sameCourse)
