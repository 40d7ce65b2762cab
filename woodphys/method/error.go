package method

import "strings"

// Code classifies an error or a warning for programs. Codes are part of the
// service's contract.
type Code string

// Codes of errors.
const (
	OutOfRange    Code = "out_of_range"  // a value outside the limits
	Missing       Code = "missing"       // something needed was not given
	Contradictory Code = "conflict"      // two inputs cannot both be true
	Unknown       Code = "not_found"     // a name that is not in the tables
	Ambiguous     Code = "ambiguous"     // a name of several; say which
	NotAChoice    Code = "not_a_choice"  // a word that is none of those offered
	Duplicate     Code = "duplicate_id"  // two entries of one list have the same id
	Unsupported   Code = "not_supported" // cannot be computed as it is asked
	MissingData   Code = "missing_data"  // the tables lack a value this needs; send it
	TooMuchWork   Code = "too_much_work" // would exceed the work budget
	Stopped       Code = "stopped"       // the caller gave up or time ran out
)

// Codes of warnings.
const (
	OutsideFitted Code = "outside_fitted_range" // computed beyond the fitted range
	Recalled      Code = "recalled_value"       // rests on a value recalled from its source, not re-read
	DefaultUsed   Code = "default_used"         // a missing input was replaced
	Disagreement  Code = "disagreement"         // two published ways give different answers
	Assumption    Code = "assumption"           // a simplification worth knowing
	Caution       Code = "caution"              // safety, health or law
	NotComputed   Code = "not_computed"         // a part of the answer that could not be had
	NotUsed       Code = "not_used"             // what was sent has no bearing on this answer
	CheckInput    Code = "check_input"          // what was sent looks like a slip; it was taken as it is
)

// AWood is the kind of a subject that is called by the common name of a wood.
const AWood = "wood"

// Error is what a chapter returns for input it cannot answer. Input names the
// input as the chapter's documentation does; the service turns it into a
// pointer to the caller's field.
type Error struct {
	Code   Code
	Input  string
	Detail string // for people: what is wrong, the limit and the unit
	Limit  *Limit // the limit alone; nil where there is none
}

func (e *Error) Error() string { return e.Detail }

// Telling returns e with another limit in place of its own, in the words of the detail too.
//
// Source: none needed.
func (e *Error) Telling(limit *Limit) *Error {
	told := *e
	told.Limit, told.Detail = limit, strings.Replace(e.Detail, e.Limit.String(), limit.String(), 1)
	return &told
}

// Warning is something the reader of an answer should know. A chapter names the input as
// its documentation does; the service turns that into a pointer to the caller's field.
type Warning struct {
	Code    Code   `json:"code" required:"true" enum:"outside_fitted_range,recalled_value,default_used,disagreement,assumption,caution,not_computed,not_used,check_input" description:"for programs; more may come"`
	Detail  string `json:"detail" required:"true" description:"for people"`
	Input   string `json:"pointer,omitempty" description:"RFC 6901 pointer into the request, to the member it is about, which was sent or could be"`
	Subject string `json:"subject,omitempty" description:"name of what it speaks of: what you called it, else its place among its like, or the common name of a wood"`
	About   string `json:"subject_kind,omitempty" enum:"wood,billet,log,part,layer,laminate,pair,joint,saw,reading,stay" description:"what subject names"`
	Method  string `json:"method,omitempty" description:"id of the method that warns; its row of GET /v1/methods explains it"`
	// Also are the places of those that say the same; a pointer, so that warnings compare.
	Also  *Pointers `json:"also_pointers,omitempty" description:"of the other members that the same holds for, where they are many: they have no warning of their own. Numbers in detail are those of pointer"`
	words wording
}

// Pointers are places of a request.
type Pointers []string
