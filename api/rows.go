package api

import (
	"net/http"
	"slices"

	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

// question is the row of a calculation, which knows its own types. forms are those of
// the answer besides JSON.
func question(path, id string, w serve.Work, forms ...wire.Form) serve.Route {
	r := worded(serve.Route{Method: http.MethodPost, Path: path, ID: id, Tag: "calculations", Forms: forms, Safe: true, Handler: w})
	r.Request, r.Result, r.Heavy = w.Types()
	return r
}

// questions is the row of many calculations in one request or one after the other.
func questions(path, id string, request, result any, answer serve.Plain, forms ...wire.Form) serve.Route {
	return worded(serve.Route{Method: http.MethodPost, Path: path, ID: id, Tag: "calculations",
		Request: request, Result: result, Forms: forms, Streams: true, Safe: true, Handler: answer})
}

// list is the row of a table that is read page by page.
func list(path, id string, result any, answer serve.Plain, query ...serve.Parameter) serve.Route {
	return entry(path, id, result, answer, slices.Concat(query, serve.Paging)...)
}

// entry is the row of one entry of a table.
func entry(path, id string, result any, answer serve.Plain, query ...serve.Parameter) serve.Route {
	return worded(serve.Route{Method: http.MethodGet, Path: path, ID: id, Tag: "tables", Query: query, Result: result, Handler: answer})
}

// about is the row of something that is told of the service itself.
func about(path, id string, result any, open serve.Openness, answer serve.Plain) serve.Route {
	return worded(serve.Route{Method: http.MethodGet, Path: path, ID: id, Tag: "service", Result: result, Open: open, Handler: answer})
}

// asset is the row of what is served as it is.
func asset(path string, open serve.Openness, answer serve.Plain) serve.Route {
	return serve.Route{Method: http.MethodGet, Path: path, Asset: true, Open: open, Handler: answer}
}

// worded adds the words of the operation to its row.
func worded(r serve.Route) serve.Route {
	r.Summary, r.Description = words[r.ID].summary, words[r.ID].description
	return r
}
