package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// twistScatter is the coefficient of variation of measured twist about the
// formula. Assumed, own choice: the publication is remembered to show good
// correlation and a large scatter.
const twistScatter = 0.30

// Twisted is the twist of a piece along its length.
type Twisted struct {
	PerLength quantity.Band[float64]        // rad/m
	Angle     quantity.Band[quantity.Angle] // from end to end, in the sense of the spiral when it dries
	Notes     method.Notes
}

// Twist returns how far a piece with spiral grain twists over its length (0.01 mm
// to 100 m): tangential is the tangential shrinkage (fraction, -0.4 to 0.4,
// positive for drying) with its band, spiral the angle of the grain to the axis of
// the stem (-45 to 45 degrees) with its band, r the distance of the middle of the
// section from the pith (1 mm to 1 km).
//
// Errors: out_of_range for tangential_pct, spiral_deg, pith_distance, length;
// contradictory for a band that does not hold its value.
// Accuracy: scatter of 30 % (1 SD, assumed) about the formula, with both bands.
// Pieces near the pith twist most.
// Source: Stevens and Johnston 1960, from memory: 2 s g/((1 + s) r).
func Twist(tangential quantity.Band[float64], spiral quantity.Band[quantity.Angle], r, l quantity.Length) (Twisted, error) {
	var out Twisted
	for _, in := range [...]struct {
		name string
		v    float64
	}{
		{"tangential_pct", tangential.Value * 100}, {"spiral_deg", tidy(spiral.Value.Degrees())},
		{"pith_distance", tidy(r.Millimetres())}, {"length", tidy(l.Millimetres())},
	} {
		if err := out.Notes.Use(&twistRow, in.name, in.v); err != nil {
			return Twisted{}, err
		}
	}
	if err := holds("tangential_pct", tangential); err != nil {
		return Twisted{}, err
	}
	if err := holds("spiral_deg", spiral); err != nil {
		return Twisted{}, err
	}
	s, g := tangential.Value, float64(spiral.Value)
	rate := 2 * s * g / ((1 + s) * float64(r))
	bySpiral := 2 * s / ((1 + s) * float64(r)) * float64(spiral.SD())
	byShrinkage := 2 * g / ((1 + s) * (1 + s) * float64(r)) * tangential.SD()
	both := 2 * tangential.SD() * float64(spiral.SD()) / float64(r)
	sd := math.Sqrt(bySpiral*bySpiral + byShrinkage*byShrinkage + both*both + twistScatter*twistScatter*(rate*rate+bySpiral*bySpiral+byShrinkage*byShrinkage))
	out.PerLength = quantity.NormalBand(rate, sd)
	out.Angle = angle(quantity.NormalBand(rate*float64(l), sd*float64(l)))
	return out, nil
}

// Bowed is the curve of an edge (crook) or of a face (bow) along the length.
type Bowed struct {
	Curvature quantity.Band[float64]         // 1/m; positive: the second side, which shrank more or swelled less, is hollow
	Sagitta   quantity.Band[quantity.Length] // over the length
	Notes     method.Notes
}

// Crook returns the curve of a piece whose two sides, depth apart (0.01 mm to 100
// m), move differently along the grain: difference is the strain of one side minus
// that of the other (fraction, -0.1 to 0.1) with its band. depth is the width for
// crook and the thickness for bow, l the length (0.01 mm to 100 m).
// The side that shrinks more becomes hollow.
//
// Errors: out_of_range for depth, length, difference_pct; contradictory for a band
// that does not hold its value.
// Accuracy: for strain that varies evenly from side to side, and small angles.
// Reaction and juvenile wood shrink up to 2 % along the grain (Wood Handbook
// GTR-190 p. 4-5, as quoted), normal wood 0.1 to 0.2 %.
// Source: beam theory, kappa = difference/depth, sagitta = kappa L^2/8.
func Crook(depth, l quantity.Length, difference quantity.Band[float64]) (Bowed, error) {
	var out Bowed
	for _, in := range [...]struct {
		name string
		v    float64
	}{{"depth", tidy(depth.Millimetres())}, {"length", tidy(l.Millimetres())}, {"difference_pct", difference.Value * 100}} {
		if err := out.Notes.Use(&crookRow, in.name, in.v); err != nil {
			return Bowed{}, err
		}
	}
	if err := holds("difference_pct", difference); err != nil {
		return Bowed{}, err
	}
	times := func(f float64) quantity.Band[float64] {
		return quantity.Band[float64]{Value: difference.Value * f, Low: difference.Low * f, High: difference.High * f}
	}
	out.Curvature = times(1 / float64(depth))
	out.Sagitta = length(times(float64(l*l) / (8 * float64(depth))))
	return out, nil
}

// furthestEnd keeps the ends of a band so near that nothing overflows; beyond every
// length in metres, strain and angle that makes sense.
const furthestEnd = 1e6

func holds[T ~float64](input string, b quantity.Band[T]) error {
	if b.Low <= b.Value && b.Value <= b.High && b.Low >= -furthestEnd && b.High <= furthestEnd { // false for NaN
		return nil
	}
	return &method.Error{Code: method.Contradictory, Input: input, Detail: "the band of " + input + " must hold its value: low <= value <= high"}
}
