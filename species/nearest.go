package species

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// earthRadius is the mean radius of the Earth, (2a+b)/3 of the WGS 84
// ellipsoid (IUGG, from memory).
const earthRadius = 6371008.8 * quantity.Metre

// CoordinateError says that a latitude or longitude is no place on Earth.
type CoordinateError struct {
	Input string // "latitude" or "longitude"
	Value float64
	Limit float64 // degrees, either side of zero
}

func (e *CoordinateError) Error() string {
	return fmt.Sprintf("%s must be -%g to %g degrees; got %g", e.Input, e.Limit, e.Limit, e.Value)
}

// NearbyStation is a station with its distance from the place asked for.
type NearbyStation struct {
	Station  *Station
	Distance quantity.Length
}

// NearestStations returns the n stations nearest to a place, the nearest first.
// latitude in degrees north (-90 to 90), longitude in degrees east (-180 to
// 180), both finite, otherwise the error is a *CoordinateError; n of zero or
// less gives none. Distances are great circles on a sphere, right to 0.6 %; the
// positions of the stations are good to about 0.2 degree (20 km). Stations
// without a position are left out. Climate changes faster with height than with
// distance: compare the elevations.
//
// Source: haversine formula; earthRadius.
func (t *Tables) NearestStations(latitude, longitude float64, n int) ([]NearbyStation, error) {
	if err := checkCoordinates(latitude, longitude); err != nil {
		return nil, err
	}
	all := make([]NearbyStation, 0, len(t.stations))
	for _, s := range t.stations {
		if p := s.Position; p != nil {
			all = append(all, NearbyStation{s, greatCircle(latitude, longitude, p.Latitude, p.Longitude)})
		}
	}
	slices.SortStableFunc(all, func(a, b NearbyStation) int { return cmp.Compare(a.Distance, b.Distance) })
	return all[:max(0, min(n, len(all)))], nil
}

func checkCoordinates(latitude, longitude float64) error {
	if !(math.Abs(latitude) <= 90) { // refuses NaN as well
		return &CoordinateError{"latitude", latitude, 90}
	}
	if !(math.Abs(longitude) <= 180) {
		return &CoordinateError{"longitude", longitude, 180}
	}
	return nil
}

// greatCircle returns the distance between two places given in degrees:
// d = 2 r asin sqrt( sin^2(dlat/2) + cos lat1 cos lat2 sin^2(dlon/2) ).
func greatCircle(lat1, lon1, lat2, lon2 float64) quantity.Length {
	const degree = math.Pi / 180
	sinLat := math.Sin((lat2 - lat1) * degree / 2)
	sinLon := math.Sin((lon2 - lon1) * degree / 2)
	h := sinLat*sinLat + math.Cos(lat1*degree)*math.Cos(lat2*degree)*sinLon*sinLon
	return 2 * earthRadius * quantity.Length(math.Asin(math.Sqrt(math.Min(1, h))))
}
