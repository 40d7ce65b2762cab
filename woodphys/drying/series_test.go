package drying

import "math"

// The series solution of a slab of constant diffusivity with a film at its faces, an
// independent truth for the solvers. fo is D t/L^2 (L half the thickness, 0.001 and
// more), bi is S L/D at the faces (0.001 and more, infinity included).

// seriesTerms is how many terms of the series are summed; at Fo of 0.001 and
// above the rest is below 1e-12.
const seriesTerms = 200

// seriesRoots are the first n roots (rad) of beta tan beta = bi, to 1e-12.
//
// Source: Crank 1975, The Mathematics of Diffusion, ch. 4 (from memory).
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

// seriesMean is the share of the excess moisture left in the slab, to 1e-12.
//
// Source: Crank 1975 eq. 4.53; for infinite bi eq. 4.18 (from memory); Newman 1931.
func seriesMean(bi, fo float64) float64 {
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
	return sum
}

// seriesLocal is seriesMean at one place: x from 0 (middle) to 1 (face).
//
// Source: Crank 1975 eq. 4.50 (from memory).
func seriesLocal(bi, fo, x float64) float64 {
	sum := 0.0
	for _, b := range seriesRoots(bi, seriesTerms) {
		sum += seriesShare(b) * math.Cos(b*x) * math.Exp(-b*b*fo)
	}
	return sum
}

// seriesShare is the coefficient of the term with the root b.
func seriesShare(b float64) float64 { return 4 * math.Sin(b) / (2*b + math.Sin(2*b)) }
