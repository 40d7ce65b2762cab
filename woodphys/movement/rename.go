package movement

import (
	"errors"

	"latewood/woodphys/method"
)

// rename points an error about one input at another name.
func rename(err error, from, to string) error {
	var e *method.Error
	if !errors.As(err, &e) || e.Input != from {
		return err
	}
	renamed := *e
	renamed.Input = to
	return &renamed
}
