package drying

import (
	"math"
	"slices"
)

// grid is the space part of the scheme on half a thickness scaled to 0 (middle)
// to 1 (face). Row i is the balance of the wood weighted with the hat function
// of node i: the integral of hat times the second derivative of phi is exactly the difference of the two
// slopes beside the node, and the integral of hat dM/dt is exact for a profile
// that is quadratic over the three nodes (linear over the two at the face,
// even about the middle). Tridiagonal on both sides; the column sums of the mass
// are the weights of a quadrature, so the mean is conserved exactly.
type grid struct {
	x                   []float64 // nodes
	lower, diag, upper  []float64 // mass matrix by rows
	conduct             []float64 // 1/spacing of interval i
	weight              []float64 // column sums: mean = weight . M
	factorLow, factorUp []float64 // LU of the transposed mass matrix
	factorDiag          []float64
}

// growth of the spacing from the face inward: total ratio of the widest to the
// narrowest interval. Chosen by the error over a year of drying from green.
const spacingRatio = 6.0

func newGrid(cells int, ratio float64) *grid {
	n := cells + 1
	g := &grid{
		x: make([]float64, n), lower: make([]float64, n), diag: make([]float64, n), upper: make([]float64, n),
		conduct: make([]float64, cells), weight: make([]float64, n),
		factorLow: make([]float64, n), factorUp: make([]float64, n), factorDiag: make([]float64, n),
	}
	q := math.Pow(ratio, 1/math.Max(float64(cells-1), 1))
	sum, width := 0.0, 1.0
	for i := range cells {
		sum += width
		g.x[i+1] = sum
		width /= q
	}
	for i := range g.x {
		g.x[i] /= sum
	}
	g.x[n-1] = 1
	for i := range cells {
		g.conduct[i] = 1 / (g.x[i+1] - g.x[i])
	}
	h := g.x[1]
	g.diag[0], g.upper[0] = 5*h/12, h/12 // even about the middle
	for i := 1; i < n-1; i++ {
		l, r := g.x[i]-g.x[i-1], g.x[i+1]-g.x[i]
		m0, m1, m2 := (l+r)/2, (r*r-l*l)/6, (r*r*r+l*l*l)/12 // moments of the hat
		g.lower[i], g.upper[i] = (m2-m1*r)/(l*(l+r)), (m2+m1*l)/(r*(l+r))
		g.diag[i] = m0 - g.lower[i] - g.upper[i]
	}
	h = 1 - g.x[n-2]
	g.lower[n-1], g.diag[n-1] = h/6, h/3
	for i := range n {
		g.weight[i] += g.diag[i]
		if i > 0 {
			g.weight[i-1] += g.lower[i]
		}
		if i < n-1 {
			g.weight[i+1] += g.upper[i]
		}
	}
	g.factorTransposed()
	return g
}

// factorTransposed prepares solving with the transposed mass matrix.
func (g *grid) factorTransposed() {
	n := len(g.x)
	for i := range n {
		d := g.diag[i]
		if i > 0 { // below the diagonal of the transpose stands upper[i-1]
			g.factorLow[i] = g.upper[i-1] * g.factorDiag[i-1]
			d -= g.factorLow[i] * g.lower[i]
		}
		g.factorDiag[i] = 1 / d
		if i < n-1 {
			g.factorUp[i] = g.lower[i+1]
		}
	}
}

// functional is a linear function of the profile, such as the mean of the core,
// and its adjoint, which gives its rate from the balances of the rows.
type functional struct{ take, rate []float64 }

func (g *grid) functional(take []float64) functional {
	n := len(take)
	rate := slices.Clone(take)
	for i := 1; i < n; i++ {
		rate[i] -= g.factorLow[i] * rate[i-1]
	}
	rate[n-1] *= g.factorDiag[n-1]
	for i := n - 2; i >= 0; i-- {
		rate[i] = (rate[i] - g.factorUp[i]*rate[i+1]) * g.factorDiag[i]
	}
	return functional{take, rate}
}

// point returns the weights of cubic interpolation at x (0 middle, 1 face).
func (g *grid) point(x float64) []float64 {
	n := len(g.x)
	take := make([]float64, n)
	i := min(max(slices.IndexFunc(g.x, func(v float64) bool { return v >= x })-2, 0), max(n-4, 0))
	end := min(i+4, n)
	for j := i; j < end; j++ {
		w := 1.0
		for k := i; k < end; k++ {
			if k != j {
				w *= (x - g.x[k]) / (g.x[j] - g.x[k])
			}
		}
		take[j] = w
	}
	return take
}

// average returns the weights of the average from x = a to b.
func (g *grid) average(a, b float64) []float64 {
	const points = 64 // midpoints: exact enough for piecewise cubics
	take := make([]float64, len(g.x))
	for p := range points {
		for j, w := range g.point(a + (b-a)*(float64(p)+0.5)/points) {
			take[j] += w / points
		}
	}
	return take
}

func dot(a, b []float64) float64 {
	sum := 0.0
	b = b[:len(a)]
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
