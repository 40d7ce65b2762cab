package serve

import (
	"latewood/api/internal/wire"
	"slices"

	"github.com/labstack/echo/v4"
)

// Route is one entry of the route table: what the service answers there, and
// all that the contract says of it.
type Route struct {
	Method, Path string
	ID           string // operation id, stable
	Tag          string
	Summary      string
	Query        []Parameter
	Request      any         // zero value of the request type; nil for look-ups
	Result       any         // zero value of the reply type
	Forms        []wire.Form // besides JSON
	Heavy        bool        // simulates or searches: only so many at a time
	Asset        bool        // served as it is: not in the contract, not negotiated
	Streams      bool        // also takes and gives one line after the other
	Open         Openness
	Handler      Endpoint
}

// Limits of bodies, in bytes.
const (
	noBody          = 1 << 10
	CalculationBody = 256 << 10
	HeavyBody       = 1 << 20 // holds a record of air of 5000 rows, or a batch
)

func (r *Route) BodyLimit() int64 {
	switch {
	case r.Request == nil:
		return noBody
	case r.Heavy || r.Streams:
		return HeavyBody
	}
	return CalculationBody
}

// Parameters are the query parameters of the route.
func (r *Route) Parameters() []Parameter {
	if len(r.Forms) == 0 {
		return r.Query
	}
	return append(slices.Clone(r.Query), asParameter(r))
}

func (r *Route) offers() []string {
	offers := []string{echo.MIMEApplicationJSON}
	for _, f := range r.Forms {
		if !slices.Contains(offers, f.Media) {
			offers = append(offers, f.Media)
		}
	}
	return offers
}
