package main

import (
	"bytes"
	"fmt"
	"go/format"
	"maps"
	"slices"
	"strings"
)

// operations are the methods of the client, one for each calculation and each look-up.
func operations(document object) ([]byte, error) {
	out := new(bytes.Buffer)
	out.WriteString("// Code generated from the contract by api/client/generate. DO NOT EDIT.\n\npackage client\n\nimport (\n\t\"context\"\n\t\"net/url\"\n)\n")
	version, _ := at(document, "info")["version"].(string)
	fmt.Fprintf(out, "\n// ContractVersion is that of the contract this client was made from.\nconst ContractVersion = %q\n", version)
	paths := at(document, "paths")
	for _, path := range slices.Sorted(maps.Keys(paths)) {
		item := at(paths, path)
		switch {
		case item["x-query"] != nil && path != "/v1/batch":
			calculation(out, path, at(item, "post"))
		case at(item, "get", "responses", "200", "content", "application/json") != nil: // a picture is fetched as any file
			lookUp(out, path, at(item, "get"))
		}
	}
	return format.Source(out.Bytes())
}

func nameOf(reference any) string {
	ref, _ := reference.(string)
	return ref[strings.LastIndexByte(ref, '/')+1:]
}

func exported(id any) string { text := fmt.Sprint(id); return strings.ToUpper(text[:1]) + text[1:] }

// said is the summary of an operation as a comment.
func said(out *bytes.Buffer, name string, operation object, path string) {
	fmt.Fprintf(out, "\n// %s: %s (%s).\n", name, operation["summary"], path)
}

func calculation(out *bytes.Buffer, path string, post object) {
	request := nameOf(at(post, "requestBody", "content", "application/json", "schema")["$ref"])
	answer := nameOf(at(post, "responses", "200", "content", "application/json", "schema")["$ref"])
	name := exported(post["operationId"])
	said(out, name, post, path)
	fmt.Fprintf(out, "func (c *Client) %s(ctx context.Context, request %s, options ...Option) (Answer[%sResult], error) {\n", name, request, strings.TrimSuffix(answer, "Answer"))
	fmt.Fprintf(out, "return Ask[%sResult](ctx, c, %q, request, options...)\n}\n", strings.TrimSuffix(answer, "Answer"), path)
}

func lookUp(out *bytes.Buffer, path string, get object) {
	answer := nameOf(at(get, "responses", "200", "content", "application/json", "schema")["$ref"])
	name := exported(get["operationId"])
	before, after, has := strings.Cut(path, "{")
	where, arguments := fmt.Sprintf("%q", path), ""
	if has {
		word, rest, _ := strings.Cut(after, "}")
		if where, arguments = fmt.Sprintf("%q + url.PathEscape(%s)", before, word), ", "+word+" string"; rest != "" {
			where += fmt.Sprintf(" + %q", rest)
		}
	}
	said(out, name, get, path)
	parameters, _ := get["parameters"].([]any)
	for _, one := range parameters {
		parameter := at(object{"one": one}, "one")
		if parameter["in"] == "query" {
			fmt.Fprintf(out, "// With(%q, ...): %s.\n", parameter["name"], strings.ReplaceAll(fmt.Sprint(parameter["description"]), "\n", " "))
		}
	}
	fmt.Fprintf(out, "func (c *Client) %s(ctx context.Context%s, options ...Option) (%s, error) {\n", name, arguments, answer)
	fmt.Fprintf(out, "return look[%s](ctx, c, %s, options)\n}\n", answer, where)
}
