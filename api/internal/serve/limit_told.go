package serve

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Limit is what a value missed, for programs.
type Limit struct {
	Min       *float64 `json:"min,omitempty" resolution:"as given" description:"the least that is allowed"`
	Max       *float64 `json:"max,omitempty" resolution:"as given" description:"the most that is allowed"`
	Exclusive bool     `json:"exclusive,omitempty" description:"the limit itself is not allowed either"`
	Unit      string   `json:"unit,omitempty" description:"of min and max; none for a pure number"`
	Choices   []string `json:"choices,omitempty" description:"what is allowed, where that is a list: values, or units of a quantity"`
}

// The words in which a limit is told, which the chapters share.
var (
	limitOneSide  = regexp.MustCompile(`^(at least|at most|more than|less than) (-?[0-9.]+(?:e[+-]?[0-9]+)?)(?: (.+))?$`)
	limitTwoSides = regexp.MustCompile(`^(?:a whole number from )?(-?[0-9.]+(?:e[+-]?[0-9]+)?) to (-?[0-9.]+(?:e[+-]?[0-9]+)?)(?: (.+))?$`)
)

// limitOf is a limit told in words; nil where the words say something else than numbers
// or a list of choices, which the detail tells then.
func limitOf(words string) *Limit {
	for _, list := range []string{"one of ", "units: "} {
		if choices, is := strings.CutPrefix(words, list); is {
			return &Limit{Choices: strings.Split(choices, ", ")}
		}
	}
	if m := limitOneSide.FindStringSubmatch(words); m != nil {
		bound := parsed(m[2])
		l := &Limit{Exclusive: m[1] == "more than" || m[1] == "less than", Unit: unitOfLimit(m[3])}
		if m[1] == "at least" || m[1] == "more than" {
			l.Min = &bound
		} else {
			l.Max = &bound
		}
		return l
	}
	if m := limitTwoSides.FindStringSubmatch(words); m != nil {
		low, high := parsed(m[1]), parsed(m[2])
		return &Limit{Min: &low, Max: &high, Unit: unitOfLimit(m[3])}
	}
	return nil
}

func parsed(number string) float64 {
	v, _ := strconv.ParseFloat(number, 64) // it met the pattern
	return v
}

// unitOfLimit is the unit as the contract writes it.
func unitOfLimit(word string) string {
	switch word {
	case "degrees":
		return "deg"
	case "entry":
		return "entries"
	}
	return word
}

// String is the limit in words.
func (l *Limit) String() string {
	if l == nil {
		return ""
	}
	number := func(v *float64) string { return strconv.FormatFloat(*v, 'f', -1, 64) }
	var words string
	switch {
	case l.Min != nil && l.Max != nil:
		words = number(l.Min) + " to " + number(l.Max)
	case l.Min != nil:
		words = map[bool]string{false: "at least ", true: "more than "}[l.Exclusive] + number(l.Min)
	case l.Max != nil:
		words = map[bool]string{false: "at most ", true: "less than "}[l.Exclusive] + number(l.Max)
	default:
		return "one of " + strings.Join(l.Choices, ", ")
	}
	if l.Unit != "" {
		words += " " + l.Unit
	}
	return words
}

// same reports whether two faults are the same.
func same(a, b FieldError) bool {
	return a.Pointer == b.Pointer && a.Parameter == b.Parameter && a.Code == b.Code && a.Detail == b.Detail
}

// addFault adds a fault that is not yet told.
func addFault(all []FieldError, one FieldError) []FieldError {
	if slices.ContainsFunc(all, func(f FieldError) bool { return same(f, one) }) {
		return all
	}
	return append(all, one)
}
