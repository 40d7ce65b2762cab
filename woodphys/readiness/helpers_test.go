package readiness

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Stations of the tests: monthly normals of daily mean temperature (degC) and
// of relative humidity (%), rounded. Near those of Madison and Portland in: NOAA
// Comparative Climatic Data, 2018 edition; the third place is dry, invented.
func normals(name string) drying.Normals {
	tables := map[string][2][12]float64{
		"madison":  {{-7.2, -4.8, 1.3, 8.2, 14.4, 19.8, 22.2, 21, 16.4, 9.7, 2.8, -4.7}, {75, 74, 72, 68, 68, 69, 71, 75, 76, 74, 77, 79}},
		"portland": {{5.3, 6.4, 9, 11.4, 14.7, 17.6, 20.9, 21.1, 18.2, 12.9, 8.1, 4.7}, {81, 78, 74, 71, 68, 66, 62, 63, 67, 76, 81, 83}},
		"dry":      {{1, 3, 7, 11, 16, 21, 25, 24, 19, 12, 6, 1}, {58, 52, 44, 38, 36, 33, 40, 45, 43, 44, 50, 57}},
	}
	t, ok := tables[name]
	if !ok {
		panic("no station " + name)
	}
	n := drying.Normals{HasTemperature: true}
	for m := range 12 {
		n.Temperature[m], n.RH[m] = quantity.Celsius(t[0][m]), t[1][m]/100
	}
	return n
}

// season returns a stay outdoors and one in a heated shop.
func season(t testing.TB, station string, startDay float64, outdoors, indoors quantity.Duration) []drying.Phase {
	t.Helper()
	out, err := drying.Station(normals(station), startDay)
	require.NoError(t, err)
	shop, err := drying.Constant(quantity.Celsius(20), 0.45)
	require.NoError(t, err)
	phases := []drying.Phase{{Length: outdoors, Climate: out, Exposure: drying.Shed()}}
	if indoors > 0 {
		phases = append(phases, drying.Phase{Length: indoors, Climate: shop, Exposure: drying.ClosedRoom()})
	}
	return phases
}

// billet is a piece of hard maple of 52 mm, two years in a shed and one in a shop.
func billet(t testing.TB) Setup {
	t.Helper()
	return Setup{
		Wood: wood.Wood{SpecificGravity: wood.Published(0.56)}, Factor: 0.5, Thickness: 52 * quantity.Millimetre,
		Phases:  season(t, "madison", 100, 730*quantity.Day, 365*quantity.Day),
		StartMC: 0.68, StartSD: 0.08,
	}
}

// room is the target of a shop at 20 C and 45 %.
func room() Target {
	return Target{Mean: 0.084, SD: 0.003, WoodShare: DefaultWoodShare}
}

// logDiagonal is the sum of the logarithms of the diagonal of a factor.
func logDiagonal(l []float64, n int) float64 {
	sum := 0.0
	for i := range n {
		sum += math.Log(l[i*n+i])
	}
	return sum
}

// spread is the mean and the standard deviation of a sample.
func spread(s []sample) (mean, sd float64) {
	total := 0.0
	for i := range s {
		mean += s[i].weight * s[i].value
		total += s[i].weight
	}
	mean /= total
	square := 0.0
	for i := range s {
		d := s[i].value - mean
		square += s[i].weight * d * d
	}
	return mean, math.Sqrt(square / total)
}

// regular is n times, 2 or more, from 0 to the horizon.
func regular(p *Posterior, n int) []quantity.Duration {
	times := make([]quantity.Duration, n)
	for i := range times {
		times[i] = min(p.Horizon()*quantity.Duration(i)/quantity.Duration(n-1), p.Horizon())
	}
	return times
}
