package wire

import (
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
		if !is {
			return one
		}
		limit := r.limit(domain.Limit)
		if limit == nil {
			return one
		}
		return domain.Telling(limit)
	})
}

// limit is one of a length in millimetres in the unit of the report; nil for any other, and for a
// range, which is that of a row and stays in its unit.
func (r Reporter) limit(l *method.Limit) *method.Limit {
	if l == nil || l.Unit != "mm" || l.Min != nil && l.Max != nil {
		return nil
	}
	told := *l
	var at float64
	if l.Max != nil {
		at, told.Unit = inMillimetres(l.Max).AtMost(r.LengthUnit)
		told.Max = &at
	} else {
		at, told.Unit = inMillimetres(l.Min).AtLeast(r.LengthUnit)
		told.Min = &at
	}
	return &told
}

func inMillimetres(v *float64) quantity.Length { return quantity.Length(*v) * quantity.Millimetre }

// TooWet is the error of a condition that must be no wetter than another, in what it is called
// and what is wrong with it.
func TooWet(input, detail string, most quantity.Moisture) error {
	limit := method.AtMost(quantity.RoundedDown(most.Percent(), moistureDecimals), "%")
	return &method.Error{Code: method.Contradictory, Input: input, Limit: limit, Detail: detail + "; it must be " + limit.String()}
}

const moistureDecimals = 2 // of a limit, which is rounded down
