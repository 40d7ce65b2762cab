package quantity

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
