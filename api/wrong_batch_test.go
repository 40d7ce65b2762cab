package api

import "strings"

func batchOf(items string) asked { return posting("/v1/batch", `{"items": [`+items+`]}`) }

const emcItem = `{"route": "/v1/emc", "request": {"air": {"dry_bulb": "20 C", "rh_pct": 50}}}`

// What is wrong with a batch as a whole. What is wrong with an item is not here:
// the batch is answered all the same.
var wrongBatches = []wrong{
	{"batch of nothing", posting("/v1/batch", `{}`), 422, []string{"/items missing"}, "items is needed"},
	{"batch of no items", batchOf(""), 422, []string{"/items out_of_range"}, "items needs at least 1 entry"},
	{"batch of too many items", batchOf(strings.TrimSuffix(strings.Repeat(emcItem+",", 1001), ",")), 422, []string{"/items out_of_range"}, "items takes at most 1000 entries"},
	{"batch that is a list", posting("/v1/batch", `[`+emcItem+`]`), 422, []string{" wrong_type"}, "must be an object, got a list"},
	{"batch of an object", posting("/v1/batch", `{"items": `+emcItem+`}`), 422, []string{"/items wrong_type"}, "must be a list, got an object"},
	{"batch with null", posting("/v1/batch", `{"items": null}`), 422, []string{"/items null"}, "leave the member out"},
	{"batch with another member", posting("/v1/batch", `{"items": [`+emcItem+`], "item": 1}`), 422, []string{"/item unknown_member"}, `did you mean "items"`},
	{"batch with a member twice", posting("/v1/batch", `{"items": [`+emcItem+`], "items": []}`), 400, []string{"/items duplicate_member"}, "given twice"},
	{"batch cut short", posting("/v1/batch", `{"items": [`+emcItem), 400, []string{"/items syntax"}, "ends before the JSON does"},
	{"batch and more", posting("/v1/batch", `{"items": [`+emcItem+`]} x`), 400, []string{" trailing_text"}, "text after the JSON value"},
	{"batch with an id three times", batchOf(`{"id": "a", ` + emcItem[1:] + `, {"id": "b", ` + emcItem[1:] + `, {"id": "a", ` + emcItem[1:] + `, {"id": "a", "route": 1}`), 422, []string{"/items/2/id contradictory", "/items/3/id contradictory"}, "item 0 has this id too"},
	{"batch as a drawing", posting("/v1/batch?as=svg", `{"items": [`+emcItem+`]}`), 400, []string{"?as not_offered"}, "json, ndjson"},
	{"batch larger than its limit", posting("/v1/batch", strings.Repeat(" ", heavyBody+1)), 413, nil, "at most 1048576 bytes"},
	{"lines that want a drawing", posting("/v1/batch", emcItem, "Content-Type", "application/x-ndjson", "Accept", "image/svg+xml"), 406, nil, "listed in offers"},
	{"lines that want a document", posting("/v1/batch", emcItem, "Content-Type", "application/x-ndjson", "Accept", "application/json"), 406, nil, "lines are answered with lines"},
	{"lines where none are taken", posting("/v1/emc", emcItem, "Content-Type", "application/x-ndjson"), 415, nil, "send the body as application/json"},
}
