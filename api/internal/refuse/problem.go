package refuse

import (
	"bytes"
	"net/http"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Problem is an error reply in the form of RFC 9457.
type Problem struct { //nolint:errname // the contract calls it Problem, as RFC 9457 does
	Type     string       `json:"type" required:"true" format:"uri-reference" description:"what kind of problem: a path of this service that explains it, or a registered type"`
	Title    string       `json:"title" required:"true" description:"for people, the same for every problem of its type"`
	Status   int          `json:"status" required:"true" description:"of HTTP"`
	Detail   string       `json:"detail,omitempty" description:"for people, of this request"`
	Instance string       `json:"instance,omitempty" description:"the request id, also in the X-Request-Id header and the log"`
	Errors   []FieldError `json:"errors,omitempty" description:"every field that is wrong, all at once"`
	Offers   []string     `json:"offers,omitempty" description:"media types or methods that would do"`

	Violated []string `json:"violated-policies,omitempty" description:"the policies of RateLimit-Policy that were exceeded"`

	Request    any    `json:"-"` // what could be read of it; nil where it is told whole
	RetryAfter int    `json:"-"` // seconds, of the header of that name; 0: none
	Challenge  string `json:"-"` // of WWW-Authenticate
}

// FieldError says what is wrong with one member of the request.
type FieldError struct {
	Pointer   string        `json:"pointer,omitempty" description:"RFC 6901 pointer into the request body; empty for the whole body. Left out beside parameter"`
	Parameter string        `json:"parameter,omitempty" description:"name of the parameter of the query or the path, or of the header, if it is one. Left out beside pointer"`
	Code      string        `json:"code" required:"true" enum:"invalid_json,trailing_text,duplicate_member,unknown_member,wrong_type,number_too_large,null_value,empty_text,invalid_quantity,invalid_format,missing,out_of_range,too_short,too_long,too_few_items,too_many_items,not_a_choice,not_found,ambiguous,conflict,duplicate_id,missing_data,not_supported,too_much_work,unknown_parameter,duplicate_parameter" description:"for programs; more may come"`
	Detail    string        `json:"detail" required:"true" description:"for people"`
	Limit     *method.Limit `json:"limit,omitempty" description:"what was missed, for programs; the detail says it too"`
}

// MarshalJSON writes a pointer, which is empty for the whole body, or a parameter.
func (e FieldError) MarshalJSON() ([]byte, error) {
	type ofParameter FieldError
	type ofBody struct {
		Pointer   string        `json:"pointer"`
		Parameter string        `json:"-"`
		Code      string        `json:"code"`
		Detail    string        `json:"detail"`
		Limit     *method.Limit `json:"limit,omitempty"`
	}
	var told any = ofParameter(e)
	if e.Parameter == "" {
		told = ofBody(e)
	}
	out := new(bytes.Buffer)
	err := wire.NewEncoder(out).Encode(told)
	return out.Bytes(), err
}

func (p *Problem) Error() string { return p.Title + ": " + p.Detail }

// ProblemKind is one row of the table of problems; GET /problems/{kind} shows it.
type ProblemKind struct {
	Kind   string `json:"kind" required:"true" description:"last part of its type"`
	Type   string `json:"type" required:"true" description:"as problems of this kind name it"`
	Status int    `json:"status" required:"true" description:"of HTTP"`
	Title  string `json:"title" required:"true" description:"for people"`
	Help   string `json:"detail" required:"true" description:"what to do"`
}

// registered is where the types stand that draft-ietf-httpapi-ratelimit-headers-10
// registers (from memory).
const registered = "https://iana.org/assignments/http-problem-types#"

// ProblemKinds are all kinds of problem.
var ProblemKinds = []ProblemKind{
	{"unreadable", "/problems/unreadable", http.StatusBadRequest, "The request cannot be read", "The body is not JSON, has trailing text, or names a member twice; or a query parameter is unknown or malformed."},
	{"unauthorised", "/problems/unauthorised", http.StatusUnauthorized, "A token is needed", "Send the token you were given as Authorization: Bearer TOKEN. The front page, the documents and the probes need none."},
	{"forbidden", "/problems/forbidden", http.StatusForbidden, "This may not be asked from there", "A page of another origin asked, the token may not do this, or the request came through a proxy that the service was not told of. Whoever runs the service names the origins and proxies that may."},
	{"not-found", "/problems/not-found", http.StatusNotFound, "Nothing here", "No such path, or no such entry in the tables."},
	{"method-not-allowed", "/problems/method-not-allowed", http.StatusMethodNotAllowed, "This path does not answer that method", "The Allow header lists the methods of the path."},
	{"not-acceptable", "/problems/not-acceptable", http.StatusNotAcceptable, "No such form of the answer", "The Accept header names no media type this path offers; offers lists them."},
	{"request-timeout", "/problems/request-timeout", http.StatusRequestTimeout, "The request took too long to arrive", "The body did not arrive in time."},
	{"conflict", "/problems/conflict", http.StatusConflict, "It does not go with what is kept", "The id is in use, the entry was removed, or a request with the same Idempotency-Key is under way; the detail says which."},
	{"precondition-failed", "/problems/precondition-failed", http.StatusPreconditionFailed, "The condition of the request does not hold", "If-None-Match names the tag of this answer: nothing in it has changed. Or If-Match names another version of an entry of the rack than is there: read it, look at what changed, and change that."},
	{"content-too-large", "/problems/content-too-large", http.StatusRequestEntityTooLarge, "The body is too large", "The body exceeds the limit of the path."},
	{"unsupported-media-type", "/problems/unsupported-media-type", http.StatusUnsupportedMediaType, "The body is in the wrong form", "Send application/json, say so in Content-Type, and do not compress it."},
	{"misdirected", "/problems/misdirected", http.StatusMisdirectedRequest, "The service is not asked by that name", "The Host header names another host than this service answers for. Whoever runs it names its hosts."},
	{"invalid", "/problems/invalid", http.StatusUnprocessableEntity, "The request is readable but cannot be answered", "One or more members are missing, of the wrong type, out of range or contradict each other; errors points at each of them."},
	{"precondition-required", "/problems/precondition-required", http.StatusPreconditionRequired, "Say which version you saw", "Send If-Match with the ETag of the entry, or * for any version."},
	{"too-many-requests", registered + "quota-exceeded", http.StatusTooManyRequests, "Too many requests", "Wait as long as Retry-After says. RateLimit tells what is left, RateLimit-Policy and GET /v1/limits what is allowed."},
	{"internal", "/problems/internal", http.StatusInternalServerError, "The service failed", "This is a defect. The request id finds it in the log."},
	{"busy", registered + "temporary-reduced-capacity", http.StatusServiceUnavailable, "The service is busy", "Wait as long as Retry-After says."},
}

// New is the problem of a status; fields are those of the request that are wrong.
func New(status int, detail string, fields ...FieldError) *Problem {
	for _, k := range ProblemKinds {
		if k.Status == status {
			return &Problem{Type: k.Type, Title: k.Title, Status: status, Detail: detail, Errors: fields}
		}
	}
	return New(http.StatusInternalServerError, "")
}

// Kind is the word for the kind of a problem.
func (p *Problem) Kind() string {
	for _, k := range ProblemKinds {
		if k.Status == p.Status {
			return k.Kind
		}
	}
	return "internal"
}

// Most is the most field errors one problem lists.
const Most = 32

// Invalid is the problem of a readable request with wrong members.
func Invalid(fields ...FieldError) *Problem {
	detail := fields[0].Detail
	if len(fields) > 1 {
		detail += " (and " + strconv.Itoa(len(fields)-1) + " more)"
	}
	return New(http.StatusUnprocessableEntity, detail, fields...)
}

// Of is what a caller is told of a domain error.
func Of(e *method.Error) FieldError {
	return FieldError{Pointer: pointerOf(e.Input), Code: string(e.Code), Detail: e.Detail, Limit: e.Limit}
}

func pointerOf(input string) string {
	if input == "" || input[0] == '/' {
		return input
	}
	return "/" + input
}

// JSON is the media type of problems.
const JSON = "application/problem+json"
