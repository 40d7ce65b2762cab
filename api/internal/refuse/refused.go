package refuse

import (
	"net/http"

	"latewood/woodphys/method"
)

// Header is the problem of a header, which is told as a parameter is.
func Header(status int, header, code, detail string) *Problem {
	return New(status, detail, FieldError{Parameter: header, Code: code, Detail: detail})
}

// Media is the problem of a body of another media type than those that are taken.
func Media(detail string, taken ...string) *Problem {
	p := Header(http.StatusUnsupportedMediaType, "Content-Type", "not_a_choice", detail)
	p.Offers, p.Errors[0].Limit = taken, method.OneOf(taken...)
	return p
}

// Body is the problem of a whole body.
func Body(status int, code, detail string) *Problem {
	return New(status, detail, FieldError{Code: code, Detail: detail})
}

// NoBody is the problem of a body that is empty.
func NoBody(wanted string) *Problem {
	return Body(http.StatusBadRequest, "missing", "the body is empty; send "+wanted)
}

// TooLarge is the problem of a body, or of a line of one, that is longer than it may be.
func TooLarge(what string, most int64) *Problem {
	limit := method.AtMost(float64(most), "bytes")
	p := Body(http.StatusRequestEntityTooLarge, "too_long", what+" may hold "+limit.String())
	p.Errors[0].Limit = limit
	return p
}
