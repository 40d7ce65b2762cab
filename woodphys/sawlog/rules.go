package sawlog

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Scales are what rules of the trade say a log yields, in board feet.
type Scales struct{ Doyle, International, Scribner float64 }

// scale tells what the rules say of a whole log, as far as they know logs of its size.
func (p *Plan) scale(l *Log) error {
	if l.Half {
		return nil
	}
	var s Scales
	var beyond []method.Warning
	for _, one := range []struct {
		rule func(small, length quantity.Length) (float64, method.Notes, error)
		to   *float64
	}{{Doyle, &s.Doyle}, {InternationalQuarter, &s.International}, {Scribner, &s.Scribner}} {
		feet, notes, err := one.rule(l.small(), l.Length)
		if code, is := err.(*method.Error); is && code.Code == method.OutOfRange { //nolint:errorlint // made bare here
			return nil // a log of no size that the rules know
		}
		if err != nil {
			return err
		}
		*one.to = feet
		p.Notes.Merge(method.Notes{Basis: notes.Basis})
		beyond = notes.Warnings // all three know the same logs
	}
	p.Notes.Merge(method.Notes{Warnings: beyond})
	p.Scales = &s
	return nil
}

// inTrade are the diameter in inches and the length in feet that rules speak of.
func inTrade(m *method.Method, small, length quantity.Length) (inches, feet float64, notes method.Notes, err error) {
	inches, feet = tidy(float64(small/quantity.Inch)), tidy(float64(length/quantity.Foot))
	err = firstOf(notes.Use(m, "small_end_diameter", inches), notes.Use(m, "length", feet))
	return inches, feet, notes, err
}

// Doyle returns the board feet of a log by the Doyle rule: small is the diameter at the
// small end inside the bark, 4 to 120 in; length 0.5 to 70 ft. Tables round it to whole
// board feet.
//
// Errors: out_of_range for small_end_diameter, length. Accuracy: see row sawlog.doyle.
//
// Source: row sawlog.doyle.
func Doyle(small, length quantity.Length) (float64, method.Notes, error) {
	d, l, notes, err := inTrade(rowDoyle, small, length)
	return (d - 4) * (d - 4) * l / 16, notes, err
}

// InternationalQuarter returns the board feet of a log by the International rule for a
// kerf of 1/4 in: small is the diameter at the small end inside the bark, 4 to 120 in;
// length 0.5 to 70 ft. Tables round it to 5 board feet.
//
// Errors: out_of_range for small_end_diameter, length.
// Accuracy: see row sawlog.international-quarter.
//
// Source: row sawlog.international-quarter.
func InternationalQuarter(small, length quantity.Length) (float64, method.Notes, error) {
	d, l, notes, err := inTrade(rowInternational, small, length)
	sum := 0.0
	for ; l > 0; l -= 4 {
		sum += 0.905 * (0.22*d*d - 0.71*d) * min(1, l/4)
		d += 0.5
	}
	return sum, notes, err
}

// Scribner returns the board feet of a log by the formula of the Scribner rule: small is
// the diameter at the small end inside the bark, 4 to 120 in; length 0.5 to 70 ft. Less
// than nothing counts as nothing.
//
// Errors: out_of_range for small_end_diameter, length. Accuracy: see row sawlog.scribner.
//
// Source: row sawlog.scribner.
func Scribner(small, length quantity.Length) (float64, method.Notes, error) {
	d, l, notes, err := inTrade(rowScribner, small, length)
	return max(0, (0.79*d*d-2*d-4)*l/16), notes, err
}
