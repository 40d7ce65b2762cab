package main

import (
	"math"
	"sort"
)

// isotherm gives the moisture content in % that wood settles at in an air of 20 C.
// Each truth has one of its own.
type isotherm func(rh float64) float64

// gab is of Guggenheim, Anderson and de Boer; the three figures were set here to the
// trade's rule 30 % RH = 6, 50 = 9, 65 = 12, 80 = 16 % (anchor "rule of thumb").
func gab(rh float64) float64 {
	const monolayer, c, k = 6.5, 9.0, 0.77
	x := k * rh
	return monolayer * c * x / ((1 - x) * (1 - x + c*x))
}

// henderson: Henderson S.M. 1952, Agric. Eng. 33, 29: 1 - rh = exp(-k M^n), through
// 50 % = 9 and 80 % = 16.
func henderson(rh float64) float64 {
	return math.Pow(-math.Log(1-math.Min(rh, 0.995))/0.02779, 1/1.464)
}

// rule is the trade's rule of thumb with lines between; beyond 80 % the printed table
// of the Wood Handbook (FPL-GTR-190, table 4-2) at 20 C, rounded.
func rule(rh float64) float64 {
	return line([]float64{0, 0.1, 0.3, 0.5, 0.65, 0.8, 0.9, 0.95, 1},
		[]float64{0, 2.6, 6, 9, 12, 16, 20.5, 24, 28}, rh)
}

// masea is softwood of the MASEA material data base (water content over 400 kg/m3),
// its ends at 0.25 and 1 set here.
func masea(rh float64) float64 {
	return line([]float64{0, 0.25, 0.5, 0.8, 0.9, 0.97, 1}, []float64{0, 5, 8, 15, 22, 29, 31}, rh)
}

func line(xs, ys []float64, x float64) float64 {
	if x <= xs[0] {
		return ys[0]
	}
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			return ys[i-1] + (ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
		}
	}
	return ys[len(ys)-1]
}

// sorption is an isotherm of one piece, both ways.
type sorption struct {
	of     isotherm
	factor float64   // of the piece, over the ordinary wood
	table  []float64 // of[i/200]
}

func newSorption(of isotherm, factor float64) *sorption {
	s := &sorption{of: of, factor: factor, table: make([]float64, 201)}
	for i := range s.table {
		s.table[i] = of(float64(i) / 200)
	}
	return s
}

// warm is how the isotherm falls with temperature: by 0.3 % of it a kelvin (Wood
// Handbook, table 4-2: 9.5 at -1 C and 8.7 at 38 C and 50 %, rounded).
func warm(temp float64) float64 { return 1 - 0.003*(temp-20) }

func (s *sorption) settled(a air) float64 { return s.factor * warm(a.temp) * s.of(a.rh) }

func (s *sorption) saturated() float64 { return s.factor * s.table[200] }

// activity is the humidity in the pores, and how it rises with the moisture in %.
func (s *sorption) activity(mc, temp float64) (a, slope float64) {
	m := mc / (s.factor * warm(temp))
	if m >= s.table[200] {
		return 1, 0
	}
	if m <= 0 {
		return 0, 0.05
	}
	i := sort.SearchFloat64s(s.table, m)
	rise := (s.table[i] - s.table[i-1]) * 200
	a = (float64(i-1) + (m-s.table[i-1])/(s.table[i]-s.table[i-1])) / 200
	return math.Min(a, 1), 1 / (rise * s.factor * warm(temp))
}
