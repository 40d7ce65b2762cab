package contract

import (
	"maps"
	"strings"

	"latewood/api/internal/serve"
)

// typeBatch says of the items of a batch which request goes with which route, and of the
// answers which answer: one schema for each route, told apart by its path.
func (c *Source) typeBatch(document map[string]any) {
	schemas := Dig(document, "components", "schemas")
	var items, answers oneOfRoutes
	for i := range c.Routes {
		r := &c.Routes[i]
		if work, is := r.Handler.(serve.Work); !is || work == nil {
			continue
		}
		request := schemaOf(document, r, "requestBody", "content")
		name := nameOf(request)
		items.add(schemas, "BatchItem", name+"Item", r.Path, "request", request)
		answers.add(schemas, "BatchItemAnswer", name+"ItemAnswer", r.Path, "answer", schemaOf(document, r, "responses", "200", "content"))
	}
	answers.add(schemas, "BatchItemAnswer", "RefusedItemAnswer", serve.NoRoute, "answer", nil)
	schemas["BatchItem"], schemas["BatchItemAnswer"] = items.schema(), answers.schema()
	delete(schemas, "AnyAnswer") // each has its own
	c.typeLines(document)
}

// eachLine is what says of lines of JSON what each of them is: OpenAPI 3.1 has no word for it,
// and 3.2 calls it itemSchema.
const eachLine = "x-itemSchema"

// typeLines says what each line of a stream is: an item, and its answer.
func (c *Source) typeLines(document map[string]any) {
	for i := range c.Routes {
		r := &c.Routes[i]
		if !r.Streams {
			continue
		}
		operation := Dig(document, "paths", serve.ContractPath(r.Path), strings.ToLower(r.Method))
		for name, content := range map[string]map[string]any{
			"BatchItem":       Dig(operation, "requestBody", "content", serve.LinesForm.Media),
			"BatchItemAnswer": Dig(operation, "responses", "200", "content", serve.LinesForm.Media),
		} {
			content[eachLine] = map[string]any{"$ref": "#/components/schemas/" + name}
		}
	}
}

// schemaOf is the reference to the schema of the body of a route.
func schemaOf(document map[string]any, r *serve.Route, at ...string) any {
	operation := Dig(document, "paths", serve.ContractPath(r.Path), strings.ToLower(r.Method))
	return Dig(operation, append(at, "application/json")...)["schema"]
}

// nameOf is what a request is called, without that it is one.
func nameOf(reference any) string {
	ref, _ := reference.(map[string]any)["$ref"].(string)
	return strings.TrimSuffix(ref[strings.LastIndexByte(ref, '/')+1:], "Request")
}

// oneOfRoutes is one of several schemas, told apart by the member route.
type oneOfRoutes struct {
	forms   []any
	mapping map[string]any
}

// add adds the schema of one route under a name: that of the plain schema, with the path of
// the route, and with the schema of its own of a member; without that one where it is nil.
func (o *oneOfRoutes) add(schemas map[string]any, plain, name, path, member string, own any) {
	from := Dig(schemas, plain)
	properties := map[string]any{}
	for key, is := range Dig(from, "properties") {
		properties[key] = is
	}
	properties["route"] = map[string]any{"type": "string", "enum": []any{path}, "description": "the path of the calculation"}
	if own == nil {
		delete(properties, member)
	} else {
		properties[member] = described(own, Dig(from, "properties", member)["description"])
	}
	schema := map[string]any{"type": "object", "properties": properties, "required": from["required"]}
	schemas[name] = schema
	ref := "#/components/schemas/" + name
	if o.mapping == nil {
		o.mapping = map[string]any{}
	}
	o.forms, o.mapping[path] = append(o.forms, map[string]any{"$ref": ref}), ref
}

// described is a reference with a description beside it.
func described(reference, description any) map[string]any {
	out := map[string]any{"description": description}
	maps.Copy(out, reference.(map[string]any)) //nolint:forcetypeassert // the reflector refers to every request and answer
	return out
}

func (o *oneOfRoutes) schema() any {
	return map[string]any{"oneOf": o.forms, "discriminator": map[string]any{"propertyName": "route", "mapping": o.mapping}}
}
