package species

import "latewood/woodphys/quantity"

// MonthlyAir is the mean outdoor air of one month. Relative humidities are
// fractions, 0 to 1.
type MonthlyAir struct {
	Temperature      Optional[quantity.Temperature] // mean over day and night
	RelativeHumidity Optional[float64]              // mean over day and night
	MorningRH        Optional[float64]              // mean of the morning readings
	AfternoonRH      Optional[float64]              // mean of the afternoon readings
	// EMC is the equilibrium moisture content of wood in that air: the mean over the hours
	// of the month where they are known, which is up to some 2 points above that of the mean
	// air, because EMC rises ever faster with humidity; else that of the mean air.
	EMC Optional[quantity.Moisture]
	// EMCOfMeans is that of the mean air, where EMC is the mean over the hours.
	EMCOfMeans Optional[quantity.Moisture]
}

// HandbookEMC is the row of the handbook's table of monthly outdoor EMC for the
// same city, kept beside the station for comparison; it rests on earlier
// climate normals.
type HandbookEMC struct {
	Name    string // as printed
	Months  [12]quantity.Moisture
	Source  string
	Checked Checked
	Note    string
}

// Position is where a station stands: degrees north and east. One that is marked memory
// is good to about 0.2 degree, its elevation to about 50 m.
type Position struct {
	Latitude, Longitude float64 // degrees
	Elevation           Optional[quantity.Length]
	Source              string
	Checked             Checked
}

// Station is a place with twelve months of outdoor air, January first. It is
// shared and must not be changed.
type Station struct {
	ID         string // stable, such as "madison-wi"
	Name       string
	Region     string // two-letter code of a state, or empty
	RegionName string
	Country    string
	// CountryCode is that of the country or territory in ISO 3166-1, two letters.
	CountryCode string
	OtherNames  []string
	Basis       string // "30-year normal 1981-2010, ...", "typical year", "EMC only"

	Months  [12]MonthlyAir
	EMCOnly bool // there is no temperature and no humidity, only EMC

	Source             string  // of temperature and humidity, or of the EMC when there is nothing else
	TemperatureChecked Checked // empty when EMCOnly
	HumidityChecked    Checked // of the mean; empty when EMCOnly
	DayCycleChecked    Checked // of morning and afternoon; empty when there are none
	EMCSource          string
	EMCChecked         Checked

	Handbook *HandbookEMC // nil when the handbook has no row for the city
	Position *Position    // nil when not known
}

// Air is the mean air of one month at a station that has all of it.
type Air struct {
	Temperature      quantity.Temperature
	RelativeHumidity float64 // fraction, 0 to 1
	EMC              quantity.Moisture
}

// Year returns the mean air of the twelve months, January first, and whether
// the station has temperature, humidity and EMC for all of them.
func (s *Station) Year() (year [12]Air, complete bool) {
	for i := range s.Months {
		temperature, haveT := s.Months[i].Temperature.Get()
		rh, haveRH := s.Months[i].RelativeHumidity.Get()
		emc, haveEMC := s.Months[i].EMC.Get()
		if !haveT || !haveRH || !haveEMC {
			return [12]Air{}, false
		}
		year[i] = Air{temperature, rh, emc}
	}
	return year, true
}
