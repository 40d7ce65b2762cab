package contract

import (
	"net/http"
	"slices"

	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

// contractHeaders are the headers of replies, by the name the contract refers
// to them with.
func contractHeaders() map[string]any {
	return map[string]any{
		"Allow":                    headerOf("the methods the path answers", map[string]any{"type": "string", "examples": []any{"GET, HEAD"}}),
		"AccessControlAllowOrigin": headerOf("the origin that asked, if the service lets pages of it read the reply", map[string]any{"type": "string", "format": "uri"}),
		"AcceptQuery":              headerOf("the media types that the path takes with QUERY, a list of structured fields (RFC 10008)", map[string]any{"type": "string", "pattern": "^application/json"}),
		"CacheControl":             headerOf("who may keep the answer, and for how long", map[string]any{"type": "string", "examples": []any{"public, max-age=3600"}}),
		"Deprecation":              headerOf("since when there is something better than this path (RFC 9745); Link names it. Left out: it stays", map[string]any{"type": "string", "pattern": "^@[0-9]+$"}),
		"Sunset":                   headerOf("when this path may be gone (RFC 8594). Left out: it stays", map[string]any{"type": "string", "maxLength": 40}),
		"ETag":                     headerOf("tag of this answer, for If-None-Match; that of its compressed bytes ends in -gzip", map[string]any{"type": "string", "pattern": `^"[0-9a-f]{24}(-gzip)?"$`}),
		"RateLimit":                headerOf("what is left to the caller: r units, more of them in t seconds; left out when there is no limit", map[string]any{"type": "string", "pattern": `^"caller";r=[0-9]+;t=[0-9]+$`}),
		"RateLimitPolicy":          headerOf("what is allowed: q units, of the kind that qu names, in w seconds; GET /v1/limits tells what they are; left out when there is no limit", map[string]any{"type": "string", "pattern": `^"caller";q=[0-9]+;qu="units";w=[0-9]+$`}),
		"RequestID":                headerOf("id of the request, also in the log; the caller's own if it sent one", map[string]any{"type": "string", "pattern": "^[A-Za-z0-9._-]{1,64}$"}),
		"RetryAfter":               headerOf("seconds to wait", map[string]any{"type": "integer", "minimum": 1, "maximum": 3600}),
		"WWWAuthenticate":          headerOf("the scheme to use and what was wrong (RFC 6750)", map[string]any{"type": "string", "pattern": "^Bearer "}),
	}
}

func headerOf(description string, schema map[string]any) any {
	return map[string]any{"description": description, "schema": schema}
}

// referTo lists headers of one reply: name in HTTP, name in the contract.
func referTo(names ...[2]string) map[string]any {
	headers := map[string]any{}
	for _, n := range names {
		headers[n[0]] = map[string]any{"$ref": "#/components/headers/" + n[1]}
	}
	return headers
}

var (
	everyReply   = [][2]string{{"Deprecation", "Deprecation"}, {"Sunset", "Sunset"}, {"X-Request-Id", "RequestID"}, {"Access-Control-Allow-Origin", "AccessControlAllowOrigin"}}
	limitedReply = [][2]string{{"RateLimit", "RateLimit"}, {"RateLimit-Policy", "RateLimitPolicy"}}
	// problemReply come with the problems that they belong to.
	problemReply = [][2]string{{"WWW-Authenticate", "WWWAuthenticate"}, {"Allow", "Allow"}, {"Retry-After", "RetryAfter"}, {"Accept-Query", "AcceptQuery"}}
)

// headersOfProblems are those that a problem may come with.
func headersOfProblems() map[string]any {
	return referTo(slices.Concat(everyReply, limitedReply, problemReply)...)
}

// addSuccessHeaders says which headers come with the answer of a route, and that
// a caller who holds the answer of a look-up is told so.
func addSuccessHeaders(responses map[string]any, r *serve.Route) {
	names := slices.Clone(everyReply)
	if r.Open != serve.ToProbes {
		names = append(names, limitedReply...)
	}
	_, isTagged := r.Handler.(serve.TaggedWork)
	held := held(r)
	_, isVersion := r.Result.(wire.Tagged)
	if isTagged || held || isVersion {
		names = append(names, [2]string{"ETag", "ETag"})
	}
	if held {
		names = append(names, [2]string{"Cache-Control", "CacheControl"})
	}
	if r.Safe {
		names = append(names, [2]string{"Accept-Query", "AcceptQuery"})
	}
	Dig(responses, "200")["headers"] = referTo(names...)
	if held {
		responses["304"] = map[string]any{"description": "If-None-Match names the answer: it is still the same", "headers": referTo(names...)}
	}
}

// held reports an answer that a caller may hold and ask whether it is still right. What goes
// on while it is looked at is none.
func held(r *serve.Route) bool {
	return r.Method == http.MethodGet && r.Open != serve.ToProbes && !slices.Contains(r.Forms, serve.EventsForm)
}

// ifNoneMatch is the header parameter of what can say that an answer is still the same.
func ifNoneMatch(r *serve.Route) []any {
	says := "304"
	if _, isTagged := r.Handler.(serve.TaggedWork); isTagged {
		says = "412"
	} else if !held(r) {
		return nil
	}
	return []any{ifNoneMatchSaying(says)}
}

// ifNoneMatchSaying is the parameter with the status that says that an answer is still the same.
func ifNoneMatchSaying(status string) any {
	return map[string]any{
		"name": "If-None-Match", "in": "header", "description": "tags of answers that the caller holds; when one is still right the reply is " + status,
		"schema": map[string]any{"type": "string", "maxLength": 1000},
	}
}
