package asking

import (
	"net/http"
	"slices"

	"latewood/api/internal/refuse"
	"latewood/woodphys/method"
)

// Carries says what an error of a code carries besides its place, its code and its detail.
type Carries struct {
	Code  string
	Limit carried
}

// carried is what has to stand in the limit of an error.
type carried int

const (
	maybe   carried = iota // a limit where there is one to tell
	bounds                 // a least or a most, a first or a last day, or a text of the form that is wanted
	least                  // the least that is allowed
	most                   // the most that is allowed
	choices                // what there is
)

// Codes are all codes of errors, with what an error of each carries: the one place where that
// stands. Tests hold every refusal to it.
var Codes = []Carries{
	{"invalid_json", maybe},     // the body is no JSON
	{"trailing_text", maybe},    // text stands behind the JSON
	{"duplicate_member", maybe}, // a member, or a column of a sheet, is there twice
	{"unknown_member", maybe},   // there is no such member; the choices of the limit are what was probably meant
	{"wrong_type", maybe},
	{"number_too_large", maybe},
	{"null_value", maybe},       // null is no value; leave the member out
	{"empty_text", maybe},       // "" is no value; leave the member out
	{"invalid_quantity", maybe}, // not a quantity; the choices are the units
	{"invalid_format", maybe},   // not a date, an id or a picture, where that is wanted
	{"missing", maybe},          // needed, and not sent
	{"out_of_range", bounds},
	{"too_short", least}, // of characters
	{"too_long", most},   // of characters, or of the bytes of the body
	{"too_few_items", least},
	{"too_many_items", most},
	{"not_a_choice", choices},
	{"not_found", choices},   // not in the tables, or not on the rack; the choices are those nearest in spelling, if there are any
	{"ambiguous", choices},   // a name of several
	{"conflict", maybe},      // contradicts what else was sent, or what is kept
	{"duplicate_id", maybe},  // an id is there twice
	{"missing_data", maybe},  // neither sent nor in the tables, or not on the rack
	{"not_supported", maybe}, // cannot be worked out as it is asked
	{"too_much_work", maybe},
	{"unknown_parameter", maybe}, // the choices are the parameters that there are
	{"duplicate_parameter", maybe},
}

// Lacks says what an error lacks by its code; empty where it has all.
func Lacks(e *refuse.FieldError) string {
	at := slices.IndexFunc(Codes, func(c Carries) bool { return c.Code == e.Code })
	if at < 0 {
		return "a known code"
	}
	l := e.Limit
	if l == nil {
		l = &method.Limit{}
	}
	lacks := map[carried]struct {
		what string
		has  bool
	}{
		maybe:   {"", true},
		bounds:  {"a bound", l.Min != nil || l.Max != nil || l.Earliest != "" || l.Latest != "" || l.Example != ""},
		least:   {"the least", l.Min != nil},
		most:    {"the most", l.Max != nil},
		choices: {"choices", len(l.Choices) > 0},
	}[Codes[at].Limit]
	if lacks.has || e.Code == "not_found" && e.Parameter == "id" { // of what is kept there may be none
		return ""
	}
	return lacks.what
}

// PointsOut reports whether problems of a status are about something that was sent, and say by
// errors what it is.
func PointsOut(status int) bool {
	switch status {
	case http.StatusBadRequest, http.StatusNotAcceptable, http.StatusConflict, http.StatusPreconditionFailed, http.StatusRequestEntityTooLarge,
		http.StatusUnsupportedMediaType, http.StatusUnprocessableEntity, http.StatusPreconditionRequired:
		return true
	}
	return false
}
