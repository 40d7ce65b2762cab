package api

import (
	"errors"
	"latewood/woodphys/method"
	"strings"
)

// domainErrors collects every domain error that err joins.
func domainErrors(err error) []*method.Error {
	if several, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*method.Error
		for _, one := range several.Unwrap() {
			all = append(all, domainErrors(one)...)
		}
		return all
	}
	var domain *method.Error
	if errors.As(err, &domain) {
		return []*method.Error{domain}
	}
	return nil
}

// under says that a domain error speaks of inputs found below a member of the
// request: its input "mass" becomes "readings/0/mass". Names that differ
// between the domain and the request are renamed on the way.
func under(member string, err error, renames ...[2]string) error {
	return eachError(err, func(one error) error { return underOne(member, one, renames) })
}

// eachError changes every error that err joins.
func eachError(err error, change func(error) error) error {
	if err == nil {
		return nil
	}
	several, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return change(err)
	}
	var all []error
	for _, one := range several.Unwrap() {
		all = append(all, eachError(one, change))
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

// asDomain finds a domain error.
func asDomain(err error) (*method.Error, bool) {
	var domain *method.Error
	return domain, errors.As(err, &domain)
}

// domainCode is the code of a domain error.
func domainCode(err error) (method.Code, bool) {
	domain, is := asDomain(err)
	if !is {
		return "", false
	}
	return domain.Code, true
}
