package decode

import (
	"bytes"
	stdjson "encoding/json"
	"errors"
	"reflect"
	"slices"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
)

// faultReader reads a body into a request in one pass and goes on after a fault, so
// that all of them are told. Single values are judged by the strict decoder; what it
// does here is to follow the types of the request to them.
type faultReader struct {
	body    []byte
	dec     *jsontext.Decoder
	empties []refuse.FieldError // each null and each empty text: these could mean both "unknown" and "none"
	wrong   []refuse.FieldError
	most    int  // entries of the list that comes next; 0: no limit
	changes bool // the body holds changes of a request: members of any of its forms
}

// faultsIn reads the body of a request that does not decode, or that holds a null or an
// empty text, and lists what is wrong with its members. What could be read is left in
// request. The problem is that of a body that is not one JSON value.
func faultsIn[T any](body []byte, request *T) ([]refuse.FieldError, *refuse.Problem) {
	*request = *new(T)
	return readFaults(faultReader{body: body}, request)
}

// Changes says why a body is not one object with changes of an E: it is read as strictly as
// an E, but may name members of any form of what has several, and null takes a member off.
func Changes[E any](body []byte) error {
	if len(bytes.TrimSpace(body)) == 0 {
		return refuse.NoBody("a JSON object")
	}
	all, problem := readFaults(faultReader{body: body, changes: true}, new(E))
	if problem != nil {
		return problem
	}
	if kind := jsontext.Value(bytes.TrimSpace(body)).Kind(); kind != '{' {
		return refuse.Invalid(wrongType(reflect.TypeFor[E](), kind))
	}
	unknown := slices.DeleteFunc(all, func(e refuse.FieldError) bool { return e.Code != "unknown_member" })
	if len(unknown) > 0 {
		return refuse.Invalid(unknown[:min(len(unknown), refuse.Most)]...)
	}
	return nil
}

// readFaults reads the whole body into a request.
func readFaults[T any](r faultReader, request *T) ([]refuse.FieldError, *refuse.Problem) {
	r.dec = jsontext.NewDecoder(bytes.NewReader(r.body), strict)
	if err := r.value(reflect.ValueOf(request).Elem()); err != nil {
		return nil, unreadable(err)
	}
	if end := r.dec.InputOffset(); len(bytes.Trim(r.body[end:], " \t\r\n")) > 0 {
		return nil, trailing(end)
	}
	return append(r.empties, r.wrong...), nil
}

// value reads the next value into v, which can be set. The error speaks of text that
// is not JSON; all else is noted.
func (r *faultReader) value(v reflect.Value) error {
	kind := r.dec.PeekKind()
	if kind == 'n' {
		return r.empty()
	}
	if v.Kind() == reflect.Pointer {
		read := reflect.New(v.Type().Elem())
		noted := len(r.empties) + len(r.wrong)
		err := r.value(read.Elem())
		if half := isQuantity(read.Elem()) && read.Elem().IsZero() && len(r.empties)+len(r.wrong) > noted; !half {
			v.Set(read)
		}
		return err
	}
	if formed, is := v.Addr().Interface().(wire.Formed); is {
		return r.oneOf(formed, v, kind)
	}
	switch {
	case isQuantity(v):
		return r.quantity(v, kind)
	case v.Type() == reflect.TypeFor[stdjson.RawMessage]():
		return r.raw(v)
	case isSpelled(v) && kind == '"':
		return r.spelled(v)
	case v.Kind() == reflect.Struct && kind == '{':
		return r.object(v)
	case v.Kind() == reflect.Slice && kind == '[':
		return r.list(v)
	case v.Kind() == reflect.String && kind == '"':
		return r.text(v)
	}
	return r.single(v)
}

// empty notes a null.
func (r *faultReader) empty() error {
	if err := r.dec.SkipValue(); err != nil {
		return err
	}
	r.note(&r.empties, isNull)
	return nil
}

// What is said of a member that means nothing.
var (
	isNull  = refuse.FieldError{Code: "null_value", Detail: "null is not a value here; leave the member out"}
	isEmpty = refuse.FieldError{Code: "empty_text", Detail: "an empty text is not a value here; leave the member out"}
)

// note keeps an error of the value that was read last, up to a number.
func (r *faultReader) note(list *[]refuse.FieldError, field refuse.FieldError) {
	r.noteAt(r.dec.StackPointer(), list, field)
}

func (r *faultReader) noteAt(at jsontext.Pointer, list *[]refuse.FieldError, field refuse.FieldError) {
	if len(*list) < refuse.Most {
		field.Pointer = pointerTo(at)
		*list = append(*list, field)
	}
}

// object reads the members of a struct.
func (r *faultReader) object(v reflect.Value) error {
	return r.members(func(name string) error {
		field, known := wire.FieldNamed(v.Type(), name)
		if !known {
			return r.unknown(name, namesIn(v.Type()))
		}
		r.most = MostEntries(field.Tag.Get("validate"))
		return r.value(v.FieldByIndex(field.Index))
	})
}

// oneOf reads an object of one of several forms, or notes that it is of none.
func (r *faultReader) oneOf(formed wire.Formed, v reflect.Value, kind jsontext.Kind) error {
	if kind != '{' {
		if err := r.dec.SkipValue(); err != nil {
			return err
		}
		r.note(&r.wrong, wrongType(v.Type(), kind))
		return nil
	}
	if r.changes {
		return r.anyOf(wire.FormsOf(v.Type()))
	}
	// the decoder has read up to the value, or to the mark before it
	told, _ := wire.ToldIn(bytes.TrimLeft(r.body[r.dec.InputOffset():], " \t\r\n,:"))
	form, wrong := formed.Choose(told)
	if wrong == nil {
		formed.Take(form)
		return r.object(reflect.ValueOf(form).Elem())
	}
	if err := r.dec.SkipValue(); err != nil {
		return err
	}
	at := r.dec.StackPointer()
	if wrong.Input != "" {
		at = at.AppendToken(wrong.Input)
	}
	r.noteAt(at, &r.wrong, refuse.Of(wrong))
	r.ofNoForm(v.Type(), told.Members)
	return nil
}

// anyOf reads changes of an object that has several forms: a member may be of any of them.
func (r *faultReader) anyOf(forms []reflect.Type) error {
	return r.members(func(name string) error {
		var known []string
		for _, form := range forms {
			if field, is := wire.FieldNamed(form, name); is {
				r.most = MostEntries(field.Tag.Get("validate"))
				return r.value(reflect.New(field.Type).Elem())
			}
			known = append(known, namesIn(form)...)
		}
		return r.unknown(name, known)
	})
}

// ofNoForm notes the members that an object has in none of its forms.
func (r *faultReader) ofNoForm(t reflect.Type, members []string) {
	if len(members) == 0 || len(r.wrong) >= refuse.Most {
		return
	}
	var known []string
	for _, form := range wire.FormsOf(t) {
		known = append(known, namesIn(form)...)
	}
	for _, name := range members {
		if !slices.Contains(known, name) {
			r.noteAt(r.dec.StackPointer().AppendToken(name), &r.wrong, unknownMember(name, known))
		}
	}
}

// members calls read with the name of each member of the object that comes next; read
// reads its value.
func (r *faultReader) members(read func(name string) error) error {
	if _, err := r.dec.ReadToken(); err != nil {
		return err
	}
	for r.dec.PeekKind() != '}' {
		name, err := r.dec.ReadToken()
		if err != nil {
			return err
		}
		if err := read(name.String()); err != nil {
			return err
		}
	}
	_, err := r.dec.ReadToken()
	return err
}

// unknown notes a member that is none of those there are, and passes over its value.
func (r *faultReader) unknown(name string, known []string) error {
	if err := r.dec.SkipValue(); err != nil {
		return err
	}
	r.note(&r.wrong, unknownMember(name, known))
	return nil
}

// list reads the entries of a slice: as many as there may be, and one more, so that it is
// seen that there are too many; the others are passed over, and take no memory.
func (r *faultReader) list(v reflect.Value) error {
	most := r.most
	r.most = 0
	if _, err := r.dec.ReadToken(); err != nil {
		return err
	}
	v.Set(reflect.MakeSlice(v.Type(), 0, 0)) // a list without entries is not one that is left out
	for r.dec.PeekKind() != ']' {
		if most > 0 && v.Len() > most {
			if err := r.dec.SkipValue(); err != nil {
				return err
			}
			continue
		}
		v.Grow(1)
		v.SetLen(v.Len() + 1)
		entry := v.Index(v.Len() - 1)
		entry.SetZero()
		if err := r.value(entry); err != nil {
			return err
		}
	}
	_, err := r.dec.ReadToken()
	return err
}

// isSpelled reports whether v may be given as a text.
func isSpelled(v reflect.Value) bool {
	return v.CanAddr() && v.Addr().Type().Implements(reflect.TypeFor[wire.Spelled]())
}

// spelled reads a text that stands for an object.
func (r *faultReader) spelled(v reflect.Value) error {
	token, err := r.dec.ReadToken()
	if err != nil {
		return err
	}
	text := token.String()
	if text == "" {
		r.note(&r.empties, isEmpty)
	}
	v.Addr().Interface().(wire.Spelled).Spell(text) //nolint:forcetypeassert // isSpelled saw it
	return nil
}

// text reads a text.
func (r *faultReader) text(v reflect.Value) error {
	token, err := r.dec.ReadToken()
	if err != nil {
		return err
	}
	if v.SetString(token.String()); v.Len() == 0 {
		r.note(&r.empties, isEmpty)
	}
	return nil
}

// single reads a value without members of its own, or notes that there is another in
// its place.
func (r *faultReader) single(v reflect.Value) error {
	if kind := r.dec.PeekKind(); kind == '{' || kind == '[' || isSpelled(v) {
		if err := r.dec.SkipValue(); err != nil {
			return err
		}
		r.note(&r.wrong, wrongType(v.Type(), kind))
		return nil
	}
	return r.scalar(v)
}

// scalar lets the strict decoder read the next value.
func (r *faultReader) scalar(v reflect.Value) error {
	text, err := r.dec.ReadValue()
	if err == nil {
		r.judge(text, v)
	}
	return err
}

// judge lets the strict decoder read a text into v, and notes what it says.
func (r *faultReader) judge(text []byte, v reflect.Value) {
	var semantic *json.SemanticError
	if err := json.Unmarshal(text, v.Addr().Interface(), strict); errors.As(err, &semantic) {
		v.SetZero()
		r.note(&r.wrong, fieldErrorOf(semantic))
	}
}

// raw keeps a value as it is, to be read later, and notes each null and each empty text
// in it.
func (r *faultReader) raw(v reflect.Value) error {
	text, err := r.dec.ReadValue()
	if err != nil {
		return err
	}
	v.SetBytes(bytes.Clone(text))
	at := r.dec.StackPointer()
	inside := jsontext.NewDecoder(bytes.NewReader(v.Bytes()), strict)
	for {
		token, err := inside.ReadToken()
		if err != nil {
			return nil //nolint:nilerr // its end: it was read once already
		}
		switch {
		case token.Kind() == 'n':
			r.noteAt(at+inside.StackPointer(), &r.empties, isNull)
		case token.Kind() == '"' && token.String() == "" && !isName(inside):
			r.noteAt(at+inside.StackPointer(), &r.empties, isEmpty)
		}
	}
}

// isName reports whether the text just read is the name of a member.
func isName(dec *jsontext.Decoder) bool {
	kind, read := dec.StackIndex(dec.StackDepth())
	return kind == '{' && read%2 == 1
}

func isQuantity(v reflect.Value) bool {
	switch v.Interface().(type) {
	case wire.Length, wire.Temperature, wire.Mass, wire.Pressure, wire.Stiffness:
		return true
	}
	return false
}

// quantity reads a quantity, as a text or as its value and its unit.
func (r *faultReader) quantity(v reflect.Value, kind jsontext.Kind) error {
	if kind != '{' {
		return r.scalar(v)
	}
	var value float64
	var unit string
	found := map[string]bool{}
	good := true // what is there of value and unit
	before := len(r.empties) + len(r.wrong)
	err := r.members(func(name string) error {
		part := reflect.ValueOf(&value)
		switch name {
		case "value":
		case "unit":
			part = reflect.ValueOf(&unit)
		default:
			return r.unknown(name, pairMembers)
		}
		found[name] = true
		noted := len(r.empties) + len(r.wrong)
		err := r.value(part.Elem())
		good = good && len(r.empties)+len(r.wrong) == noted
		return err
	})
	whole := found["value"] && found["unit"]
	if err != nil || !good || !whole && len(r.empties)+len(r.wrong) > before {
		return err
	}
	pair, err := json.Marshal(map[string]any{"value": value, "unit": unit})
	if err != nil {
		return err
	}
	if !whole {
		pair = []byte("{}")
	}
	r.judge(pair, v)
	return nil
}
