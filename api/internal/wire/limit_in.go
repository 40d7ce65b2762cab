package wire

import (
	"strings"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// LimitsOf is err with the limits that chapters tell in millimetres in the unit of the report,
// in the words of the error too, still rounded towards what is allowed.
func (r Reporter) LimitsOf(err error) error {
	if r.LengthUnit == "mm" {
		return err
	}
	return EachError(err, func(one error) error {
		domain, is := AsDomain(one)
		if !is || domain.Limit == "" {
			return one
		}
		limit, of := r.limit(domain.Limit)
		if !of {
			return one
		}
		told := *domain
		told.Limit, told.Detail = limit, strings.Replace(domain.Detail, domain.Limit, limit, 1)
		return &told
	})
}

// limit is one of a length in millimetres in the unit of the report; false for any other.
func (r Reporter) limit(words string) (string, bool) {
	for _, way := range [...]string{"at most ", "less than ", "at least ", "more than "} {
		size, is := strings.CutPrefix(words, way)
		if !is || !strings.HasSuffix(size, " mm") {
			continue
		}
		l, err := quantity.ParseLength(size)
		if err != nil {
			return "", false
		}
		if way == "at most " || way == "less than " {
			return way + l.AtMost(r.LengthUnit), true
		}
		return way + l.AtLeast(r.LengthUnit), true
	}
	return "", false
}

// TooWet is the error of a condition that must be no wetter than another, in what it is called
// and what is wrong with it.
func TooWet(input, detail string, most quantity.Moisture) error {
	limit := "at most " + quantity.FormatNumber(stepped(most.Percent(), -moistureDecimals, downward), moistureDecimals) + " %"
	return &method.Error{Code: method.Contradictory, Input: input, Limit: limit, Detail: detail + "; it must be " + limit}
}

const moistureDecimals = 2 // of a limit, which is rounded down
