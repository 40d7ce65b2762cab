package air

import (
	"math"

	"latewood/woodphys/quantity"
)

// SeaLevelPressure is the pressure of the standard atmosphere at sea level.
const SeaLevelPressure = 101325 * quantity.Pascal

// StandardPressure returns the pressure of the standard atmosphere at an
// altitude above sea level, from -500 to 9000 m.
//
// Errors: *method.Error with input "altitude" outside that range or for NaN.
// Accuracy: 1 Pa against the printed table; weather moves the true pressure by
// about +/-3 %.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eq. 3 (from memory).
func StandardPressure(altitude quantity.Length) (quantity.Pressure, error) {
	if _, err := rowAltitude.Check("altitude", altitude.Metres()); err != nil {
		return 0, err
	}
	// eq. 3: p = 101.325 (1 - 2.25577e-5 Z)^5.2559 kPa
	return SeaLevelPressure * quantity.Pressure(math.Pow(1-2.25577e-5*altitude.Metres(), 5.2559)), nil
}
