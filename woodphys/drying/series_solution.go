package drying

import (
	"math"

	"latewood/woodphys/method"
)

// seriesTerms is how many terms of the series are summed; at Fo of 0.001 and
// above the rest is below 1e-12.
const seriesTerms = 200

// SeriesRoots returns the first n roots (rad, 1 to 200 of them) of
// beta tan beta = bi, bi from 0.001 up, infinity included.
//
// Errors: *method.Error with input "bi" or "terms".
// Accuracy: 1e-12.
//
// Source: Crank 1975, The Mathematics of Diffusion, ch. 4 (from memory).
func SeriesRoots(bi float64, n int) ([]float64, error) {
	if _, err := rowSeries.Check("bi", bi); err != nil {
		return nil, err
	}
	if _, err := rowSeries.Check("terms", float64(n)); err != nil {
		return nil, err
	}
	return seriesRoots(bi, n), nil
}

func seriesRoots(bi float64, n int) []float64 {
	roots := make([]float64, n)
	for i := range roots {
		low, high := math.Pi*float64(i), math.Pi*(float64(i)+0.5)
		if math.IsInf(bi, 1) {
			roots[i] = high
			continue
		}
		for range 80 { // beta sin beta - bi cos beta changes sign once between
			mid := (low + high) / 2
			value := mid*math.Sin(mid) - bi*math.Cos(mid)
			if i%2 == 1 {
				value = -value
			}
			if value > 0 {
				high = mid
			} else {
				low = mid
			}
		}
		roots[i] = (low + high) / 2
	}
	return roots
}

// SeriesMean returns the share of the excess moisture left in a slab of constant
// diffusivity after fo = D t/L^2 (L half the thickness; 0.001 to 1000) with
// bi = S L/D at its faces, 0.001 and more, infinity included.
//
// Errors: *method.Error with input "bi" or "fo".
// Accuracy: 1e-12.
//
// Source: Crank 1975 eq. 4.53; for infinite bi eq. 4.18 (from memory).
func SeriesMean(bi, fo float64) (float64, error) {
	if err := checkSeries(bi, fo); err != nil {
		return 0, err
	}
	sum := 0.0
	for _, b := range seriesRoots(bi, seriesTerms) {
		b2 := b * b
		// 2 Bi^2/(b^2 (b^2 + Bi^2 + Bi)); 2/b^2 for infinite Bi
		term := 2 / b2
		if !math.IsInf(bi, 1) {
			term = 2 / (b2 * (b2/(bi*bi) + 1 + 1/bi))
		}
		sum += term * math.Exp(-b2*fo)
	}
	return sum, nil
}

// SeriesLocal is SeriesMean at one place: x from 0 (middle) to 1 (face), bi and fo as
// there.
//
// Errors: *method.Error with input "bi", "fo" or "x".
// Accuracy: 1e-12.
//
// Source: Crank 1975 eq. 4.50 (from memory).
func SeriesLocal(bi, fo, x float64) (float64, error) {
	if err := checkSeries(bi, fo); err != nil {
		return 0, err
	}
	if _, err := rowSeries.Check("x", x); err != nil {
		return 0, err
	}
	sum := 0.0
	for _, b := range seriesRoots(bi, seriesTerms) {
		sum += 4 * math.Sin(b) / (2*b + math.Sin(2*b)) * math.Cos(b*x) * math.Exp(-b*b*fo)
	}
	return sum, nil
}

func checkSeries(bi, fo float64) error {
	if _, err := rowSeries.Check("bi", bi); err != nil {
		return err
	}
	_, err := rowSeries.Check("fo", fo)
	return err
}

var rowSeries = method.Method{
	ID: "drying.series", Chapter: "drying",
	Summary:  "Series solution of a slab with constant diffusivity and a film at its faces",
	Equation: "b tan b = Bi; mean = sum 2 Bi^2 exp(-b^2 Fo)/(b^2 (b^2 + Bi^2 + Bi)); local = sum 4 sin b/(2 b + sin 2b) cos(b x) exp(-b^2 Fo)",
	Inputs: []method.Input{
		{Name: "bi", Fitted: method.Range{Low: 1e-3, High: math.Inf(1)}, Limit: method.Range{Low: 1e-3, High: math.Inf(1)}},
		{Name: "fo", Fitted: method.Range{Low: 1e-3, High: 1e3}, Limit: method.Range{Low: 1e-3, High: 1e3}},
		{Name: "x", Fitted: method.Range{Low: 0, High: 1}, Limit: method.Range{Low: 0, High: 1}},
		{Name: "terms", Fitted: method.Range{Low: 1, High: seriesTerms}, Limit: method.Range{Low: 1, High: seriesTerms}},
	},
	Accuracy: "exact to 1e-12",
	Source:   "Crank 1975, The Mathematics of Diffusion, ch. 4; Newman 1931", Checked: method.Memory,
}
