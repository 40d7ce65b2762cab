package rack

import (
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// sheetColumn is a column of a sheet: the member that it is, and what its cells hold.
type sheetColumn struct {
	name string
	path []string
	kind reflect.Kind // Invalid: a text, or JSON where it looks so
	day  bool         // a text that is a day: read as people write it
}

// columnOf finds the member of an entry that a column is named after. Members of what has
// several forms are not followed: the entry itself says what is wrong with them.
func columnOf(name string, entry reflect.Type) (*sheetColumn, error) {
	c := &sheetColumn{name: name, path: strings.Split(name, ".")}
	at := entry
	for i, part := range c.path {
		for at.Kind() == reflect.Pointer {
			at = at.Elem()
		}
		if at.Kind() != reflect.Struct || i > 0 && anyForm(at) {
			c.day = isDayOfAForm(at, part)
			return c, nil
		}
		field, has := memberNamed(at, part)
		if !has {
			return nil, wrongSheet("unknown_member", nil, "there is no member "+wire.Quoted(name)+" of such an entry")
		}
		at, c.day = field.Type, isDay(field)
	}
	for at.Kind() == reflect.Pointer {
		at = at.Elem()
	}
	switch at.Kind() {
	case reflect.String, reflect.Bool, reflect.Int, reflect.Float64, reflect.Slice:
		c.kind = at.Kind()
	default:
	}
	return c, nil
}

// anyForm reports a type that is read in a way of its own: a quantity, a wood, a reading.
func anyForm(t reflect.Type) bool {
	switch t {
	case reflect.TypeFor[shelf.Reading](), reflect.TypeFor[shelf.WoodAsked](), reflect.TypeFor[wire.Length](), reflect.TypeFor[wire.Mass](),
		reflect.TypeFor[wire.Temperature](), reflect.TypeFor[wire.Pressure](), reflect.TypeFor[shelf.Condition]():
		return true
	}
	return false
}

// isDayOfAForm reports a member that is a day in one of the forms of a type.
func isDayOfAForm(of reflect.Type, name string) bool {
	for _, form := range wire.FormsOf(of) {
		if field, has := memberNamed(form, name); has && isDay(field) {
			return true
		}
	}
	return false
}

func isDay(field reflect.StructField) bool {
	return strings.Contains(field.Tag.Get("validate"), "datetime=")
}

// memberNamed is the field of a member, also of what is embedded.
func memberNamed(t reflect.Type, name string) (reflect.StructField, bool) {
	for _, field := range reflect.VisibleFields(t) {
		told, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		if told == name && !field.Anonymous {
			return field, true
		}
	}
	return reflect.StructField{}, false
}

// withComma is a number with a decimal comma.
var withComma = regexp.MustCompile(`^-?[0-9]+,[0-9]+$`)

// value is what a cell holds.
func (c *sheetColumn) value(cell string) (any, error) {
	switch c.kind {
	case reflect.String:
		if strings.HasPrefix(cell, `"`) && json.Valid([]byte(cell)) {
			return json.RawMessage(cell), nil
		}
		if day, is := wire.ReadDay(cell); c.day && is {
			return day, nil
		}
		return cell, nil
	case reflect.Bool:
		switch strings.ToLower(cell) {
		case "true", "yes":
			return true, nil
		case "false", "no":
			return false, nil
		}
		return nil, errors.New("this is true or false")
	case reflect.Int, reflect.Float64:
		number, err := quantity.ParseNumber(cell)
		if err != nil {
			return nil, fmt.Errorf("this is a number, such as 12.5: %w", err)
		}
		if json.Valid([]byte(cell)) {
			return json.RawMessage(cell), nil // as it was written
		}
		return number, nil
	case reflect.Slice:
		if !json.Valid([]byte(cell)) {
			return nil, errors.New("this is a list as JSON")
		}
		return json.RawMessage(cell), nil
	default:
	}
	// A quantity, a wood, or a member of what has several forms: a number, an object or a
	// truth as it is written, else a text.
	if json.Valid([]byte(cell)) {
		return json.RawMessage(cell), nil
	}
	if day, is := wire.ReadDay(cell); c.day && is {
		return day, nil
	}
	if number, err := quantity.ParseNumber(cell); err == nil && withComma.MatchString(cell) {
		return number, nil
	}
	return cell, nil
}
