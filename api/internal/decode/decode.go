package decode

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/http"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Small tells a small body from a large one, in bytes.
const Small = 16 << 10

var strict = json.JoinOptions(json.RejectUnknownMembers(true), jsontext.AllowDuplicateNames(false), jsontext.AllowInvalidUTF8(false))

// Body reads body into a new T and checks it against its validate tags. All
// that is wrong with the members is reported in one problem. The library decodes what
// is right and short; what is not, or may not be, is read once more by a reader that goes on
// after a fault. What is to be done with a request that was read, before it is checked, is
// done by the functions given.
func Body[T any](body []byte, prepare ...func(any)) (*T, error) {
	request := new(T)
	if len(bytes.TrimSpace(body)) == 0 {
		return nil, refuse.NoBody("a JSON object")
	}
	var fields []refuse.FieldError
	// A long body is read by the second reader at once: it stops a list at its most.
	if len(body) > Small || json.Unmarshal(body, request, strict) != nil || bytes.Contains(body, []byte("null")) || bytes.Contains(body, []byte(`""`)) {
		var problem *refuse.Problem
		if fields, problem = faultsIn(body, request); problem != nil {
			return nil, problem
		}
	}
	for _, do := range prepare {
		do(request)
	}
	broken := violations(request, fields)
	if len(fields)+len(broken) > refuse.Most { // then what is too long is told first
		slices.SortStableFunc(broken, func(a, b refuse.FieldError) int { return tooLong(b) - tooLong(a) })
		fields, broken = slices.Concat(broken[:countTooLong(broken)], fields), broken[countTooLong(broken):]
	}
	fields = append(fields, broken...)
	if len(fields) > 0 {
		p := refuse.Invalid(fields[:min(len(fields), refuse.Most)]...)
		p.Request = request
		return nil, p
	}
	return request, nil
}

// tooLong is 1 for the error of a list that is too long.
func tooLong(e refuse.FieldError) int {
	if e.Code == "too_many_items" {
		return 1
	}
	return 0
}

func countTooLong(list []refuse.FieldError) (n int) {
	for _, e := range list {
		n += tooLong(e)
	}
	return n
}

// unreadable is the problem of a body that is not JSON, or not one value.
func unreadable(err error) *refuse.Problem {
	p := refuse.New(http.StatusBadRequest, "the body is not readable JSON")
	var syntax *jsontext.SyntacticError
	if !errors.As(err, &syntax) {
		return p
	}
	p.Detail = "not readable as JSON at byte " + strconv.FormatInt(syntax.ByteOffset, 10)
	code := "invalid_json"
	switch {
	case errors.Is(err, jsontext.ErrDuplicateName):
		code = "duplicate_member"
		p.Detail = "the member " + pointerTo(syntax.JSONPointer) + " is given twice"
	case errors.Is(err, io.ErrUnexpectedEOF):
		p.Detail = "the body ends before the JSON does"
	}
	p.Errors = []refuse.FieldError{{Pointer: pointerTo(syntax.JSONPointer), Code: code, Detail: p.Detail}}
	return p
}

// trailing is the problem of a body with text after its JSON value.
func trailing(offset int64) *refuse.Problem {
	detail := "there is text after the JSON value, at byte " + strconv.FormatInt(offset, 10)
	return refuse.New(http.StatusBadRequest, detail, refuse.FieldError{Code: "trailing_text", Detail: detail})
}

// fieldErrorOf words a decoding error for people, without a word of Go.
func fieldErrorOf(err *json.SemanticError) refuse.FieldError {
	if parse, ok := wire.AsParseError(err); ok {
		return refuse.FieldError{Code: "invalid_quantity", Limit: method.OneOf(parse.Units...),
			Detail: fmt.Sprintf("%s is not a %s: %s", shown(parse.Text), parse.Dimension, wire.Clipped(parse.Reason))}
	}
	if errors.Is(err, strconv.ErrRange) {
		return refuse.FieldError{Code: "number_too_large", Detail: "the number is too large to compute with"}
	}
	return wrongType(err.GoType, err.JSONKind)
}

// wrongType says that a value is of another type than it must be.
func wrongType(t reflect.Type, kind jsontext.Kind) refuse.FieldError {
	wanted, given := kindWanted(t), kindGiven(kind)
	if wanted == "a whole number" && given == "a number" {
		given = "one that is not whole or is too large"
	}
	return refuse.FieldError{Code: "wrong_type", Detail: "must be " + wanted + ", got " + given}
}

// unknownMember says that there is no member of that name among those there are.
func unknownMember(name string, known []string) refuse.FieldError {
	field := refuse.FieldError{Code: "unknown_member", Detail: "there is no member " + wire.Quoted(name) + " here"}
	if near := meant(name, known); near != "" {
		field.Detail += "; did you mean " + strconv.Quote(near) + "?"
		field.Limit = method.OneOf(near)
	} else if n := len(known); n > 0 && n <= fewMembers {
		field.Detail += "; there are " + strings.Join(known, ", ")
	}
	return field
}

// fewMembers are so few that an error names them all.
const fewMembers = 12

func shown(text string) string {
	if text == "it" {
		return "this"
	}
	return wire.Quoted(text)
}

// mostPointer is the longest pointer that an error holds, in bytes: no member of
// a request lies so deep.
const mostPointer = 500

// pointerTo is a pointer for an error; one of great length leads only to a member
// above.
func pointerTo(p jsontext.Pointer) string {
	if len(p) <= mostPointer {
		return string(p)
	}
	return string(p[:strings.LastIndexByte(string(p[:mostPointer+1]), '/')])
}

func kindWanted(t reflect.Type) string {
	if t == nil {
		return "of another type"
	}
	t = wire.Pointed(t)
	if reflect.PointerTo(t).Implements(reflect.TypeFor[wire.Spelled]()) {
		return "a text or an object"
	}
	switch t.Kind() {
	case reflect.Bool:
		return "true or false"
	case reflect.Int, reflect.Int64, reflect.Int32:
		return "a whole number"
	case reflect.Float64:
		return "a number"
	case reflect.String:
		return "a text"
	case reflect.Slice, reflect.Array:
		return "a list"
	case reflect.Struct, reflect.Map:
		return "an object"
	default:
		return "of another type"
	}
}

func kindGiven(k jsontext.Kind) string {
	switch k {
	case 'n':
		return "null"
	case 't', 'f':
		return "true or false"
	case '"':
		return "a text"
	case '0':
		return "a number"
	case '[':
		return "a list"
	case '{':
		return "an object"
	default:
		return "something else"
	}
}
