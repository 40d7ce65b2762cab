package quantity

// Temperature is a thermodynamic temperature. Its inside is hidden so that an
// offset scale (degC, degF) can never be scaled or added by mistake.
type Temperature struct{ kelvin float64 }

// TemperatureDifference is a difference of two temperatures, in kelvin.
type TemperatureDifference float64

const zeroCelsius = 273.15 // K, exact

// Kelvin returns the temperature of k kelvin.
func Kelvin(k float64) Temperature { return Temperature{k} }

// Celsius returns the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature{c + zeroCelsius} }

// Kelvin returns t in kelvin.
func (t Temperature) Kelvin() float64 { return t.kelvin }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return t.kelvin - zeroCelsius }

// Add returns the temperature d above t.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return Temperature{t.kelvin + float64(d)}
}

// Less reports whether t is colder than u.
func (t Temperature) Less(u Temperature) bool { return t.kelvin < u.kelvin }
