package method

import (
	"strconv"
	"strings"
)

// Limit is what an input missed, as values, so that programs are told the numbers and people the
// words that are made of them. Nil is none.
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

// AtLeast returns the limit of a value that must be no less than v, in the unit; "" for a pure
// number, "deg" for degrees.
//
// Source: none needed.
func AtLeast(v float64, unit string) *Limit { return &Limit{Min: &v, Unit: unit} }

// MoreThan is AtLeast for a v that is not allowed itself.
//
// Source: none needed.
func MoreThan(v float64, unit string) *Limit { return &Limit{Min: &v, Exclusive: true, Unit: unit} }

// AtMost returns the limit of a value that must be no more than v, as AtLeast does.
//
// Source: none needed.
func AtMost(v float64, unit string) *Limit { return &Limit{Max: &v, Unit: unit} }

// LessThan is AtMost for a v that is not allowed itself.
//
// Source: none needed.
func LessThan(v float64, unit string) *Limit { return &Limit{Max: &v, Exclusive: true, Unit: unit} }

// Between returns the limit of a value from low to high, both allowed, as AtLeast does.
//
// Source: none needed.
func Between(low, high float64, unit string) *Limit { return &Limit{Min: &low, Max: &high, Unit: unit} }

// OneOf returns the limit of what is one of a list; where the list is long those nearest to what
// was given, the nearest first. Nil where there is none.
//
// Source: none needed.
func OneOf[S ~string](choices ...S) *Limit {
	if len(choices) == 0 {
		return nil
	}
	l := &Limit{}
	for _, one := range choices {
		l.Choices = append(l.Choices, string(one))
	}
	return l
}

// SuchAs returns the limit of a text of a form, by an example of it.
//
// Source: none needed.
func SuchAs(example string) *Limit { return &Limit{Example: example} }

// Days returns the limit of a day, written as 2026-03-01, from the first to the last, both allowed;
// "" where a side is open.
//
// Source: none needed.
func Days(first, last string) *Limit { return &Limit{Earliest: first, Latest: last} }

// AfterDay returns the limit of a day that is later than one, written as 2026-03-01.
//
// Source: none needed.
func AfterDay(day string) *Limit { return &Limit{Earliest: day, Exclusive: true} }

// String returns the limit in words: "at least 3 mm", "0 to 20 %MC", "after 2026-03-01",
// "one of mean, shell, core"; none is "".
//
// Source: none needed.
func (l *Limit) String() string {
	switch {
	case l == nil:
		return ""
	case l.Min != nil || l.Max != nil:
		return l.numbers() + l.unit()
	case l.Earliest != "" || l.Latest != "":
		return l.span(l.Earliest, l.Latest, "after ", "before ")
	case l.Example != "":
		return "such as " + l.Example
	}
	return "one of " + strings.Join(l.Choices, ", ")
}

// span is what lies between two ends, of which one may be open.
func (l *Limit) span(low, high, above, below string) string {
	switch {
	case low != "" && high != "":
		return low + " to " + high
	case low != "" && l.Exclusive:
		return above + low
	case low != "":
		return "at least " + low
	case l.Exclusive:
		return below + high
	}
	return "at most " + high
}

// numbers are the ends without their unit.
func (l *Limit) numbers() string {
	return l.span(digits(l.Min), digits(l.Max), "more than ", "less than ")
}

// unit is the unit as it is read after the last number.
func (l *Limit) unit() string {
	last := l.Max
	if last == nil {
		last = l.Min
	}
	switch {
	case l.Unit == "":
		return ""
	case l.Unit == "deg":
		return " degrees"
	case l.Unit == "entries" && *last == 1:
		return " entry"
	}
	return " " + l.Unit
}

func digits(v *float64) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'f', -1, 64)
}
