package refuse

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
	Earliest  string   `json:"earliest,omitempty" format:"date" description:"the first day that is allowed"`
	Latest    string   `json:"latest,omitempty" format:"date" description:"the last day that is allowed"`
	Example   string   `json:"example,omitempty" description:"a text of the form that is wanted"`
	Choices   []string `json:"choices,omitempty" description:"what there is, where that is a list: values, units of a quantity, names; of a long list of names those nearest to what was sent"`
}

// OneOf is the limit of what is one of a list.
func OneOf(choices ...string) *Limit { return &Limit{Choices: choices} }

// The words in which a limit is told, which the chapters share.
var (
	limitOneSide  = regexp.MustCompile(`^(at least|at most|more than|less than) (-?[0-9.]+(?:e[+-]?[0-9]+)?)(?: (.+))?$`)
	limitOneDay   = regexp.MustCompile(`^(at least|at most|after|before) (\d{4}-\d{2}-\d{2})$`)
	limitTwoDays  = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2}) to (\d{4}-\d{2}-\d{2})$`)
	limitTwoSides = regexp.MustCompile(`^(?:a whole number from )?(-?[0-9.]+(?:e[+-]?[0-9]+)?) to (-?[0-9.]+(?:e[+-]?[0-9]+)?)(?: (.+))?$`)
)

// LimitOf is a limit told in words; nil where the words say something else than numbers, days,
// a form or a list of choices, which the detail tells then.
func LimitOf(words string) *Limit {
	if _, example, is := strings.Cut(words, " such as "); is {
		return &Limit{Example: example}
	}
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
	if m := limitOneDay.FindStringSubmatch(words); m != nil {
		l := &Limit{Exclusive: m[1] == "after" || m[1] == "before"}
		if m[1] == "at least" || m[1] == "after" {
			l.Earliest = m[2]
		} else {
			l.Latest = m[2]
		}
		return l
	}
	if m := limitTwoDays.FindStringSubmatch(words); m != nil {
		return &Limit{Earliest: m[1], Latest: m[2]}
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
		return l.bare()
	}
	if l.Unit != "" {
		words += " " + l.Unit
	}
	return words
}

// bare is a limit that is no number, in words.
func (l *Limit) bare() string {
	switch {
	case l.Earliest != "" && l.Latest != "":
		return l.Earliest + " to " + l.Latest
	case l.Earliest != "":
		return map[bool]string{false: "at least ", true: "after "}[l.Exclusive] + l.Earliest
	case l.Latest != "":
		return map[bool]string{false: "at most ", true: "before "}[l.Exclusive] + l.Latest
	case l.Example != "":
		return "such as " + l.Example
	}
	return "one of " + strings.Join(l.Choices, ", ")
}

// same reports whether two faults are the same.
func same(a, b FieldError) bool {
	return a.Pointer == b.Pointer && a.Parameter == b.Parameter && a.Code == b.Code && a.Detail == b.Detail
}

// AddFault adds a fault that is not yet told.
func AddFault(all []FieldError, one FieldError) []FieldError {
	if slices.ContainsFunc(all, func(f FieldError) bool { return same(f, one) }) {
		return all
	}
	return append(all, one)
}
