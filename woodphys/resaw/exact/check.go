package exact

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Given is one named length of a request.
type Given struct {
	Name string
	L    quantity.Length
}

// Named returns a length with the name that its row has for it.
//
// Accuracy: exact. Source: none needed, it computes nothing.
func Named(name string, l quantity.Length) Given { return Given{name, l} }

// Check passes each length through the method's row, in millimetres.
//
// Errors: method.OutOfRange. Accuracy: lengths are held to the nanometre.
// Source: the row.
func Check(notes *method.Notes, m *method.Method, lengths ...Given) error {
	for _, g := range lengths {
		if err := notes.Use(m, g.Name, Millimetres(g.L)); err != nil {
			return err
		}
	}
	return nil
}

// Contradictory returns the error of an input that contradicts another.
//
// Errors: method.Contradictory, always. Accuracy: exact. Source: none needed, it
// computes nothing.
func Contradictory(input, detail string) error {
	return &method.Error{Code: method.Contradictory, Input: input, Detail: detail}
}

// OutOfRange returns the error of an input outside a limit that no row holds.
//
// Errors: method.OutOfRange, always. Accuracy: exact. Source: none needed, it
// computes nothing.
func OutOfRange(input, detail, limit string) error {
	return &method.Error{Code: method.OutOfRange, Input: input, Detail: detail, Limit: limit}
}

// Rename returns an error with the caller's names of the inputs: of each name of a
// part its name in the whole. Any other error comes back as it is.
//
// Errors: the one given. Accuracy: exact. Source: none needed, it computes nothing.
func Rename(err error, names map[string]string) error {
	e, ok := err.(*method.Error) //nolint:errorlint // made bare by these packages
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
