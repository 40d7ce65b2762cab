package wire

import (
	"bytes"
	"reflect"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"latewood/woodphys/method"
)

// OneOf is an object of one of several forms, each with members of its own. A type that
// embeds it has a method Choose, which says what form an object is of, and a method
// JSONSchemaOneOf with one of each form, for the contract.
type OneOf struct {
	Form any // a pointer to one of the forms; nil for an object that is of none
}

// Told is what an object tells of its form.
type Told struct {
	Members []string
	Kind    string // of a member of that name
}

// Chooser chooses a form for an object by what it tells; an error names a member of it,
// or none.
type Chooser interface {
	Choose(told Told) (form any, err *method.Error)
}

// Formed is an object of one of several forms.
type Formed interface {
	Chooser
	Is() any
	Take(form any)
}

// Is is the form that was chosen; nil for none.
func (o *OneOf) Is() any { return o.Form }

// Take takes a form.
func (o *OneOf) Take(form any) { o.Form = form }

// ReadOneOf reads an object of one of several forms.
func ReadOneOf(dec *jsontext.Decoder, of Chooser) (any, error) {
	text, err := dec.ReadValue()
	if err != nil {
		return nil, err
	}
	told, _ := ToldIn(text)
	form, wrong := of.Choose(told)
	if wrong != nil {
		return nil, wrong
	}
	return form, json.Unmarshal(text, form, dec.Options())
}

// ToldIn is what the object at the beginning of a text tells of its form; is says that it
// is an object.
func ToldIn(text []byte) (told Told, is bool) {
	dec := jsontext.NewDecoder(bytes.NewReader(text), jsontext.AllowDuplicateNames(true))
	if token, err := dec.ReadToken(); err != nil || token.Kind() != '{' {
		return told, false
	}
	for dec.PeekKind() == '"' {
		token, err := dec.ReadToken()
		if err != nil {
			return told, true
		}
		name := token.String()
		told.Members = append(told.Members, name)
		if name != "kind" || dec.PeekKind() != '"' {
			if dec.SkipValue() != nil {
				return told, true
			}
			continue
		}
		if token, err = dec.ReadToken(); err != nil {
			return told, true
		}
		told.Kind = token.String()
	}
	return told, true
}

// FormOf is the form that an object of one of several forms is of, as a struct; v itself
// for all else, and for an object of no form.
func FormOf(v reflect.Value) reflect.Value {
	if v.Kind() != reflect.Struct || !v.CanAddr() {
		return v
	}
	formed, is := v.Addr().Interface().(Formed)
	if !is || formed.Is() == nil {
		return v
	}
	return reflect.ValueOf(formed.Is()).Elem()
}

// FormsOf are the forms that an object of a type may have; none for an object of one
// form.
func FormsOf(t reflect.Type) []reflect.Type {
	listed, is := reflect.New(t).Interface().(interface{ JSONSchemaOneOf() []any })
	if !is {
		return nil
	}
	var forms []reflect.Type
	for _, form := range listed.JSONSchemaOneOf() {
		forms = append(forms, Pointed(reflect.TypeOf(form)))
	}
	return forms
}
