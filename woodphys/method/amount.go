package method

import (
	"fmt"
	"strings"
)

// Amount is a number with its unit, as the row of a method has it: "mm", "C", "g".
type Amount struct {
	Value float64
	Unit  string
}

// mostAmounts stand in one warning; a fixed number, so that warnings can be compared.
const mostAmounts = 3

// wording is how a warning is said anew in other units.
type wording struct {
	said    string // with a %s for each amount
	amounts [mostAmounts]Amount
	count   int
}

// Saying returns w with its sentence, which has a %s in place of each amount (at
// most 3), so that In can say it in other units. Detail stays.
//
// Source: none needed.
func (w Warning) Saying(said string, amounts ...Amount) Warning {
	w.words = wording{said: said}
	w.words.count = copy(w.words.amounts[:], amounts)
	return w
}

// Of returns w, said of one thing among several: its name stands before the words.
//
// Source: none needed.
func (w Warning) Of(name string) Warning {
	w.Detail = name + ": " + w.Detail
	w.words.said = strings.ReplaceAll(name, "%", "%%") + ": " + w.words.said
	return w
}

// In returns what w says, with each amount as show gives it; show reports false for
// an amount that it leaves as it is. Where it leaves all of them, and where w has
// none, that is Detail.
//
// Source: none needed.
func (w *Warning) In(show func(Amount) (string, bool)) string {
	var all []any
	changed := false
	for _, a := range w.words.amounts[:w.words.count] {
		text, is := show(a)
		if !is {
			text = number(a.Value)
			if a.Unit != "" {
				text += " " + a.Unit
			}
		}
		changed = changed || is
		all = append(all, text)
	}
	if !changed {
		return w.Detail
	}
	return fmt.Sprintf(w.words.said, all...)
}
