package api

// The same piece and the same weighings in both systems; a record of air and a
// heated shop too.
var sameCourse = []struct{ path, metric, inch string }{
	{"/v1/seasoning", `{"species": "maple-sugar", "thickness": "50.8 mm", "ring_angle_deg": 70, "stacked_on": "2024-04-01", "start_mc_pct": 60, "start_sd_pct": 6, "horizon_days": 700,
		"storage": [{"station": "madison-wi", "until": "2025-05-01", "exposure": "shed"}, {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa"}], "build_room": {"dry_bulb": "20 C", "rh_pct": 45}}`,
		`{"species": "maple-sugar", "thickness": "2 in", "ring_angle_deg": 70, "stacked_on": "2024-04-01", "start_mc_pct": 60, "start_sd_pct": 6, "horizon_days": 700,
		"storage": [{"station": "madison-wi", "until": "2025-05-01", "exposure": "shed"}, {"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa"}], "build_room": {"dry_bulb": "68 F", "rh_pct": 45}, "report_in": "inch"}`},
	{"/v1/seasoning", `{"wood": {"specific_gravity": 0.45, "radial_shrinkage_pct": 4}, "thickness": "25.4 mm", "stacked_on": "2024-04-01", "start_mc_pct": 40, "horizon_days": 120, "target_pct": 14,
		"storage": [{"log": [{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70}, {"time": "2024-05-01T12:00:00Z", "temperature": "15 C", "rh_pct": 65}, {"time": "2024-08-01", "temperature": "20 C", "rh_pct": 60}]}]}`,
		`{"wood": {"specific_gravity": 0.45, "radial_shrinkage_pct": 4}, "thickness": "1 in", "stacked_on": "2024-04-01", "start_mc_pct": 40, "horizon_days": 120, "target_pct": 14,
		"storage": [{"log": [{"time": "2024-04-01", "temperature": "50 F", "rh_pct": 70}, {"time": "2024-05-01T12:00:00Z", "temperature": "59 F", "rh_pct": 65}, {"time": "2024-08-01", "temperature": "68 F", "rh_pct": 60}]}], "report_in": "inch"}`},
	{"/v1/readiness", `{"species": "walnut-black", "billet": {"length": "609.6 mm", "width": "228.6 mm", "thickness": "50.8 mm"}, "ring_angle_deg": 60, "build_room": {"dry_bulb": "20 C", "rh_pct": 45},
		"history": {"as_of": "2026-03-14", "stacked_on": "2024-04-20", "start_mc_pct": 80, "start_sd_pct": 12, "horizon_days": 1500, "drying_factor": {"median": 0.25, "ratio": 1.5}, "storage": [{"station": "columbus-oh", "until": "2025-10-15", "exposure": "shed"}, {"air": {"dry_bulb": "20 C", "rh_pct": 45}}]},
		"weights": [{"date": "2025-06-01", "mass": "4.6266421740 kg"}, {"date": "2025-10-15", "mass": "4.5359237000 kg"}, {"date": "2026-03-14", "mass": "4.3544867520 kg"}], "scale_division": "4.5359237 g",
		"sample_board_weights": [{"date": "2025-10-15", "mass": "0.45359237 kg"}],
		"readings": [{"date": "2026-03-14", "pin_meter": {"reading_pct": 11, "wood_temperature": "20 C", "depth": "12.7 mm", "thickness": "50.8 mm"}}]}`,
		`{"species": "walnut-black", "billet": {"length": "2 ft", "width": "9 in", "thickness": "2 in"}, "ring_angle_deg": 60, "build_room": {"dry_bulb": "68 F", "rh_pct": 45},
		"history": {"as_of": "2026-03-14", "stacked_on": "2024-04-20", "start_mc_pct": 80, "start_sd_pct": 12, "horizon_days": 1500, "drying_factor": {"median": 0.25, "ratio": 1.5}, "storage": [{"station": "columbus-oh", "until": "2025-10-15", "exposure": "shed"}, {"air": {"dry_bulb": "68 F", "rh_pct": 45}}]},
		"weights": [{"date": "2025-06-01", "mass": "10.2 lb"}, {"date": "2025-10-15", "mass": "10 lb"}, {"date": "2026-03-14", "mass": "9.6 lb"}], "scale_division": "0.01 lb",
		"sample_board_weights": [{"date": "2025-10-15", "mass": "1 lb"}],
		"readings": [{"date": "2026-03-14", "pin_meter": {"reading_pct": 11, "wood_temperature": "68 F", "depth": "1/2 in", "thickness": "2 in"}}], "report_in": "inch"}`},
	{"/v1/resaw/timing", `{"species": "maple-sugar", "billet": {"length": "609.6 mm", "width": "228.6 mm", "thickness": "57.15 mm", "end_trim": "25.4 mm"}, "moisture": {"mean_pct": 16, "shell_pct": 14, "core_pct": 17}, "as_of": "2026-03-01", "horizon_days": 900,
		"storage": [{"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa"}], "build_room": {"dry_bulb": "20 C", "rh_pct": 45}, "ring_angle_deg": 80, "saw": {"kerf": "1.27 mm", "facing": "2.54 mm"},
		"part": {"length": "533.4 mm", "width": "203.2 mm", "sawn_thickness": "5.08 mm"}, "thick_and_thin": "1.27 mm"}`,
		`{"species": "maple-sugar", "billet": {"length": "2 ft", "width": "9 in", "thickness": "2 1/4 in", "end_trim": "1 in"}, "moisture": {"mean_pct": 16, "shell_pct": 14, "core_pct": 17}, "as_of": "2026-03-01", "horizon_days": 900,
		"storage": [{"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa"}], "build_room": {"dry_bulb": "68 F", "rh_pct": 45}, "ring_angle_deg": 80, "saw": {"kerf": "0.05 in", "facing": "0.1 in"},
		"part": {"length": "21 in", "width": "8 in", "sawn_thickness": "0.2 in"}, "thick_and_thin": "0.05 in", "report_in": "inch"}`},
}
