package asking

import "strings"

// historyWith is a right request for a billet with a history but for what a row
// puts into it.
func historyWith(history, rest string) Asked {
	return readinessWith(history + rest)
}

const (
	okHistory = `"as_of": "2026-03-14", "billet": {"stacked_on": "2024-04-01"}, "stays": [{"station": "madison-wi"}]`
	okWeights = `, "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "5.8 kg"}, {"kind": "weight", "date": "2026-03-14", "mass": "5.6 kg"}]`
)

// manyWeights are n weights of the same date.
func manyWeights(n int) string {
	return `, "readings": [` + strings.TrimSuffix(strings.Repeat(`{"kind": "weight", "date": "2025-04-01", "mass": "5.8 kg"},`, n), ",") + `]`
}

// meters are n readings, each with a meter of its own.
func meters(n int) string {
	var all []string
	for i := range n {
		all = append(all, `{"kind": "pin_meter", "date": "2025-04-01", "reading_mc_pct": 12, "meter": "`+strings.Repeat("m", i+1)+`"}`)
	}
	return strings.Join(all, ",")
}

// weightsOfAnother are those of a billet two and a half times as long as it is said to be, beside readings of
// meters that are right.
const weightsOfAnother = `{"as_of":"2026-03-14","billet":{"length":"280 mm","rings":{"angle_deg":60},"stacked_on":"2023-04-22","thickness":"52 mm","width":"230 mm","wood":"walnut-black"},"readings":[{"date":"2024-09-07","kind":"weight","mass":"4.97 kg"},{"date":"2025-06-01","kind":"weight","mass":"4.92 kg"},{"date":"2025-10-11","kind":"weight","mass":"4.96 kg"},{"date":"2025-12-13","kind":"weight","mass":"4.84 kg"},{"date":"2026-01-31","kind":"weight","mass":"4.28 kg"},{"date":"2026-03-14","kind":"weight","mass":"4.81 kg"},{"date":"2025-10-11","depth":"12 mm","kind":"pin_meter","meter":"pins","reading_mc_pct":13,"thickness":"52 mm","wood_temperature":"14 C"},{"date":"2026-03-14","depth":"12 mm","kind":"pin_meter","meter":"pins","reading_mc_pct":10.5,"thickness":"52 mm","wood_temperature":"20 C"},{"date":"2026-03-14","depth":"26 mm","kind":"pin_meter","meter":"pins","reading_mc_pct":11,"thickness":"52 mm","wood_temperature":"20 C"}],"scale_division":"10 g","stays":[{"exposure":"shed","station":"columbus-oh","until":"2025-10-11"},{"air":{"rh_pct":45,"temperature":"20 C"}}],"target_condition":{"air":{"rh_pct":45,"temperature":"20 C"}}}`

var wrongHistory = []wrong{
	{"history of nothing", historyWith(`"stays": [{"station": "madison-wi"}]`, ``), 422, []string{"/as_of missing", "/billet/stacked_on missing"}, "stays need as_of"},
	{"history as a text", readinessWith(`"stays": "three years"`), 422, []string{"/stays wrong_type"}, "must be a list"},
	{"unknown member of a history", historyWith(okHistory+`, "today": "2026-03-14"`, ``), 422, []string{"/today unknown_member"}, "there is no member"},
	{"as_of before stacking", historyWith(strings.Replace(okHistory, "2026-03-14", "2024-03-14", 1), okWeights), 422, []string{"/as_of out_of_range"}, "2024-04-01"},
	{"taken at no place of a wedge", historyWith(okHistory, `, "readings": [{"kind": "pin_meter", "date": "2025-04-01", "reading_mc_pct": 12, "taken_at": "edge"}]`), 422, []string{"/readings/0/taken_at not_a_choice"}, "thinnest, halfway, thickest"},
	{"as_of beyond the horizon", historyWith(okHistory+`, "horizon_days": 400`, okWeights), 422, []string{"/as_of out_of_range", "/readings/1/date out_of_range"}, "end of the forecast, 2025-05-06"},
	{"as_of on no day", historyWith(strings.Replace(okHistory, "2026-03-14", "yesterday", 1), ``), 422, []string{"/as_of invalid_format"}, "a date such as 2026-03-01"},
	{"weight before stacking", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2024-03-01", "mass": "7 kg"}]`), 422, []string{"/readings/0/date out_of_range"}, "day of stacking"},
	{"weight of tomorrow", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2026-03-15", "mass": "5.6 kg"}]`), 422, []string{"/readings/0/date out_of_range"}, "of the future"},
	{"weights out of order", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2025-04-02", "mass": "5.8 kg"}, {"kind": "weight", "date": "2025-04-01", "mass": "5.8 kg"}]`), 422, []string{"/readings/1/date out_of_range"}, "in order of date"},
	{"weights twice a day", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "5.8 kg"}, {"kind": "weight", "date": "2025-04-01", "mass": "5.8 kg"}]`), 422, []string{"/readings/1/date out_of_range"}, "one a day"},
	{"meter reading of tomorrow", historyWith(okHistory, `, "readings": [{"kind": "pin_meter", "date": "2026-03-15", "reading_mc_pct": 12}]`), 422, []string{"/readings/0/date out_of_range"}, "of the future"},
	{"meter reading before stacking", historyWith(okHistory, `, "readings": [{"kind": "pin_meter", "date": "2023-03-15", "reading_mc_pct": 12}]`), 422, []string{"/readings/0/date out_of_range"}, "day of stacking"},
	{"meter at 61 %", historyWith(okHistory, `, "readings": [{"kind": "pin_meter", "date": "2025-03-15", "reading_mc_pct": 61}]`), 422, []string{"/readings/0/reading_mc_pct out_of_range"}, "at most 60 %"},
	{"board without a history", readinessWith(`"readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}], "readings": [{"kind": "weight", "of": "sample_board", "date": "2025-04-01", "mass": "1 kg"}]`), 422, []string{"/stays missing"}, "goes with stays"},
	{"mass of another billet", readinessWith(`"readings": [{"kind": "weight", "date": "2025-04-01", "mass": "50 kg"}, {"kind": "stated", "date": "2025-04-01", "mc_pct": 12}]`), 422, []string{"/readings/0/mass conflict"}, "every void full of water"},
	{"mass of another billet, with stays", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "50 kg"}]`), 422, []string{"/readings/0/mass conflict"}, "check the weight and its unit"},
	{"mass of half a billet, with stays", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "800 g"}]`), 422, []string{"/readings/0/mass conflict"}, "without any water"},
	{"faces that meet within a wedge", historyWith(okHistory+`, "billet": {"far_thickness": "10 mm", "end_thickness": "10 mm"}`, ``), 422, []string{"/billet/end_thickness conflict"}, "the two faces meet"},
	{"weights of another billet, against meters", Posting("/v1/readiness", weightsOfAnother), 422, []string{"/readings conflict"}, "no course of drying agrees"},
	{"cut without a history", readinessWith(`"readings": [{"kind": "weight", "date": "2025-04-01", "mass": "6 kg"}, {"kind": "weight", "date": "2025-05-01", "mass": "5.9 kg", "event": "trimmed"}]`), 422, []string{"/stays missing"}, "an event between weights"},
	{"event not offered", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "1 kg", "event": "burnt"}]`), 422, []string{"/readings/0/event not_a_choice"}, "one of trimmed, planed, ripped, sealed"},
	{"board of tomorrow", historyWith(okHistory, `, "readings": [{"kind": "weight", "of": "sample_board", "date": "2026-04-01", "mass": "1 kg"}]`), 422, []string{"/readings/0/date out_of_range"}, "of the future"},
	{"known before stacking", historyWith(okHistory, okWeights+`, "readings": [{"kind": "stated", "date": "2024-03-01", "mc_pct": 70}]`), 422, []string{"/readings/2/date out_of_range"}, "day of stacking"},
	{"known tomorrow", historyWith(okHistory, okWeights+`, "readings": [{"kind": "stated", "date": "2026-04-01", "mc_pct": 12}]`), 422, []string{"/readings/2/date out_of_range"}, "of the future"},
	{"weight of nothing", historyWith(okHistory, `, "readings": [{"kind": "weight", "date": "2025-04-01", "mass": "0 kg"}]`), 422, []string{"/readings/0/mass out_of_range"}, "more than 0 kg"},
	{"too many weights", historyWith(okHistory, manyWeights(501)), 422, []string{"/readings too_many_items"}, "at most 500 entries"},
	{"ten thousand readings", historyWith(okHistory, `, "readings": [`+strings.TrimSuffix(strings.Repeat(`{"kind": "pin_meter", "reading_mc_pct": 12},`, 10000), ",")+`]`), 422, []string{"/readings too_many_items"}, "at most 500 entries"},
	{"spread of a start not given, in a history", historyWith(okHistory+`, "billet": {"start_condition": {"mc_sd_points": 4}}`, okWeights), 422, []string{"/billet/start_condition missing"}, "say mc_pct, or the air"},
	{"until before stacking, in a history", historyWith(`"as_of": "2026-03-14", "billet": {"stacked_on": "2024-04-01"}, "stays": [{"station": "madison-wi", "until": "2024-03-01"}, {"station": "madison-wi"}]`, okWeights), 422, []string{"/stays/0/until out_of_range"}, "after 2024-04-01"},
	{"unknown station in a history", historyWith(`"as_of": "2026-03-14", "billet": {"stacked_on": "2024-04-01"}, "stays": [{"station": "columbus"}]`, okWeights), 422, []string{"/stays/0/station not_found"}, "\"columbus\" names several places: columbus-ga"},
	{"record that ends before today", historyWith(`"as_of": "2026-03-14", "billet": {"stacked_on": "2024-04-01"}, "stays": [{"log": [{"time": "2024-04-01", "temperature": "10 C", "rh_pct": 70}, {"time": "2025-04-01", "temperature": "10 C", "rh_pct": 70}]}]`, okWeights), 422, []string{"/stays/0/log missing"}, "the record ends on 2025-04-01"},
	{"horizon before the last stay, in a history", historyWith(`"as_of": "2024-05-01", "billet": {"stacked_on": "2024-04-01"}, "horizon_days": 300, "stays": [{"station": "madison-wi", "until": "2025-04-01"}, {"station": "madison-wi"}]`, ""), 422, []string{"/horizon_days conflict"}, "reach into the last stay"},
	{"drying factor of a stone", historyWith(okHistory, okWeights).knowing(`"drying_factor": {"value": 0.001}`), 422, []string{"/billet/wood/drying_factor/value out_of_range"}, "at least 0.005"},
	{"drying factor known to nothing at all", historyWith(okHistory, okWeights).knowing(`"drying_factor": {"value": 0.5, "sd_ratio": 5}`), 422, []string{"/billet/wood/drying_factor/sd_ratio out_of_range"}, "at most 4.4"},
	{"a meter for every reading", historyWith(okHistory, `, "readings": [`+meters(21)+`]`), 422, []string{"/readings too_much_work"}, "at most 20"},
	{"a billet like a match", Posting("/v1/readiness", Together(`{"billet": {"wood": "maple-sugar", "length": "1 mm", "width": "1 mm", "thickness": "1 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, `+okHistory+`}`)), 422, []string{"/billet/length out_of_range", "/billet/width out_of_range"}, ""},
	{"scale coarser than the weight, in a history", historyWith(okHistory, okWeights+`, "scale_division": "9 kg"`), 422, []string{"/scale_division conflict"}, "larger than the mass"},
	{"drawing of a billet without a history", Posting("/v1/readiness?as=svg", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}]}`), 422, []string{"/stays missing"}, "needs the stays"},
	{"table of a billet without a history", Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}]}`, "Accept", "text/csv"), 422, []string{"/stays missing"}, "needs the stays"},
	{"readiness as pdf", Posting("/v1/readiness?as=pdf", `{}`), 400, []string{"?as not_a_choice"}, "json, svg or csv"},
	{"readiness as a page", Posting("/v1/readiness", `{}`, "Accept", "text/html"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
}
