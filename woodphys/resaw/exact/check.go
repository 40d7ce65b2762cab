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

// AtMost returns the error of an input that another leaves at most so much: detail is what is
// wrong, limit at least 0.
//
// Errors: method.Contradictory, always. Accuracy: the limit is told in millimetres, rounded
// down to a hundredth. Source: none needed, it computes nothing.
func AtMost(input, detail string, limit quantity.Length) error {
	return bounded(input, detail, method.AtMost(limit.AtMost("mm")))
}

// LessThan is AtMost for a limit that is too much itself.
//
// Errors: method.Contradictory, always. Accuracy: as AtMost. Source: none needed, it computes
// nothing.
func LessThan(input, detail string, limit quantity.Length) error {
	return bounded(input, detail, method.LessThan(limit.AtMost("mm")))
}

// AtLeast is AtMost for the least that an input must be.
//
// Errors: method.Contradictory, always. Accuracy: as AtMost, rounded up. Source: none needed, it
// computes nothing.
func AtLeast(input, detail string, limit quantity.Length) error {
	return bounded(input, detail, method.AtLeast(limit.AtLeast("mm")))
}

// MoreThan is AtLeast for a limit that is too little itself.
//
// Errors: method.Contradictory, always. Accuracy: as AtLeast. Source: none needed, it computes
// nothing.
func MoreThan(input, detail string, limit quantity.Length) error {
	return bounded(input, detail, method.MoreThan(limit.AtLeast("mm")))
}

func bounded(input, detail string, limit *method.Limit) error {
	return &method.Error{Code: method.Contradictory, Input: input, Detail: detail + "; it must be " + limit.String(), Limit: limit}
}

// OutOfRange returns the error of an input outside a limit that no row holds.
//
// Errors: method.OutOfRange, always. Accuracy: exact. Source: none needed, it
// computes nothing.
func OutOfRange(input, detail string, limit *method.Limit) error {
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
