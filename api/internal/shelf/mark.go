package shelf

import (
	"strings"

	"latewood/species"
)

// Mark says how far a figure was checked: a mark of the tables, or that of a figure of the
// caller.
type Mark string

// ByCaller marks a figure of the request.
const ByCaller Mark = "caller"

// MarkOf is a mark of the tables or of a method, as answers write it.
func MarkOf[T ~string](mark T) Mark {
	return Mark(strings.NewReplacer("-", "_", " ", "_").Replace(string(mark)))
}

// Enum lists all marks for the contract.
func (Mark) Enum() []any {
	all := make([]any, 0, len(species.Marks())+1)
	for _, m := range species.Marks() {
		all = append(all, MarkOf(m))
	}
	return append(all, ByCaller)
}
