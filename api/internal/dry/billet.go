package dry

import (
	"errors"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// woodOf is the wood of a billet; errors and warnings point below billet.
func woodOf(t *shelf.Tables, b *shelf.Billet, notes *method.Notes) (*shelf.Wood, error) {
	var of method.Notes
	w, err := t.WoodOf(b.Wood, &of)
	notes.Merge(inBillet(of))
	return w, inBilletError(err)
}

// inBilletError says that the wood an error speaks of is that of the billet.
func inBilletError(err error) error {
	return wire.EachError(err, func(one error) error {
		domain, is := wire.AsDomain(one)
		if !is {
			return one
		}
		moved := *domain
		moved.Input = billetWood(moved.Input)
		return &moved
	})
}

// inBillet says the same of warnings.
func inBillet(notes method.Notes) method.Notes {
	var out method.Notes
	out.Merge(method.Notes{Basis: notes.Basis})
	for _, w := range notes.Warnings {
		w.Input = billetWood(w.Input)
		out.Warn(w)
	}
	return out
}

// billetWood is a place of the request, with the wood in the billet.
func billetWood(input string) string {
	switch rest := strings.TrimPrefix(input, "/"); {
	case rest == "wood", strings.HasPrefix(rest, "wood/"):
		return "billet/" + rest
	}
	return input
}

// besides joins what else is wrong to the error of a wood that was not found, and leaves
// out what only follows from it.
func besides(noWood error, others ...error) error {
	return inBilletError(shelf.Besides(noWood, errors.Join(others...)))
}
