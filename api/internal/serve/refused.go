package serve

import (
	"net/http"

	"github.com/labstack/echo/v4"

	"latewood/woodphys/method"
)

// wrongHeader is the problem of a header, which is told as a parameter is.
func wrongHeader(status int, header, code, detail string) *Problem {
	return NewProblem(status, detail, FieldError{Parameter: header, Code: code, Detail: detail})
}

// wrongMedia is the problem of a body of another media type than those that are taken.
func wrongMedia(detail string, taken ...string) *Problem {
	p := wrongHeader(http.StatusUnsupportedMediaType, echo.HeaderContentType, "not_a_choice", detail)
	p.Offers, p.Errors[0].Limit = taken, method.OneOf(taken...)
	return p
}

// wrongBody is the problem of a whole body.
func wrongBody(status int, code, detail string) *Problem {
	return NewProblem(status, detail, FieldError{Code: code, Detail: detail})
}

// noBodySent is the problem of a body that is empty.
func noBodySent(wanted string) *Problem {
	return wrongBody(http.StatusBadRequest, "missing", "the body is empty; send "+wanted)
}

// tooLargeBody is the problem of a body, or of a line of one, that is longer than it may be.
func tooLargeBody(what string, most int64) *Problem {
	limit := method.AtMost(float64(most), "bytes")
	p := wrongBody(http.StatusRequestEntityTooLarge, "too_long", what+" may hold "+limit.String())
	p.Errors[0].Limit = limit
	return p
}
