package section

import (
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Level is the moisture content at a depth below the upper face.
type Level struct {
	Depth    float64 // share of the thickness, 0 at the upper face to 1 at the lower
	From, To quantity.Band[quantity.Moisture]
}

// Bent is the curvature that a gradient puts into a board.
type Bent struct {
	Curvature quantity.Band[float64]         // 1/m across the grain; positive: hollow above
	Cup       quantity.Band[quantity.Length] // sagitta over the width; positive: hollow above
	Mean      quantity.Band[float64]         // change of the width, mean over the thickness
	Notes     method.Notes
}

// maxLevels bounds the work of one profile.
const maxLevels = 1000

// Gradient returns how a board of the given thickness and width (0.01 mm to 100
// m), rings at ringAngle (0 to 90 degrees) to its width, bends across the grain
// when its moisture profile changes from the From to the To of each level. Levels
// (2 to 1000) run from depth 0 to 1; between them the movement is linear. A leaf
// resawn with a wet inner face and left to dry even is the usual case: it starts
// flat, and the side that dries more becomes hollow.
//
// This bending comes on top of the cup of Change by the mean change of moisture.
//
// Errors: out_of_range for thickness, width, ring_angle_deg, levels/N/depth and
// the inputs of StrainsBetween (levels/N/from_mc_pct, levels/N/to_mc_pct);
// contradictory for depths that do not rise from 0 to 1; too_much_work beyond 1000
// levels.
// Accuracy: elastic and of one stiffness; the band holds 15 % variation of the
// piece's shrinkage and the moisture contents, independent at each level. Set and
// creep make the real cup smaller and partly permanent.
// Source: beam theory, kappa = 12/h^3 integral(strain y dy).
func Gradient(thickness, width quantity.Length, ringAngle quantity.Angle, levels []Level, w wood.Wood) (Bent, error) {
	var out Bent
	for _, in := range [...]struct {
		name string
		v    float64
	}{{"thickness", tidy(thickness.Millimetres())}, {"width", tidy(width.Millimetres())}, {"ring_angle_deg", tidy(ringAngle.Degrees())}} {
		if err := out.Notes.Use(&gradientRow, in.name, in.v); err != nil {
			return Bent{}, err
		}
	}
	if err := checkLevels(&out.Notes, levels); err != nil {
		return Bent{}, err
	}
	moment, mean := weights(levels)
	sin, cos := math.Sincos(float64(ringAngle))
	var curvature, middle sum
	for i, l := range levels {
		var e Strains
		if err := e.between(&out.Notes, l.From, l.To, &w); err != nil {
			return Bent{}, method.Below(err, "levels/"+strconv.Itoa(i))
		}
		curvature.add(moment[i], &e, cos*cos, sin*sin)
		middle.add(mean[i], &e, cos*cos, sin*sin)
	}
	h := float64(thickness)
	out.Curvature = curvature.band(12 / h)
	out.Cup = length(curvature.band(12 / h * float64(width*width) / 8))
	out.Mean = middle.band(1)
	return out, nil
}

func checkLevels(n *method.Notes, levels []Level) error {
	if len(levels) > maxLevels {
		return &method.Error{Code: method.TooMuchWork, Input: "levels", Limit: method.AtMost(1000, "levels"), Detail: "a profile has at most 1000 levels"}
	}
	for i, l := range levels {
		if err := n.Use(&gradientRow, "depth", l.Depth); err != nil {
			return method.Below(err, "levels/"+strconv.Itoa(i))
		}
		if i > 0 && !(l.Depth > levels[i-1].Depth) {
			return &method.Error{Code: method.Contradictory, Input: "levels", Detail: "the levels of a profile go from face 1 to face 2, each deeper than the one before"}
		}
	}
	if len(levels) < 2 || levels[0].Depth != 0 || levels[len(levels)-1].Depth != 1 {
		return &method.Error{Code: method.Contradictory, Input: "levels", Detail: "a profile needs at least both faces: face 1 first and face 2 last"}
	}
	return nil
}

// weights returns the share of each level in integral(strain y dy)/h^2, y from
// mid-thickness downwards, and in the mean; exact for strain linear between the
// levels. Downwards, because a lower face that becomes longer makes the upper
// face hollow.
func weights(levels []Level) (moment, mean []float64) {
	moment, mean = make([]float64, len(levels)), make([]float64, len(levels))
	for i := 1; i < len(levels); i++ {
		y0, y1 := levels[i-1].Depth-0.5, levels[i].Depth-0.5
		d := y1 - y0
		moment[i-1] += d * (2*y0 + y1) / 6 // integral of y (y1 - y)/d
		moment[i] += d * (y0 + 2*y1) / 6
		mean[i-1] += d / 2
		mean[i] += d / 2
	}
	return moment, mean
}

// sum is a weighted sum of strains of one piece.
type sum struct{ value, mean, piece, moisture float64 }

func (s *sum) add(weight float64, e *Strains, tangential, radial float64) {
	t, r := weight*tangential, weight*radial
	s.value += t*e.Tangential.Value + r*e.Radial.Value
	s.mean += t*e.Tangential.Mean + r*e.Radial.Mean
	// one piece: its shrinkage is above or below the mean at all levels, and in both directions
	s.piece += t*signed(e.Tangential) + r*signed(e.Radial)
	from, to := t*e.Tangential.From+r*e.Radial.From, t*e.Tangential.To+r*e.Radial.To
	s.moisture += from*from + to*to
}

func signed(s movement.Strain) float64 { return math.Copysign(s.Wood(), s.Value) }

func (s *sum) band(scale float64) quantity.Band[float64] {
	b := quantity.NormalBand(scale*s.mean, math.Abs(scale)*math.Sqrt(s.piece*s.piece+s.moisture))
	b.Value = scale * s.value
	b.Low, b.High = math.Min(b.Low, b.Value), math.Max(b.High, b.Value)
	return b
}
