package serve

import (
	"bytes"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// statusOf is the one map from the domain's codes to HTTP. Codes that are not
// listed speak of the request and are 422.
func statusOf(code method.Code) int {
	if code == method.Stopped {
		return http.StatusServiceUnavailable
	}
	return http.StatusUnprocessableEntity
}

// asProblem turns any error of a handler into a problem.
func asProblem(err error) *refuse.Problem {
	var p *refuse.Problem
	if errors.As(err, &p) {
		return p
	}
	if all := wire.DomainErrors(err); len(all) > 0 {
		return domainProblem(all)
	}
	var refused *wire.Refused
	if errors.As(err, &refused) {
		return refusedProblem(refused)
	}
	var framework *echo.HTTPError
	if errors.As(err, &framework) {
		detail := ""
		if framework.Code == http.StatusNotFound {
			detail = "there is no such path; /docs shows those there are"
		}
		return refuse.New(framework.Code, detail)
	}
	var tooLarge *http.MaxBytesError
	if errors.As(err, &tooLarge) {
		return refuse.TooLarge("the body", tooLarge.Limit)
	}
	return refuse.New(http.StatusInternalServerError, "")
}

// domainProblem tells all domain errors at once; the first decides the status.
func domainProblem(all []*method.Error) *refuse.Problem {
	status := statusOf(all[0].Code)
	if status == http.StatusServiceUnavailable {
		p := refuse.New(status, all[0].Detail)
		p.RetryAfter = 1
		return p
	}
	fields := make([]refuse.FieldError, 0, len(all))
	for _, e := range all[:min(len(all), refuse.Most)] {
		field := refuse.Of(e)
		fields = refuse.AddFault(fields, field)
	}
	return refuse.Invalid(fields...)
}

// refusedProblem is the problem of what is refused.
func refusedProblem(r *wire.Refused) *refuse.Problem {
	status := map[wire.RefusedFor]int{wire.NotThere: http.StatusNotFound, wire.Conflict: http.StatusConflict,
		wire.Changed: http.StatusPreconditionFailed, wire.Unseen: http.StatusPreconditionRequired,
		wire.Wrong: http.StatusUnprocessableEntity, wire.Unfit: http.StatusUnsupportedMediaType, wire.Unread: http.StatusBadRequest, wire.NoRoom: http.StatusConflict}[r.Why]
	var fields []refuse.FieldError
	if r.Code != "" {
		fields = []refuse.FieldError{{Pointer: r.Pointer, Parameter: r.Parameter, Code: r.Code, Detail: r.Detail, Limit: r.Limit}}
	}
	p := refuse.New(status, r.Detail, fields...)
	if status == http.StatusUnsupportedMediaType && len(fields) > 0 && fields[0].Limit != nil {
		p.Offers = fields[0].Limit.Choices
	}
	return p
}

// writeProblem sends a problem.
func writeProblem(c echo.Context, p *refuse.Problem) error {
	header := c.Response().Header()
	p.Instance = header.Get(echo.HeaderXRequestID)
	if allow := header.Get(echo.HeaderAllow); p.Status == http.StatusMethodNotAllowed && allow != "" {
		p.Detail, p.Offers = "this path answers "+allow, strings.Split(allow, ", ")
	}
	if p.RetryAfter > 0 {
		header.Set("Retry-After", strconv.Itoa(p.RetryAfter))
	}
	if p.Challenge != "" {
		header.Set(echo.HeaderWWWAuthenticate, p.Challenge)
	}
	header.Del("ETag")
	header.Set("Cache-Control", "no-store")
	buffer := new(bytes.Buffer)
	if err := wire.NewEncoder(buffer).Encode(p); err != nil {
		return err
	}
	return c.Blob(p.Status, refuse.JSON, buffer.Bytes())
}
