package contract

import (
	"io/fs"
	"net/http"
	"path"
	"slices"
	"strings"

	"latewood/api/internal/serve"
)

// Example is a request that is shown with the reply it gets.
type Example struct {
	Name, summary, Path string
	Body                []byte
	Headers             []string // name, value, name, value
}

// ExamplesOf returns the examples of a route: the files of a calculation, or
// the plain path of a look-up. They are shown in the contract with the replies they
// get, and the tests ask each of them.
func ExamplesOf(files fs.FS, r *serve.Route) []Example {
	if r.Request == nil && !r.Patches() {
		return []Example{{Name: "example", summary: r.Summary, Path: examplePath(r), Headers: exampleHeaders(r)}}
	}
	route := path.Base(r.Path)
	if r.Keeps { // several operations on one path
		route = r.ID
	}
	names, err := fs.Glob(files, route+".*.json")
	if err != nil {
		return nil
	}
	var all []Example
	for _, file := range names {
		body, err := fs.ReadFile(files, file)
		if err != nil {
			continue
		}
		name := strings.TrimSuffix(strings.TrimPrefix(path.Base(file), route+"."), ".json")
		all = append(all, Example{Name: name, summary: strings.ReplaceAll(name, "-", " "), Path: examplePath(r), Body: body, Headers: exampleHeaders(r)})
	}
	return all
}

// examplePath is a path of a look-up that answers, with the parameters filled.
func examplePath(r *serve.Route) string {
	p := r.Path
	if r.Keeps {
		return keptPath(r)
	}
	for _, fill := range [][2]string{{"/v1/species/:id", "/v1/species/maple-sugar"}, {"/v1/stations/:id", "/v1/stations/madison-wi"}, {"/v1/part-sizes/:id", "/v1/part-sizes/classical-guitar-top"}, {"/problems/:kind", "/problems/invalid"}} {
		if p == fill[0] {
			return fill[1]
		}
	}
	if r.Method == http.MethodGet && r.Tag == "tables" && len(r.Query) > 0 {
		if r.ID == "listMethods" {
			return p + "?chapter=sorption&limit=1"
		}
		return p + "?limit=2"
	}
	return p
}

// exampleHeaders are those that a request about what is kept cannot do without.
func exampleHeaders(r *serve.Route) []string {
	if r.Patches() {
		return []string{"Content-Type", serve.MergePatch, "If-Match", "*"}
	}
	for _, h := range serve.KeptHeaders(r) {
		if h.Required {
			return []string{h.Name, "*"}
		}
	}
	return nil
}

// keptPath is a path of the rack on which the examples are asked: what is removed, undone
// or replaced is another entry than what is looked at.
func keptPath(r *serve.Route) string {
	if !strings.Contains(r.Path, ":id") {
		if slices.ContainsFunc(r.Query, func(p serve.Parameter) bool { return p.Name == "wait_seconds" }) {
			return r.Path + "?wait_seconds=20" // the example is of an answer that is there
		}
		return r.Path
	}
	number := "1"
	switch {
	case r.Method == http.MethodPut, r.Patches():
		number = "2"
	case r.Once:
		number = "5"
	case r.Method == http.MethodDelete:
		number = "3"
	case strings.HasPrefix(r.ID, "undo"):
		number = "4"
	}
	all := strings.Split(r.Path, "/")
	return strings.Replace(r.Path, ":id", strings.TrimSuffix(all[3], "s")+"-"+number, 1)
}
