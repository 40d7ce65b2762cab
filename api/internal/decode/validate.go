package decode

import (
	"errors"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/go-playground/validator/v10"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// checker holds the validator; it is built once and safe for concurrent use.
var checker = newChecker()

func newChecker() *validator.Validate {
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(func(f reflect.StructField) string {
		if name := wire.MemberName(f); name != "" {
			return name
		}
		return unnamed
	})
	// Bounds on quantities are written in SI: metres, kelvin, kilograms, pascals.
	v.RegisterCustomTypeFunc(siValue, wire.Length{}, wire.Temperature{}, wire.Mass{}, wire.Pressure{}, wire.Stiffness{})
	isID := func(field validator.FieldLevel) bool { return wire.ID.MatchString(field.Field().String()) }
	if err := v.RegisterValidation("id", isID); err != nil {
		panic(err) // the rule has no name, or is none
	}
	return v
}

// unnamed is what stands for a part of a struct that has no name in a request: one that
// is embedded, or the form that an object is of.
const unnamed = "^"

// siValue is the value of a quantity in SI. What is pointed at is not copied.
func siValue(field reflect.Value) any {
	if !field.CanAddr() {
		copied := reflect.New(field.Type()).Elem()
		copied.Set(field)
		field = copied
	}
	switch q := field.Addr().Interface().(type) {
	case *wire.Length:
		return wire.ToPicometre(float64(q.SI))
	case *wire.Temperature:
		return wire.ToNanokelvin(q.SI.Kelvin())
	case *wire.Mass:
		return float64(q.SI)
	case *wire.Pressure:
		return float64(q.SI)
	case *wire.Stiffness:
		return float64(q.SI)
	}
	return nil
}

// violations checks request against its validate tags. Members below one that
// was already reported stay unreported: they are missing because it was.
func violations(request any, known []refuse.FieldError) []refuse.FieldError {
	err := checker.Struct(request)
	var all validator.ValidationErrors
	_ = errors.As(err, &all) // or else there is none
	var fields []refuse.FieldError
	for _, violation := range all {
		field := fieldErrorFrom(violation, request)
		if !Reported(field.Pointer, known) && (field.Code != "missing" || !partReported(field.Pointer, known)) {
			fields = append(fields, field)
		}
	}
	known = append(known, fields...) // a list that is too long is not told of its entries
	for _, field := range needed(request) {
		if !slices.ContainsFunc(field.choices, func(one string) bool { return Reported(one, known) || partReported(one, known) }) {
			fields = append(fields, field.FieldError)
		}
	}
	return append(fields, unjoined(request, slices.Concat(known, fields))...)
}

// unjoined is what does not go together in a request that is refused already: a question that
// is read says so itself.
func unjoined(request any, known []refuse.FieldError) (fields []refuse.FieldError) {
	if len(known) == 0 {
		return nil
	}
	for _, wrong := range wire.DomainErrors(wire.CheckJoined(request, "")) {
		if field := refuse.Of(wrong); !Reported(field.Pointer, known) && !partReported(field.Pointer, known) {
			fields = append(fields, field)
		}
	}
	return fields
}

// Reported reports whether a member, or one that holds it, is among what is known to be wrong.
func Reported(pointer string, known []refuse.FieldError) bool {
	for _, k := range known {
		if pointer == k.Pointer || strings.HasPrefix(pointer, k.Pointer+"/") {
			return true
		}
	}
	return false
}

// partReported says whether something below pointer was reported: then it is
// there, but wrong.
func partReported(pointer string, known []refuse.FieldError) bool {
	for _, k := range known {
		if strings.HasPrefix(k.Pointer, pointer+"/") {
			return true
		}
	}
	return false
}

func fieldErrorFrom(v validator.FieldError, request any) refuse.FieldError {
	pointer := asSent(request, pointerFrom(v.Namespace()))
	limit, words := missed(v, valueAt(request, pointer))
	field := refuse.FieldError{Pointer: pointer, Code: "out_of_range", Limit: limit, Detail: v.Field() + " must be " + words}
	switch v.Tag() {
	case "required":
		return refuse.FieldError{Pointer: pointer, Code: "missing", Detail: v.Field() + " is needed"}
	case "oneof", "eq":
		field.Code = "not_a_choice"
	case "datetime":
		field.Code = "invalid_format"
		if text, is := v.Value().(string); is {
			if meant := wire.DaysMeant(text); meant != "" {
				field.Detail += "; " + meant
			}
		}
	case "id":
		field.Code = "invalid_format"
	case "min", "max": // of entries and characters
		lists := v.Kind() == reflect.Slice || v.Kind() == reflect.Map
		if lists {
			field.Code = map[string]string{"min": "too_few_items", "max": "too_many_items"}[v.Tag()]
			field.Detail = v.Field() + map[string]string{"min": " needs ", "max": " takes "}[v.Tag()] + words
		} else if v.Kind() == reflect.String {
			field.Code = map[string]string{"min": "too_short", "max": "too_long"}[v.Tag()]
		}
	}
	return field
}

// pointerFrom turns "Request.readings[0].mass" into "/readings/0/mass".
func pointerFrom(namespace string) string {
	_, path, _ := strings.Cut(namespace, ".")
	return "/" + strings.NewReplacer("."+unnamed, "", unnamed+".", "", ".", "/", "[", "/", "]", "").Replace(path)
}

// Step is the member of a decoded request, or the entry of a list, that a step of a pointer
// leads to; ok is false where there is none.
func Step(at reflect.Value, token string) (to reflect.Value, ok bool) {
	at = wire.FormOf(at)
	switch at.Kind() {
	case reflect.Slice:
		i, err := strconv.Atoi(token)
		if err != nil || i < 0 || i >= at.Len() {
			return at, false
		}
		return at.Index(i), true
	case reflect.Struct:
		field, ok := wire.FieldNamed(at.Type(), token)
		if !ok {
			return at, false
		}
		return at.FieldByIndex(field.Index), true
	default:
		return at, false
	}
}

// asSent is a pointer into a decoded request that ends at what was given as a text in
// place of an object.
func asSent(request any, pointer string) string {
	at, read := reflect.Indirect(reflect.ValueOf(request)), ""
	for token := range jsontext.Pointer(pointer).Tokens() {
		to, ok := Step(at, token)
		at, read = reflect.Indirect(to), read+"/"+token
		if !ok || !at.IsValid() {
			break
		}
		if isSpelled(at) && at.Addr().Interface().(wire.Spelled).IsSpelled() { //nolint:forcetypeassert // isSpelled saw it
			return read
		}
	}
	return pointer
}

// valueAt returns the value that stands at pointer in a decoded request.
func valueAt(request any, pointer string) any {
	at := reflect.Indirect(reflect.ValueOf(request))
	for token := range jsontext.Pointer(pointer).Tokens() {
		to, ok := Step(at, token)
		if !ok {
			return nil
		}
		at = reflect.Indirect(to)
	}
	if !at.IsValid() {
		return nil
	}
	return at.Interface()
}

// missed is the limit a value missed, in the unit the caller used, and how it is said what the
// value must be; nil for a rule that has no limit.
func missed(v validator.FieldError, given any) (limit *method.Limit, words string) {
	switch limit = bounds(v, given); v.Tag() {
	case "oneof":
		limit = method.OneOf(strings.Fields(v.Param())...)
	case "eq":
		return method.OneOf(v.Param()), v.Param()
	case "datetime":
		limit = method.SuchAs("2026-03-01")
		return limit, "a date " + limit.String()
	case "id":
		limit = wire.IDLimit()
	}
	if limit == nil {
		return nil, "valid"
	}
	return limit, limit.String()
}

// bounds is the limit of a rule that is a number; nil for any other.
func bounds(v validator.FieldError, given any) *method.Limit {
	switch v.Tag() {
	case "gte", "min":
		return method.AtLeast(bound(v, given, true))
	case "lte", "max":
		return method.AtMost(bound(v, given, false))
	case "gt":
		return method.MoreThan(bound(v, given, true))
	case "lt":
		return method.LessThan(bound(v, given, false))
	}
	return nil
}

// bound is the number of a rule, and its unit.
func bound(v validator.FieldError, given any, least bool) (value float64, unit string) {
	value, unit = wire.Bound(v.Param(), v.Field(), given, least)
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return value, "entries"
	case reflect.String:
		return value, "characters"
	default:
		return value, unit
	}
}

// MostEntries is the max rule of a list; 0 if it has none.
func MostEntries(tag string) int {
	for rule := range strings.SplitSeq(tag, ",") {
		if rule == "dive" {
			return 0
		}
		if param, ok := strings.CutPrefix(rule, "max="); ok {
			most, err := strconv.Atoi(param)
			if err != nil {
				return 0
			}
			return most
		}
	}
	return 0
}
