package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Dimension is a dimension of one piece that goes from one moisture content to another.
type Dimension struct {
	// Size is measured at From, or is the one wanted at To if AtEnd; 1 micrometre to 1 km.
	Size      quantity.Length
	AtEnd     bool
	Direction Direction
	From, To  quantity.Band[quantity.Moisture] // in 0 to 2.5
	// TwoAirs says that both moisture contents are those of airs, so that their errors go
	// together.
	TwoAirs bool
}

// Moved is a dimension before and after.
type Moved struct {
	// Start is the dimension at From: exact where it was measured there; else what to
	// cut, with High so that 95 of 100 pieces end large enough.
	Start quantity.Band[quantity.Length]
	Movement
}

// Of returns how a dimension of a wood moves, and how large it has to start where it was
// measured at the end.
//
// Errors: as Change.
// Accuracy: as Change; the errors of one piece in two airs as sorption.SamePiece.
//
// Source: Change; the strain does not depend on the size, so the start is the wanted size
// over 1 + strain.
func Of(d Dimension, w wood.Wood) (Moved, error) {
	from, to := d.From, d.To
	if d.TwoAirs {
		from, to = sorption.SamePiece(from, to)
	}
	out := Moved{Start: quantity.NormalBand(d.Size, 0)}
	var err error
	if out.Movement, err = Change(d.Size, d.Direction, from, to, w); err != nil {
		return Moved{}, err
	}
	if d.AtEnd {
		before := func(strain float64) quantity.Length { return d.Size / quantity.Length(1+strain) }
		s := out.Strain
		out.Start = quantity.Band[quantity.Length]{Value: before(s.Value), Low: before(s.High), High: before(s.Low)}
		if out.Movement, err = Change(out.Start.Value, d.Direction, from, to, w); err != nil {
			return Moved{}, err
		}
	}
	NoteOnset(&w, &out.Notes)
	return out, nil
}

// OnePoint returns the movement of a dimension (1 micrometre to 1 km) over one point of
// moisture content about the moisture content mc (0 to 2.5), half a point either side;
// for wood wetter than half of fibre saturation, about that.
//
// Errors: as Change.
// Accuracy: as Change.
//
// Source: Change; below fibre saturation one point moves a dimension alike wherever it lies.
func OnePoint(dimension quantity.Length, direction Direction, mc quantity.Moisture, w wood.Wood) (Movement, error) {
	const half = quantity.PercentMC / 2
	middle := min(max(mc, half), UsualOnset/2)
	return Change(dimension, direction, quantity.NormalBand(middle-half, 0), quantity.NormalBand(middle+half, 0), w)
}

// PerPoint is the movement of a wood per point of moisture content, as fractions.
type PerPoint struct {
	Longitudinal, Radial, Tangential quantity.Band[float64]
	Notes                            method.Notes
}

// PerPointOf returns the movement of a wood in its own directions over one point about the
// moisture content mc (0 to 2.5).
//
// Errors: as Change.
// Accuracy: as Change.
//
// Source: OnePoint in each of the three directions.
func PerPointOf(mc quantity.Moisture, w wood.Wood) (PerPoint, error) {
	var out PerPoint
	for _, one := range []struct {
		direction Direction
		to        *quantity.Band[float64]
	}{{Longitudinal(), &out.Longitudinal}, {Radial(), &out.Radial}, {Tangential(), &out.Tangential}} {
		m, err := OnePoint(quantity.Metre, one.direction, mc, w)
		if err != nil {
			return PerPoint{}, err
		}
		out.Notes.Merge(m.Notes)
		*one.to = m.Strain
	}
	return out, nil
}
