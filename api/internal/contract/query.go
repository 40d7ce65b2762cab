package contract

import (
	"maps"
	"net/http"
	"slices"
	"strings"

	"latewood/api/internal/serve"
)

// QueryKey is where the operation of QUERY stands, beside that of POST. It is an Operation
// Object of OpenAPI 3.2, which calls it query; 3.1 has no name for the method, and
// generators of clients do not read 3.2 yet. Renamed, the document is one of 3.2.
const QueryKey = "x-query"

// addQuery adds to the path of a calculation how it is asked with QUERY: as with POST, but
// for the tags by which a caller that holds an answer is told so.
func addQuery(document map[string]any, r *serve.Route) {
	if !r.Safe {
		return
	}
	path := serve.ContractPath(r.Path)
	post := Dig(document, "paths", path, "post")
	at := "#/paths/" + strings.NewReplacer("~", "~0", "/", "~1").Replace(path) + "/post"
	responses := map[string]any{"default": post["responses"].(map[string]any)["default"]} //nolint:forcetypeassert // made above
	query := map[string]any{
		"operationId": r.ID + "ByQuery", "tags": post["tags"], "summary": r.Summary, "x-problem-statuses": queryStatuses(r), "responses": responses,
		"requestBody": map[string]any{"$ref": at + "/requestBody"},
		"description": "As POST, with the method QUERY (RFC 10008): safe, may be repeated, and what is answered may be kept. " + queryKept(r),
	}
	parameters := parametersOf(r)
	names := slices.Concat(everyReply, limitedReply)
	names = append(names, [2]string{"Accept-Query", "AcceptQuery"}, [2]string{"Cache-Control", "CacheControl"})
	if !r.Streams {
		names = append(names, [2]string{"ETag", "ETag"})
		parameters = append(parameters, ifNoneMatchSaying("304"))
		responses["304"] = map[string]any{"description": "If-None-Match names the answer: it is still the same", "headers": referTo(names...)}
	}
	query["parameters"] = parameters
	responses["200"] = map[string]any{"description": "OK", "headers": referTo(names...), "content": withoutExamples(Dig(post, "responses", "200", "content"))}
	Dig(document, "paths", path)[QueryKey] = query
}

func queryKept(r *serve.Route) string {
	if r.Streams {
		return "The answer has no tag and is not kept: an item that was refused for want of time or room may be answered the next time."
	}
	return "The ETag is that of the question, whatever its spaces and the order of its members (RFC 8785), of the form of the answer, of the program " +
		"and of its tables; named in If-None-Match it is answered with 304 before anything is computed. An answer that the clock ended has none."
}

// queryStatuses are those of POST but for the one that tells what 304 tells here.
func queryStatuses(r *serve.Route) []int {
	var statuses []int
	for _, status := range statusesOf(r) {
		if status != http.StatusPreconditionFailed {
			statuses = append(statuses, status)
		}
	}
	return statuses
}

// withoutExamples is the content of a reply; its examples stand with POST.
func withoutExamples(content map[string]any) map[string]any {
	plain := map[string]any{}
	for media, of := range content {
		one := maps.Clone(of.(map[string]any)) //nolint:forcetypeassert // made by the reflector
		delete(one, "examples")
		plain[media] = one
	}
	return plain
}
