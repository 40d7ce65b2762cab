package drying

import "latewood/woodphys/method"

// Exposure is how the air reaches the faces of the wood.
type Exposure struct {
	Name string
	// FilmCoefficient is beta of the air at the face, in m/s, 1e-9 to 1.
	FilmCoefficient float64
	// CoatResistance of a coat or wrap on the faces, in s/m, is added to 1/beta; 0 to 1e9.
	CoatResistance float64
}

// OpenStack is a stack on stickers in the open. Film coefficients here come from
// h_c/1100 with h_c in W/m2K; which h_c belongs to which place is assumed. The
// drying factors were fitted with this one.
//
// Accuracy: a factor of 2 in the film coefficient.
//
// Source: as the comment on exposures; assumed.
func OpenStack() Exposure { return Exposure{Name: "open stack", FilmCoefficient: 0.004} } // h_c about 4.4

// Shed is a stack under a roof with open sides, a little out of the wind.
//
// Accuracy: as OpenStack.
//
// Source: film coefficient assumed.
func Shed() Exposure { return Exposure{Name: "shed", FilmCoefficient: 0.003} } // h_c about 3.3

// ClosedRoom is a stack with stickers in still indoor air.
//
// Accuracy: as OpenStack.
//
// Source: film coefficient assumed.
func ClosedRoom() Exposure { return Exposure{Name: "closed room", FilmCoefficient: 0.002} } // h_c about 2.2, narrow gaps

// Wrapped is wood in plastic film whose overlaps are not sealed: 2e5 s/m. Whole
// polyethylene film of 0.15 mm would have about 2e6 s/m (3.4e-12 kg/Pa m2 s,
// from memory).
//
// Accuracy: an order of magnitude; it hangs on how well the film is closed.
//
// Source: film permeance from memory; overlaps assumed.
func Wrapped() Exposure {
	return Exposure{Name: "wrapped", FilmCoefficient: 0.002, CoatResistance: 2e5}
}

// film returns the effective film coefficient in m/s.
func (e Exposure) film() float64 { return 1 / (1/e.FilmCoefficient + e.CoatResistance) }

func (e Exposure) check(notes *method.Notes) error {
	if err := notes.Use(&rowExposure, "film_coefficient", e.FilmCoefficient); err != nil {
		return err
	}
	return notes.Use(&rowExposure, "coat_resistance", e.CoatResistance)
}
