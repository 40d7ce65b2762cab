package movement

import (
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
	Form   Form
	Known  bool
	Change quantity.Band[quantity.Length] // with the variation of pieces and the moisture contents only
	Rate   float64                        // as published, at this ring angle: C or q per %MC, S or the volumetric share as a fraction
	// Carried says that a moisture content lies outside the range of the form: its rate is carried
	// on from there to the total shrinkage, as the answer is.
	Carried bool
}

// Movement is the change of a dimension. Positive is swelling.
type Movement struct {
	Change quantity.Band[quantity.Length]
	Final  quantity.Band[quantity.Length] // dimension plus change
	Strain quantity.Band[float64]         // change over the dimension
	Form   Form                           // which form Change rests on, Combined where it is several
	// Each form by itself, as its equation is printed in its range, and carried on beyond it.
	Coefficient, Shrinkage, Differential, Volume FormResult
	Disagree                                     bool              // forms differ by more than 15 %
	Onset                                        quantity.Moisture // fibre saturation used
	Notes                                        method.Notes
}

// Change returns how far dimension (1 micrometre to 1 km), which has the moisture
// content from, moves when it comes to the moisture content to (bands in 0 to
// 2.5; equal ends for an exact value). Nothing moves above fibre saturation.
// See the package comment for what the answer rests on and what the band covers.
//
// Errors: out_of_range for dimension, from_mc_pct, to_mc_pct, ring_angle_deg,
// ring_angle_sd_deg, a figure of the wood (as StrainsBetween); contradictory for a broken
// band; unsupported when no form has its figures.
// Accuracy: 90 % band from 15 % variation between pieces, the error of the forms, both
// moisture contents and the ring angle; covers 88 to 93 % in simulation of that model.
// Source: StrainsBetween; the equations of the forms as in their rows.
func Change(dimension quantity.Length, direction Direction, from, to quantity.Band[quantity.Moisture], w wood.Wood) (Movement, error) {
	var m Movement
	m.Notes.Basis = make([]string, 0, 4)
	if err := m.Notes.Use(&shrinkageRow, "dimension", dimension.Millimetres()); err != nil {
		return Movement{}, err
	}
	if err := direction.check(&m.Notes); err != nil {
		return Movement{}, err
	}
	r := direction.rotate()
	needT, needR := r.needs()
	if direction.longitudinal {
		needT, needR = false, false
		NoteAlong(&w, &m.Notes)
	}
	s, err := strainsBetween(&m.Notes, from, to, &w, needR, needT)
	if err != nil {
		return Movement{}, err
	}
	m.Onset, m.Disagree = s.Onset, s.Disagree
	if direction.longitudinal {
		m.Strain, m.Form = s.Longitudinal.Band(), ByShrinkage
	} else {
		m.Strain = s.strain(r).Band()
		m.forms(r, from, to, dimension, &w)
	}
	m.Change = scale(m.Strain, dimension)
	m.Final = quantity.Band[quantity.Length]{Value: dimension + m.Change.Value, Low: dimension + m.Change.Low, High: dimension + m.Change.High}
	return m, m.noteRange(from, to)
}

// forms fills in what each form gives by itself.
func (m *Movement) forms(r rotation, from, to quantity.Band[quantity.Moisture], dimension quantity.Length, w *wood.Wood) {
	byRate := func(rate, from, to uncertain) relative { return byCoefficient(rate, from, to, m.Onset) }
	volume := func(of wood.Figure) wood.Figure {
		both := w.Radial.Value + w.Tangential.Value
		if !w.SwellingVolumetric.Known || !w.Radial.Known || !w.Tangential.Known {
			return wood.Figure{}
		}
		return wood.Published(w.SwellingVolumetric.Value * m.Onset.Percent() * of.Value / both)
	}
	known := 0
	for _, f := range [...]struct {
		form Form
		t, r wood.Figure
		of   func(rate, from, to uncertain) relative
		to   *FormResult
	}{
		{ByCoefficient, w.CoefficientTangential, w.CoefficientRadial, byRate, &m.Coefficient},
		{ByShrinkage, w.Tangential, w.Radial, byShrinkage, &m.Shrinkage},
		{ByDifferential, w.DifferentialTangential, w.DifferentialRadial, byRate, &m.Differential},
		{ByVolume, volume(w.Tangential), volume(w.Radial), byShrinkage, &m.Volume},
	} {
		v, is := r.of(f.t, f.r, shrinkageCV)
		if !is {
			continue
		}
		printed := func(from, to quantity.Band[quantity.Moisture]) quantity.Band[float64] {
			return f.of(v, dryness(from, m.Onset), dryness(to, m.Onset)).band()
		}
		one, carried := printed(from, to), false
		within := inRange(f.form, m.Onset)
		if lastFrom, lastTo := clamped(from, within), clamped(to, within); lastFrom != from || lastTo != to {
			var whole quantity.Band[float64]
			if whole, carried = inLines(f.form, r, from, to, m.Onset, w); carried {
				inside, _ := inLines(f.form, r, lastFrom, lastTo, m.Onset, w)
				one = further(printed(lastFrom, lastTo), whole, inside)
			}
		}
		*f.to = FormResult{Form: f.form, Known: true, Change: scale(one, dimension), Rate: v.value, Carried: carried}
		m.Form = f.form
		known++
	}
	if known != 1 { // none alone: the directions rest on different ones
		m.Form = Combined
		m.Notes.Rest(&blendRow)
	}
}

// inRange is where a form is printed for.
func inRange(form Form, onset quantity.Moisture) method.Range {
	switch form {
	case ByCoefficient:
		return coefficientRange
	case ByDifferential, ByVolume:
		return method.Range{Low: 0, High: percent(kneeShare * onset)}
	case ByShrinkage, Combined: // from green to ovendry
	}
	return method.Range{Low: 0, High: math.Inf(1)}
}

// clamped is a moisture content moved into a range, with the width of its band.
func clamped(u quantity.Band[quantity.Moisture], r method.Range) quantity.Band[quantity.Moisture] {
	if r.Holds(percent(u.Value)) {
		return u
	}
	by := quantity.Moisture(min(max(percent(u.Value), r.Low), r.High)/100) - u.Value
	return quantity.Band[quantity.Moisture]{Value: u.Value + by, Low: u.Low + by, High: u.High + by}
}

// inLines is the strain by one form alone, in the two lines that the answer takes: by its rate, and from the
// end of its range on to the total shrinkage; false where that is not known.
func inLines(form Form, r rotation, from, to quantity.Band[quantity.Moisture], onset quantity.Moisture, w *wood.Wood) (quantity.Band[float64], bool) {
	out := Strains{Onset: onset}
	needT, needR := r.needs()
	for _, d := range [...]struct {
		need bool
		of   fibres
		to   *ends
	}{{needR, radialOf(w), &out.radial}, {needT, tangentialOf(w), &out.tangential}} {
		if !d.need {
			continue
		}
		s, known := shrinkingOf(d.of, w, onset)
		if !known || s.linear || !s.only(form, d.of) {
			return quantity.Band[float64]{}, false
		}
		*d.to = ends{s.at(from), s.at(to)}
	}
	return out.strain(r).Band(), true
}

// further is the band at, moved on by what lies between two others, and as much wider; at least half as
// wide as the last, where moisture contents are hardly known.
func further(at, last, first quantity.Band[float64]) quantity.Band[float64] {
	value := at.Value + last.Value - first.Value
	below, above := last.Value-last.Low, last.High-last.Value
	return quantity.Band[float64]{
		Value: value,
		Low:   value - max(at.Value-at.Low+below-(first.Value-first.Low), below/2),
		High:  value + max(at.High-at.Value+above-(first.High-first.Value), above/2),
	}
}

// noteRange notes the range that the coefficient is printed for where nothing else is known.
func (m *Movement) noteRange(from, to quantity.Band[quantity.Moisture]) error {
	if m.Form != ByCoefficient {
		return nil
	}
	if err := m.Notes.Use(&coefficientRow, "from_mc_pct", percent(from.Value)); err != nil {
		return err
	}
	return m.Notes.Use(&coefficientRow, "to_mc_pct", percent(to.Value))
}

// NoteAlong notes what movement along the grain rests on, and that 0.15 % is taken where
// the figure of the wood is not known.
//
// Accuracy: see the row movement.longitudinal. Source: row movement.longitudinal.
func NoteAlong(w *wood.Wood, n *method.Notes) {
	n.Rest(&longitudinalRow)
	if !w.Longitudinal.Known {
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: longitudinalRow.ID, Input: "longitudinal_pct",
			Detail: "0.15 % green to ovendry is taken along the grain; reaction and juvenile wood reach 2 %"})
	}
}

func scale(b quantity.Band[float64], by quantity.Length) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: quantity.Length(b.Value) * by, Low: quantity.Length(b.Low) * by, High: quantity.Length(b.High) * by}
}
