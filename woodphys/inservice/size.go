package inservice

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Sizes is a dimension of a part at the build and at both extremes.
type Sizes struct {
	Build    quantity.Length
	Dry, Wet movement.Movement              // from the build
	Swing    quantity.Band[quantity.Length] // wet minus dry
	// HalfSwing is the way of each edge from a seam in the middle, and back.
	HalfSwing quantity.Band[quantity.Length]
	Notes     method.Notes
}

// SizesOf returns how a dimension (1 micrometre to 1 km) that was cut at the
// moisture content made moves to the driest and the wettest state. samePiece says
// that made was found from an air as well, so that the errors of the three go
// together.
//
// Errors: as movement.Between.
// Accuracy: as movement.Between.
//
// Source: row movement.season; sorption.SamePiece for the bands.
func SizesOf(dimension quantity.Length, direction movement.Direction, made, dry, wet quantity.Band[quantity.Moisture], samePiece bool, w wood.Wood) (Sizes, error) {
	first, second := sorption.SamePiece(dry, wet)
	if samePiece {
		made, _ = sorption.SamePiece(made, dry)
	}
	swing, err := movement.Between(dimension, direction, held(made), movement.Airs{First: held(first), Second: held(second)}, w)
	if err != nil {
		return Sizes{}, err
	}
	out := Sizes{Build: dimension, Dry: swing.ToFirst, Wet: swing.ToSecond, Swing: swing.Between, Notes: swing.Notes}
	out.HalfSwing = quantity.Band[quantity.Length]{Value: out.Swing.Value / 2, Low: out.Swing.Low / 2, High: out.Swing.High / 2}
	return out, nil
}

// held keeps a band of moisture contents at or above 0.
func held(b quantity.Band[quantity.Moisture]) quantity.Band[quantity.Moisture] {
	b.Low, b.Value = max(b.Low, 0), max(b.Value, 0)
	return b
}

// Strain at which wood breaks across the grain (from memory, no table at hand).
const (
	FailureLow  = 0.015
	FailureHigh = 0.020
)

// crushedAt is the strain from which wood that is pressed across its grain keeps a set: it
// yields at about 1 % (from memory, no table at hand).
const crushedAt = 0.010

// Danger is a class of a held part.
type Danger string

// Dangers: below half of the failure strain, below it, above. Common practice.
const (
	Slight   Danger = "low"
	Moderate Danger = "moderate"
	High     Danger = "high"
)

// Held is what a part must bear across the grain if it cannot move.
type Held struct {
	Stretch quantity.Band[float64] // at the driest, pulled: positive
	Squeeze quantity.Band[float64] // at the wettest, pressed together: positive
	Share   quantity.Band[float64] // Stretch over FailureLow
	Danger  Danger                 // by the upper end of Share
	Notes   method.Notes
}

// HeldStrain returns what a part bears whose free strains from the build would be
// dry and wet (fractions, -0.5 to 0.5): the opposite of them.
//
// Errors: *method.Error with input "strain_pct"; Contradictory for a broken band.
// Accuracy: see the row; slow wood creeps and bears a part of it only.
//
// Source: row inservice.held-strain.
func HeldStrain(dry, wet quantity.Band[float64]) (Held, error) {
	var out Held
	for _, b := range [...]quantity.Band[float64]{dry, wet} {
		if err := out.Notes.Use(&heldRow, "strain_pct", 100*b.Value); err != nil {
			return Held{}, err
		}
		if !(b.Low <= b.Value && b.Value <= b.High) {
			return Held{}, &method.Error{Code: method.Contradictory, Input: "strain_pct", Detail: "a band must hold its value"}
		}
	}
	out.Stretch = positive(quantity.Band[float64]{Value: -dry.Value, Low: -dry.High, High: -dry.Low})
	out.Squeeze = positive(wet)
	out.Share = quantity.Band[float64]{Value: out.Stretch.Value / FailureLow, Low: out.Stretch.Low / FailureLow, High: out.Stretch.High / FailureLow}
	out.Danger = dangerOf(out.Share)
	if out.Squeeze.High > crushedAt {
		out.Notes.Warn(method.Warning{Code: method.Caution, Method: heldRow.ID,
			Detail: "squeezed by more than about 1 % across the grain, wood keeps a compression set: it is smaller when it dries again, and joints gape then"})
	}
	if out.Danger != Slight {
		out.Notes.Warn(method.Warning{Code: method.Caution, Method: heldRow.ID,
			Detail: "held across the grain, this part may crack in the dry season: leave it room to move, build it drier, or keep the room from going so dry"})
	}
	return out, nil
}

// dangerOf is the class of a share of the strain at which wood begins to fail.
func dangerOf(share quantity.Band[float64]) Danger {
	switch {
	case share.High < 0.5:
		return Slight
	case share.High < 1:
		return Moderate
	}
	return High
}

func positive(b quantity.Band[float64]) quantity.Band[float64] { return b.Clamp(0, math.Inf(1)) }

// BuildAir is the air to build in so that both seasons share the movement.
type BuildAir struct {
	Moisture    quantity.Moisture // of the wood at the build
	RH          quantity.Band[float64]
	Temperature quantity.Temperature
	Notes       method.Notes
}

// usualShop is the temperature to build at where none is told. Own choice.
var usualShop = quantity.Celsius(20)

// AirToBuild returns the moisture content halfway between dry and wet (0 to 0.6,
// each at most onset, the fibre saturation where shrinkage starts; 0 for 30 %MC)
// and the humidity at the temperature (-40 to 120 degC; nil takes 20) in which the wood
// settles there.
//
// Errors: *method.Error with input "mc_pct" or "temperature".
// Accuracy: as sorption.HumidityFor.
//
// Source: movement is linear in moisture content below fibre saturation, so equal
// ways mean the middle; row inservice.build-air.
func AirToBuild(dry, wet, onset quantity.Moisture, temperature *quantity.Temperature, curves sorption.Curves) (BuildAir, error) {
	out := BuildAir{Temperature: usualShop}
	if temperature != nil {
		out.Temperature = *temperature
	}
	if onset <= 0 {
		onset = sorption.NominalFibreSaturation
	}
	for _, m := range [...]quantity.Moisture{dry, wet} {
		if err := out.Notes.Use(&buildRow, "mc_pct", m.Percent()); err != nil {
			return BuildAir{}, err
		}
	}
	out.Moisture = (min(dry, onset) + min(wet, onset)) / 2
	h, err := sorption.HumidityFor(out.Temperature, out.Moisture, sorption.Middle, curves)
	if err != nil {
		return BuildAir{}, err
	}
	out.RH = h.RH
	out.Notes.Merge(h.Notes)
	return out, nil
}
