package section

import (
	"errors"
	"strconv"

	"latewood/woodphys/method"
)

// prefix puts the number of the level before the input of an error.
func prefix(err error, level int) error {
	var e *method.Error
	if !errors.As(err, &e) {
		return err
	}
	renamed := *e
	renamed.Input = "levels/" + strconv.Itoa(level) + "/" + e.Input
	return &renamed
}
