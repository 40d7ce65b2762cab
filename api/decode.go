package api

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/http"
	"reflect"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// maxFieldErrors is the most field errors one problem lists.
const maxFieldErrors = 32

var strict = json.JoinOptions(json.RejectUnknownMembers(true), jsontext.AllowDuplicateNames(false), jsontext.AllowInvalidUTF8(false))

// decode reads body into a new T and checks it against its validate tags. All
// that is wrong with the members is reported in one problem.
func decode[T any](body []byte) (*T, error) {
	request := new(T)
	if len(bytes.TrimSpace(body)) == 0 {
		return nil, newProblem(http.StatusBadRequest, "the body is empty; send a JSON object")
	}
	var fields []FieldError
	if err := json.Unmarshal(body, request, strict); err != nil || bytes.Contains(body, []byte("null")) {
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
	fields, problem := nullsIn(body)
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
		if !partReported(string(semantic.JSONPointer), fields) {
			fields = append(fields, fieldErrorOf(semantic, reflect.TypeFor[T]()))
		}
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

// unreadable is the problem of a body that is not JSON, or not one value.
func unreadable(err error) *Problem {
	p := newProblem(http.StatusBadRequest, "the body is not readable JSON")
	var syntax *jsontext.SyntacticError
	if !errors.As(err, &syntax) {
		return p
	}
	p.Detail = "not readable as JSON at byte " + strconv.FormatInt(syntax.ByteOffset, 10)
	code := "syntax"
	switch {
	case errors.Is(err, jsontext.ErrDuplicateName):
		code = "duplicate_member"
		p.Detail = "the member " + string(syntax.JSONPointer) + " is given twice"
	case errors.Is(err, io.ErrUnexpectedEOF):
		p.Detail = "the body ends before the JSON does"
	}
	p.Errors = []FieldError{{Pointer: string(syntax.JSONPointer), Code: code, Detail: p.Detail}}
	return p
}

// trailing is the problem of a body with text after its JSON value.
func trailing(offset int64) *Problem {
	detail := "there is text after the JSON value, at byte " + strconv.FormatInt(offset, 10)
	return newProblem(http.StatusBadRequest, detail, FieldError{Code: "trailing_text", Detail: detail})
}

// nullsIn finds every null: a member that is not known is left out, because
// null could mean both "unknown" and "none". It also checks that the body is
// one JSON value and nothing more.
func nullsIn(body []byte) ([]FieldError, *Problem) {
	dec := jsontext.NewDecoder(bytes.NewReader(body), strict)
	var fields []FieldError
	for {
		token, err := dec.ReadToken()
		if err != nil {
			return nil, unreadable(err)
		}
		if token.Kind() == 'n' && len(fields) < maxFieldErrors {
			fields = append(fields, FieldError{Pointer: string(dec.StackPointer()), Code: "null", Detail: "null is not a value here; leave the member out"})
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

// takeOut returns body with the value at pointer replaced by null, or, if the
// member itself is unknown, without the member.
func takeOut(body []byte, at jsontext.Pointer, member bool) ([]byte, error) {
	dec := jsontext.NewDecoder(bytes.NewReader(body), strict)
	out := new(bytes.Buffer)
	enc := jsontext.NewEncoder(out)
	for {
		name := dec.PeekKind() == '"'
		if name {
			depth := dec.StackDepth()
			kind, n := dec.StackIndex(depth)
			name = kind == '{' && n%2 == 0
		}
		token, err := dec.ReadToken()
		if errors.Is(err, io.EOF) {
			return out.Bytes(), nil
		}
		if err != nil {
			return nil, err
		}
		if name && dec.StackPointer() == at {
			if err := dec.SkipValue(); err != nil {
				return nil, err
			}
			if member {
				continue
			}
			if err := enc.WriteToken(jsontext.String(at.LastToken())); err != nil {
				return nil, err
			}
			if err := enc.WriteToken(jsontext.Null); err != nil {
				return nil, err
			}
			continue
		}
		if err := enc.WriteToken(token); err != nil {
			return nil, err
		}
	}
}

// fieldErrorOf words a decoding error for people, without a word of Go.
func fieldErrorOf(err *json.SemanticError, root reflect.Type) FieldError {
	field := FieldError{Pointer: string(err.JSONPointer)}
	if parse, ok := asParseError(err); ok {
		field.Code, field.Limit = "quantity", "units: "+strings.Join(parse.Units, ", ")
		field.Detail = fmt.Sprintf("%s is not a %s: %s", shown(parse.Text), parse.Dimension, clipped(parse.Reason))
		return field
	}
	if errors.Is(err, json.ErrUnknownName) {
		field.Code = "unknown_member"
		field.Detail = "there is no member " + quoted(err.JSONPointer.LastToken()) + " here"
		if near := nearest(err.JSONPointer.LastToken(), membersAt(root, err.JSONPointer.Parent())); near != "" {
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
	return quoted(text)
}

// mostQuoted is how much of a caller's own text an error repeats, in bytes.
const mostQuoted = 200

func clipped(text string) string {
	if len(text) <= mostQuoted {
		return text
	}
	return strings.ToValidUTF8(text[:mostQuoted], "") + "..."
}

// quoted repeats a caller's text, cut off where it is long.
func quoted(text string) string { return strconv.Quote(clipped(text)) }

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
