package moisture

import (
	"errors"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Reading is one way of learning the moisture content: a Sample, a RunningWeight, a
// PinReading, a PinlessReading, a Sized, a Figure, or one of the caller's own making.
type Reading interface {
	// Estimate returns what the reading says; what its errors name are its own inputs.
	Estimate() (Estimate, error)
}

// Readings is what a list of readings comes to.
type Readings struct {
	All      []Estimate // in the order of the readings
	Combined *Estimate  // of those that speak for the whole section; nil without any
	Gradient *Gradient  // from the last of the shell and the last of the core; nil without either
	Notes    method.Notes
}

// ReadAll returns what each of the readings says, what those that speak for the whole
// section say together, and the gradient where both the shell and the core were read.
//
// Errors: of every reading that fails, joined, under readings/i/; contradictory for
// readings/i where the readings cannot all be true; else those of Gather, as "readings".
// The notes name the inputs of a reading in the same way.
// Accuracy: as Gather.
// Source: the methods of the readings, Gather.
func ReadAll(list []Reading) (Readings, error) {
	var out Readings
	var wrong []error
	for i, r := range list {
		at := "readings/" + strconv.Itoa(i)
		e, err := r.Estimate()
		if err != nil {
			wrong = append(wrong, method.Below(err, at))
			continue
		}
		out.Notes.Merge(e.Notes.Below(at))
		out.All = append(out.All, e)
	}
	if err := errors.Join(wrong...); err != nil {
		return Readings{}, err
	}
	together, err := Gather(out.All)
	if err != nil {
		return Readings{}, method.Renamed(err, estimatesRead...)
	}
	out.Combined, out.Gradient = together.Mean, together.Gradient
	out.Notes.Merge(together.Notes.Renamed(estimatesRead...))
	return out, nil
}

// estimatesRead are the estimates by the readings they come from.
var estimatesRead = [][2]string{{"estimates", "readings"}, {"estimates/", "readings/"}}

// Sample is a section weighed wet and ovendry.
type Sample struct {
	Wet, Ovendry Weighing
	// Claimed is a figure that someone gave for the sample, 0 to 2.5; nil for none.
	Claimed *quantity.Moisture
}

// Estimate returns FromOvendry of the sample, with a remark on the figure that was claimed
// for it.
//
// Errors: as FromOvendry and LooksWetBasis.
// Accuracy: as FromOvendry.
// Source: rows mc.ovendry and mc.wet-basis-claim.
func (s Sample) Estimate() (Estimate, error) {
	e, err := FromOvendry(s.Wet, s.Ovendry)
	if err != nil || s.Claimed == nil {
		return e, err
	}
	basis, err := LooksWetBasis(*s.Claimed, s.Wet.Mass, s.Ovendry.Mass)
	e.Remark = basis.Detail
	return e, err
}

// RunningWeight is a piece weighed now, and before when its moisture content was known.
type RunningWeight struct {
	Start Known
	Now   Weighing
}

// Estimate returns FromRunningWeight of the piece.
//
// Errors: as FromRunningWeight.
// Accuracy: as FromRunningWeight.
// Source: row mc.running-weight.
func (r RunningWeight) Estimate() (Estimate, error) { return FromRunningWeight(r.Start, r.Now) }

// Estimate returns FromPinMeter of the reading.
//
// Errors: as FromPinMeter.
// Accuracy: as FromPinMeter.
// Source: row mc.pin-meter.
func (r PinReading) Estimate() (Estimate, error) { return FromPinMeter(r) }

// PinlessReading is a reading of a dielectric meter.
type PinlessReading struct {
	Reading    quantity.Moisture // 0.03 to 0.60
	DensitySet bool              // the meter was set to the wood's density
}

// Estimate returns FromPinlessMeter of the reading.
//
// Errors: as FromPinlessMeter.
// Accuracy: as FromPinlessMeter.
// Source: row mc.pinless-meter.
func (r PinlessReading) Estimate() (Estimate, error) {
	return FromPinlessMeter(r.Reading, r.DensitySet)
}

// Sized is a whole piece measured and weighed.
type Sized struct {
	// Body needs mass and volume; a SpecificGravity of 0 takes that of the wood, and so do
	// VolumetricShrinkage and FibreSaturation whatever they are.
	Body
	Wood *wood.Wood // nil where it is not known
}

// Estimate returns FromDensity of the piece, with the figures of its wood.
//
// Errors: missing for specific_gravity with neither the wood nor one's own, unsupported
// for that of a wood without it; else as FromDensity.
// Accuracy: as FromDensity.
// Source: row mc.density.
func (s Sized) Estimate() (Estimate, error) {
	var notes method.Notes
	b := s.Body
	if b.SpecificGravity == 0 {
		if s.Wood == nil {
			return Estimate{}, &method.Error{Code: method.Missing, Input: "specific_gravity",
				Detail: "give the species, or the specific gravity of the wood"}
		}
		var err error
		if b.SpecificGravity, err = s.Wood.Gravity(&notes); err != nil {
			return Estimate{}, err
		}
		if b.SpecificGravityCV == 0 {
			b.SpecificGravityCV = s.Wood.SpecificGravity.Varied(specificGravityCV)
		}
	}
	if s.Wood != nil {
		b.VolumetricShrinkage, b.FibreSaturation = s.Wood.VolumetricShrinkage(&notes), s.Wood.FibreSaturation
	}
	e, err := FromDensity(b)
	notes.Merge(e.Notes)
	e.Notes = notes
	return e, err
}

// Figure is a moisture content that the caller states.
type Figure struct{ MC, SD quantity.Moisture } // 0 to 2.5, SD 0.0001 to 1

// Estimate returns Stated of the figure.
//
// Errors: as Stated.
// Accuracy: as Stated.
// Source: row mc.stated.
func (f Figure) Estimate() (Estimate, error) { return Stated(f.MC, f.SD) }
