package quantity

// Pressure is a pressure in pascals.
type Pressure float64

// Units of pressure.
const (
	Pascal             Pressure = 1
	Hectopascal                 = 100 * Pascal
	Kilopascal                  = 1000 * Pascal
	Megapascal                  = 1e6 * Pascal
	InchOfMercury               = 3386.389 * Pascal       // conventional, at 0 degC; from memory (NIST SP 811, app. B)
	PoundPerSquareInch          = 6894.757293168 * Pascal // from the exact pound, inch and standard gravity
)

// Pascals returns p in pascals.
func (p Pressure) Pascals() float64 { return float64(p) }
