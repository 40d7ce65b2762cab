package species

import (
	"slices"
	"strings"

	"latewood/woodphys/quantity"
)

func (l *loader) loadStations() {
	t := l.tables
	l.each("stations", func(r record) {
		s := &Station{
			ID: r.need("id"), Name: r.need("name"), Region: r.text("region"), RegionName: r.text("region_name"),
			Country: r.need("country"), CountryCode: r.need("country_code"), Basis: r.need("basis"), Source: r.needSource("source"),
			TemperatureChecked: r.mark("temperature_checked"), HumidityChecked: r.mark("rh_checked"),
			DayCycleChecked: r.mark("day_cycle_checked"),
			EMCSource:       r.needSource("emc_source"), EMCChecked: r.needMark("emc_checked"),
		}
		if other := r.text("other_names"); other != "" {
			s.OtherNames = strings.Split(other, ";")
		}
		s.EMCOnly = s.TemperatureChecked == ""
		if len(s.CountryCode) != 2 || strings.ToUpper(s.CountryCode) != s.CountryCode {
			r.fail("%q is no code of a country", s.CountryCode)
		}
		if _, twice := t.stationByID[s.ID]; twice {
			r.fail("station %s stands twice", s.ID)
		}
		t.stationByID[s.ID] = s
		t.stations = append(t.stations, s)
	})
	slices.SortFunc(t.stations, func(a, b *Station) int { return strings.Compare(a.ID, b.ID) })
	l.loadMonths()
	l.loadHandbookEMC()
	l.loadPositions()
}

func (r record) station() *Station {
	s, ok := r.l.tables.stationByID[r.text("station")]
	if !ok {
		r.fail("unknown station %q", r.text("station"))
		return &Station{}
	}
	return s
}

func (l *loader) loadMonths() {
	l.each("climate_monthly", func(r record) {
		s, month := r.station(), r.needNumber("month")
		i := int(month) - 1
		if float64(i+1) != month || i < 0 || i > 11 || s.Months[i].Temperature.Known() {
			r.fail("month %g is no month or stands twice", month)
			return
		}
		s.Months[i] = MonthlyAir{
			Temperature:      Known(quantity.Celsius(r.needNumber("temp_c"))),
			RelativeHumidity: r.fraction("rh_pct"),
			MorningRH:        r.fraction("rh_am_pct"),
			AfternoonRH:      r.fraction("rh_pm_pct"),
			EMC:              Known(quantity.Moisture(r.needNumber("emc_pct")) * quantity.PercentMC),
		}
		if means, known := r.number("emc_of_means_pct").Get(); known {
			s.Months[i].EMCOfMeans = Known(quantity.Moisture(means) * quantity.PercentMC)
		}
	})
}

// fraction returns a relative humidity in percent as a fraction.
func (r record) fraction(column string) Optional[float64] {
	pct, known := r.number(column).Get()
	if !known {
		return Optional[float64]{}
	}
	if pct < 0 || pct > 100 {
		r.fail("%s: %g %% is no relative humidity", column, pct)
	}
	return Known(pct / 100)
}

// loadHandbookEMC puts the handbook's EMC beside a station, or into its months
// when the station has nothing else.
func (l *loader) loadHandbookEMC() {
	names := [12]string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}
	l.each("handbook_emc", func(r record) {
		h := &HandbookEMC{Name: r.need("printed_name"), Source: r.needSource("source"), Checked: r.needMark("checked"), Note: r.text("note")}
		s := r.station()
		for i, name := range names {
			h.Months[i] = quantity.Moisture(r.needNumber(name)) * quantity.PercentMC
			if s.EMCOnly {
				s.Months[i].EMC = Known(h.Months[i])
			}
		}
		if s.Handbook != nil {
			r.fail("%s has a handbook row already", s.ID)
		}
		s.Handbook = h
	})
}

func (l *loader) loadPositions() {
	l.each("station_coordinates", func(r record) {
		latitude, known := r.number("latitude_deg").Get()
		if !known {
			return
		}
		p := &Position{Latitude: latitude, Longitude: r.needNumber("longitude_deg"), Source: r.needSource("source"), Checked: r.needMark("checked")}
		if err := checkCoordinates(p.Latitude, p.Longitude); err != nil {
			r.fail("%v", err)
		}
		if metres, ok := r.number("elevation_m").Get(); ok {
			p.Elevation = Known(quantity.Length(metres) * quantity.Metre)
		}
		r.station().Position = p
	})
}
