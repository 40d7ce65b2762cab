package main

import (
	"bytes"
	"strings"
)

// batchPath is the path of many questions at once.
const batchPath = "/v1/batch"

// target is the new form of what a request is sent to.
func (t *table) target(old string) string {
	path, query, asked := strings.Cut(old, "?")
	for from, to := range t.paths {
		rest, is := strings.CutPrefix(path, from)
		if !is || rest != "" && rest[0] != '/' {
			continue
		}
		if _, deeper := t.paths[path]; deeper && rest != "" {
			continue // /v1/resaw/timing is no entry of /v1/resaw
		}
		if id, known := t.ids[strings.TrimPrefix(rest, "/")]; known {
			rest = "/" + id
		}
		path = to + rest
		break
	}
	if asked {
		return path + "?" + query
	}
	return path
}

// request is the new form of a body that was sent to an old path. What is not one JSON
// value, or needs no change, is given back as it is.
func (t *table) request(path string, body []byte, write func(*node) []byte) []byte {
	top, err := parse(body)
	if err != nil {
		return body
	}
	old := top.line(nil)
	t.change(strings.SplitN(path, "?", 2)[0], top)
	if bytes.Equal(old, top.line(nil)) {
		return body
	}
	return write(top)
}

// lines is the new form of a stream of items, one on each line.
func (t *table) lines(text []byte) []byte {
	var out []byte
	for line := range bytes.Lines(text) {
		bare := bytes.TrimSpace(line)
		if top, err := parse(bare); err == nil && len(bare) > 0 {
			t.changeItem(top)
			out = append(top.line(out), '\n')
		} else {
			out = append(out, line...)
		}
	}
	return out
}

// change turns a request of an old path into the new language.
func (t *table) change(path string, top *node) {
	if path == batchPath {
		if items := top.get("items"); items != nil {
			for _, item := range items.items {
				t.changeItem(item)
			}
		}
		return
	}
	for i := range t.rules {
		if r := &t.rules[i]; r.goesFor(path) {
			t.apply(r, top)
		}
	}
	for _, s := range shapes {
		for _, route := range s.routes {
			if "/v1/"+route == path {
				s.change(top)
			}
		}
	}
}

// changeItem turns one item of a batch.
func (t *table) changeItem(item *node) {
	route := item.get("route")
	path, is := route.string()
	if !is {
		return
	}
	if request := item.get("request"); request != nil && path != batchPath {
		t.change(path, request)
	}
	*route = *plain(t.target(path))
}
