package wire

import (
	"bytes"
	"encoding"
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// Encoder writes answers as JSON. It knows what the types of the wire say with their tags:
// how fine each number is written, and what a short answer leaves out. All else is as
// encoding/json has it, but for what that escapes for HTML.
type Encoder struct {
	out *bytes.Buffer
	// Brief leaves out the members with the tag DetailTag.
	Brief bool
}

// DetailTag is the tag of members that only a full answer has.
const (
	DetailTag  = "detail"
	DetailFull = "full"
)

// NewEncoder is one that writes to out.
func NewEncoder(out *bytes.Buffer) *Encoder { return &Encoder{out: out} }

// Encode appends v and a line end, or nothing and tells why.
func (e *Encoder) Encode(v any) error {
	text, err := e.append(e.out.AvailableBuffer(), reflect.ValueOf(v))
	if err != nil {
		return err
	}
	e.out.Write(append(text, '\n'))
	return nil
}

func (e *Encoder) append(text []byte, v reflect.Value) ([]byte, error) {
	if !v.IsValid() {
		return append(text, "null"...), nil
	}
	return writerOf(v.Type())(e, text, v)
}

// writer appends a value of one type.
type writer func(e *Encoder, text []byte, v reflect.Value) ([]byte, error)

var writers sync.Map // of reflect.Type: writer

func writerOf(t reflect.Type) writer {
	if known, ok := writers.Load(t); ok {
		if w, is := known.(writer); is {
			return w
		}
	}
	// A type that holds itself finds this one while it is being made.
	var made writer
	var ready sync.WaitGroup
	ready.Add(1)
	writers.LoadOrStore(t, writer(func(e *Encoder, text []byte, v reflect.Value) ([]byte, error) {
		ready.Wait()
		return made(e, text, v)
	}))
	made = makeWriter(t)
	ready.Done()
	writers.Store(t, made)
	return made
}

var marshaler, textMarshaler = reflect.TypeFor[json.Marshaler](), reflect.TypeFor[encoding.TextMarshaler]()

func makeWriter(t reflect.Type) writer {
	if t.Implements(reflect.TypeFor[SentBack]()) {
		return writeSentBack
	}
	if t.Implements(marshaler) || t.Implements(textMarshaler) {
		return writeOther
	}
	switch t.Kind() {
	case reflect.Bool:
		return func(_ *Encoder, text []byte, v reflect.Value) ([]byte, error) {
			return strconv.AppendBool(text, v.Bool()), nil
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return func(_ *Encoder, text []byte, v reflect.Value) ([]byte, error) {
			return strconv.AppendInt(text, v.Int(), 10), nil
		}
	case reflect.String:
		return func(_ *Encoder, text []byte, v reflect.Value) ([]byte, error) {
			return appendText(text, v.String())
		}
	case reflect.Float64:
		return numberWriter(kept)
	case reflect.Pointer:
		return pointerWriter(writerOf(t.Elem()))
	case reflect.Interface:
		return func(e *Encoder, text []byte, v reflect.Value) ([]byte, error) { return e.append(text, v.Elem()) }
	case reflect.Slice, reflect.Array:
		if t.Elem().Kind() == reflect.Uint8 {
			return writeOther
		}
		return listWriter(writerOf(t.Elem()))
	case reflect.Struct:
		return structWriter(t)
	default:
		return writeOther
	}
}

// writeOther leaves a value to encoding/json.
func writeOther(_ *Encoder, text []byte, v reflect.Value) ([]byte, error) {
	var out bytes.Buffer
	plain := json.NewEncoder(&out)
	plain.SetEscapeHTML(false)
	if err := plain.Encode(v.Interface()); err != nil {
		return text, err
	}
	return append(text, bytes.TrimSuffix(out.Bytes(), []byte{'\n'})...), nil
}

func appendText(text []byte, s string) ([]byte, error) {
	if !utf8.ValidString(s) {
		s = strings.ToValidUTF8(s, string(utf8.RuneError))
	}
	return jsontext.AppendQuote(text, s)
}

// numberWriter writes numbers to one place.
func numberWriter(at place) writer {
	return func(_ *Encoder, text []byte, v reflect.Value) ([]byte, error) {
		return appendFinite(text, v, rounding{at: at})
	}
}

func appendFinite(text []byte, v reflect.Value, to rounding) ([]byte, error) {
	number := v.Float()
	if math.IsNaN(number) || math.IsInf(number, 0) {
		return text, &json.UnsupportedValueError{Value: v, Str: strconv.FormatFloat(number, 'g', -1, 64)}
	}
	return appendRounded(text, number, to), nil
}

func numberOrNull(text []byte, v reflect.Value, to rounding) ([]byte, error) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return append(text, "null"...), nil
		}
		v = v.Elem()
	}
	return appendFinite(text, v, to)
}

func pointerWriter(of writer) writer {
	return func(e *Encoder, text []byte, v reflect.Value) ([]byte, error) {
		if v.IsNil() {
			return append(text, "null"...), nil
		}
		return of(e, text, v.Elem())
	}
}

func listWriter(of writer) writer {
	return func(e *Encoder, text []byte, v reflect.Value) ([]byte, error) {
		if v.Kind() == reflect.Slice && v.IsNil() {
			return append(text, "null"...), nil
		}
		text = append(text, '[')
		var err error
		for i := range v.Len() {
			if i > 0 {
				text = append(text, ',')
			}
			if text, err = of(e, text, v.Index(i)); err != nil {
				return text, err
			}
		}
		return append(text, ']'), nil
	}
}

// member is one member of an object.
type member struct {
	head            []byte // its name, quoted, and a colon
	index           []int
	omitempty, zero bool
	full            bool   // left out of a brief answer
	write           writer // nil: a number to the place of the object
}

func structWriter(t reflect.Type) writer {
	members, of := membersOf(t), placing(t)
	return func(e *Encoder, text []byte, v reflect.Value) ([]byte, error) {
		text = append(text, '{')
		start, to := len(text), of(v)
		var err error
		for i := range members {
			m := &members[i]
			field, there := fieldOf(v, m.index)
			if !there || m.left(e, field) {
				continue
			}
			if len(text) > start {
				text = append(text, ',')
			}
			text = append(text, m.head...)
			if m.write != nil {
				text, err = m.write(e, text, field)
			} else {
				text, err = numberOrNull(text, field, to)
			}
			if err != nil {
				return text, err
			}
		}
		return append(text, '}'), nil
	}
}

// fieldOf finds a field, within what is embedded.
func fieldOf(v reflect.Value, index []int) (reflect.Value, bool) {
	for k, i := range index {
		if k > 0 && v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return v, false
			}
			v = v.Elem()
		}
		v = v.Field(i)
	}
	return v, true
}

// left reports whether a member is left out.
func (m *member) left(e *Encoder, v reflect.Value) bool {
	return m.full && e.Brief || m.omitempty && isEmpty(v) || m.zero && v.IsZero()
}

// isEmpty is what omitempty leaves out.
func isEmpty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	default:
		return v.IsZero()
	}
}

// membersOf lists the members of an object in their order.
func membersOf(t reflect.Type) []member {
	var list []member
	for _, field := range reflect.VisibleFields(t) {
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		if field.Anonymous && name == "" || !field.IsExported() || name == "-" {
			continue
		}
		if name == "" {
			name = field.Name
		}
		has := func(option string) bool { return slices.Contains(strings.Split(options, ","), option) }
		list = append(list, member{
			head: strconv.AppendQuote(nil, name), index: field.Index, omitempty: has("omitempty"), zero: has("omitzero"),
			full: field.Tag.Get(DetailTag) == DetailFull, write: memberWriter(&field, name),
		})
		last := &list[len(list)-1]
		last.head = append(last.head, ':')
	}
	return list
}

// memberWriter is how a member is written; nil for a number that has the place of its
// object.
func memberWriter(field *reflect.StructField, name string) writer {
	at := placeOfMember(field.Tag, name)
	switch t := field.Type; {
	case isNumber(t) && at == unruled:
		return nil
	case isNumber(t) && t.Kind() == reflect.Pointer:
		return pointerWriter(numberWriter(at))
	case isNumber(t):
		return numberWriter(at)
	case isNumbers(t) && at != unruled:
		return listWriter(numberWriter(at))
	default:
		return writerOf(t)
	}
}

func isNumber(t reflect.Type) bool {
	return t.Kind() == reflect.Float64 || t.Kind() == reflect.Pointer && t.Elem().Kind() == reflect.Float64
}

func isNumbers(t reflect.Type) bool {
	return t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Float64
}
