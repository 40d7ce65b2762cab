package main

import (
	"math/rand/v2"
)

// restsAt is the mean of the last of four years of boards left outdoors, each in weather
// of its own.
func restsAt(l law, w *wood, thickness float64, p place) float64 {
	const boards = 8
	sum := 0.0
	for seed := range uint64(boards) {
		sum += oneRests(l, w, thickness, p, seed)
	}
	return sum / boards
}

func oneRests(l law, w *wood, thickness float64, p place, seed uint64) float64 {
	const year = 365
	around := p.outdoors(0, 4*year, offset{}, rand.New(rand.NewPCG(seed, 0))) //nolint:gosec // a fixed seed
	b := l.board(piece{thickness, 1000 * w.grav, w.green, w.hardwood, 1, w.rates[l.name]}, constant(l.draught["small_stack"]))
	sum := 0.0
	for i, a := range around {
		b.step(1.0/stepsPerDay, a)
		if i >= 3*year*stepsPerDay {
			sum += b.mean()
		}
	}
	return sum / (year * stepsPerDay)
}

// monthsGive is the mean over the months of what wood settles at in the mean air of each.
func monthsGive(of isotherm, p place) float64 {
	sum := 0.0
	for m := range 12 {
		sum += warm(p.temp[m]) * of((p.morning[m]+p.afternoon[m])/200)
	}
	return sum / 12
}
