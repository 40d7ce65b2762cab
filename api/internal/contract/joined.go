package contract

import (
	"reflect"

	"github.com/swaggest/jsonschema-go"

	"latewood/api/internal/wire"
)

// joinedSchema says of an object which of its members go together.
func joinedSchema(p jsonschema.InterceptSchemaParams) (stop bool, err error) {
	t := wire.Pointed(p.Value.Type())
	if !p.Processed || t.Kind() != reflect.Struct {
		return false, nil
	}
	joins, is := reflect.New(t).Interface().(wire.Joins)
	if !is {
		return false, nil
	}
	joined := joins.Joins()
	if len(joined.OneOf) == 1 { // no choice
		p.Schema.Required = append(p.Schema.Required, joined.OneOf[0]...)
		joined.OneOf = nil
	}
	for _, set := range joined.OneOf {
		p.Schema.OneOf = append(p.Schema.OneOf, required(set...))
	}
	for _, set := range joined.AnyOf {
		p.Schema.AnyOf = append(p.Schema.AnyOf, required(set...))
	}
	for _, set := range joined.NotAll {
		p.Schema.AllOf = append(p.Schema.AllOf, (&jsonschema.Schema{}).WithNot(required(set...)).ToSchemaOrBool())
	}
	if len(joined.Needs) > 0 {
		p.Schema.WithExtraPropertiesItem("dependentRequired", joined.Needs)
	}
	if len(joined.NeedsAny) > 0 {
		below := map[string]any{}
		for name, choices := range joined.NeedsAny {
			var sets []map[string]any
			for _, one := range choices {
				sets = append(sets, map[string]any{"required": []string{one}})
			}
			below[name] = map[string]any{"anyOf": sets}
		}
		p.Schema.WithExtraPropertiesItem("dependentSchemas", below)
	}
	return false, nil
}

func required(names ...string) jsonschema.SchemaOrBool {
	return (&jsonschema.Schema{}).WithRequired(names...).ToSchemaOrBool()
}
