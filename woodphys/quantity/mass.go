package quantity

// Mass is a mass in kilograms.
type Mass float64

// Units of mass.
const (
	Kilogram Mass = 1
	Gram          = Kilogram / 1000
	Pound         = 0.45359237 * Kilogram // exact, 1959
	Ounce         = Pound / 16
)

// Kilograms returns m in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

// Grams returns m in grams.
func (m Mass) Grams() float64 { return float64(m) * 1e3 }
