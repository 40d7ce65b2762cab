package drying

import (
	"math"

	"latewood/woodphys/method"
)

// Piling is how the wood lies in its air, which sets the pace of its wet stage.
type Piling int

// Pilings.
const (
	WidePile   Piling = iota // a hand pile of a yard, 2 to 5 m wide, as the published spans are for
	SmallStack               // a package or less, or a billet on its own
	MovingAir                // a kiln, a fan: air blown through the stack
	AirByDay                 // a solar kiln: air blown through the stack for half of the time
)

// smallStack is the pace of a small stack over that of a wide pile: sugar maple in
// packages of 1.2 m (read) against its national span (recalled); packages dry sooner
// than hand piles (Technical Note 233, read).
const smallStack = 1.4

// Exposure is how the air reaches the faces of the wood.
type Exposure struct {
	Name   string
	Piling Piling
	// FilmCoefficient is beta of the air at the face, in m/s, 1e-9 to 1.
	FilmCoefficient float64
	// Speed of the air that FilmCoefficient was worked out of, in m/s; 0: it was not. What is
	// told of the one is then told of the other.
	Speed float64
	// CoatResistance of a coat or wrap on the faces, in s/m, is added to 1/beta; 0 to 1e9.
	CoatResistance float64
}

// OpenStack is a wide pile on stickers in the open. Film coefficients here come from
// h_c/1100 with h_c in W/m2K; which h_c belongs to which place is assumed. The
// paces of woods were fitted with this one.
//
// Accuracy: a factor of 2 in the film coefficient.
//
// Source: as the comment on exposures; assumed.
func OpenStack() Exposure { return Exposure{Name: "open stack", FilmCoefficient: 0.004} } // h_c about 4.4

// OpenSmallStack is a package or a billet on its own in the open.
//
// Accuracy: as OpenStack.
//
// Source: film coefficient assumed.
func OpenSmallStack() Exposure {
	return Exposure{Name: "small stack", Piling: SmallStack, FilmCoefficient: 0.004}
}

// Shed is a small stack under a roof with open sides, a little out of the wind.
//
// Accuracy: as OpenStack.
//
// Source: film coefficient assumed.
func Shed() Exposure { return Exposure{Name: "shed", Piling: SmallStack, FilmCoefficient: 0.003} } // h_c about 3.3

// ClosedRoom is a stack with stickers in still indoor air.
//
// Accuracy: as OpenStack.
//
// Source: film coefficient assumed.
func ClosedRoom() Exposure {
	return Exposure{Name: "closed room", Piling: SmallStack, FilmCoefficient: 0.002} // h_c about 2.2, narrow gaps
}

// Wrapped is wood in plastic film whose overlaps are not sealed: 2e5 s/m. Whole
// polyethylene film of 0.15 mm would have about 2e6 s/m (3.4e-12 kg/Pa m2 s,
// from memory).
//
// Accuracy: an order of magnitude; it hangs on how well the film is closed.
//
// Source: film permeance from memory; overlaps assumed.
func Wrapped() Exposure {
	return Exposure{Name: "wrapped", Piling: SmallStack, FilmCoefficient: 0.002, CoatResistance: 2e5}
}

// Kiln is wood in air that is blown through the stack at 1 to 2 m/s.
//
// Accuracy: as OpenStack.
//
// Source: h_c 8 to 12 W/m2K at 1 m/s (general heat transfer, from memory).
func Kiln() Exposure { return Exposure{Name: "kiln", Piling: MovingAir, FilmCoefficient: 0.01} } // h_c about 11

// Fanned is a stack that a fan blows room air through.
//
// Accuracy: as OpenStack.
//
// Source: h_c about 7 W/m2K at 0.5 m/s (general heat transfer, from memory).
func Fanned() Exposure {
	return Exposure{Name: "moving air", Piling: MovingAir, FilmCoefficient: 0.0065}
}

// Dehumidifier is a chamber that a dehumidifier dries, with fans.
//
// Accuracy: as OpenStack.
//
// Source: h_c about 9 W/m2K at 0.8 m/s (general heat transfer, from memory).
func Dehumidifier() Exposure {
	return Exposure{Name: "dehumidifier", Piling: MovingAir, FilmCoefficient: 0.008}
}

// SolarKiln is a chamber under glass whose fans run by day: its film is the mean of day
// and night.
//
// Accuracy: as OpenStack.
//
// Source: Kiln by day and ClosedRoom by night; that each is half of the time is assumed.
func SolarKiln() Exposure {
	return Exposure{Name: "solar kiln", Piling: AirByDay, FilmCoefficient: 0.006}
}

// AtSpeed returns the exposure with air that moves along the faces at a speed, 0.2 to 10 m/s,
// where air is blown through the stack; that of a solar kiln moves by day.
//
// Errors: *method.Error with input "air_speed_m_per_s"; unsupported where no air is blown through.
// Accuracy: as OpenStack.
//
// Source: h_c about 10 W/m2K at 1 m/s and as the speed to the power of 0.6 (general heat
// transfer, from memory), which is what the exposures above have.
func (e Exposure) AtSpeed(speed float64) (Exposure, error) {
	if _, err := rowExposure.Check("air_speed_m_per_s", speed); err != nil {
		return e, err
	}
	e.Speed = speed
	film := filmAtOne * math.Pow(speed, 0.6)
	switch e.Piling {
	case MovingAir:
		e.FilmCoefficient = film
	case AirByDay:
		e.FilmCoefficient = (film + ClosedRoom().FilmCoefficient) / 2
	case WidePile, SmallStack:
		return e, &method.Error{Code: method.Contradictory, Input: "air_speed_m_per_s", Detail: "a speed of air goes with air that is blown through the stack"}
	}
	return e, nil
}

// filmAtOne is the film coefficient at 1 m/s.
const filmAtOne = 10.0 / 1100

// WetPace returns the wet-stage pace of a wood here, of which the pace in a wide pile
// is yard (above 0): 1.4 times that in a small stack, at most 1, 1 in moving air, and the mean of the two by day and night. A
// wood that no pile slows keeps its pace.
//
// Accuracy: a ratio of 1.5 (1 SD); in moving air 1.35.
//
// Source: spans for wide piles; one pair of figures for the small stack (see smallStack);
// kiln rule and schedules for moving air (recalled), which 1 meets without a fit.
func (e *Exposure) WetPace(yard float64) float64 {
	switch e.Piling {
	case MovingAir:
		return 1
	case SmallStack:
		return math.Max(math.Min(smallStack*yard, 1), yard)
	case AirByDay:
		return (1 + math.Max(math.Min(smallStack*yard, 1), yard)) / 2
	case WidePile:
	}
	return yard
}

// film returns the effective film coefficient in m/s.
func (e *Exposure) film() float64 { return 1 / (1/e.FilmCoefficient + e.CoatResistance) }

func (e *Exposure) check(notes *method.Notes) error {
	name, value := "film_coefficient", e.FilmCoefficient
	if e.Speed > 0 {
		name, value = "air_speed_m_per_s", e.Speed
	}
	if err := notes.Use(&rowExposure, name, value); err != nil {
		return err
	}
	return notes.Use(&rowExposure, "coat_resistance", e.CoatResistance)
}
