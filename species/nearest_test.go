package species

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
)

// On a sphere a quarter of a great circle is pi/2 radii and a degree of the
// equator pi/180; the other two are the textbook check of the haversine
// formula (36.12 N 86.67 W to 33.94 N 118.40 W: 2886.4 km with a radius of
// 6371 km; ours is 8.8 m longer, so 0.02 km are allowed).
func TestGreatCircle(t *testing.T) {
	r := float64(earthRadius)
	assert.InDelta(t, math.Pi/2*r, float64(greatCircle(0, 0, 90, 0)), 1e-3)
	assert.InDelta(t, math.Pi*r, float64(greatCircle(0, -90, 0, 90)), 1e-3)
	assert.InDelta(t, math.Pi/180*r, float64(greatCircle(0, 179.5, 0, -179.5)), 1e-3, "across the date line")
	assert.InDelta(t, 2886.45, float64(greatCircle(36.12, -86.67, 33.94, -118.40))/1000, 0.02)
	assert.Zero(t, float64(greatCircle(45, 45, 45, 45)))
}

func TestNearestStations(t *testing.T) {
	all := tables(t)
	near, err := all.NearestStations(43.07, -89.40, 3) // Madison, Wisconsin
	require.NoError(t, err)
	require.Len(t, near, 3)
	assert.Equal(t, "madison-wi", near[0].Station.ID)
	assert.Less(t, float64(near[0].Distance), 25e3)
	near, err = all.NearestStations(55.7, 12.6, 1)
	require.NoError(t, err)
	assert.Equal(t, "copenhagen", near[0].Station.ID)
	near, err = all.NearestStations(0, 179.9, 1)
	require.NoError(t, err)
	assert.Equal(t, "majuro-marshall-islands", near[0].Station.ID)
	for _, n := range []int{0, -1} {
		near, err = all.NearestStations(0, 0, n)
		require.NoError(t, err)
		assert.Empty(t, near)
	}
	near, err = all.NearestStations(90, 180, math.MaxInt)
	require.NoError(t, err)
	assert.Len(t, near, len(all.Stations()))
}

func TestNearestRefusesNoPlace(t *testing.T) {
	for _, c := range []struct {
		latitude, longitude float64
		input               string
	}{
		{91, 0, "latitude"}, {math.NaN(), 0, "latitude"}, {math.Inf(-1), 0, "latitude"},
		{0, -181, "longitude"}, {0, math.NaN(), "longitude"}, {0, math.Inf(1), "longitude"},
	} {
		_, err := tables(t).NearestStations(c.latitude, c.longitude, 1)
		var wrong *CoordinateError
		require.ErrorAs(t, err, &wrong)
		assert.Equal(t, c.input, wrong.Input)
		assert.Contains(t, wrong.Error(), c.input)
	}
}

func TestNearestIsSortedAndSymmetric(t *testing.T) {
	all := tables(t)
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-90, 90).Draw(t, "latitude")
		lon := rapid.Float64Range(-180, 180).Draw(t, "longitude")
		near, err := all.NearestStations(lat, lon, 300)
		require.NoError(t, err)
		last := quantity.Length(0)
		for _, n := range near {
			if n.Distance < last || !(n.Distance <= math.Pi*earthRadius+1) {
				t.Fatalf("%s at %v after %v", n.Station.ID, n.Distance, last)
			}
			last = n.Distance
		}
		p := near[0].Station.Position
		if d := greatCircle(p.Latitude, p.Longitude, lat, lon) - near[0].Distance; math.Abs(float64(d)) > 0.1 {
			t.Fatalf("not symmetric by %v m", d)
		}
	})
}
