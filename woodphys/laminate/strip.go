package laminate

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Strip is one of two strips glued together.
type Strip struct {
	Thickness quantity.Length   // 1 micrometre to 10 m
	Modulus   quantity.Pressure // in the direction that bends, 1 MPa to 1 TPa
}

// Bent is the shape of two glued strips.
type Bent struct {
	Curvature quantity.Band[float64]         // 1/m; positive: hollow on the side of the upper strip
	Radius    quantity.Length                // of the middle curvature; infinite when it is 0
	Straight  bool                           // Radius is so large that the strips count as straight
	Cup       quantity.Band[quantity.Length] // sagitta over the width
	Notes     method.Notes
}

// TwoLayers returns how two strips of a width (0.01 mm to 100 m) bend when the lower
// one becomes longer than the upper one by the strain difference (-0.5 to 0.5, with
// its band): its own change minus that of the upper one.
//
// Errors: out_of_range for upper/thickness, upper/modulus, lower/thickness,
// lower/modulus, difference_pct, width; contradictory for a band that does not hold
// its value.
// Accuracy: exact for narrow elastic strips; creep ignored, so an upper bound. The band
// holds that of the difference and 25 % (1 SD) of each modulus.
// Source: Timoshenko 1925 eq. 4, from memory.
func TwoLayers(upper, lower Strip, difference quantity.Band[float64], width quantity.Length) (Bent, error) {
	var out Bent
	for _, in := range [...]struct {
		side string
		s    *Strip
	}{{"upper/", &upper}, {"lower/", &lower}} {
		if err := out.Notes.Use(&stripRow, "thickness", tidy(in.s.Thickness.Millimetres())); err != nil {
			return Bent{}, method.Renamed(err, [2]string{"thickness", in.side + "thickness"})
		}
		if err := out.Notes.Use(&stripRow, "modulus", tidy(in.s.Modulus.Pascals()/1e6)); err != nil {
			return Bent{}, method.Renamed(err, [2]string{"modulus", in.side + "modulus"})
		}
	}
	if err := out.Notes.Use(&stripRow, "difference_pct", 100*difference.Value); err != nil {
		return Bent{}, err
	}
	if err := out.Notes.Use(&stripRow, "width", tidy(width.Millimetres())); err != nil {
		return Bent{}, err
	}
	if err := holds("difference_pct", difference); err != nil {
		return Bent{}, err
	}
	m, n := float64(upper.Thickness/lower.Thickness), float64(upper.Modulus/lower.Modulus)
	h := float64(upper.Thickness + lower.Thickness)
	rate := timoshenko(m, n) / h
	// d ln(rate)/d ln n, both moduli deviating by stiffnessCV
	const step = 1e-4
	slope := math.Log(timoshenko(m, n*(1+step))/timoshenko(m, n*(1-step))) / (2 * step)
	stiff := slope * stiffnessCV * math.Sqrt2
	widen := func(end float64) float64 {
		d := end - difference.Value
		return math.Copysign(math.Hypot(d, quantity.Z90*stiff*difference.Value), d)
	}
	low, high := widen(difference.Low), widen(difference.High)
	if difference.Low == difference.Value { // Copysign of a nought
		low = -math.Abs(low)
	}
	b := quantity.Band[float64]{Value: rate * difference.Value, Low: rate * (difference.Value + low), High: rate * (difference.Value + high)}
	out.Curvature = b
	out.Radius = quantity.Length(1 / math.Abs(b.Value))
	out.Straight = !(out.Radius < straightEnough)
	f := float64(width*width) / 8
	out.Cup = quantity.Band[quantity.Length]{Value: quantity.Length(f * b.Value), Low: quantity.Length(f * b.Low), High: quantity.Length(f * b.High)}
	return out, nil
}

// straightEnough is the radius beyond which strips count as straight: the cup of a metre
// is then a tenth of a nanometre. Own choice.
const straightEnough = 1e9 * quantity.Metre

// timoshenko is kappa h/de. Timoshenko 1925 eq. 4, m = t1/t2, n = E1/E2.
func timoshenko(m, n float64) float64 {
	return 6 * (1 + m) * (1 + m) / (3*(1+m)*(1+m) + (1+m*n)*(m*m+1/(m*n)))
}

// Member is a cap or a body across its grain.
type Member struct {
	Wood      wood.Wood
	Direction movement.Direction // of its width
	Strip     Strip
	From, To  quantity.Band[quantity.Moisture]
}

// Pair is what a cap does to a body.
type Pair struct {
	Difference quantity.Band[float64]         // strain of the body minus that of the cap; positive: the cap becomes the narrower
	Free       quantity.Band[quantity.Length] // difference of the widths, had they not been glued
	Bent       Bent                           // positive: hollow on the cap's side
	Notes      method.Notes
}

// CapAndBody returns what a cap glued over the whole width (0.01 mm to 100 m) of a
// body of another wood does when both go from one moisture content to another.
//
// Errors: out_of_range for width and for the inputs of TwoLayers and of package
// movement under cap/ and body/.
// Accuracy: across the grain only; elastic, so an upper bound of the cup. Band: both
// woods and moisture contents, independent.
// Source: Timoshenko 1925 with the strains of package movement.
func CapAndBody(top, body Member, width quantity.Length) (Pair, error) {
	var out Pair
	if err := out.Notes.Use(&pairRow, "width", tidy(width.Millimetres())); err != nil {
		return Pair{}, err
	}
	t, err := movement.Change(width, top.Direction, top.From, top.To, top.Wood)
	if err != nil {
		return Pair{}, method.Below(err, "cap")
	}
	b, err := movement.Change(width, body.Direction, body.From, body.To, body.Wood)
	if err != nil {
		return Pair{}, method.Below(err, "body")
	}
	out.Notes.MergeFor("cap", top.Wood.Name, t.Notes)
	out.Notes.MergeFor("body", body.Wood.Name, b.Notes)
	d := minus(b.Strain, t.Strain)
	out.Difference = d
	w := float64(width)
	out.Free = as[quantity.Length](quantity.Band[float64]{Value: w * d.Value, Low: w * d.Low, High: w * d.High})
	if out.Bent, err = TwoLayers(top.Strip, body.Strip, d, width); err != nil {
		for _, in := range [...]string{"thickness", "modulus"} {
			err = method.Renamed(err, [2]string{"upper/" + in, "cap/" + in}, [2]string{"lower/" + in, "body/" + in})
		}
		return Pair{}, err
	}
	out.Notes.Merge(out.Bent.Notes)
	return out, nil
}

// minus is the difference of two independent figures: the ends combine by squares.
func minus[T ~float64](a, b quantity.Band[T]) quantity.Band[T] {
	v := a.Value - b.Value
	return quantity.Band[T]{
		Value: v,
		Low:   v - T(math.Hypot(float64(a.Value-a.Low), float64(b.High-b.Value))),
		High:  v + T(math.Hypot(float64(a.High-a.Value), float64(b.Value-b.Low))),
	}
}

// furthest keeps the ends of a band so near that nothing overflows; beyond every
// length in metres, strain and angle that makes sense.
const furthest = 1e6

func holds[T ~float64](input string, b quantity.Band[T]) error {
	if b.Low <= b.Value && b.Value <= b.High && b.Low >= -furthest && b.High <= furthest { // false for NaN
		return nil
	}
	return &method.Error{Code: method.Contradictory, Input: input, Detail: "the band of " + input + " must hold its value: low <= value <= high"}
}
