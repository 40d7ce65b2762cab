package wire

import (
	"errors"
	"strings"

	"latewood/woodphys/method"
)

// DomainErrors collects every domain error that err joins.
func DomainErrors(err error) []*method.Error {
	if several, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*method.Error
		for _, one := range several.Unwrap() {
			all = append(all, DomainErrors(one)...)
		}
		return all
	}
	var domain *method.Error
	if errors.As(err, &domain) {
		return []*method.Error{domain}
	}
	return nil
}

// Under says that a domain error speaks of inputs found below a member of the
// request: its input "mass" becomes "readings/0/mass". Names that differ
// between the domain and the request are renamed on the way.
func Under(member string, err error, renames ...[2]string) error {
	return EachError(err, func(one error) error { return underOne(member, one, renames) })
}

// EachError changes every error that err joins.
func EachError(err error, change func(error) error) error {
	if err == nil {
		return nil
	}
	several, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return change(err)
	}
	var all []error
	for _, one := range several.Unwrap() {
		all = append(all, EachError(one, change))
	}
	return errors.Join(all...)
}

func underOne(member string, err error, renames [][2]string) error {
	var domain *method.Error
	if !errors.As(err, &domain) {
		return err
	}
	moved := *domain
	for _, r := range renames {
		if moved.Input == r[0] {
			moved.Input = r[1]
		}
	}
	switch {
	case member == "" || strings.HasPrefix(moved.Input, "/"): // of the whole request
	case moved.Input == "":
		moved.Input = member
	default:
		moved.Input = member + "/" + moved.Input
	}
	return &moved
}

// AsDomain finds a domain error.
func AsDomain(err error) (*method.Error, bool) {
	var domain *method.Error
	return domain, errors.As(err, &domain)
}

// DomainCode is the code of a domain error.
func DomainCode(err error) (method.Code, bool) {
	domain, is := AsDomain(err)
	if !is {
		return "", false
	}
	return domain.Code, true
}

func trimSlash(input string) string { return strings.TrimPrefix(input, "/") }
