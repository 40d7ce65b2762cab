package wire

import (
	"math"
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
)

// ToPicometre is a length in metres to the picometre, so that the last bits of a
// conversion put no length beyond a limit it states: 200 um is 0.2 mm.
func ToPicometre(metres float64) float64 {
	if !(math.Abs(metres) < 1000) { // beyond every limit
		return metres
	}
	return math.Round(metres*1e12) / 1e12
}

// ToNanokelvin is a temperature in kelvin to the nanokelvin, for the same: -40 C is 233.15 K.
func ToNanokelvin(kelvin float64) float64 {
	if !(math.Abs(kelvin) < 1e6) { // beyond every limit
		return kelvin
	}
	return math.Round(kelvin*1e9) / 1e9
}

// Bound reads a numeric bound as a rule states it, with its unit; the bound is 0 if it is no
// number. Bounds on quantities come in SI and are told in the unit the value was given in,
// rounded towards what is allowed: a least one up, a most one down.
func Bound(param, name string, value any, least bool) (bound float64, unit string) {
	bound, err := strconv.ParseFloat(param, 64)
	if err != nil {
		return 0, ""
	}
	switch q := value.(type) {
	case Length:
		return limitIn(quantity.Length(bound), q.Unit, least)
	case Temperature:
		return limitIn(quantity.Kelvin(bound), q.Unit, least)
	case Mass:
		return limitIn(quantity.Mass(bound), q.Unit, least)
	case Pressure:
		return limitIn(quantity.Pressure(bound), q.Unit, least)
	case Stiffness:
		return limitIn(quantity.Pressure(bound), q.Unit, least)
	}
	return bound, unitOfName(name)
}

// limitIn is a limit in a unit, rounded towards what is allowed.
func limitIn(limit interface {
	AtLeast(unit string) (float64, string)
	AtMost(unit string) (float64, string)
}, unit string, least bool) (float64, string) {
	if least {
		return limit.AtLeast(unit)
	}
	return limit.AtMost(unit)
}

// unitOfName reads the unit off a member's name: _pct, _points, _deg, _days.
func unitOfName(name string) string {
	switch {
	case strings.HasSuffix(name, "_pct"):
		return "%"
	case strings.HasSuffix(name, "_points"):
		return "points"
	case strings.HasSuffix(name, "_deg"):
		return UnitDegrees
	case strings.HasSuffix(name, "_days"):
		return "days"
	}
	return ""
}
