package contract

import (
	"reflect"
	"strings"

	"github.com/swaggest/jsonschema-go"
)

// structShape says of an object which of its members go together. It stands in the tag
// shape of a field named _, in clauses with semicolons between them:
//
//	exactly a|b+c    one of these and no more; a + joins what is given together
//	with a b         a only where b is
//	any a b c        a only where b or c is
//	never a b c      not all of these
func structShape(p jsonschema.InterceptSchemaParams) (stop bool, err error) {
	t := p.Value.Type()
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if !p.Processed || t.Kind() != reflect.Struct {
		return false, nil
	}
	blank, has := t.FieldByName("_")
	if !has {
		return false, nil
	}
	together, below := map[string][]string{}, map[string]jsonschema.Schema{}
	for clause := range strings.SplitSeq(blank.Tag.Get("shape"), ";") {
		words := strings.Fields(clause)
		switch words[0] {
		case "exactly":
			for one := range strings.SplitSeq(words[1], "|") {
				p.Schema.OneOf = append(p.Schema.OneOf, requiring(strings.Split(one, "+")...))
			}
		case "with":
			together[words[1]] = words[2:]
		case "any":
			var ways []jsonschema.SchemaOrBool
			for _, one := range words[2:] {
				ways = append(ways, requiring(one))
			}
			below[words[1]] = jsonschema.Schema{AnyOf: ways}
		case "never":
			all := requiring(words[1:]...)
			p.Schema.AllOf = append(p.Schema.AllOf, (&jsonschema.Schema{}).WithNot(all).ToSchemaOrBool())
		}
	}
	if len(together) > 0 {
		p.Schema.WithExtraPropertiesItem("dependentRequired", together)
	}
	if len(below) > 0 {
		p.Schema.WithExtraPropertiesItem("dependentSchemas", below)
	}
	return false, nil
}

func requiring(names ...string) jsonschema.SchemaOrBool {
	return (&jsonschema.Schema{}).WithRequired(names...).ToSchemaOrBool()
}
