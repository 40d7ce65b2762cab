package serve

import "github.com/labstack/echo/v4"

// asked is a request that was let in, with its caller and what it holds.
type asked struct {
	echo.Context
	who        caller
	key        string // id of the token; empty where none are asked for
	role       Role
	stores     *stores
	seat       seat
	body, text held
}

// askedOf is the request as it was let in; nil for those that probes ask.
func askedOf(c echo.Context) *asked {
	a, _ := c.(*asked)
	return a
}

// leaveSeat gives the place of a request back before it writes: the caller may take the
// answer slowly.
func leaveSeat(c echo.Context) {
	if a := askedOf(c); a != nil {
		a.seat.leave()
	}
}

// end gives back all that the request holds.
func (a *asked) end() {
	a.seat.leave()
	a.body.give()
	a.text.give()
}
