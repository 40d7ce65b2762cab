package drying

import (
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// daysOfMonth of a year without a leap day.
func daysOfMonth() [12]float64 {
	return [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
}

// yearDays is the length of the year of a station in days; leap days are left out.
const yearDays = 365

// Normals are the monthly means of a place, January first. A place of which only
// the EMC is published has no temperature: leave HasTemperature false.
type Normals struct {
	HasTemperature bool
	Temperature    [12]quantity.Temperature // -40 to 80 degC
	RH             [12]float64              // fraction 0 to 1, over liquid water below 0 degC too
	// EMC is the mean over the hours of the month, 0.01 to 0.28, where it is known; 0
	// where not. It lies above that of the mean air, because EMC rises ever faster with
	// humidity.
	EMC [12]quantity.Moisture
}

// Station returns the air of a place from its monthly means, smooth from day to
// day, with the mean of each month kept exactly; every year alike. startDay is
// the day of the year at the start of the run, 0 for the start of 1 January up to 366.
//
// Errors: *method.Error with input "station" and code Unsupported when the place
// has no temperatures (a diffusion needs them, the EMC alone does not do);
// "months/<n>/temperature", "months/<n>/rh_pct", "day_of_year".
// Accuracy: the means are kept; the day cycle and the weather are not in it. The
// mean EMC lies about 0.4 %MC above the EMC of the mean humidity; where it is given, the
// humidity is that in which wood settles there.
//
// Source: piecewise quadratic with continuous slope through given means (the
// derivative of the periodic cubic spline of the running sum), derived here.
func Station(n Normals, startDay float64) (*Climate, error) {
	cl := &Climate{smooth: true, period: yearDays * day, end: math.Inf(1), maxStep: slowStep}
	if err := cl.notes.Use(&rowClimate, "day_of_year", startDay); err != nil {
		return nil, err
	}
	if !n.HasTemperature {
		return nil, &method.Error{Code: method.Unsupported, Input: "station",
			Detail: "only the equilibrium moisture content of this place is published; a drying forecast needs its temperatures as well"}
	}
	cl.phase = startDay * day
	var temps [12]float64
	for m := range 12 {
		if err := checkAir(n.Temperature[m], n.RH[m]); err != nil {
			return nil, method.Below(err, monthPlace(m))
		}
		temps[m] = n.Temperature[m].Celsius()
	}
	start := 0.0
	for _, days := range daysOfMonth() {
		cl.knots = append(cl.knots, start*day)
		start += days
	}
	cl.c, cl.slope = keepMeans(temps)
	humidity := n.RH
	for m := range 12 {
		if n.EMC[m] != 0 {
			humidity[m] = humidityOf(n.Temperature[m], n.EMC[m], n.RH[m])
		}
	}
	cl.rh, cl.rise = keepMeans(humidity)
	return cl, nil
}

// humidityOf is the humidity in which wood settles at emc as the printed curve has it; rh
// where none does.
func humidityOf(t quantity.Temperature, emc quantity.Moisture, rh float64) float64 {
	h, err := sorption.HumidityFor(t, emc, sorption.Middle, sorption.Curves{})
	if err != nil {
		return rh
	}
	return h.RH.Value
}

func monthPlace(m int) string { return "months/" + strconv.Itoa(m) }

// keepMeans returns the values and slopes (per second) at the start of each
// month of the piecewise quadratic with these means.
func keepMeans(mean [12]float64) (value, slope []float64) {
	days := daysOfMonth()
	value, slope = make([]float64, 12), make([]float64, 12)
	copy(value, mean[:])
	// Continuity of the slope at the start of month j:
	//	q[j-1]/d[j-1] + 2 q[j] (1/d[j-1] + 1/d[j]) + q[j+1]/d[j] = 3 (v[j-1]/d[j-1] + v[j]/d[j])
	// Diagonally dominant: each sweep shrinks the error by at least 2.
	for range 80 {
		for j := range 12 {
			i, k := (j+11)%12, (j+1)%12
			value[j] = (3*(mean[i]/days[i]+mean[j]/days[j]) - value[i]/days[i] - value[k]/days[j]) / (2 * (1/days[i] + 1/days[j]))
		}
	}
	for j := range 12 {
		k := (j + 1) % 12
		slope[j] = (6*mean[j] - 4*value[j] - 2*value[k]) / (days[j] * day)
	}
	return value, slope
}
