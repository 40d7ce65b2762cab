package wire

import (
	"math"
	"strconv"

	"latewood/woodphys/quantity"
)

// InFractions is the reporter that tells people lengths in inches and fractions, to the
// nearest of the denominator: 32 or 64. Nothing changes for 0, nor in millimetres.
func (r Reporter) InFractions(denominator int) Reporter {
	if r.LengthUnit == "in" {
		r.fraction = denominator
	}
	return r
}

// RoundedTo is the step to which lengths for people are rounded, such as "1/64 in"; "" where
// they are decimals.
func (r Reporter) RoundedTo() string {
	if r.fraction == 0 {
		return ""
	}
	return "1/" + strconv.Itoa(r.fraction) + " in"
}

// dust is so little of a step that a length is a whole one: half a nanometre is more.
const dust = 1e-6

// SaidLength is a length for people: "52 mm", "2.0625 in", or "2 1/16 in" in the nearest
// fractions.
func (r Reporter) SaidLength(l quantity.Length) string {
	if r.fraction == 0 {
		return l.Format(r.LengthUnit)
	}
	return said(inFractions(l, r.fraction))
}

// finestFraction is the denominator to which lengths are known as fractions that are told as
// they are.
const finestFraction = 128

// SaidExact is a length for people as it is, such as a kerf: in fractions where it is one.
func (r Reporter) SaidExact(l quantity.Length) string {
	if r.fraction == 0 || !isFraction(l) {
		return l.Format(r.LengthUnit)
	}
	return said(inFractions(l, finestFraction))
}

// isFraction reports whether a length in inches is told as a fraction.
func isFraction(l quantity.Length) bool {
	steps := float64(l/quantity.Inch) * finestFraction
	return math.Abs(steps-math.Round(steps)) <= dust
}

func said(whole, part string) string {
	switch {
	case part == "":
	case whole == "0":
		whole = part
	case whole == "-0":
		whole = "-" + part
	default:
		whole += " " + part
	}
	return whole + " in"
}

// LengthCell is a length as a cell of a table: its number as an answer writes it, or in
// fractions with the whole inches before it even where they are none, as a table program
// would take 1/16 for a date.
func (r Reporter) LengthCell(l quantity.Length) string {
	if r.fraction == 0 {
		return r.Cut(l).Text()
	}
	whole, part := inFractions(l, r.fraction)
	if part != "" {
		whole += " " + part
	}
	return whole
}

// inFractions are the whole inches of a length, with its sign, and the fraction in its
// lowest terms.
func inFractions(l quantity.Length, fraction int) (whole, part string) {
	steps := int64(math.Round(float64(l/quantity.Inch) * float64(fraction)))
	less := steps < 0
	if less {
		steps = -steps
	}
	over, under := steps%int64(fraction), int64(fraction)
	for over > 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	whole = strconv.FormatInt(steps/int64(fraction), 10)
	if less {
		whole = "-" + whole
	}
	if over > 0 {
		part = strconv.FormatInt(over, 10) + "/" + strconv.FormatInt(under, 10)
	}
	return whole, part
}
