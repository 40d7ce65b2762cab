package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStationsAreComplete(t *testing.T) {
	stations := tables(t).Stations()
	require.NotEmpty(t, stations)
	emcOnly, handbook, dayCycle := 0, 0, 0
	for _, s := range stations {
		assert.NotEmpty(t, s.Source, s.ID)
		assert.NotEmpty(t, s.EMCSource, s.ID)
		assert.NotEmpty(t, s.EMCChecked, s.ID)
		assert.NotEmpty(t, s.Basis, s.ID)
		if s.Handbook != nil {
			handbook++
			for _, emc := range s.Handbook.Months {
				assert.True(t, emc.Percent() > 3 && emc.Percent() < 25, s.ID)
			}
		}
		_, complete := s.Year()
		assert.Equal(t, s.EMCOnly, !complete, s.ID)
		if s.EMCOnly {
			emcOnly++
		} else {
			assert.NotEmpty(t, s.TemperatureChecked, s.ID)
			assert.NotEmpty(t, s.HumidityChecked, s.ID)
		}
		for i := range s.Months {
			checkMonth(t, s, &s.Months[i])
		}
		if s.DayCycleChecked == Read {
			dayCycle++
		}
	}
	assert.Equal(t, 1, emcOnly)
	assert.Equal(t, 49, handbook)
	assert.Equal(t, 261, dayCycle, "all stations of the NOAA table")
}

func checkMonth(t *testing.T, s *Station, m *MonthlyAir) {
	t.Helper()
	emc, known := m.EMC.Get()
	require.True(t, known, s.ID)
	assert.True(t, emc.Percent() > 3 && emc.Percent() < 27, s.ID)
	if means, known := m.EMCOfMeans.Get(); known {
		assert.Equal(t, Computed, s.EMCChecked, s.ID)
		assert.InDelta(t, means.Percent()+1, emc.Percent(), 3.5, "%s: the mean of the hours is near that of the means, mostly above", s.ID)
	}
	assert.Equal(t, s.DayCycleChecked != "", m.MorningRH.Known(), s.ID)
	assert.Equal(t, s.DayCycleChecked != "", m.AfternoonRH.Known(), s.ID)
	if s.EMCOnly {
		assert.False(t, m.Temperature.Known() || m.RelativeHumidity.Known(), s.ID)
		return
	}
	temperature, _ := m.Temperature.Get()
	assert.True(t, temperature.Celsius() > -40 && temperature.Celsius() < 45, s.ID)
	rh, known := m.RelativeHumidity.Get()
	assert.True(t, known && rh > 0.1 && rh < 0.99, s.ID)
	if morning, known := m.MorningRH.Get(); known && s.DayCycleChecked == Read {
		afternoon, _ := m.AfternoonRH.Get()
		assert.InDelta(t, (morning+afternoon)/2, rh, 1e-9, "%s: the mean of the two readings", s.ID)
	}
}

// Anchorage in January as printed: -8.3 C, 75 % in the morning, 74 % in the afternoon.
func TestPrintedStation(t *testing.T) {
	s, ok := tables(t).Station("anchorage-ak")
	require.True(t, ok)
	assert.Equal(t, []string{"Anchorage, AK", "AK", "Alaska", "United States"}, []string{s.Name, s.Region, s.RegionName, s.Country})
	assert.Contains(t, s.Basis, "WBAN 26451")
	assert.Equal(t, []Checked{Read, Computed, Read, Computed}, []Checked{s.TemperatureChecked, s.HumidityChecked, s.DayCycleChecked, s.EMCChecked})
	year, complete := s.Year()
	require.True(t, complete)
	assert.InDelta(t, -8.3, year[0].Temperature.Celsius(), 1e-9)
	assert.InDelta(t, 0.745, year[0].RelativeHumidity, 1e-9)
	assert.InDelta(t, 14.7, year[0].EMC.Percent(), 1e-9)
	morning, _ := s.Months[0].MorningRH.Get()
	assert.InDelta(t, 0.75, morning, 1e-9)

	charleston, ok := tables(t).Station("charleston-sc")
	require.True(t, ok)
	assert.True(t, charleston.EMCOnly)
	assert.Equal(t, Memory, charleston.EMCChecked)
	seoul, ok := tables(t).Station("seoul")
	require.True(t, ok)
	assert.Equal(t, Memory, seoul.TemperatureChecked)
	denver, ok := tables(t).Station("denver-co")
	require.True(t, ok)
	assert.Contains(t, denver.Handbook.Note, "another site")
}

// Regions lie where their stations are said to stand: a wrong sign or two
// figures swapped would put a station out of its box.
func TestPositionsLieInTheirCountries(t *testing.T) {
	box := map[string][4]float64{ // south, north, west, east
		"AK": {54, 72, -173, -129}, "HI": {18.5, 22.5, -161, -154}, "PR": {17.5, 19, -68, -65},
		"": {24, 49.5, -125, -66.5},
	}
	for _, s := range tables(t).Stations() {
		require.NotNil(t, s.Position, s.ID)
		assert.Contains(t, []Checked{Memory, ReadTranscript}, s.Position.Checked, s.ID)
		elevation, known := s.Position.Elevation.Get()
		assert.True(t, known && elevation >= 0 && elevation < 2600, s.ID)
		if s.Country != "United States" {
			continue
		}
		b, ok := box[s.Region]
		if !ok {
			b = box[""]
		}
		p := s.Position
		assert.True(t, p.Latitude > b[0] && p.Latitude < b[1] && p.Longitude > b[2] && p.Longitude < b[3], "%s %+v", s.ID, p)
	}
	// Neighbours in a region lie together: no station of a state of the lower 48
	// is more than 7 degrees of latitude or 13 of longitude from another.
	byRegion := map[string][]*Position{}
	for _, s := range tables(t).Stations() {
		if s.Region != "" && s.Region != "AK" {
			byRegion[s.Region] = append(byRegion[s.Region], s.Position)
		}
	}
	for region, all := range byRegion {
		for _, p := range all {
			assert.InDelta(t, all[0].Latitude, p.Latitude, 10, region)
			assert.InDelta(t, all[0].Longitude, p.Longitude, 11.5, region)
		}
	}
}
