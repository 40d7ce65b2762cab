package api

import (
	"slices"

	"github.com/labstack/echo/v4"
)

// route is one entry of the route table: what the service answers there, and
// all that the contract says of it.
type route struct {
	method, path string
	id           string // operation id, stable
	tag          string
	summary      string
	query        []parameter
	request      any    // zero value of the request type; nil for look-ups
	result       any    // zero value of the reply type
	forms        []form // besides JSON
	heavy        bool   // simulates or searches: only so many at a time
	asset        bool   // served as it is: not in the contract, not negotiated
	streams      bool   // also takes and gives one line after the other
	open         openness
	handler      endpoint
}

// Limits of bodies, in bytes.
const (
	noBody          = 1 << 10
	calculationBody = 256 << 10
	heavyBody       = 1 << 20 // holds a record of air of 5000 rows, or a batch
)

func (r *route) bodyLimit() int64 {
	switch {
	case r.request == nil:
		return noBody
	case r.heavy || r.streams:
		return heavyBody
	}
	return calculationBody
}

// parameters are the query parameters of the route.
func (r *route) parameters() []parameter {
	if len(r.forms) == 0 {
		return r.query
	}
	return append(slices.Clone(r.query), asParameter(r))
}

func (r *route) offers() []string {
	offers := []string{echo.MIMEApplicationJSON}
	for _, f := range r.forms {
		if !slices.Contains(offers, f.media) {
			offers = append(offers, f.media)
		}
	}
	return offers
}
