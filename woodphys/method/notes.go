package method

import "slices"

// Notes gathers what an answer rests on: the ids of the methods used and the
// warnings met, each once and in order of first use. The zero value is empty.
type Notes struct {
	Basis    []string
	Warnings []Warning
}

// Use notes that m was used and checks one of its inputs, given in the unit of
// the row. Outside the fitted range a warning is noted; outside the limit the
// *Error of Check is returned.
func (n *Notes) Use(m *Method, input string, value float64) error {
	n.Rest(m)
	w, err := m.Check(input, value)
	if w != nil {
		n.Warn(*w)
	}
	return err
}

// Rest notes that the answer rests on m.
func (n *Notes) Rest(m *Method) {
	if !slices.Contains(n.Basis, m.ID) {
		n.Basis = append(n.Basis, m.ID)
	}
}

// Warn notes w unless it was noted before.
func (n *Notes) Warn(w Warning) {
	if !slices.Contains(n.Warnings, w) {
		n.Warnings = append(n.Warnings, w)
	}
}

// Merge adds the notes of a part of the work.
func (n *Notes) Merge(other Notes) {
	for _, id := range other.Basis {
		if !slices.Contains(n.Basis, id) {
			n.Basis = append(n.Basis, id)
		}
	}
	for _, w := range other.Warnings {
		n.Warn(w)
	}
}

// MergeFor adds the notes of one thing among several: its warnings point below the place,
// such as parts/2, and have the subject where they have none. An input that begins with a
// slash is already called from the top.
//
// Source: none needed.
func (n *Notes) MergeFor(place, subject string, other Notes) {
	n.Merge(Notes{Basis: other.Basis})
	for _, w := range other.Warnings {
		if w.Input = below(place, w.Input); w.Input == place+"/" {
			w.Input = place
		}
		if w.Subject == "" {
			w.Subject = subject
		}
		n.Warn(w)
	}
}
