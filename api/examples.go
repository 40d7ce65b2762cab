package api

import (
	"io/fs"
	"net/http"
	"path"
	"strings"
)

type example struct {
	name, summary, path string
	body                []byte
}

// examplesOf returns the examples of a route: the files of a calculation, or
// the plain path of a look-up. They are shown in the contract with the replies they
// get, and the tests ask each of them.
func examplesOf(files fs.FS, r *route) []example {
	if r.request == nil {
		return []example{{name: "example", summary: r.summary, path: examplePath(r)}}
	}
	names, err := fs.Glob(files, r.id+".*.json")
	if err != nil {
		return nil
	}
	var all []example
	for _, file := range names {
		body, err := fs.ReadFile(files, file)
		if err != nil {
			continue
		}
		name := strings.TrimSuffix(strings.TrimPrefix(path.Base(file), r.id+"."), ".json")
		all = append(all, example{name: name, summary: strings.ReplaceAll(name, "-", " "), path: r.path, body: body})
	}
	return all
}

// examplePath is a path of a look-up that answers, with the parameters filled.
func examplePath(r *route) string {
	p := r.path
	for _, fill := range [][2]string{{"/v1/species/:id", "/v1/species/maple-sugar"}, {"/v1/stations/:id", "/v1/stations/madison-wi"}, {"/v1/plates/:id", "/v1/plates/cl_top"}, {"/problems/:kind", "/problems/invalid"}} {
		if p == fill[0] {
			return fill[1]
		}
	}
	if r.method == http.MethodGet && r.tag == "tables" && len(r.query) > 0 {
		if r.id == "listMethods" {
			return p + "?chapter=sorption&limit=1"
		}
		return p + "?limit=2"
	}
	return p
}
