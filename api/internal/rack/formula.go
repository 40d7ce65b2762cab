package rack

import (
	"regexp"

	"latewood/api/internal/wire"
)

// below is a negative number or quantity, which is no formula.
var below = regexp.MustCompile(`^-[0-9][0-9.,]*([eE][+-]?[0-9]+)?( ?°?[A-Za-z%]+)?$`)

// runs reports a cell that a spreadsheet would run.
func runs(cell string) bool {
	return !below.MatchString(cell) && wire.NoFormulas(wire.Tabled{Text: cell}) != nil
}
