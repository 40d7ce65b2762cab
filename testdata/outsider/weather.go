package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
)

// air is what surrounds a board for a quarter of a day.
type air struct {
	temp, rh float64 // C; share, 0 to 1
	wind     float64 // over that of an ordinary day
}

const stepsPerDay = 4

// place is the normal year of a station: means and the humidity of morning and
// afternoon, as published. A station without the two takes 8 % to either side.
type place struct {
	temp, morning, afternoon [12]float64
}

// readPlaces reads the published months of the stations; no law stands in that file.
func readPlaces(path string) (map[string]place, error) {
	file, err := os.Open(path) //nolint:gosec // a file of the tables, named on the command line
	if err != nil {
		return nil, err
	}
	defer file.Close() //nolint:errcheck // only read
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, err
	}
	places := map[string]place{}
	for _, row := range rows[1:] {
		month, err := strconv.Atoi(row[1])
		if err != nil || month < 1 || month > 12 {
			return nil, fmt.Errorf("%s: month %q", row[0], row[1])
		}
		temp, mean := number(row[2]), number(row[3])
		if math.IsNaN(temp) || math.IsNaN(mean) {
			continue // a station of which only the equilibrium is published
		}
		p := places[row[0]]
		p.temp[month-1] = temp
		p.morning[month-1], p.afternoon[month-1] = number(row[4]), number(row[5])
		if math.IsNaN(p.morning[month-1]) || math.IsNaN(p.afternoon[month-1]) {
			p.morning[month-1], p.afternoon[month-1] = mean+8, mean-8
		}
		places[row[0]] = p
	}
	return places, nil
}

func number(text string) float64 {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return value
}

// between is the value of a day of the year, on the line between two mid-months.
func between(months [12]float64, day int) float64 {
	at := float64(day%365)/365*12 - 0.5
	low := int(math.Floor(at))
	share := at - float64(low)
	return months[(low+12)%12]*(1-share) + months[(low+13)%12]*share
}

// offset is by how much the air at the wood is not that of the station or the room.
type offset struct{ temp, rh float64 }

// outdoors is the air of so many days from a day of the year on. With no source of
// chance it is that of the normal year; else months and days stray: 1.3 C and 3 % RH
// by month, 3.5 C and 9 % by day with a memory of 0.7 from one day to the next (own
// judgement of what daily records show).
func (p place) outdoors(from, days int, off offset, r *rand.Rand) []air {
	out := make([]air, 0, days*stepsPerDay)
	var month, monthRH, day, dayRH float64
	for d := range days {
		at := (from + d) % 365
		wind := 1.0
		if r != nil {
			if d%30 == 0 {
				month, monthRH = 1.3*r.NormFloat64(), 3*r.NormFloat64()
			}
			stray := math.Sqrt(1 - 0.7*0.7)
			day = 0.7*day + stray*3.5*r.NormFloat64()
			dayRH = 0.7*dayRH + stray*9*r.NormFloat64()
			wind = math.Exp(0.5*r.NormFloat64() - 0.125)
		}
		temp := between(p.temp, at) + off.temp + month + day
		am, pm := between(p.morning, at), between(p.afternoon, at)
		for k := range stepsPerDay {
			hour := math.Cos(2 * math.Pi * (float64(k)*6 - 15) / 24) // warmest at 15 h
			rh := (am+pm)/2 - (am-pm)/2*hour + off.rh + monthRH + dayRH
			out = append(out, air{temp + 5*hour, clamp(rh/100, 0.12, 0.985), wind})
		}
	}
	return out
}

// indoors is a room that is meant to stand at an air: it is off all the time, swings
// with the seasons by 3 % RH (driest in February) and from day to day.
func indoors(temp, rh float64, from, days int, off offset, r *rand.Rand) []air {
	out := make([]air, 0, days*stepsPerDay)
	day := 0.0
	for d := range days {
		swing := 0.0
		if r != nil {
			day = 0.8*day + 0.6*2.5*r.NormFloat64()
			swing = -3 * math.Cos(2*math.Pi*float64((from+d)%365-45)/365)
		}
		for range stepsPerDay {
			out = append(out, air{temp + off.temp, clamp((rh+off.rh+swing+day)/100, 0.1, 0.95), 1})
		}
	}
	return out
}

// saturation is the vapour pressure over water in Pa: Magnus, WMO-No. 8 (2018),
// annex 4.B; over water below 0 C too, as humidity is reported.
func saturation(temp float64) float64 { return 611.2 * math.Exp(17.62*temp/(243.12+temp)) }

// saturationSlope is how it rises, in Pa/K.
func saturationSlope(temp float64) float64 {
	return saturation(temp) * 17.62 * 243.12 / ((243.12 + temp) * (243.12 + temp))
}

// wetBulb is in C: Stull R. 2011, Wet-bulb temperature from relative humidity and air
// temperature, J. Appl. Meteorol. Climatol. 50, 2267, eq. 1 (from memory).
func wetBulb(temp, rh float64) float64 {
	h := 100 * clamp(rh, 0.05, 0.99)
	return math.Min(temp, temp*math.Atan(0.151977*math.Sqrt(h+8.313659))+math.Atan(temp+h)-
		math.Atan(h-1.676331)+0.00391838*math.Pow(h, 1.5)*math.Atan(0.023101*h)-4.686035)
}

func clamp(x, low, high float64) float64 { return math.Max(low, math.Min(high, x)) }
