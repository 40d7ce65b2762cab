package api

// The same piece and the same weighings in both systems; the log of air and the
// warmed shop too.
var sameCourse = []struct{ path, metric, inch string }{
	{"/v1/seasoning", `{"species": "maple-sugar", "thickness": "50.8 mm", "ring_angle_deg": 70, "stacked_on": "2024-04-01", "start_mc_pct": 60, "start_sd_pct": 6, "horizon_days": 700,
		"storage": [{"station": "madison-wi", "until": "2025-05-01", "exposure": "shed"}, {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "300 Pa"}], "build_room": {"dry_bulb": "20 C", "rh_pct": 45}}`,
		`{"species": "maple-sugar", "thickness": "2 in", "ring_angle_deg": 70, "stacked_on": "2024-04-01", "start_mc_pct": 60, "start_sd_pct": 6, "horizon_days": 700,
		"storage": [{"station": "madison-wi", "until": "2025-05-01", "exposure": "shed"}, {"station": "madison-wi", "heated_to": "68 F", "added_vapour": "3 hPa"}], "build_room": {"dry_bulb": "68 F", "rh_pct": 45}, "report_in": "inch"}`},
}
