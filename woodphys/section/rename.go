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
	moved := *e
	moved.Input = "levels/" + strconv.Itoa(level) + "/" + e.Input
	return &moved
}

// renamed gives the input of an error the name beside it.
func renamed(err error, names ...[2]string) error {
	var e *method.Error
	if !errors.As(err, &e) {
		return err
	}
	for _, n := range names {
		if e.Input == n[0] {
			moved := *e
			moved.Input = n[1]
			return &moved
		}
	}
	return err
}
