package mill

import (
	"math"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Of lengths for people. A log is measured with a tape: what is there at least is told in whole
// millimetres or sixteenths of an inch, rounded down, and members of the answer have the rest.
const (
	tapeFraction = 16
	saidFraction = 64
	tapeBegins   = 10 * quantity.Millimetre // what is thinner is measured with a caliper
	tapeDust     = 1e-6                     // of a step, by which a whole one may fall short
)

// onTape is a length that is there, at least, as a tape tells it: "156 mm", "6 3/16 in".
func onTape(r wire.Reporter, l quantity.Length) string {
	step := quantity.Millimetre
	if r.LengthUnit == "in" {
		step = quantity.Inch / tapeFraction
	}
	if l < tapeBegins {
		return r.InFractions(saidFraction).SaidExact(l)
	}
	down := quantity.Length(math.Floor(float64(l/step)+tapeDust)) * step
	return r.InFractions(tapeFraction).SaidLength(down)
}

// asSet is a length that a saw is set to, as it is: in a fraction of an inch where it is one.
func asSet(r wire.Reporter, l quantity.Length) string {
	return r.InFractions(saidFraction).SaidExact(l)
}

// asMarked is a place that is marked on the end of a log, to the nearest tenth of a millimetre
// or 1/64 in.
func asMarked(r wire.Reporter, l quantity.Length) string {
	if r.LengthUnit == "in" {
		return r.InFractions(saidFraction).SaidLength(l)
	}
	return quantity.FormatNumber(l.Millimetres(), 1) + " mm"
}

// asSawn is a thickness to saw: to a tenth of a millimetre or 1/64 in, rounded up, so that it
// is there when the wood is dry.
func asSawn(r wire.Reporter, l quantity.Length) string {
	step := quantity.Millimetre / 10
	if r.LengthUnit == "in" {
		step = quantity.Inch / saidFraction
	}
	return asMarked(r, quantity.Length(math.Ceil(float64(l/step)-tapeDust))*step)
}
