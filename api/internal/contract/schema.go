package contract

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/swaggest/jsonschema-go"
	"github.com/swaggest/openapi-go/openapi31"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// describeTypes teaches the reflector the project's types: quantities in both
// forms and bounds from validate tags.
func describeTypes(r *openapi31.Reflector) {
	r.DefaultOptions = append(r.DefaultOptions,
		jsonschema.InterceptDefName(func(t reflect.Type, _ string) string { return typeName(t) }),
		jsonschema.InterceptSchema(quantitySchema),
		jsonschema.InterceptSchema(oneOfSchema),
		jsonschema.InterceptSchema(joinedSchema),
		jsonschema.InterceptSchema(spelledSchema),
		jsonschema.InterceptSchema(resolutionSchema),
		jsonschema.InterceptProp(boundsFromValidation),
	)
}

// neverNull takes null out of every type: the reflector allows it for what may
// be left out, the decoder does not.
func neverNull(node any) {
	switch n := node.(type) {
	case []any:
		for _, item := range n {
			neverNull(item)
		}
	case map[string]any:
		switch kinds := n["type"].(type) {
		case string:
			if kinds == "null" {
				delete(n, "type")
			}
		case []any:
			kinds = slices.DeleteFunc(kinds, func(k any) bool { return k == "null" })
			n["type"] = kinds
			if len(kinds) == 1 {
				n["type"] = kinds[0]
			}
		}
		for _, child := range n {
			neverNull(child)
		}
	}
}

// quantitySchema describes a quantity on input: text or value and unit.
func quantitySchema(p jsonschema.InterceptSchemaParams) (stop bool, err error) {
	if p.Processed {
		return false, nil
	}
	t := wire.Pointed(p.Value.Type())
	var d quantity.Dimension
	var example string
	switch t {
	case reflect.TypeFor[wire.Length]():
		d, example = quantity.DimensionLength, "2 1/16 in"
	case reflect.TypeFor[wire.Temperature]():
		d, example = quantity.DimensionTemperature, "21 C"
	case reflect.TypeFor[wire.Mass]():
		d, example = quantity.DimensionMass, "3.2 lb"
	case reflect.TypeFor[wire.Pressure]():
		d, example = quantity.DimensionPressure, "1013 hPa"
	case reflect.TypeFor[wire.Stiffness]():
		d, example = quantity.DimensionStiffness, "11000 MPa"
	default:
		return false, nil
	}
	units := make([]any, 0, len(quantity.Units(d)))
	for _, u := range quantity.Units(d) {
		units = append(units, u)
	}
	text := (&jsonschema.Schema{}).WithType(jsonschema.String.Type()).WithMaxLength(64).WithExamples(example).
		WithDescription("number and unit, such as " + example)
	value := (&jsonschema.Schema{}).WithType(jsonschema.Number.Type()).WithDescription("in the unit beside it")
	unit := (&jsonschema.Schema{}).WithType(jsonschema.String.Type()).WithEnum(units...).WithDescription("its symbol; common other spellings are taken too")
	pair := (&jsonschema.Schema{}).WithType(jsonschema.Object.Type()).WithRequired("value", "unit").
		WithProperties(map[string]jsonschema.SchemaOrBool{"value": value.ToSchemaOrBool(), "unit": unit.ToSchemaOrBool()})
	no := false
	pair.AdditionalProperties = &jsonschema.SchemaOrBool{TypeBoolean: &no}
	p.Schema.WithOneOf(text.ToSchemaOrBool(), pair.ToSchemaOrBool())
	p.Schema.WithDescription("a " + string(d) + " with its unit")
	return true, nil
}

// oneOfSchema describes an object of one of several forms: nothing but which those are.
func oneOfSchema(p jsonschema.InterceptSchemaParams) (stop bool, err error) {
	t := wire.Pointed(p.Value.Type())
	if !p.Processed || !reflect.PointerTo(t).Implements(reflect.TypeFor[wire.Formed]()) {
		return false, nil
	}
	*p.Schema = jsonschema.Schema{OneOf: p.Schema.OneOf, Description: p.Schema.Description}
	return false, nil
}

// longestSpelled is the longest text that stands for an object.
const longestSpelled = 100

// spelledSchema describes an object that may also be given as a text.
func spelledSchema(p jsonschema.InterceptSchemaParams) (stop bool, err error) {
	t := wire.Pointed(p.Value.Type())
	if !p.Processed || !reflect.PointerTo(t).Implements(reflect.TypeFor[wire.Spelled]()) {
		return false, nil
	}
	object := *p.Schema
	text := (&jsonschema.Schema{}).WithType(jsonschema.String.Type()).WithMaxLength(longestSpelled)
	if chosen, is := reflect.New(t).Interface().(wire.Spelling); is {
		names := make([]any, 0, len(chosen.Spellings()))
		for _, name := range chosen.Spellings() {
			names = append(names, name)
		}
		text = (&jsonschema.Schema{}).WithType(jsonschema.String.Type()).WithEnum(names...)
	}
	*p.Schema = *(&jsonschema.Schema{}).WithOneOf(text.ToSchemaOrBool(), object.ToSchemaOrBool())
	return false, nil
}

// resolutionSchema says how fine the numbers of an answer are written.
func resolutionSchema(p jsonschema.InterceptSchemaParams) (stop bool, err error) {
	t := wire.Pointed(p.Value.Type())
	if !p.Processed || t.Kind() != reflect.Struct {
		return false, nil
	}
	for name, told := range wire.ResolutionsOf(t) {
		property, there := p.Schema.Properties[name]
		if !there || property.TypeObject == nil || told == "" {
			continue
		}
		var step any = told
		if number, err := strconv.ParseFloat(told, 64); err == nil {
			step = number
		}
		property.TypeObject.WithExtraPropertiesItem("x-resolution", step)
	}
	return false, nil
}

// boundsFromValidation turns the validate tag of a member into schema bounds.
func boundsFromValidation(p jsonschema.InterceptPropParams) error {
	if !p.Processed {
		return nil
	}
	needs(p.PropertySchema, p.Field.Tag.Get("needs"))
	tag := p.Field.Tag.Get("validate")
	if tag == "" {
		return nil
	}
	t := wire.Pointed(p.Field.Type)
	var words []string
	s := p.PropertySchema
	for rule := range strings.SplitSeq(tag, ",") {
		name, param, _ := strings.Cut(rule, "=")
		if name == "dive" { // the rest is of the entries
			t = wire.Pointed(t.Elem())
			s = itemsOf(s)
			continue
		}
		if name == "required" {
			p.ParentSchema.Required = append(p.ParentSchema.Required, p.Name)
			continue
		}
		if word := applyRule(s, t, name, param); word != "" {
			words = append(words, word)
		}
	}
	if len(words) > 0 {
		text := strings.Join(words, ", ")
		if d := p.PropertySchema.Description; d != nil {
			text = *d + "; " + text
		}
		p.PropertySchema.WithDescription(text)
	}
	return nil
}

// itemsOf is the schema of the entries of a list; of what is none, its own.
func itemsOf(s *jsonschema.Schema) *jsonschema.Schema {
	if s.Items != nil && s.Items.SchemaOrBool != nil && s.Items.SchemaOrBool.TypeObject != nil {
		return s.Items.SchemaOrBool.TypeObject
	}
	return s
}

// needs adds what a route cannot do without of a shared object, or of each of a list.
func needs(s *jsonschema.Schema, names string) {
	if names == "" {
		return
	}
	s = itemsOf(s)
	for _, name := range strings.Fields(names) {
		choices := strings.Split(name, "|")
		if len(choices) == 1 {
			s.Required = append(s.Required, name)
			continue
		}
		var one jsonschema.Schema
		for _, choice := range choices {
			one.AnyOf = append(one.AnyOf, required(choice))
		}
		s.AllOf = append(s.AllOf, one.ToSchemaOrBool())
	}
}

// applyRule applies one validation rule; what a schema cannot say, such as a
// bound on a quantity in any unit, comes back as words.
func applyRule(s *jsonschema.Schema, t reflect.Type, name, param string) (words string) {
	bound, _ := strconv.ParseFloat(param, 64) // rules without a number ignore it
	count := int64(bound)
	if text := quantityBound(t, name, bound); text != "" {
		return text
	}
	switch t.Kind() {
	case reflect.Slice:
		switch name {
		case "min":
			s.WithMinItems(count)
		case "max":
			s.WithMaxItems(count)
		}
	case reflect.String:
		switch name {
		case "min":
			s.WithMinLength(count)
		case "max":
			s.WithMaxLength(count)
		case "oneof":
			var values []any
			for _, v := range strings.Fields(param) {
				values = append(values, v)
			}
			s.WithEnum(values...)
		case "datetime":
			s.WithFormat("date")
		case "id":
			s.WithPattern(wire.IDPattern)
		}
	default:
		switch name {
		case "gte", "min":
			s.WithMinimum(bound)
		case "lte", "max":
			s.WithMaximum(bound)
		case "gt":
			s.WithExclusiveMinimum(bound)
		case "lt":
			s.WithExclusiveMaximum(bound)
		case "eq":
			s.WithEnum(param == "true") // of a member that is true where it stands at all
		}
	}
	return ""
}

func quantityBound(t reflect.Type, rule string, bound float64) string {
	var text string
	switch t {
	case reflect.TypeFor[wire.Length]():
		if text = quantity.Length(bound).Format("mm"); bound >= 5 || bound <= -5 {
			text = quantity.Length(bound).Format("m")
		}
	case reflect.TypeFor[wire.Temperature]():
		text = quantity.Kelvin(bound).Format("C")
	case reflect.TypeFor[wire.Mass]():
		text = quantity.Mass(bound).Format("kg")
	case reflect.TypeFor[wire.Pressure]():
		text = quantity.Pressure(bound).Format("hPa")
	case reflect.TypeFor[wire.Stiffness]():
		text = quantity.Pressure(bound).Format("MPa")
	default:
		return ""
	}
	switch rule {
	case "gte":
		return "at least " + text
	case "lte":
		return "at most " + text
	case "gt":
		return "more than " + text
	case "lt":
		return "less than " + text
	}
	return ""
}

// closeRequests forbids unknown members and empty texts in every schema a request
// reaches, as the decoder does. Schemas that only replies use stay open to additions.
func closeRequests(document map[string]any) {
	seen := map[string]bool{}
	for _, item := range Dig(document, "paths") {
		operations, ok := item.(map[string]any)
		if !ok {
			continue
		}
		for _, o := range operations {
			if operation, ok := o.(map[string]any); ok {
				closeSchema(document, operation["requestBody"], seen)
			}
		}
	}
}

func closeSchema(document map[string]any, node any, seen map[string]bool) {
	switch n := node.(type) {
	case []any:
		for _, item := range n {
			closeSchema(document, item, seen)
		}
	case map[string]any:
		switch n["type"] {
		case "object":
			n["additionalProperties"] = false
		case "string":
			if n["enum"] == nil && n["format"] == nil {
				setIfMissing(n, "minLength", 1)
			}
		}
		if ref, ok := n["$ref"].(string); ok && !seen[ref] {
			seen[ref] = true
			name := ref[strings.LastIndexByte(ref, '/')+1:]
			closeSchema(document, Dig(document, "components", "schemas")[name], seen)
		}
		for key, child := range n {
			if key != "examples" {
				closeSchema(document, child, seen)
			}
		}
	}
}
