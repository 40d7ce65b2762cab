package movement

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// disagreementShare: the two forms disagree when one is more than 15 % larger.
// Own choice, about three times the 5 % by which the coefficient form is
// published to depart within its range.
const disagreementShare = 0.15

// leastStrain is the strain below which a disagreement of the forms is not worth
// telling: 0.01 %, a few hundredths of a millimetre on a wide top.
const leastStrain = 1e-4

// FormResult is what one form gives.
type FormResult struct {
	Known  bool
	Change quantity.Band[quantity.Length] // without widening
	Rate   float64                        // the C (per %MC) or the S (fraction) used at this ring angle
}

// Movement is the change of a dimension. Positive is swelling.
type Movement struct {
	Change      quantity.Band[quantity.Length]
	Final       quantity.Band[quantity.Length] // dimension plus change
	Strain      quantity.Band[float64]         // change over the dimension
	Form        Form                           // which form Change rests on
	Coefficient FormResult
	Shrinkage   FormResult
	Disagree    bool              // the two forms differ by more than 15 %
	Onset       quantity.Moisture // fibre saturation used
	Notes       method.Notes
}

// Change returns how far dimension (1 micrometre to 1 km), which has the moisture
// content from, moves when it comes to the moisture content to (bands in 0 to
// 2.5; equal ends for an exact value). Nothing moves above fibre saturation.
// See the package comment for which form is used and what the band covers.
//
// Errors: out_of_range for dimension, from_mc_pct, to_mc_pct, ring_angle_deg,
// ring_angle_sd_deg, a figure of the wood (radial_pct, tangential_pct,
// longitudinal_pct, coefficient_radial, coefficient_tangential,
// fibre_saturation_pct); contradictory for a broken band; unsupported when
// neither form has its figures.
// Accuracy: 90 % band from 15 % variation between pieces, both moisture
// contents and the ring angle; covers 88 to 92 % in simulation of that model.
// Source: Wood Handbook ch. 13 equations; ch. 4 for the variation.
func Change(dimension quantity.Length, direction Direction, from, to quantity.Band[quantity.Moisture], w wood.Wood) (Movement, error) {
	var m Movement
	m.Notes.Basis = make([]string, 0, 4)
	if err := m.Notes.Use(&shrinkageRow, "dimension", dimension.Millimetres()); err != nil {
		return Movement{}, err
	}
	p, err := prepare(&m.Notes, direction, from, to, &w)
	if err != nil {
		return Movement{}, err
	}
	m.Onset = p.onset
	var byC, byS relative
	if p.hasC {
		byC = byCoefficient(p.c, p.from, p.to, p.onset)
		m.Coefficient = FormResult{Known: true, Change: scale(byC.band(), dimension), Rate: p.c.value}
	}
	if p.hasS {
		byS = byShrinkage(p.s, p.from, p.to)
		m.Shrinkage = FormResult{Known: true, Change: scale(byS.band(), dimension), Rate: p.s.value}
	}
	inside := coefficientRange.Holds(percent(from.Value)) && coefficientRange.Holds(percent(to.Value))
	if m.Form = ByShrinkage; p.hasC && (inside || !p.hasS) {
		m.Form = ByCoefficient
	}
	if err := m.choose(byC, byS, from, to); err != nil {
		return Movement{}, err
	}
	m.Change = scale(m.Strain, dimension)
	m.Final = quantity.Band[quantity.Length]{Value: dimension + m.Change.Value, Low: dimension + m.Change.Low, High: dimension + m.Change.High}
	return m, nil
}

// choose takes the strain of the chosen form and widens it where the other
// disagrees.
func (m *Movement) choose(byC, byS relative, from, to quantity.Band[quantity.Moisture]) error {
	if m.Form == ByCoefficient {
		m.Strain = byC.band()
		if err := m.Notes.Use(&coefficientRow, "from_mc_pct", percent(from.Value)); err != nil {
			return err
		}
		if err := m.Notes.Use(&coefficientRow, "to_mc_pct", percent(to.Value)); err != nil {
			return err
		}
	} else {
		m.Strain = byS.band()
	}
	if !m.Coefficient.Known || !m.Shrinkage.Known {
		return nil
	}
	c, s := math.Abs(byC.value), math.Abs(byS.value)
	if math.Max(c, s) <= (1+disagreementShare)*math.Min(c, s) || math.Max(c, s) < leastStrain {
		return nil
	}
	m.Disagree = true
	m.Strain = union(m.Strain, byC.band())
	m.Strain = union(m.Strain, byS.band())
	m.Notes.Warn(method.Warning{Code: method.Disagreement, Method: coefficientRow.ID, Detail: fmt.Sprintf(
		"the published coefficient gives %+.3f %% and the published total shrinkage %+.3f %% for this change; the band holds both", 100*byC.value, 100*byS.value)})
	m.Notes.Rest(&coefficientRow)
	return nil
}

// parts is what both forms start from.
type parts struct {
	onset      quantity.Moisture
	from, to   uncertain // dryness at both ends
	c, s       uncertain
	hasC, hasS bool
}

// prepare checks everything but the dimension and gathers the parts.
func prepare(n *method.Notes, direction Direction, from, to quantity.Band[quantity.Moisture], w *wood.Wood) (parts, error) {
	var p parts
	var err error
	if err = checkBand(n, &shrinkageRow, "from_mc_pct", from); err != nil {
		return p, err
	}
	if err = checkBand(n, &shrinkageRow, "to_mc_pct", to); err != nil {
		return p, err
	}
	if err = p.rates(n, direction, w); err != nil {
		return p, err
	}
	p.from, p.to = dryness(from, p.onset), dryness(to, p.onset)
	if from.Value > p.onset || to.Value > p.onset {
		n.Warn(method.Warning{Code: method.Assumption, Method: shrinkageRow.ID, Detail: "nothing moves above fibre saturation; the change counts from there down"})
	}
	return p, nil
}

// rates finds the onset and the shrinkage and coefficient in the direction.
func (p *parts) rates(n *method.Notes, direction Direction, w *wood.Wood) error {
	var err error
	if p.onset, err = onsetOf(w, n, &shrinkageRow); err != nil {
		return err
	}
	if err = direction.check(n); err != nil {
		return err
	}
	if direction.longitudinal {
		p.s, err = longitudinal(n, w)
		p.hasS = err == nil
		return err
	}
	r := direction.rotate()
	needT, needR := r.needs()
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
	} {
		if !in.need {
			continue
		}
		if err := figure(n, in.row, in.name, in.f, in.scale); err != nil {
			return err
		}
	}
	p.s, p.hasS = r.of(w.Tangential, w.Radial, shrinkageCV)
	p.c, p.hasC = r.of(w.CoefficientTangential, w.CoefficientRadial, shrinkageCV)
	if !p.hasS && !p.hasC {
		return &method.Error{Code: method.MissingData, Input: "wood", Detail: "neither the total shrinkage nor the coefficient of this wood is known in this direction"}
	}
	return nil
}

func longitudinal(n *method.Notes, w *wood.Wood) (uncertain, error) {
	n.Rest(&longitudinalRow)
	s := longitudinalShrinkage
	if w.Longitudinal.Known {
		s = w.Longitudinal.Value
		if err := figure(n, &longitudinalRow, "longitudinal_pct", w.Longitudinal, 100); err != nil {
			return uncertain{}, err
		}
	} else {
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: longitudinalRow.ID, Input: "longitudinal_pct", Detail: "0.15 % green to ovendry is taken along the grain; reaction and juvenile wood reach 2 %"})
	}
	return uncertain{value: s, sd: longitudinalCV * s}, nil
}

func scale(b quantity.Band[float64], by quantity.Length) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: quantity.Length(b.Value) * by, Low: quantity.Length(b.Low) * by, High: quantity.Length(b.High) * by}
}

// union widens a to hold b, keeping a's value.
func union(a, b quantity.Band[float64]) quantity.Band[float64] {
	a.Low, a.High = math.Min(a.Low, b.Low), math.Max(a.High, b.High)
	return a
}
