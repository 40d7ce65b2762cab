package drying

import (
	"math"

	"latewood/woodphys/quantity"
)

// Averaged returns a record of air with at most most rows (at least 4) that
// covers the same time: means over equal spans, each at the middle of its span,
// between the first and the last row, which stay. Temperature and relative humidity
// are averaged as they are, like the normals of a station: the mean vapour
// pressure would dry the wood too far and the mean equilibrium too little, because
// the warm hours of a day are its dry ones. A record that is short enough comes
// back as it is.
//
// rows must rise in time, as for Logged. Every row stands for the time half-way
// to its neighbours.
//
// Errors: none; Logged checks the rows.
// Accuracy: the mean of a 40 mm board stays within 0.4 %MC of a run on the hours
// of a year with a strong day cycle; wood thinner than a few millimetres follows
// what is averaged away.
//
// Source: arithmetic means; the effect on drying was measured with this solver.
func Averaged(rows []Reading, most int) []Reading {
	if most < 4 || len(rows) <= most {
		return rows
	}
	first, last := rows[0].Time, rows[len(rows)-1].Time
	spans := most - 2
	width := float64(last-first) / float64(spans)
	if !(width > 0) || math.IsInf(width, 0) {
		return rows
	}
	type sum struct{ weight, celsius, rh float64 }
	sums := make([]sum, spans)
	for i, r := range rows {
		before, after := rows[max(i-1, 0)].Time, rows[min(i+1, len(rows)-1)].Time
		weight := float64(after-before) / 2
		at := min(max(int(float64(r.Time-first)/width), 0), spans-1)
		sums[at].weight += weight
		sums[at].celsius += weight * r.Temperature.Celsius()
		sums[at].rh += weight * r.RH
	}
	averaged := make([]Reading, 0, most)
	averaged = append(averaged, rows[0])
	for i, s := range sums {
		if !(s.weight > 0) { // a gap in the record: straight lines across it
			continue
		}
		averaged = append(averaged, Reading{Time: first + quantity.Duration(width*(float64(i)+0.5)),
			Temperature: quantity.Celsius(s.celsius / s.weight), RH: min(max(s.rh/s.weight, 0), 1)})
	}
	return append(averaged, rows[len(rows)-1])
}

// mostFollowed is how many rows of a record of air a simulation follows; more are
// averaged, because the work grows with them.
const mostFollowed = 400

// Followed returns the climate of a record of air as the wood follows it: a long record
// is averaged to 400 rows. rows is how many are left.
//
// Errors: those of Logged, for the record as it was given.
// Accuracy: as Averaged.
//
// Source: Logged; the number is our own choice, from the time a run takes.
func Followed(readings []Reading) (climate *Climate, rows int, err error) {
	climate, err = Logged(readings)
	if err != nil || len(readings) <= mostFollowed {
		return climate, len(readings), err
	}
	averaged := Averaged(readings, mostFollowed)
	climate, err = Logged(averaged)
	return climate, len(averaged), err
}
