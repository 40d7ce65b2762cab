package movement

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Strain is a relative change of size in one direction, positive when it swells, with its
// standard deviation by cause.
type Strain struct {
	Value float64
	Mean  float64 // of its distribution; differs from Value near fibre saturation
	Piece float64 // SD from the piece and the figures of the wood, with what it does to the moisture's, >= 0
	Form  float64 // change per SD of the forms, signed; they err alike in both directions across the grain
	From  float64 // change per SD of the first moisture content, signed
	To    float64 // change per SD of the second, signed
	angle float64 // SD by an uncertain ring angle

	course course
}

// course is which way the moisture content goes, by its values.
type course int

const (
	rests course = iota
	dries
	wets
)

// courseOf is the course from one moisture content to another, of which nothing counts above
// fibre saturation.
func courseOf(from, to, onset quantity.Moisture) course {
	switch was, is := min(from, onset), min(to, onset); {
	case is < was:
		return dries
	case is > was:
		return wets
	}
	return rests
}

// Wood returns the standard deviation by the wood alone: piece, figures and forms.
//
// Accuracy: the two are taken as independent. Source: sum of variances.
func (s Strain) Wood() float64 { return math.Hypot(s.Piece, s.Form) }

// Band returns the 90 % band of s, without what cannot be: wood swells as it dries only as far as its
// moisture contents may lie the other way round.
func (s Strain) Band() quantity.Band[float64] {
	b := quantity.NormalBand(s.Mean, math.Sqrt(s.Piece*s.Piece+s.Form*s.Form+s.From*s.From+s.To*s.To+s.angle*s.angle))
	b.Value = s.Value
	b.Low, b.High = math.Min(b.Low, b.Value), math.Max(b.High, b.Value)
	reach := quantity.Z90 * (math.Abs(s.From) + math.Abs(s.To)) // by moisture contents at their ends
	switch s.course {
	case dries:
		b.High = math.Min(b.High, math.Max(0, math.Max(b.Value, s.Mean)+reach))
	case wets:
		b.Low = math.Max(b.Low, math.Min(0, math.Min(b.Value, s.Mean)-reach))
	case rests:
	}
	return b
}

// Strains are how a wood moves from one moisture content to another: the one source of
// strain for every question. Directions are asked of it.
type Strains struct {
	Radial, Tangential, Longitudinal Strain
	Onset                            quantity.Moisture // fibre saturation used
	Disagree                         bool              // forms differ by more than 15 % in a direction across the grain

	radial, tangential ends
	linearR, linearT   bool // see shrinking.linear
	course             course
}

// ends are what is lost at both moisture contents.
type ends struct{ from, to lost }

// StrainsBetween returns the relative changes of wood that comes from the moisture
// content from to the moisture content to (bands in 0 to 2.5), by all the figures that
// are known of it. Nothing moves above fibre saturation. Along the grain 0.15 % is taken
// when not known, without a note. What the answer rests on goes to n.
//
// Errors: out_of_range for from_mc_pct, to_mc_pct, radial_pct, tangential_pct,
// longitudinal_pct, coefficient_radial, coefficient_tangential, differential_radial,
// differential_tangential, swelling_volumetric, fibre_saturation_pct; contradictory for a
// broken band; missing_data when the wood has no figure in a direction.
// Accuracy: see the row movement.blend; delta method with the mixed second derivatives.
//
// Source: row movement.blend.
func StrainsBetween(n *method.Notes, from, to quantity.Band[quantity.Moisture], w *wood.Wood) (Strains, error) {
	return strainsBetween(n, from, to, w, true, true)
}

func strainsBetween(n *method.Notes, from, to quantity.Band[quantity.Moisture], w *wood.Wood, needR, needT bool) (Strains, error) {
	var out Strains
	if err := checkBand(n, &shrinkageRow, "from_mc_pct", from); err != nil {
		return out, err
	}
	if err := checkBand(n, &shrinkageRow, "to_mc_pct", to); err != nil {
		return out, err
	}
	var err error
	if out.Onset, err = onsetOf(w, n, &shrinkageRow); err != nil {
		return out, err
	}
	if from.Value > out.Onset || to.Value > out.Onset {
		n.Warn(method.Warning{Code: method.Assumption, Method: shrinkageRow.ID, Detail: "nothing moves above fibre saturation; the change counts from there down"})
	}
	if err := checkFigures(n, w, needR, needT); err != nil {
		return out, err
	}
	for _, d := range [...]struct {
		name string
		need bool
		of   fibres
		to   *ends
		lin  *bool
	}{{"radial", needR, radialOf(w), &out.radial, &out.linearR}, {"tangential", needT, tangentialOf(w), &out.tangential, &out.linearT}} {
		if !d.need {
			continue
		}
		s, known := shrinkingOf(d.of, w, out.Onset)
		if !known {
			return out, &method.Error{Code: method.MissingData, Input: "wood", Detail: "neither the total shrinkage nor the coefficient of this wood is known in this direction: give its " + d.name + " shrinkage"}
		}
		*d.to = ends{s.at(from), s.at(to)}
		*d.lin = s.linear
		out.Disagree = s.noteForms(n, d.name, math.Abs(d.to.to.value-d.to.from.value)) || out.Disagree
	}
	out.course = courseOf(from.Value, to.Value, out.Onset)
	out.Radial, out.Tangential = out.strain(rotation{radial: 1}), out.strain(rotation{tangential: 1})
	return out, out.along(n, from, to, w)
}

// along is the strain along the grain.
func (s *Strains) along(n *method.Notes, from, to quantity.Band[quantity.Moisture], w *wood.Wood) error {
	l := shrinking{onset: s.Onset, knee: kneeShare * s.Onset, total: longitudinalShrinkage, pieces: longitudinalCV}
	if w.Longitudinal.Known {
		if err := figure(n, &longitudinalRow, "longitudinal_pct", w.Longitudinal, 100); err != nil {
			return err
		}
		l.total, l.figure = w.Longitudinal.Value, w.Longitudinal.Share()
	}
	l.rate, l.byTotal = l.total/float64(l.onset), 1
	s.Longitudinal = between(ends{l.at(from), l.at(to)}, false)
	s.Longitudinal.course = s.course
	return nil
}

// Across returns the strain of a direction across the grain that has the ring angle (0 to
// 90 degrees) to the ring tangent.
//
// Accuracy: that of Strains. Source: rotation of plane strain.
func (s *Strains) Across(ringAngle quantity.Angle) Strain {
	return s.strain(WidthAt(ringAngle, 0).rotate())
}

// strain is that of a direction. Both directions of one piece are taken to vary together,
// which is the wider way.
func (s *Strains) strain(r rotation) Strain {
	needT, needR := r.needs()
	linear := (s.linearT || !needT) && (s.linearR || !needR)
	middle := ends{mixed(r, &s.tangential.from, &s.radial.from), mixed(r, &s.tangential.to, &s.radial.to)}
	out := between(middle, linear)
	out.course = s.course
	if r.sd > 0 {
		d0, d1 := s.tangential.from.mean-s.radial.from.mean, s.tangential.to.mean-s.radial.to.mean
		out.angle = math.Abs(change(&middle, r.sd*d0, r.sd*d1, linear)) * math.Sqrt(1+shareOf(&middle)*shareOf(&middle))
	}
	return out
}

// mixed is what is lost in a direction.
func mixed(r rotation, t, radial *lost) lost {
	mean := rotation{tangential: r.tangential + r.bias, radial: r.radial - r.bias}
	mix := func(by rotation, a, b float64) float64 { return by.tangential*a + by.radial*b }
	return lost{
		value: mix(r, t.value, radial.value), mean: mix(mean, t.mean, radial.mean),
		moisture: mix(mean, t.moisture, radial.moisture), piece: mix(mean, t.piece, radial.piece),
		form: mix(mean, t.form, radial.form), figure: mix(mean, t.figure, radial.figure),
	}
}

// change is the change of the strain about the means where so much more is lost at both
// ends: of (1 - s1)/(1 - s0) - 1, or of s0 - s1 where the rate counts on the start.
func change(e *ends, from, to float64, linear bool) float64 {
	if linear {
		return from - to
	}
	left := 1 - e.from.mean
	return -to/left + (1-e.to.mean)/(left*left)*from
}

// between is the strain from one end to the other.
func between(e ends, linear bool) Strain {
	by := func(from, to float64) float64 { return change(&e, from, to, linear) }
	piece, form, fig := by(e.from.piece, e.to.piece), by(e.from.form, e.to.form), by(e.from.figure, e.to.figure)
	out := Strain{
		Value: e.from.value - e.to.value, Mean: e.from.mean - e.to.mean,
		From: by(e.from.moisture, 0), To: by(0, e.to.moisture),
	}
	r0, r1 := 1.0, 1.0
	if !linear {
		out.Value = (1-e.to.value)/(1-e.from.value) - 1
		out.Mean = (1-e.to.mean)/(1-e.from.mean) - 1
		r0, r1 = 1-e.from.mean, 1-e.to.mean
	}
	// mixed second derivatives by the piece and the moisture contents
	share := shareOf(&e)
	h0, h1 := 1.0, 1.0
	if !linear {
		h0, h1 = 1/(r0*r0)+2*(r1-r0)/(r0*r0*r0), 1/(r0*r0)
	}
	both := share * math.Hypot(h0*e.from.moisture, h1*e.to.moisture)
	out.Piece, out.Form = math.Sqrt(piece*piece+fig*fig+both*both), form
	return out
}

// shareOf is the variation of a piece as a share.
func shareOf(e *ends) float64 {
	larger := e.from
	if e.to.mean > larger.mean {
		larger = e.to
	}
	if !(larger.mean > 0) {
		return 0
	}
	return larger.piece / larger.mean
}

// checkFigures checks the figures of the directions that are needed.
func checkFigures(n *method.Notes, w *wood.Wood, needR, needT bool) error {
	for _, in := range [...]struct {
		need  bool
		row   *method.Method
		name  string
		f     wood.Figure
		scale float64
	}{
		{needT, &shrinkageRow, "tangential_pct", w.Tangential, 100},
		{needR, &shrinkageRow, "radial_pct", w.Radial, 100},
		{needT, &coefficientRow, "coefficient_tangential", w.CoefficientTangential, 1},
		{needR, &coefficientRow, "coefficient_radial", w.CoefficientRadial, 1},
		{needT, &blendRow, "differential_tangential", w.DifferentialTangential, 1},
		{needR, &blendRow, "differential_radial", w.DifferentialRadial, 1},
		{needR || needT, &blendRow, "swelling_volumetric", w.SwellingVolumetric, 1},
	} {
		if !in.need {
			continue
		}
		if err := figure(n, in.row, in.name, in.f, in.scale); err != nil {
			return err
		}
	}
	return nil
}

// noteForms warns where the published figures of a direction lie apart; moved is the
// strain in question.
func (s *shrinking) noteForms(n *method.Notes, direction string, moved float64) bool {
	least, most := s.apart()
	if s.known < 2 || most.value <= (1+disagreementShare)*least.value {
		return false
	}
	n.Rest(&blendRow)
	if moved < leastStrain {
		return true
	}
	n.Warn(method.Warning{Code: method.Disagreement, Method: blendRow.ID, Detail: fmt.Sprintf(
		"published figures of the %s movement differ: %s gives %.3f %% of the green size for a point of moisture, %s %.3f; the answer takes %.3f, and the band holds both",
		direction, least.form.words(), least.value, most.form.words(), most.value, s.rate)})
	return true
}
