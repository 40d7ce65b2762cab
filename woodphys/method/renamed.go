package method

import (
	"errors"
	"strings"
)

// Renamed returns err with the inputs that its errors name as another chapter or the
// service knows them: in each pair the name here and the name there. A first name that
// ends in "/" is the beginning of all below it, and then what follows it is kept below
// the new name. The first pair that fits counts. An err that joins several is renamed
// in all of them; one that is no *Error stays as it is.
//
// Source: none needed.
func Renamed(err error, names ...[2]string) error {
	if several, is := err.(interface{ Unwrap() []error }); is {
		var all []error
		for _, one := range several.Unwrap() {
			all = append(all, Renamed(one, names...))
		}
		return errors.Join(all...)
	}
	var domain *Error
	if !errors.As(err, &domain) {
		return err
	}
	for _, n := range names {
		rest, fits := strings.CutPrefix(domain.Input, n[0])
		if fits && (rest == "" || strings.HasSuffix(n[0], "/")) {
			moved := *domain
			moved.Input = n[1] + rest
			return &moved
		}
	}
	return err
}
