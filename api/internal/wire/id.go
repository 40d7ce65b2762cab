package wire

import (
	"regexp"

	"latewood/woodphys/method"
)

// IDPattern is that of an id that a caller gives.
const IDPattern = `^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`

// ID is how a caller's id is written.
var ID = regexp.MustCompile(IDPattern)

// IDLimit is what an id has to be.
func IDLimit() *method.Limit {
	return method.Between(1, 64, "letters, digits, dots, hyphens and underscores, a letter or a digit first")
}
