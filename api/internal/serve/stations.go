package serve

import (
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
)

// StationSummary is a station in a list.
type StationSummary struct {
	ID         string   `json:"id" required:"true" description:"by which requests name it"`
	Name       string   `json:"name" required:"true" description:"of the place"`
	Country    string   `json:"country_name" required:"true" description:"in English"`
	Code       string   `json:"country" required:"true" description:"ISO 3166-1, two letters"`
	EMCOnly    bool     `json:"emc_only" required:"true" description:"no temperature or humidity, only the equilibrium"`
	Latitude   *float64 `json:"latitude_deg,omitempty" resolution:"as given" description:"north"`
	Longitude  *float64 `json:"longitude_deg,omitempty" resolution:"as given" description:"east"`
	DistanceKM *float64 `json:"distance_km,omitempty" resolution:"0.1" description:"from the place given as near"`
	Matched    string   `json:"matched,omitempty" description:"the name that met the query"`
}

// StationDetail is twelve months of outdoor air at a place.
type StationDetail struct {
	StationSummary
	Elevation   *wire.Quantity `json:"elevation,omitempty" description:"above the sea"`
	Basis       string         `json:"note" required:"true" description:"what the months are a mean of"`
	Months      []StationMonth `json:"months" required:"true" nullable:"false" description:"January first"`
	Source      string         `json:"source" required:"true" description:"of temperature and humidity"`
	Checked     shelf.Mark     `json:"provenance" required:"true" description:"how far it was checked"`
	EMCSource   string         `json:"emc_source" required:"true" description:"of the equilibrium of the months"`
	EMCChecked  shelf.Mark     `json:"emc_provenance" required:"true" description:"how far it was checked"`
	DataVersion string         `json:"data_version" required:"true" description:"of the embedded tables"`
}

// StationMonth is the mean outdoor air of a month.
type StationMonth struct {
	Month          int            `json:"month" required:"true" description:"1 is January"`
	Temperature    *wire.Quantity `json:"temperature,omitempty" description:"mean over day and night"`
	RHPct          *float64       `json:"rh_pct,omitempty" resolution:"as given" description:"mean over day and night"`
	MorningRHPct   *float64       `json:"morning_rh_pct,omitempty" resolution:"as given" description:"where it is published apart"`
	AfternoonRHPct *float64       `json:"afternoon_rh_pct,omitempty" resolution:"as given" description:"where it is published apart"`
	EMCPct         *float64       `json:"emc_pct,omitempty" description:"equilibrium of wood in that air: mean over the hours of the month where they are known, else that of the mean air"`
	EMCMeansPct    *float64       `json:"emc_of_means_pct,omitempty" resolution:"0.01" description:"that of the mean air, where emc_pct is the mean over the hours"`
	HandbookEMCPct *float64       `json:"handbook_emc_pct,omitempty" resolution:"as given" description:"the handbook's own table, on earlier climate normals"`
}

// ListStations answers GET /v1/stations.
func ListStations(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		all, err := stations(d.tables.Species, c.QueryParam("q"), c.QueryParam("near"))
		if err != nil {
			return err
		}
		if country := c.QueryParam("country"); country != "" {
			codes, names := countries(d.tables.Species)
			if known := slices.Concat(codes, names); !slices.ContainsFunc(known, func(k string) bool { return strings.EqualFold(k, country) }) {
				return badParameter("country", "not_a_choice", "country is a code of ISO 3166-1, or one of "+strings.Join(names, ", "), method.OneOf(known...))
			}
			kept := all[:0]
			for _, st := range all {
				if strings.EqualFold(st.Country, country) || strings.EqualFold(st.Code, country) {
					kept = append(kept, st)
				}
			}
			all = kept
		}
		p, err := page(c, all, d.tables.Version)
		if err != nil {
			return err
		}
		return writeTable(c, p)
	}
}

// countries lists the codes and then the names of the countries of the tables, each once.
func countries(t *species.Tables) (codes, names []string) {
	for _, st := range t.Stations() {
		codes, names = append(codes, st.CountryCode), append(names, st.Country)
	}
	slices.Sort(codes)
	slices.Sort(names)
	return slices.Compact(codes), slices.Compact(names)
}

func stations(t *species.Tables, query, near string) ([]StationSummary, error) {
	var all []StationSummary
	switch {
	case query != "" && near != "":
		return nil, badParameter("near", "conflict", "give q or near, not both", nil)
	case near != "":
		latitude, longitude, ok := coordinates(near)
		found, err := t.NearestStations(latitude, longitude, mostFound)
		if !ok || err != nil {
			limit := method.SuchAs("43.1,-89.4")
			return nil, badParameter("near", "out_of_range", "near is degrees north and east, "+limit.String(), limit)
		}
		for _, n := range found {
			km := n.Distance.Metres() / 1000
			one := stationSummary(n.Station, "")
			one.DistanceKM = &km
			all = append(all, one)
		}
	case query != "":
		for _, m := range t.FindStations(query, mostFound) {
			all = append(all, stationSummary(m.Station, m.Name))
		}
	default:
		for _, st := range t.Stations() {
			all = append(all, stationSummary(st, ""))
		}
	}
	return all, nil
}

func coordinates(text string) (latitude, longitude float64, ok bool) {
	first, second, found := strings.Cut(text, ",")
	latitude, err1 := strconv.ParseFloat(strings.TrimSpace(first), 64)
	longitude, err2 := strconv.ParseFloat(strings.TrimSpace(second), 64)
	return latitude, longitude, found && err1 == nil && err2 == nil
}

func stationSummary(st *species.Station, matched string) StationSummary {
	summary := StationSummary{ID: st.ID, Name: st.Name, Country: st.Country, Code: st.CountryCode, EMCOnly: st.EMCOnly, Matched: matched}
	if st.Position != nil {
		summary.Latitude, summary.Longitude = &st.Position.Latitude, &st.Position.Longitude
	}
	return summary
}

// GetStation answers GET /v1/stations/{id}.
func GetStation(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		st, ok := d.tables.Species.Station(pathWord(c, "id"))
		if !ok {
			return unknownEntry("station", pathWord(c, "id"), d.tables.Species.SuggestStations(pathWord(c, "id"), 5), d.tables.NearestStations(pathWord(c, "id")))
		}
		system := c.QueryParam("report_in")
		if system != "" && system != wire.Metric && system != wire.InchLB {
			return badParameter("report_in", "not_a_choice", "report_in is metric or inch", method.OneOf(wire.Metric, wire.InchLB))
		}
		return writeTable(c, stationDetail(st, d.tables.Version, wire.ReportIn(system)))
	}
}

func stationDetail(st *species.Station, version string, report wire.Reporter) StationDetail {
	d := StationDetail{
		StationSummary: stationSummary(st, ""), Basis: st.Basis, Source: st.Source, Checked: shelf.MarkOf(st.TemperatureChecked),
		EMCSource: st.EMCSource, EMCChecked: shelf.MarkOf(st.EMCChecked), DataVersion: version,
	}
	if st.EMCOnly {
		d.Checked = shelf.MarkOf(st.EMCChecked)
	}
	if st.Position != nil {
		if height, known := st.Position.Elevation.Get(); known {
			v, _ := height.In(report.LongUnit)
			d.Elevation = &wire.Quantity{Value: v, Unit: report.LongUnit}
		}
	}
	for i := range st.Months {
		d.Months = append(d.Months, stationMonth(st, i, report))
	}
	return d
}

func stationMonth(st *species.Station, i int, report wire.Reporter) StationMonth {
	m := &st.Months[i]
	out := StationMonth{Month: i + 1, RHPct: percentOf(m.RelativeHumidity), MorningRHPct: percentOf(m.MorningRH), AfternoonRHPct: percentOf(m.AfternoonRH)}
	if t, known := m.Temperature.Get(); known {
		q := report.Temperature(t)
		out.Temperature = &q
	}
	if emc, known := m.EMC.Get(); known {
		pct := emc.Percent()
		out.EMCPct = &pct
	}
	if emc, known := m.EMCOfMeans.Get(); known {
		pct := emc.Percent()
		out.EMCMeansPct = &pct
	}
	if st.Handbook != nil {
		pct := st.Handbook.Months[i].Percent()
		out.HandbookEMCPct = &pct
	}
	return out
}

func percentOf(fraction species.Optional[float64]) *float64 {
	f, known := fraction.Get()
	if !known {
		return nil
	}
	pct := f * 100
	return &pct
}
