package resaw

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// nm is a length in whole nanometres. Every whole micrometre and every 1/64 in
// is a whole number of nanometres.
type nm = int64

// perMetre is the number of nanometres in a metre.
const perMetre = 1e9

// maxLength is the longest length the package takes, in millimetres (100 m).
// Three of them multiplied stay inside the 128 bits of Cubic.
const maxLength = 1e5

// whole returns l rounded to the nearest nanometre. Callers have checked that
// l is finite and at most 100 m.
func whole(l quantity.Length) nm { return nm(math.Round(float64(l) * perMetre)) }

// length returns the length of n nanometres.
func length(n nm) quantity.Length { return quantity.Length(float64(n) / perMetre) }

// lengthPtr returns a pointer to the length of n nanometres.
func lengthPtr(n nm) *quantity.Length {
	l := length(n)
	return &l
}

// millimetres returns l in millimetres, free of what floating point adds below
// a nanometre, so that a value on a limit is inside it.
func millimetres(l quantity.Length) float64 { return math.Round(float64(l)*perMetre) / 1e6 }

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

// MaxLeaves is the largest number of leaves of one stack the package answers
// for; beyond it the answer is a method.TooMuchWork error.
const MaxLeaves = 100_000

func tooManyLeaves(n int64) error {
	if n <= MaxLeaves {
		return nil
	}
	return &method.Error{
		Code: method.TooMuchWork, Input: "leaf", Limit: "100000 leaves",
		Detail: "the cut gives more than 100000 leaves; check the leaf and its unit",
	}
}

func contradictory(input, detail string) error {
	return &method.Error{Code: method.Contradictory, Input: input, Detail: detail}
}

func outOfRange(input, detail, limit string) error {
	return &method.Error{Code: method.OutOfRange, Input: input, Detail: detail, Limit: limit}
}
