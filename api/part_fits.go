package api

import (
	"errors"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// fits refuses a part that is larger than the billet between its trims.
func (p *PlatePart) fits(b *Billet) error {
	var all []error
	for _, one := range []struct {
		name  string
		given *Length
		most  quantity.Length
		more  string
	}{
		{"length", p.Length, b.Length.SI - 2*orZero(b.EndTrim), "longer than the billet between its trims"},
		{"width", p.Width, b.Width.SI - 2*orZero(b.EdgeTrim), "wider than the billet between its trims"},
		{"final_thickness", p.Final, b.Thickness.SI, "thicker than the billet"},
		{"sawn_thickness", p.Sawn, b.Thickness.SI, "thicker than the billet"},
	} {
		if one.given == nil || one.most <= 0 || one.given.SI <= one.most+tiny { // trims that leave nothing are refused as such
			continue
		}
		is, limit := one.given.SI.Over(one.most, one.given.Unit)
		all = append(all, &method.Error{Code: method.Contradictory, Input: one.name, Limit: "at most " + limit,
			Detail: "the part is " + one.more + " (" + is + " against " + limit + ")"})
	}
	return errors.Join(all...)
}
