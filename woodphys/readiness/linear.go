package readiness

import "math"

// cholesky replaces the symmetric n by n matrix a, row by row, with its lower
// factor (the upper part is left as it was); false when it is not positive
// definite.
func cholesky(a []float64, n int) bool {
	for i := range n {
		row := a[i*n : i*n+i+1]
		for j := range i {
			other := a[j*n : j*n+j+1]
			sum := row[j]
			for k := range j {
				sum -= row[k] * other[k]
			}
			row[j] = sum / other[j]
		}
		sum := row[i]
		for _, v := range row[:i] {
			sum -= v * v
		}
		if !(sum > 0) {
			return false
		}
		row[i] = math.Sqrt(sum)
	}
	return true
}

// lowerSolve replaces b with the solution of L x = b.
func lowerSolve(l []float64, b []float64) {
	n := len(b)
	for i := range n {
		sum := b[i]
		for k, v := range l[i*n : i*n+i] {
			sum -= v * b[k]
		}
		b[i] = sum / l[i*n+i]
	}
}

// upperSolve replaces b with the solution of the transposed system L' x = b.
func upperSolve(l []float64, b []float64) {
	n := len(b)
	for i := n - 1; i >= 0; i-- {
		b[i] /= l[i*n+i]
		for k, v := range l[i*n : i*n+i] {
			b[k] -= v * b[i]
		}
	}
}

// inverse returns the inverse of the n by n matrix with lower factor l.
func inverse(l []float64, n int) []float64 {
	out := make([]float64, n*n)
	e := make([]float64, n)
	for d := range n {
		clear(e)
		e[d] = 1
		lowerSolve(l, e)
		upperSolve(l, e)
		for k := range n {
			out[n*k+d] = e[k]
		}
	}
	return out
}

// logDet is half the logarithm of the determinant of the matrix with lower factor l.
func logDet(l []float64, n int) float64 {
	sum := 0.0
	for i := range n {
		sum += math.Log(l[i*n+i])
	}
	return sum
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
