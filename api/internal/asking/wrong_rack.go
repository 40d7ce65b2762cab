package asking

import "net/http"

// Requests about entries of the rack that the tests ask about; they are called billet-1 to
// billet-5 and so on, and none of these changes one.
func putting(target, body string) Asked {
	return Asked{http.MethodPut, target, body, []string{"If-Match", "*"}}
}

func undoing(target, body string) Asked { return Posting(target, body, "If-Match", "*") }

func patching(target, body string) Asked {
	return Asked{http.MethodPatch, target, body, []string{"If-Match", "*", "Content-Type", "application/merge-patch+json"}}
}

var wrongRack = []wrong{
	{"rack: a change of a billet to no size", patching("/v1/rack/billets/billet-5", `{"billet": {"thickness": "0 mm"}}`), 422, []string{"/billet/thickness out_of_range"}, "at least 0.5 mm"},
	{"rack: a change that is a list", patching("/v1/rack/billets/billet-5", `[]`), 422, nil, "JSON object"},
	{"rack: a change of an id", patching("/v1/rack/places/place-5", `{"id": "place-6"}`), 422, []string{"/id conflict"}, "place-5"},
	{"rack: a reading that is taken off itself", patching("/v1/rack/readings/reading-5", `{"reading": null}`), 422, []string{"/reading missing"}, "reading is needed"},
	{"rack: a photo that is none", Asked{http.MethodPut, "/v1/rack/billets/billet-5/photo", `{}`, []string{"If-Match", "*", "Content-Type", "image/png"}}, 422, nil, "no JPEG, PNG or WebP"},
	{"rack: a photo as JSON", Asked{http.MethodPut, "/v1/rack/billets/billet-5/photo", `{}`, []string{"If-Match", "*"}}, 415, nil, "image/jpeg"},
	{"rack: a photo of who saw none and one", Asked{http.MethodPut, "/v1/rack/billets/billet-5/photo", Pixel, []string{"Content-Type", "image/png"}}, 428, nil, "If-None-Match"},
	{"rack: a weighing in the past", Getting("/v1/rack/weighing-list?date=2026-05-19"), 400, []string{"?date out_of_range"}, "from today"},
	{"rack: a billet without an id", Posting("/v1/rack/billets", `{"billet": {"thickness": "52 mm"}}`), 422, []string{"/id missing"}, "id is needed"},
	{"rack: an id with a space", Posting("/v1/rack/billets", `{"id": "walnut 1", "billet": {}}`), 422, []string{"/id invalid_format"}, "letters, digits"},
	{"rack: two ids of a billet", Posting("/v1/rack/billets", `{"id": "w1", "billet": {"id": "w2"}}`), 422, []string{"/billet/id conflict"}, "leave it out"},
	{"rack: a wood that is none", Posting("/v1/rack/billets", `{"id": "w1", "billet": {"wood": "no such wood"}}`), 422, []string{"/billet/wood not_found"}, "no such wood"},
	{"rack: rings that say nothing", Posting("/v1/rack/billets", `{"id": "w1", "billet": {"rings": {}}}`), 422, []string{"/billet/rings missing"}, "give one of pith"},
	{"rack: a heated room of no place", Posting("/v1/rack/places", `{"id": "p9", "name": "attic", "stay": {"air": {"temperature": "20 C", "rh_pct": 45}, "heated_to": "21 C"}}`), 422, []string{"/stay/station missing"}, "heated_to goes with station or months"},
	{"rack: air without its vapour", Posting("/v1/rack/billets", `{"id": "w1", "billet": {}, "stays": [{"air": {"temperature": "20 C"}, "exposure": "closed_room"}]}`), 422, []string{"/stays/0/air missing"}, "give one of rh_pct"},
	{"rack: a trim told twice", Posting("/v1/rack/billets", `{"id": "w1", "billet": {"trim": {"usual": "sealed_fresh", "start": "5 mm", "end": "5 mm"}}}`), 422, []string{"/billet/trim/end conflict"}, "not all of"},
	{"rack: a zone with one depth, and an ice bulb alone", Posting("/v1/rack/billets", `{"id": "w1", "billet": {"zones": [{"kind": "knot", "x_from": "0 mm", "x_to": "10 mm", "y_from": "0 mm", "y_to": "10 mm", "z_from": "1 mm"}], "condition": {"air": {"temperature": "20 C", "rh_pct": 40, "ice_bulb": true}}}}`), 422,
		[]string{"/billet/zones/0/z_to missing", "/billet/condition/air/wet_bulb missing"}, "goes with"},
	{"rack: a turn that is half told", Posting("/v1/rack/readings", `{"id": "r1", "billet": "billet-1", "reading": {"kind": "prong_test", "date": "2026-03-14", "prongs": "inward", "tip_travel": "2 mm"}}`), 422, []string{"/reading/prong_length missing"}, "tip_travel goes with"},
	{"rack: a part with two thicknesses", Posting("/v1/rack/plans", `{"id": "p1", "billet": "billet-1", "saws": [{"kerf": "1.3 mm"}], "parts": [{"length": "560 mm", "width": "210 mm", "final_thickness": "2.6 mm", "sawn_thickness": "4 mm"}]}`), 422, []string{"/parts/0/sawn_thickness conflict"}, "not all of"},
	{"rack: a target with damp told twice", Posting("/v1/rack/targets", `{"id": "harp", "name": "a harp", "target_condition": {"air": {"temperature": "20 C", "rh_pct": 40, "dew_point": "5 C"}}}`), 422, []string{"/target_condition/air/dew_point conflict"}, "only one of"},
	{"rack: a place with a phase of a kiln that says nothing", Posting("/v1/rack/places", `{"id": "p9", "name": "kiln", "stay": {"phases": [{"days": 3}]}}`), 422, []string{"/stay/phases/0 missing"}, "give air or temperature"},
	{"rack: an id that is in use", Posting("/v1/rack/billets", `{"id": "billet-5", "billet": {}}`), 409, []string{"/id duplicate_id"}, "an id is used once"},
	{"rack: a place that is not there", Posting("/v1/rack/billets", `{"id": "w1", "place": "attic", "billet": {}}`), 422, []string{"/place missing_data"}, "attic"},
	{"rack: another id than the path", putting("/v1/rack/billets/billet-5", `{"id": "billet-6", "billet": {}}`), 422, []string{"/id conflict"}, "billet-5"},
	{"rack: an unseen version", Asked{http.MethodPut, "/v1/rack/billets/billet-5", `{"id": "billet-5", "billet": {}}`, nil}, 428, nil, "If-Match"},
	{"rack: a version that is gone", Asked{http.MethodPut, "/v1/rack/billets/billet-5", `{"id": "billet-5", "billet": {}}`, []string{"If-Match", `"0123456789abcdef01234567"`}}, 412, nil, "version 1"},
	{"rack: a key with a space", Posting("/v1/rack/billets", `{"id": "w1", "billet": {}}`, "Idempotency-Key", "a b"), 400, []string{"?Idempotency-Key invalid_format"}, "Idempotency-Key"},
	{"rack: undo to no version", undoing("/v1/rack/billets/billet-5/undo", `{"to_version": 7}`), 409, []string{"/to_version out_of_range"}, "no such version"},
	{"rack: undo to version 0", undoing("/v1/rack/billets/billet-5/undo", `{"to_version": 0}`), 422, []string{"/to_version out_of_range"}, "at least 1"},
	{"rack: a reading without a day", Posting("/v1/rack/readings", `{"id": "r1", "billet": "billet-1", "reading": {"kind": "pin_meter", "reading_mc_pct": 12}}`), 422, []string{"/reading/date missing"}, "date is needed"},
	{"rack: a reading of no billet", Posting("/v1/rack/readings", `{"id": "r1", "billet": "w9", "reading": {"kind": "weight", "date": "2026-03-14", "mass": "4 kg"}}`), 422, []string{"/billet missing_data"}, "w9"},
	{"rack: a reading changed into none", putting("/v1/rack/readings/reading-5", `{"id": "reading-5", "billet": "billet-1"}`), 422, []string{"/reading missing"}, "reading is needed"},
	{"rack: undo of a reading to a word", undoing("/v1/rack/readings/reading-5/undo", `{"to_version": "first"}`), 422, []string{"/to_version wrong_type"}, "a whole number"},
	{"rack: an event of no kind", Posting("/v1/rack/events", `{"id": "e1", "billet": "billet-1", "event": {"kind": "painted", "date": "2026-03-14"}}`), 422, []string{"/event/kind not_a_choice"}, "felled"},
	{"rack: an event moved to no day", putting("/v1/rack/events/event-5", `{"id": "event-5", "billet": "billet-1", "event": {"kind": "moved", "date": "14 March"}}`), 422, []string{"/event/date invalid_format"}, "2026-03-01"},
	{"rack: undo of an event with more", undoing("/v1/rack/events/event-5/undo", `{"version": 1}`), 422, []string{"/version unknown_member"}, "version"},
	{"rack: a place without a name", Posting("/v1/rack/places", `{"id": "attic"}`), 422, []string{"/name missing"}, "name is needed"},
	{"rack: a place with air in two ways", putting("/v1/rack/places/place-5", `{"id": "place-5", "name": "x", "stay": {"station": "columbus-oh", "air": {"temperature": "20 C", "rh_pct": 45}}}`), 422, []string{"/stay/air conflict"}, "only one of"},
	{"rack: undo of a place to a half", undoing("/v1/rack/places/place-5/undo", `{"to_version": 1.5}`), 422, []string{"/to_version wrong_type"}, "a whole number"},
	{"rack: a day without readings", Posting("/v1/rack/weighing-days", `{"readings": []}`), 422, []string{"/readings too_few_items"}, "at least 1"},
	{"rack: one of a day is in use", Posting("/v1/rack/weighing-days", `{"readings": [{"id": "r1", "billet": "billet-5", "reading": {"kind": "weight", "date": "2026-03-14", "mass": "4 kg"}}, {"id": "reading-5", "billet": "billet-5", "reading": {"kind": "weight", "date": "2026-03-14", "mass": "4 kg"}}]}`), 409, []string{"/readings/1/id duplicate_id"}, "an id is used once"},
	{"rack: ready for nothing", Posting("/v1/rack/billets/billet-5/readiness", `{}`), 422, []string{"/target_condition missing_data"}, "neither"},
	{"rack: ready on no day", Posting("/v1/rack/billets/billet-5/readiness", `{"as_of": "today"}`), 422, []string{"/as_of invalid_format"}, "2026-03-01"},
	{"rack: a reading of two things", Posting("/v1/rack/readings", `{"id": "r1", "billet": "billet-1", "piece": "piece-1", "reading": {"kind": "weight", "date": "2026-03-14", "mass": "4 kg"}}`), 422, []string{"/piece conflict"}, "only one of"},
	{"rack: a reading of nothing", Posting("/v1/rack/readings", `{"id": "r1", "reading": {"kind": "weight", "date": "2026-03-14", "mass": "4 kg"}}`), 422, []string{" missing"}, "billet or piece"},
	{"rack: a piece of two things", Posting("/v1/rack/pieces", `{"id": "p1", "parent": {"billet": "billet-1", "piece": "piece-1"}, "billet": {}}`), 422, []string{"/parent/piece conflict"}, "only one of"},
	{"rack: a piece of another billet", putting("/v1/rack/pieces/piece-5", `{"id": "piece-5", "parent": {"billet": "billet-2"}, "billet": {}}`), 422, []string{" invalid_format"}, "stays one of what it was cut from"},
	{"rack: undo of a piece to a word", undoing("/v1/rack/pieces/piece-5/undo", `{"to_version": "first"}`), 422, []string{"/to_version wrong_type"}, "a whole number"},
	{"rack: a plan without a saw", Posting("/v1/rack/plans", `{"id": "p1", "billet": "billet-1", "saws": [], "parts": [{"length": "560 mm", "width": "210 mm", "final_thickness": "2.6 mm"}]}`), 422, []string{"/saws too_few_items"}, "at least 1"},
	{"rack: a plan of no billet", putting("/v1/rack/plans/plan-5", `{"id": "plan-5", "billet": "w9", "saws": [{"kerf": "1.3 mm"}], "parts": [{"length": "560 mm", "width": "210 mm", "final_thickness": "2.6 mm"}]}`), 422, []string{"/billet missing_data"}, "w9"},
	{"rack: undo of a plan with more", undoing("/v1/rack/plans/plan-5/undo", `{"version": 1}`), 422, []string{"/version unknown_member"}, "version"},
	{"rack: a stay nowhere", Posting("/v1/rack/stays", `{"id": "s1", "billet": "billet-1", "from": "2026-03-14"}`), 422, []string{" missing"}, "place or stay"},
	{"rack: a stay in two places", putting("/v1/rack/stays/stay-5", `{"id": "stay-5", "billet": "billet-4", "from": "2026-03-14", "place": "place-1", "stay": {"station": "columbus-oh"}}`), 422, []string{"/stay conflict"}, "only one of"},
	{"rack: undo of a stay to version 0", undoing("/v1/rack/stays/stay-5/undo", `{"to_version": 0}`), 422, []string{"/to_version out_of_range"}, "at least 1"},
	{"rack: a target without its air", Posting("/v1/rack/targets", `{"id": "harp", "name": "a harp"}`), 422, []string{"/target_condition missing"}, "target_condition is needed"},
	{"rack: a target without a name", putting("/v1/rack/targets/target-5", `{"id": "target-5", "target_condition": {"mc_pct": 8}}`), 422, []string{"/name missing"}, "name is needed"},
	{"rack: undo of a target to a half", undoing("/v1/rack/targets/target-5/undo", `{"to_version": 1.5}`), 422, []string{"/to_version wrong_type"}, "a whole number"},
	{"rack: a note without words", Posting("/v1/rack/notes", `{"id": "n1"}`), 422, []string{"/text missing"}, "text is needed"},
	{"rack: a note on a reading", putting("/v1/rack/notes/note-5", `{"id": "note-5", "of": {"kind": "reading", "id": "reading-1"}, "text": "x"}`), 422, []string{"/of/kind not_a_choice"}, "billet"},
	{"rack: undo of a note to a word", undoing("/v1/rack/notes/note-5/undo", `{"to_version": "first"}`), 422, []string{"/to_version wrong_type"}, "a whole number"},
	{"rack: a piece ready on no day", Posting("/v1/rack/pieces/piece-5/readiness", `{"as_of": "today"}`), 422, []string{"/as_of invalid_format"}, "2026-03-01"},
	{"rack: a wait without end", Getting("/v1/rack/overview?wait_seconds=100"), 400, []string{"?wait_seconds out_of_range"}, "0 to 20"},
	{"rack: a cutting that was none", Posting("/v1/rack/cuttings", `{"event": {"id": "e1", "billet": "billet-5", "event": {"kind": "moved", "date": "2026-05-19"}}, "pieces": [{"id": "p1", "parent": {"billet": "billet-5"}, "billet": {}}]}`), 422, []string{"/event/event/kind conflict"}, "resawn or ripped"},
	{"rack: a leaf of another billet", Posting("/v1/rack/cuttings", `{"event": {"id": "e1", "billet": "billet-5", "event": {"kind": "resawn", "date": "2026-05-19"}}, "pieces": [{"id": "p1", "parent": {"billet": "billet-4"}, "billet": {}}]}`), 422, []string{"/pieces/0/parent conflict"}, "cut from what its event is of"},
	{"rack: a leaf that is there", Posting("/v1/rack/cuttings", `{"event": {"id": "e1", "billet": "billet-5", "event": {"kind": "resawn", "date": "2026-05-19"}}, "pieces": [{"id": "piece-5", "parent": {"billet": "billet-5"}, "billet": {}}]}`), 409, []string{"/pieces/0/id duplicate_id"}, "an id is used once"},
	{"rack: timing of what nobody builds for", Posting("/v1/rack/billets/billet-5/resaw-timing", `{"saw": {"kerf": "1.3 mm"}, "part": {"length": "560 mm", "width": "210 mm", "final_thickness": "2.6 mm"}}`), 422, []string{"/target_condition missing_data"}, "neither"},
	{"rack: a plan with nothing wanted", Posting("/v1/rack/billets/billet-5/resaw-plan", `{"saws": [{"kerf": "1.3 mm"}]}`), 422, []string{"/parts missing_data"}, "parts is needed"},
	{"rack: a plan that is not there", Posting("/v1/rack/billets/billet-5/resaw-plan", `{"plan": "p9"}`), 422, []string{"/plan missing_data"}, "p9"},
	{"rack: movement along nothing", Posting("/v1/rack/billets/billet-1/movement", `{"dimension": "depth"}`), 422, []string{"/dimension not_a_choice"}, "width"},
	{"rack: a sheet of nothing known", Posting("/v1/rack/sheets", `{"kind": "billet", "csv": "id,billet.colour\nw1,red"}`), 422, []string{"/csv out_of_range"}, "billet.colour"},
	{"rack: a sheet of no kind", Posting("/v1/rack/sheets", `{"kind": "board", "csv": "id\nw1"}`), 422, []string{"/kind not_a_choice"}, "billet"},
	{"rack: labels that lead nowhere", Getting("/v1/rack/labels?base=shop"), 400, []string{"?base invalid_format"}, "https://shop.example"},
}
