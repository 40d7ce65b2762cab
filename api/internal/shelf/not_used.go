package shelf

import (
	"reflect"
	"slices"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// NotUsed gathers the members of shared objects that have no bearing on an answer. The
// objects are the same in every route, so that a caller who keeps one may send it whole.
type NotUsed struct {
	places, names []string // of each, where it first stands and what it is called
}

// labels have no bearing on any answer, and are not meant to.
var labels = []string{"id", "name", "note"}

// Look notes the members that object, a pointer to a shared object found at a place such
// as billets/0, has and that are not among those used. Used is a name, of all that it
// holds, or a path to one member, as in "trim/usual".
func (n *NotUsed) Look(at string, object any, used ...string) {
	is := reflect.ValueOf(object)
	if is.IsNil() {
		return
	}
	n.look(at, at, is.Elem(), used)
}

// look notes the members of a struct that stands at a place and is spoken of as called.
func (n *NotUsed) look(at, called string, is reflect.Value, used []string) {
	if called == at {
		called = listed(at)
	}
	for i := range is.NumField() {
		name := wire.MemberName(is.Type().Field(i))
		value := is.Field(i)
		if name == "" || value.IsZero() || slices.Contains(labels, name) || slices.Contains(used, name) || isDefault(value, is.Type().Field(i)) {
			continue
		}
		var below []string
		for _, u := range used {
			if rest, is := strings.CutPrefix(u, name+"/"); is {
				below = append(below, rest)
			}
		}
		if below != nil && value.Kind() == reflect.Pointer {
			n.look(at+"/"+name, called+"."+name, value.Elem(), below)
			continue
		}
		n.add(at+"/"+name, called+"."+name)
	}
}

// listed is a place in words, one for all entries of a list: laminates.layers.
func listed(at string) string {
	words := strings.Split(at, "/")
	return strings.Join(slices.DeleteFunc(words, func(word string) bool { return strings.Trim(word, "0123456789") == "" }), ".")
}

// isDefault reports a number that is sent and says no more than leaving it out.
func isDefault(value reflect.Value, field reflect.StructField) bool {
	number, is := value.Interface().(*float64)
	return is && *number == 0 && field.Tag.Get("default") == "0"
}

func (n *NotUsed) add(at, called string) {
	if !slices.Contains(n.names, called) {
		n.places, n.names = append(n.places, at), append(n.names, called)
	}
}

// Tell warns of what was noted, of each member once, where it first stands.
func (n *NotUsed) Tell(notes *method.Notes) {
	for i, called := range n.names {
		notes.Warn(method.Warning{Code: method.NotUsed, Input: n.places[i], Detail: called + " has no bearing on this answer"})
	}
}
