package quantity

import "math"

// Length is a length in metres.
type Length float64

// Units of length.
const (
	Metre      Length = 1
	Centimetre        = Metre / 100
	Millimetre        = Metre / 1000
	Micrometre        = Metre / 1e6
	Inch              = 25.4 * Millimetre // exact, 1959
	Foot              = 12 * Inch
)

// Metres returns l in metres.
func (l Length) Metres() float64 { return float64(l) }

// Millimetres returns l in millimetres.
func (l Length) Millimetres() float64 { return float64(l) * 1e3 }

// Inches returns l in inches.
func (l Length) Inches() float64 { return float64(l) / 0.0254 }

// Micrometres returns l rounded to the nearest whole micrometre, halves away
// from zero. Exact for |l| below 9000 km; beyond that it saturates.
func (l Length) Micrometres() int64 {
	um := math.Round(float64(l) * 1e6)
	if um >= math.MaxInt64 {
		return math.MaxInt64
	}
	if um <= math.MinInt64 {
		return math.MinInt64
	}
	return int64(um)
}

// FromMicrometres returns the length of um whole micrometres.
func FromMicrometres(um int64) Length { return Length(float64(um) / 1e6) }
