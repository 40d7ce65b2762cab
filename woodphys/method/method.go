package method

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Range is a closed interval of numbers. Either end may be infinite.
type Range struct{ Low, High float64 }

// Holds reports whether v lies in r. A NaN lies in no range.
func (r Range) Holds(v float64) bool { return v >= r.Low && v <= r.High }

// Input is one input of a method: its name, its unit, the range the method was
// fitted or observed in, and the wider range in which it is computed at all.
type Input struct {
	Name   string
	Unit   string
	Fitted Range // outside: Warning
	Limit  Range // outside: *Error
}

// Checked says how far a method's source was verified.
type Checked string

// How a source was verified.
const (
	Read     Checked = "read"            // read in the publication or a copy of it
	Memory   Checked = "memory"          // recalled from the named publication, not re-read
	Derived  Checked = "derived"         // derived by geometry, arithmetic or statistics
	Practice Checked = "common practice" // a fact of the trade without a published source
)

// Method is a row of the registry.
type Method struct {
	ID       string // stable, such as "emc.hailwood-horrobin"
	Chapter  string // package that holds it
	Summary  string // one line for people
	Equation string // as printed, in plain text
	Inputs   []Input
	Accuracy string // what is stated or was measured, with the unit
	Source   string // author, title, table, page
	Checked  Checked
}

// Check tests value, in the unit of the row, against the ranges of the named
// input. Outside the limit the error is an *Error with code OutOfRange; between
// the fitted range and the limit the warning is not nil. It panics on a name
// that the row lacks, which is a mistake in the code and not in the data.
func (m *Method) Check(input string, value float64) (*Warning, error) {
	for i := range m.Inputs {
		in := &m.Inputs[i]
		if in.Name != input {
			continue
		}
		if !in.Limit.Holds(value) {
			return nil, in.outside(value)
		}
		if !in.Fitted.Holds(value) {
			w := in.beyond(value)
			w.Method = m.ID
			return &w, nil
		}
		return nil, nil //nolint:nilnil // nothing to say is the usual answer
	}
	panic("method " + m.ID + " has no input " + input)
}

// beyond warns of a value outside the fitted range.
func (in *Input) beyond(value float64) Warning {
	value = in.Fitted.shortly(value)
	const extrapolated = ", the range this method was fitted in; the answer is an extrapolation"
	w := Warning{Code: OutsideFitted, Input: in.Name, Detail: fmt.Sprintf("%s %s lies outside %s", in.Name, strings.TrimSuffix(number(value)+" "+in.Unit, " "), in.Fitted.text(in.Unit)) + extrapolated}
	given, low, high := Amount{value, in.Unit}, Amount{in.Fitted.Low, in.Unit}, Amount{in.Fitted.High, in.Unit}
	said := in.Name + " %s lies outside "
	switch noLow, noHigh := math.IsInf(low.Value, -1), math.IsInf(high.Value, 1); {
	case noLow && noHigh: // holds every number
		return w
	case noLow:
		return w.Saying(said+"at most %s"+extrapolated, given, high)
	case noHigh:
		return w.Saying(said+"at least %s"+extrapolated, given, low)
	}
	return w.Saying(said+"%s to %s"+extrapolated, given, low, high)
}

func (in *Input) outside(value float64) *Error {
	return &Error{
		Code: OutOfRange, Input: in.Name, Limit: in.Limit.limit(in.Unit),
		Detail: fmt.Sprintf("%s must be %s; got %s", in.Name, in.Limit.text(in.Unit), number(value)),
	}
}

// shortly is a value outside the range with four digits, or all those before the point, where
// it stays outside with them.
func (r Range) shortly(value float64) float64 {
	digits := 4
	if math.Abs(value) >= 1e4 {
		digits = 6
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(value, 'g', digits, 64), 64)
	if err != nil || r.Holds(short) {
		return value
	}
	return short
}

// limit is the range as a limit, with six digits; nil where it holds every number.
func (r Range) limit(unit string) *Limit {
	low, high := sixDigits(r.Low), sixDigits(r.High)
	switch noLow, noHigh := math.IsInf(low, -1), math.IsInf(high, 1); {
	case noLow && noHigh:
		return nil
	case noLow:
		return AtMost(high, unit)
	case noHigh:
		return AtLeast(low, unit)
	}
	return Between(low, high, unit)
}

// text is the range in words, with the unit as the row has it.
func (r Range) text(unit string) string {
	l := r.limit(unit)
	if l == nil {
		return "any number"
	}
	return strings.TrimSuffix(l.numbers()+" "+unit, " ")
}

// number is a value with six digits, and no exponent, which people do not read.
func number(v float64) string { return strconv.FormatFloat(sixDigits(v), 'f', -1, 64) }

func sixDigits(v float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil { // no number, or beyond them all
		return v
	}
	return rounded
}
