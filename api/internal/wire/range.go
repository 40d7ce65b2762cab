package wire

import "latewood/woodphys/quantity"

// Range is a span without a middle.
type Range struct {
	Low  float64 `json:"low" required:"true" description:"the lower end"`
	High float64 `json:"high" required:"true" description:"the upper end"`
	Unit string  `json:"unit" required:"true" description:"of both"`
}

// LengthRange shows a span of lengths.
func (r Reporter) LengthRange(low, high quantity.Length) Range {
	from, to := r.Length(low), r.Length(high)
	return Range{from.Value, to.Value, from.Unit}
}

// MassRange shows a span of masses.
func (r Reporter) MassRange(low, high quantity.Mass) Range {
	from, to := r.Mass(low), r.Mass(high)
	return Range{from.Value, to.Value, from.Unit}
}
