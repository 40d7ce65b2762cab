// Command generate writes what the generator of the types reads, and the methods of the
// client: the contract said in fewer words, without what only limits what may be sent.
//
//	go run ./api/client/generate TYPES.yaml OPERATIONS.go
package main

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"latewood/openapi"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "generate TYPES.yaml OPERATIONS.go")
		os.Exit(2)
	}
	if err := generate(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(1)
	}
}

func generate(types, methods string) error {
	var document object
	if err := yaml.Unmarshal(openapi.YAML(), &document); err != nil {
		return err
	}
	source, err := operations(document)
	if err != nil {
		return err
	}
	if err := os.WriteFile(methods, source, 0o644); err != nil { //nolint:gosec // where its caller says
		return err
	}
	text, err := yaml.Marshal(typesOnly(document))
	if err != nil {
		return err
	}
	return os.WriteFile(types, text, 0o644) //nolint:gosec // as above
}

type object = map[string]any

func at(from any, path ...string) object {
	for _, name := range path {
		node, _ := from.(object)
		from = node[name]
	}
	node, _ := from.(object)
	return node
}

// typesOnly is the document with nothing but schemas, each of which is one type of Go.
func typesOnly(document object) object {
	schemas := at(document, "components", "schemas")
	p := &plainer{schemas: schemas, texts: map[string]bool{}}
	for _, name := range slices.Sorted(maps.Keys(schemas)) {
		if byHand(name, at(schemas, name)) {
			delete(schemas, name)
		}
	}
	schemas["Quantity"] = object{"x-go-type": "Amount", "description": at(schemas, "Quantity")["description"]}
	for _, name := range slices.Sorted(maps.Keys(schemas)) {
		p.shape(name)
	}
	for _, name := range slices.Sorted(maps.Keys(schemas)) {
		p.plain(schemas[name])
	}
	for name := range p.texts {
		delete(schemas, name)
	}
	return object{"openapi": "3.0.3", "info": document["info"], "paths": object{}, "components": object{"schemas": schemas}}
}

// byHand reports a schema that client.go has a type of its own for: the envelope of an
// answer, which is the same around every result, and the items of a batch.
func byHand(name string, schema object) bool {
	_, enveloped := at(schema, "properties")["basis"]
	return enveloped || slices.Contains([]string{"BatchRequest", "BatchResult"}, name) || strings.HasSuffix(name, "Item") || strings.HasSuffix(name, "ItemAnswer")
}

// plainer says schemas in fewer words.
type plainer struct {
	schemas object
	texts   map[string]bool // schemas that are a plain text
}

// shape turns what is one of several forms into one type: a text or an object, a quantity,
// or an object with the members of all forms.
func (p *plainer) shape(name string) {
	schema := at(p.schemas, name)
	if schema["enum"] != nil {
		p.texts[name] = true
		return
	}
	forms, _ := schema["oneOf"].([]any)
	if schema["type"] == "object" || len(forms) == 0 {
		return
	}
	last, _ := forms[len(forms)-1].(object)
	switch {
	case at(last, "properties")["unit"] != nil:
		p.schemas[name] = object{"x-go-type": "Quantity", "description": schema["description"]}
	case last["type"] == "object":
		p.schemas[name+"Object"] = last
		p.schemas[name] = object{"x-go-type": "TextOr[" + name + "Object]", "description": schema["description"]}
	default:
		p.schemas[name] = p.merged(schema, forms)
	}
}

// merged is an object with the members of all its forms, of which those that all have are
// required.
func (p *plainer) merged(schema object, forms []any) object {
	properties, required := object{}, map[string]int{}
	for _, form := range forms {
		ref, _ := at(object{"form": form}, "form")["$ref"].(string)
		one := at(p.schemas, nameOf(ref))
		for member, is := range at(one, "properties") {
			properties[member] = is
		}
		names, _ := one["required"].([]any)
		for _, member := range names {
			required[fmt.Sprint(member)]++
		}
	}
	var always []any
	for _, member := range slices.Sorted(maps.Keys(required)) {
		if required[member] == len(forms) {
			always = append(always, member)
		}
	}
	whole := object{"type": "object", "description": schema["description"], "properties": properties}
	if always != nil {
		whole["required"] = always
	}
	return whole
}

// idle are the words of a schema that make no other type.
var idle = []string{"oneOf", "anyOf", "allOf", "dependentRequired", "dependentSchemas", "additionalProperties", "examples", "discriminator",
	"minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "minLength", "maxLength", "minItems", "maxItems", "pattern", "default", "const"}

// plain takes from a schema, and all below it, what makes no other type.
func (p *plainer) plain(node any) {
	switch n := node.(type) {
	case []any:
		for _, one := range n {
			p.plain(one)
		}
	case object:
		p.text(n)
		for _, word := range idle {
			if free, is := n["additionalProperties"].(object); word == "additionalProperties" && is && len(free) > 0 {
				continue // a map
			}
			delete(n, word)
		}
		if format := n["format"]; format != "double" {
			delete(n, "format")
		}
		members := at(n, "properties")
		inOrder(members)
		for name := range members {
			p.optional(at(members, name), name)
		}
		for name, child := range n {
			if name == "properties" {
				for _, member := range members {
					p.plain(member)
				}
			} else {
				p.plain(child)
			}
		}
	}
}

// text makes a plain text of a list of words, which stand in its description.
func (p *plainer) text(n object) {
	words := p.wordsOf(n)
	if ref, _ := n["$ref"].(string); p.texts[nameOf(ref)] {
		delete(n, "$ref")
		n["type"] = "string"
	}
	if len(words) == 0 {
		return
	}
	delete(n, "enum")
	if len(words) > 1 {
		say(n, "One of: "+listed(words))
	}
}

// say adds a line to the description of a schema.
func say(n object, line string) {
	said, _ := n["description"].(string)
	n["description"] = strings.TrimSpace(said + "\n" + line)
}

// listed are words with commas between.
func listed(words []any) string {
	return strings.Trim(strings.ReplaceAll(fmt.Sprint(words), " ", ", "), "[]")
}

// wordsOf are the words that a schema is one of, by itself or by its name.
func (p *plainer) wordsOf(n object) []any {
	if ref, is := n["$ref"].(string); is {
		n = at(p.schemas, nameOf(ref))
	}
	words, _ := n["enum"].([]any)
	return words
}

// order is the place of members that are read together; others stand in the order of their names.
var order = []string{"value", "low", "high", "unit"}

// inOrder says in which order members stand where they are read together.
func inOrder(members object) {
	if members["value"] == nil && members["low"] == nil {
		return
	}
	for i, name := range order {
		if member := at(members, name); member != nil {
			member["x-order"] = i - len(order)
		}
	}
}

// optional says how a member is left out: what is empty without being something is, and
// so needs no pointer.
func (p *plainer) optional(member object, name string) {
	ref, _ := member["$ref"].(string)
	name, of := strings.ToLower(name), nameOf(ref)
	if name == "pointer" {
		member["x-go-type"] = "Pointer"
	}
	goType, _ := at(p.schemas, of)["x-go-type"].(string)
	if items := at(member, "items"); items != nil {
		if words := p.wordsOf(items); len(words) > 1 {
			say(member, "Each is one of: "+listed(words))
		}
	}
	switch {
	case goType != "":
		delete(member, "$ref")
		member["x-go-type"], member["x-omitzero"], member["x-go-type-skip-optional-pointer"] = of, true, true
		member["type"] = "string"
	case ref != "" && !p.texts[of]: // what is said beside a reference is passed over
		delete(member, "$ref")
		member["x-go-type"], member["type"] = of, "object"
	case member["type"] == "array" || member["type"] == "string" || member["type"] == "boolean" || p.texts[of]:
		member["x-go-type-skip-optional-pointer"] = true
	}
}
