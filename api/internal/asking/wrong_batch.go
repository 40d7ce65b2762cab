package asking

import (
	"strings"

	"latewood/api/internal/serve"
)

// BatchOf is a batch of items.
func BatchOf(items string) Asked { return Posting("/v1/batch", `{"items": [`+items+`]}`) }

// EMCItem is a light item of a batch.
const EMCItem = `{"route": "/v1/emc", "request": {"air": {"temperature": "20 C", "rh_pct": 50}}}`

// What is wrong with a batch as a whole. What is wrong with an item is not here:
// the batch is answered all the same.
var wrongBatches = []wrong{
	{"batch of nothing", Posting("/v1/batch", `{}`), 422, []string{"/items missing"}, "items is needed"},
	{"batch of no items", BatchOf(""), 422, []string{"/items too_few_items"}, "items needs at least 1 entry"},
	{"batch of too many items", BatchOf(strings.TrimSuffix(strings.Repeat(EMCItem+",", 1001), ",")), 422, []string{"/items too_many_items"}, "items takes at most 1000 entries"},
	{"batch that is a list", Posting("/v1/batch", `[`+EMCItem+`]`), 422, []string{" wrong_type"}, "must be an object, got a list"},
	{"batch of an object", Posting("/v1/batch", `{"items": `+EMCItem+`}`), 422, []string{"/items wrong_type"}, "must be a list, got an object"},
	{"batch with null", Posting("/v1/batch", `{"items": null}`), 422, []string{"/items null_value"}, "leave the member out"},
	{"batch with another member", Posting("/v1/batch", `{"items": [`+EMCItem+`], "item": 1}`), 422, []string{"/item unknown_member"}, `did you mean "items"`},
	{"batch with a member twice", Posting("/v1/batch", `{"items": [`+EMCItem+`], "items": []}`), 400, []string{"/items duplicate_member"}, "given twice"},
	{"batch cut short", Posting("/v1/batch", `{"items": [`+EMCItem), 400, []string{"/items invalid_json"}, "ends before the JSON does"},
	{"batch and more", Posting("/v1/batch", `{"items": [`+EMCItem+`]} x`), 400, []string{" trailing_text"}, "text after the JSON value"},
	{"batch with an id three times", BatchOf(`{"id": "a", ` + EMCItem[1:] + `, {"id": "b", ` + EMCItem[1:] + `, {"id": "a", ` + EMCItem[1:] + `, {"id": "a", "route": 1}`), 422, []string{"/items/2/id conflict", "/items/3/id conflict"}, "item 0 has this id too"},
	{"batch as a drawing", Posting("/v1/batch?as=svg", `{"items": [`+EMCItem+`]}`), 400, []string{"?as not_a_choice"}, "json or ndjson"},
	{"batch larger than its limit", Posting("/v1/batch", strings.Repeat(" ", serve.HeavyBody+1)), 413, []string{" too_long"}, "at most 1048576 bytes"},
	{"lines that want a drawing", Posting("/v1/batch", EMCItem, "Content-Type", "application/x-ndjson", "Accept", "image/svg+xml"), 406, []string{"?Accept not_a_choice"}, "listed in offers"},
	{"lines that want a document", Posting("/v1/batch", EMCItem, "Content-Type", "application/x-ndjson", "Accept", "image/png"), 406, []string{"?Accept not_a_choice"}, "only in the forms listed"},
	{"lines where none are taken", Posting("/v1/emc", EMCItem, "Content-Type", "application/x-ndjson"), 415, []string{"?Content-Type not_a_choice"}, "send the body as application/json"},
}
