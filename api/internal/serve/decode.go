package serve

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

	"latewood/api/internal/wire"
)

// maxFieldErrors is the most field errors one problem lists.
const maxFieldErrors = 32

var strict = json.JoinOptions(json.RejectUnknownMembers(true), jsontext.AllowDuplicateNames(false), jsontext.AllowInvalidUTF8(false))

// decode reads body into a new T and checks it against its validate tags. All
// that is wrong with the members is reported in one problem.
func decode[T any](body []byte) (*T, error) {
	request := new(T)
	if len(bytes.TrimSpace(body)) == 0 {
		return nil, NewProblem(http.StatusBadRequest, "the body is empty; send a JSON object")
	}
	var fields []FieldError
	if err := json.Unmarshal(body, request, strict); err != nil || bytes.Contains(body, []byte("null")) || bytes.Contains(body, []byte(`""`)) {
		var problem *Problem
		if fields, problem = salvage(body, request); problem != nil {
			return nil, problem
		}
	}
	fields = append(fields, violations(request, fields)...)
	if len(fields) > 0 {
		return nil, invalid(fields[:min(len(fields), maxFieldErrors)]...)
	}
	return request, nil
}

// salvage decodes a body that does not decode: it notes the first member that
// is wrong, takes it out and tries again, so that the strict decoder stays the
// only judge and every wrong member is still found. What could be read is left
// in request.
func salvage[T any](body []byte, request *T) ([]FieldError, *Problem) {
	fields, problem := emptiesIn(body)
	if problem != nil {
		return nil, problem
	}
	for range 2 * maxFieldErrors { // a wrong part of a quantity takes two passes
		*request = *new(T)
		err := json.Unmarshal(body, request, strict)
		if err == nil {
			break
		}
		var semantic *json.SemanticError
		if !errors.As(err, &semantic) {
			return nil, unreadable(err)
		}
		fields = tell(fields, fieldErrorOf(semantic, reflect.TypeFor[T]()), semantic)
		if semantic.JSONPointer == "" || len(fields) == maxFieldErrors {
			break
		}
		without, err := takeOut(body, semantic.JSONPointer, errors.Is(semantic, json.ErrUnknownName))
		if err != nil {
			return nil, unreadable(err)
		}
		body = without
	}
	return fields, nil
}

// tell adds field to those already found. What was said of it or below it, such
// as a null in a member that does not exist, no longer matters; but a quantity
// whose value or unit is wrong is not told again for lacking it.
func tell(fields []FieldError, field FieldError, err error) []FieldError {
	if parse, ok := wire.AsParseError(err); ok && parse.Reason == wire.NeedsBoth && partReported(field.Pointer, fields) {
		return fields
	}
	fields = slices.DeleteFunc(fields, func(known FieldError) bool {
		return known.Pointer == field.Pointer || strings.HasPrefix(known.Pointer, field.Pointer+"/")
	})
	return append(fields, field)
}

// unreadable is the problem of a body that is not JSON, or not one value.
func unreadable(err error) *Problem {
	p := NewProblem(http.StatusBadRequest, "the body is not readable JSON")
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
	p.Errors = []FieldError{{Pointer: pointerTo(syntax.JSONPointer), Code: code, Detail: p.Detail}}
	return p
}

// trailing is the problem of a body with text after its JSON value.
func trailing(offset int64) *Problem {
	detail := "there is text after the JSON value, at byte " + strconv.FormatInt(offset, 10)
	return NewProblem(http.StatusBadRequest, detail, FieldError{Code: "trailing_text", Detail: detail})
}

// emptiesIn finds every null and every empty text: a member that is not known is
// left out, because these could mean both "unknown" and "none". It also checks
// that the body is one JSON value and nothing more.
func emptiesIn(body []byte) ([]FieldError, *Problem) {
	dec := jsontext.NewDecoder(bytes.NewReader(body), strict)
	var fields []FieldError
	for {
		token, err := dec.ReadToken()
		if err != nil {
			return nil, unreadable(err)
		}
		if len(fields) < maxFieldErrors {
			switch {
			case token.Kind() == 'n':
				fields = append(fields, FieldError{Pointer: pointerTo(dec.StackPointer()), Code: "null_value", Detail: "null is not a value here; leave the member out"})
			case token.Kind() == '"' && token.String() == "" && !isName(dec):
				fields = append(fields, FieldError{Pointer: pointerTo(dec.StackPointer()), Code: "empty_text", Detail: "an empty text is not a value here; leave the member out"})
			}
		}
		if dec.StackDepth() > 0 {
			continue
		}
		if end := dec.InputOffset(); len(bytes.Trim(body[end:], " \t\r\n")) > 0 {
			return nil, trailing(end)
		}
		return fields, nil
	}
}

// isName reports whether the text just read is the name of a member.
func isName(dec *jsontext.Decoder) bool {
	kind, read := dec.StackIndex(dec.StackDepth())
	return kind == '{' && read%2 == 1
}

// takeOut returns body with the value at pointer replaced by null, or, if the
// member itself is unknown, without the member.
func takeOut(body []byte, at jsontext.Pointer, member bool) ([]byte, error) {
	out := new(bytes.Buffer)
	c := copier{jsontext.NewDecoder(bytes.NewReader(body), strict), jsontext.NewEncoder(out), at, member}
	err := c.value("")
	return out.Bytes(), err
}

// copier copies a JSON value but for what stands at one pointer.
type copier struct {
	from   *jsontext.Decoder
	to     *jsontext.Encoder
	at     jsontext.Pointer
	member bool // leave the whole member out
}

// value copies the next value, which stands at pointer here.
func (c *copier) value(here jsontext.Pointer) error {
	if here == c.at {
		if err := c.from.SkipValue(); err != nil {
			return err
		}
		return c.to.WriteToken(jsontext.Null)
	}
	switch kind := c.from.PeekKind(); {
	case !here.Contains(c.at) || kind != '{' && kind != '[':
		value, err := c.from.ReadValue()
		if err != nil {
			return err
		}
		return c.to.WriteValue(value)
	case kind == '{':
		return c.inside(here, jsontext.EndObject.Kind())
	default:
		return c.inside(here, jsontext.EndArray.Kind())
	}
}

// inside copies an object or a list, up to its end.
func (c *copier) inside(here jsontext.Pointer, end jsontext.Kind) error {
	if err := c.token(); err != nil {
		return err
	}
	for i := 0; c.from.PeekKind() != end; i++ {
		at := here.AppendToken(strconv.Itoa(i))
		if end == '}' {
			name, err := c.from.ReadToken()
			if err != nil {
				return err
			}
			if at = here.AppendToken(name.String()); at == c.at && c.member {
				if err := c.from.SkipValue(); err != nil {
					return err
				}
				continue
			}
			if err := c.to.WriteToken(jsontext.String(at.LastToken())); err != nil {
				return err
			}
		}
		if err := c.value(at); err != nil {
			return err
		}
	}
	return c.token()
}

func (c *copier) token() error {
	token, err := c.from.ReadToken()
	if err != nil {
		return err
	}
	return c.to.WriteToken(token)
}

// fieldErrorOf words a decoding error for people, without a word of Go.
func fieldErrorOf(err *json.SemanticError, root reflect.Type) FieldError {
	field := FieldError{Pointer: pointerTo(err.JSONPointer)}
	if parse, ok := wire.AsParseError(err); ok {
		field.Code, field.Limit = "invalid_quantity", "units: "+strings.Join(parse.Units, ", ")
		field.Detail = fmt.Sprintf("%s is not a %s: %s", shown(parse.Text), parse.Dimension, wire.Clipped(parse.Reason))
		return field
	}
	if errors.Is(err, json.ErrUnknownName) {
		field.Code = "unknown_member"
		field.Detail = "there is no member " + wire.Quoted(err.JSONPointer.LastToken()) + " here"
		if near := meant(err.JSONPointer.LastToken(), membersAt(root, err.JSONPointer.Parent())); near != "" {
			field.Detail += "; did you mean " + strconv.Quote(near) + "?"
		}
		return field
	}
	if errors.Is(err, strconv.ErrRange) {
		field.Code, field.Detail = "number_too_large", "the number is too large to compute with"
		return field
	}
	field.Code = "wrong_type"
	wanted, given := kindWanted(err.GoType), kindGiven(err.JSONKind)
	if wanted == "a whole number" && given == "a number" {
		given = "one that is not whole or is too large"
	}
	field.Detail = "must be " + wanted + ", got " + given
	return field
}

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
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
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
