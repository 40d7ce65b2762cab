package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// given is one named length of a request.
type given struct {
	name string
	l    quantity.Length
}

// check passes each length through the method's row, in millimetres.
func check(notes *method.Notes, m *method.Method, lengths ...given) error {
	for _, g := range lengths {
		if err := notes.Use(m, g.name, millimetres(g.l)); err != nil {
			return err
		}
	}
	return nil
}

func contradictory(input, detail string) error {
	return &method.Error{Code: method.Contradictory, Input: input, Detail: detail}
}

func outOfRange(input, detail, limit string) error {
	return &method.Error{Code: method.OutOfRange, Input: input, Detail: detail, Limit: limit}
}

// rename gives an error the caller's name of the input.
func rename(err error, names map[string]string) error {
	e, ok := err.(*method.Error) //nolint:errorlint // made bare by this package
	if !ok {
		return err
	}
	if to, ok := names[e.Input]; ok {
		out := *e
		out.Input, out.Detail = to, to+": "+e.Detail
		return &out
	}
	return err
}
