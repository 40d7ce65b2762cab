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
	return eachInput(err, func(input string) string { return renamed(input, names) })
}

func renamed(input string, names [][2]string) string {
	for _, n := range names {
		rest, fits := strings.CutPrefix(input, n[0])
		if fits && (rest == "" || strings.HasSuffix(n[0], "/")) {
			return n[1] + rest
		}
	}
	return input
}

// Named returns err with its input called that, whatever it was called; the rest is as
// with Renamed.
//
// Source: none needed.
func Named(err error, input string) error {
	return eachInput(err, func(string) string { return input })
}

// Below returns err with its input called as one of a place, such as layers/2: that of
// "" is the place itself. The rest is as with Renamed.
//
// Source: none needed.
func Below(err error, place string) error {
	return eachInput(err, func(input string) string {
		if input == "" {
			return place
		}
		return place + "/" + input
	})
}

// eachInput returns err with the inputs that its errors name called anew.
func eachInput(err error, anew func(input string) string) error {
	if several, is := err.(interface{ Unwrap() []error }); is {
		var all []error
		for _, one := range several.Unwrap() {
			all = append(all, eachInput(one, anew))
		}
		return errors.Join(all...)
	}
	var domain *Error
	if !errors.As(err, &domain) {
		return err
	}
	moved := *domain
	moved.Input = anew(domain.Input)
	return &moved
}
