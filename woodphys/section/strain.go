package section

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

const (
	// shrinkageCV is the coefficient of variation of shrinkage between pieces
	// of a species. Wood Handbook ch. 4, about 15 %, from memory.
	shrinkageCV = 0.15
	// longitudinalShrinkage and its variation: 0.1 to 0.2 % for normal wood
	// (Wood Handbook GTR-190 p. 4-5, read as quoted), the middle; the variation is
	// our own choice, as in package movement.
	longitudinalShrinkage = 0.0015
	longitudinalCV        = 0.5
	// disagreementShare: as in package movement, own choice.
	disagreementShare = 0.15
)

// Strain is a relative change of size in one direction, positive when it
// swells, with its standard deviation by cause.
type Strain struct {
	Value float64
	Mean  float64 // of its distribution; differs from Value near fibre saturation
	Piece float64 // SD from the variation of shrinkage between pieces, >= 0
	From  float64 // change per SD of the first moisture content, signed
	To    float64 // change per SD of the second, signed
}

// Band returns the 90 % band of s.
func (s Strain) Band() quantity.Band[float64] {
	b := quantity.NormalBand(s.Mean, math.Sqrt(s.Piece*s.Piece+s.From*s.From+s.To*s.To))
	b.Value = s.Value
	b.Low, b.High = math.Min(b.Low, b.Value), math.Max(b.High, b.Value)
	return b
}

// Strains are the changes in the three directions of the wood.
type Strains struct {
	Radial, Tangential, Longitudinal Strain
	// Other holds radial and tangential by the dimensional change coefficients
	// when Disagree says that they differ by more than 15 % from the others.
	OtherRadial, OtherTangential Strain
	Disagree                     bool
	Onset                        quantity.Moisture // fibre saturation used
}

// StrainsBetween returns the relative changes of wood that comes from the
// moisture content from to the moisture content to (bands in 0 to 2.5), by the
// total shrinkage form. A direction without total shrinkage takes it from its
// coefficient. Along the grain 0.15 % is taken when not known, without a note,
// because a section does not need it. Nothing moves above fibre saturation. What
// the answer rests on goes to n.
//
// Errors: out_of_range for from_mc_pct, to_mc_pct, radial_pct, tangential_pct,
// longitudinal_pct, fibre_saturation_pct; contradictory for a broken band;
// unsupported when the wood has no figure in a direction.
// Accuracy: 15 % variation between pieces, and both moisture contents; delta
// method with the mixed second derivatives.
// Source: Wood Handbook ch. 13, equation for larger changes, written as
// (1 - S u_to)/(1 - S u_from).
func StrainsBetween(n *method.Notes, from, to quantity.Band[quantity.Moisture], w *wood.Wood) (Strains, error) {
	var out Strains
	if err := out.between(n, from, to, w); err != nil {
		return Strains{}, err
	}
	return out, nil
}

func (out *Strains) between(n *method.Notes, from, to quantity.Band[quantity.Moisture], w *wood.Wood) error {
	if err := checkBand(n, &strainRow, "from_mc_pct", from); err != nil {
		return err
	}
	if err := checkBand(n, &strainRow, "to_mc_pct", to); err != nil {
		return err
	}
	if err := out.onset(n, w); err != nil {
		return err
	}
	if from.Value > out.Onset || to.Value > out.Onset {
		n.Warn(method.Warning{Code: method.Assumption, Method: strainRow.ID, Detail: "nothing moves above fibre saturation; the change counts from there down"})
	}
	u0, u1 := dryness(from, out.Onset), dryness(to, out.Onset)
	r, otherR, apartR, err := out.total(n, "radial", "radial_pct", w.Radial, w.CoefficientRadial)
	if err != nil {
		return err
	}
	t, otherT, apartT, err := out.total(n, "tangential", "tangential_pct", w.Tangential, w.CoefficientTangential)
	if err != nil {
		return err
	}
	out.Radial, out.Tangential = relative(r, varied(w.Radial), u0, u1), relative(t, varied(w.Tangential), u0, u1)
	if out.Disagree = apartR || apartT; out.Disagree {
		out.OtherRadial, out.OtherTangential = relative(otherR, shrinkageCV, u0, u1), relative(otherT, shrinkageCV, u0, u1)
	}
	l, cv := longitudinalShrinkage, longitudinalCV
	if w.Longitudinal.Known {
		l = w.Longitudinal.Value
		if err := use(n, "longitudinal_pct", w.Longitudinal); err != nil {
			return err
		}
	}
	out.Longitudinal = relative(l, cv, u0, u1)
	return nil
}

// varied is how the shrinkage of pieces varies, with what the figure itself is unsure of.
func varied(f wood.Figure) float64 { return f.Varied(shrinkageCV) }

// total returns the total shrinkage of a direction, and the one that follows
// from its coefficient when both are known and lie apart.
func (out *Strains) total(n *method.Notes, direction, input string, s, c wood.Figure) (total, other float64, apart bool, err error) {
	if s.Known {
		if err := use(n, input, s); err != nil {
			return 0, 0, false, err
		}
		total, other = s.Value, s.Value
	}
	if !c.Known {
		if !s.Known {
			return 0, 0, false, &method.Error{Code: method.MissingData, Input: "wood", Detail: "neither the total " + direction + " shrinkage of this wood nor its coefficient is known"}
		}
		return total, other, false, nil
	}
	other, err = movement.ShrinkageFromCoefficient(c.Value, out.Onset)
	if err != nil {
		return 0, 0, false, err
	}
	if !s.Known {
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: strainRow.ID, Input: input, Detail: "the total " + direction + " shrinkage is not known; it is taken from the coefficient"})
		return other, other, false, nil
	}
	if math.Max(total, other) <= (1+disagreementShare)*math.Min(total, other) {
		return total, total, false, nil
	}
	n.Warn(method.Warning{Code: method.Disagreement, Method: strainRow.ID, Input: input, Detail: fmt.Sprintf(
		"the published %s shrinkage is %.1f %%, the published coefficient means %.1f %%; the bands hold both", direction, 100*total, 100*other)})
	return total, other, true, nil
}

// onset finds the moisture content at which shrinkage starts, in the order of
// package movement.
func (out *Strains) onset(n *method.Notes, w *wood.Wood) error {
	if out.Onset = w.Onset(); out.Onset == 0 {
		out.Onset = movement.UsualOnset
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: strainRow.ID, Input: "fibre_saturation_pct", Detail: "shrinkage is taken to start at 30 %MC, as in the handbook's formulas"})
		return nil
	}
	return n.Use(&strainRow, "fibre_saturation_pct", tidy(out.Onset.Percent()))
}

// uncertain is a value, the shift of its mean and its SD.
type uncertain struct{ value, bias, sd float64 }

// dryness returns u = 1 - min(M, F)/F with the exact mean and variance of a
// normal M cut at F.
func dryness(m quantity.Band[quantity.Moisture], onset quantity.Moisture) uncertain {
	f, sd := float64(onset), float64(m.SD())
	gap := f - float64(m.Value)
	u := uncertain{value: math.Max(0, gap) / f}
	switch {
	case sd == 0:
	case gap > 4*sd: // nothing of it reaches fibre saturation
		u.sd = sd / f
	case gap < -6*sd: // all of it is above
	default:
		a := gap / sd
		below := math.Erfc(-a/math.Sqrt2) / 2
		density := math.Exp(-a*a/2) / math.Sqrt(2*math.Pi)
		mean := gap*below + sd*density
		square := (gap*gap+sd*sd)*below + gap*sd*density
		u.bias = mean/f - u.value
		u.sd = math.Sqrt(math.Max(0, square-mean*mean)) / f
	}
	return u
}

// relative: e = (1 - S u1)/(1 - S u0) - 1 and its derivatives, see Wood Handbook
// ch. 13 for the printed form dD = D (M_F - M_I)/(30*100/S - 30 + M_I).
func relative(s, cv float64, u0, u1 uncertain) Strain {
	value := (1-s*u1.value)/(1-s*u0.value) - 1
	m0, m1 := u0.value+u0.bias, u1.value+u1.bias
	r0, r1 := 1-s*m0, 1-s*m1
	sd := cv * s
	gs := (m0 - m1) / (r0 * r0)
	h0, h1 := 1/(r0*r0)+2*s*(m0-m1)/(r0*r0*r0), -1/(r0*r0)
	second := h0*h0*u0.sd*u0.sd + h1*h1*u1.sd*u1.sd
	return Strain{
		Value: value, Mean: r1/r0 - 1,
		Piece: sd * math.Sqrt(gs*gs+second),
		From:  s * r1 / (r0 * r0) * u0.sd,
		To:    -s / r0 * u1.sd,
	}
}

// use checks a figure of the wood, in percent.
func use(n *method.Notes, input string, f wood.Figure) error {
	f.Doubt(&strainRow, input, n)
	return n.Use(&strainRow, input, f.Value*100)
}

// furthest is how far the ends of a moisture band may lie, 1000 %MC either way; wide
// enough for any honest SD, and nothing overflows.
const furthest = 10

// checkBand checks a moisture band: its value by the row, its ends by order.
func checkBand(n *method.Notes, row *method.Method, input string, b quantity.Band[quantity.Moisture]) error {
	if err := n.Use(row, input, tidy(b.Value.Percent())); err != nil {
		return err
	}
	if b.Low <= b.Value && b.Value <= b.High && b.Low >= -furthest && b.High <= furthest { // false for NaN
		return nil
	}
	return &method.Error{Code: method.Contradictory, Input: input, Detail: "the band of " + input + " must hold its value, low <= value <= high, with ends within 1000 %MC"}
}
