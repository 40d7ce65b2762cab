package shelf

import (
	"errors"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
)

// names is an object that may name rows of the tables.
type names interface {
	// unknown refuses the names that stand in no table; errors point below the object.
	unknown(t *Tables) error
}

// Unknown refuses all names of a request that stand in no table, wherever they are. It is for
// a request that is wrong otherwise and so is read no further.
func (t *Tables) Unknown(request any) error { return t.unknownIn("", reflect.ValueOf(request)) }

// nameless are the types that hold no object that may name rows, by type; long lists are not
// looked through for nothing.
var nameless sync.Map // of reflect.Type: bool

func holdsNames(t reflect.Type) bool {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return false
	}
	if known, is := nameless.Load(t); is {
		return known != any(true)
	}
	holds := reflect.PointerTo(t).Implements(reflect.TypeFor[names]()) || slices.ContainsFunc(wire.FormsOf(t), holdsNames)
	for field := range wire.Members(t) {
		holds = holds || holdsNames(field.Type)
	}
	nameless.Store(t, !holds)
	return holds
}

func (t *Tables) unknownIn(at string, v reflect.Value) error {
	if !holdsNames(v.Type()) {
		return nil
	}
	switch v = wire.FormOf(reflect.Indirect(v)); v.Kind() {
	case reflect.Slice:
		var all []error
		for i := range v.Len() {
			all = append(all, t.unknownIn(at+"/"+strconv.Itoa(i), v.Index(i)))
		}
		return errors.Join(all...)
	case reflect.Struct:
	default:
		return nil
	}
	var all []error
	if v.CanAddr() {
		if it, is := v.Addr().Interface().(names); is {
			all = append(all, wire.Under(at, it.unknown(t)))
		}
	}
	for field := range wire.Members(v.Type()) {
		all = append(all, t.unknownIn(at+"/"+wire.MemberName(field), v.FieldByIndex(field.Index)))
	}
	return errors.Join(all...)
}

func (w *WoodAsked) unknown(t *Tables) error {
	_, err := t.called(w)
	return err
}

func (p *AirOfPlace) unknown(t *Tables) error {
	if p.Station == "" {
		return nil
	}
	_, err := t.Station(p.Station)
	return wire.Under("station", err)
}

func (p *Part) unknown(t *Tables) error {
	_, err := t.partSize(p.PartSize)
	return err
}

func (s *Saw) unknown(t *Tables) error {
	_, err := t.usualKerf(s.UsualKerf)
	return err
}

func (t *Trim) unknown(tables *Tables) error {
	_, err := tables.endTrim(t.Usual)
	return err
}

// partSize is the part of the table of that id; nil for none.
func (t *Tables) partSize(id string) (*species.Plate, error) {
	row, known := t.Species.Plate(id)
	if known || id == "" {
		return row, nil
	}
	detail := "there is no part called " + wire.Quoted(id)
	if near := t.Species.SuggestPlates(id, fewest); len(near) > 0 {
		detail += "; did you mean " + strings.Join(near, ", ") + "?"
	} else {
		detail += "; GET /v1/part-sizes lists them"
	}
	return nil, &method.Error{Code: method.Unknown, Input: "part_size", Detail: detail, Limit: method.OneOf(t.NearestParts(id)...)}
}

// usualKerf is the saw of the table of that id; nil for none.
func (t *Tables) usualKerf(id string) (*species.SawKind, error) {
	row, known := t.Species.Saw(id)
	if known || id == "" {
		return row, nil
	}
	var ids []string
	for _, k := range t.Species.Saws() {
		ids = append(ids, k.ID)
	}
	return nil, noneOf("usual_kerf", "saw", id, ids)
}

// endTrim is the end trim of the table of that id; nil for none.
func (t *Tables) endTrim(id string) (*species.EndTrim, error) {
	row, known := t.Species.EndTrim(id)
	if known || id == "" {
		return row, nil
	}
	var ids []string
	for _, e := range t.Species.EndTrims() {
		ids = append(ids, e.ID)
	}
	return nil, noneOf("usual", "end trim", id, ids)
}

// noneOf says that an id is none of a short table, with all that there are.
func noneOf(input, kind, id string, ids []string) error {
	return &method.Error{Code: method.Unknown, Input: input, Limit: method.OneOf(ids...),
		Detail: "there is no " + kind + " called " + wire.Quoted(id) + "; there are " + strings.Join(ids, " ")}
}
