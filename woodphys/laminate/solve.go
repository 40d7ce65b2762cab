package laminate

import (
	"math"

	"latewood/woodphys/quantity"
)

// panel is the solved panel: unknowns are the mid-plane strains and the curvatures
// times the thickness h, so that all six are of one size.
type panel struct {
	plies   []ply
	h       float64
	k       mat6 // [A B; B D], per h, h^2, h^3, in pascals
	inverse mat6
	x, mean vec6
	shared  [byLength]vec6 // all layers deviate together
	pieces  mat6           // covariance when they deviate independently: piece and moisture
	rest    mat6           // covariance by movement along the grain and by stiffness, always independent
}

// assemble fills [A B; B D] and the load of the free strains.
func (p *panel) assemble() (load, mean vec6) {
	for i := range p.plies {
		l := &p.plies[i]
		t, z := l.t, l.z
		d := t*z*z + t*t*t/12
		n, m := l.q.times(&l.e), l.q.times(&l.mean)
		for r := range 3 {
			for c := range 3 {
				q := l.q[r][c]
				p.k[r][c] += q * t
				p.k[r][c+3] += q * t * z
				p.k[r+3][c+3] += q * d
			}
			load[r] += n[r] * t
			load[r+3] += n[r] * t * z
			mean[r] += m[r] * t
			mean[r+3] += m[r] * t * z
		}
	}
	for r := 3; r < 6; r++ {
		for c := range 3 {
			p.k[r][c] = p.k[c][r]
		}
	}
	return load, mean
}

// invert inverts the symmetric positive definite k by Gauss-Jordan elimination in
// place; such a matrix needs no pivoting. ok is false when it is not.
func (k *mat6) invert() (inverse mat6, ok bool) {
	a := *k
	for p := range 6 {
		pivot := a[p][p]
		if !(pivot > 0) { // also catches NaN
			return a, false
		}
		inv := 1 / pivot
		a[p][p] = 1
		for c := range 6 {
			a[p][c] *= inv
		}
		for r := range 6 {
			if r == p {
				continue
			}
			f := a[r][p]
			a[r][p] = 0
			for c := range 6 {
				a[r][c] -= f * a[p][c]
			}
		}
	}
	return a, true
}

func (k *mat6) times(v *vec6) (out vec6) {
	for r := range 6 {
		out[r] = dot6((*vec6)(&k[r]), v)
	}
	return out
}

// solve finds the middle and all deviations. ok is false for a stiffness that is
// not positive.
func (p *panel) solve() (ok bool) {
	load, mean := p.assemble()
	if p.inverse, ok = p.k.invert(); !ok {
		return false
	}
	p.x, p.mean = p.inverse.times(&load), p.inverse.times(&mean)
	for i := range p.plies {
		l := &p.plies[i]
		for c := range byElastic {
			n := l.q.times(&l.d[c])
			t, tz := l.t, l.t*l.z
			l.x[c] = p.inverse.times(&vec6{n[0] * t, n[1] * t, n[2] * t, n[0] * tz, n[1] * tz, n[2] * tz})
			into := &p.pieces
			if c == byLength {
				into = &p.rest
			} else {
				for r := range 6 {
					p.shared[c][r] += l.x[c][r]
				}
			}
			into.add(&l.x[c])
		}
		// K x = F, so dx = K^-1 (dF - dK x) = -K^-1 (force and moment of the layer) dE/E
		n, m := p.resultants(l)
		l.x[byElastic] = p.inverse.times(&vec6{
			-stiffnessCV * n[0], -stiffnessCV * n[1], -stiffnessCV * n[2], -stiffnessCV * m[0], -stiffnessCV * m[1], -stiffnessCV * m[2],
		})
		p.rest.add(&l.x[byElastic])
	}
	return true
}

// resultants returns the force and the moment about mid-thickness of a layer, per
// width, per h and h^2.
func (p *panel) resultants(l *ply) (n, m vec3) {
	var mid, moment vec3
	for r := range 3 {
		mid[r] = p.x[r] + l.z*p.x[r+3] - l.e[r]
		moment[r] = l.z*mid[r]*l.t + p.x[r+3]*l.t*l.t*l.t/12
		mid[r] *= l.t
	}
	return l.q.times(&mid), l.q.times(&moment)
}

// add adds the outer product of v, upper half only.
func (k *mat6) add(v *vec6) {
	for r := range 6 {
		for c := r; c < 6; c++ {
			k[r][c] += v[r] * v[c]
		}
	}
}

// form is w K w of a matrix whose upper half is filled.
func (k *mat6) form(w *vec6) float64 {
	sum := 0.0
	for r := range 6 {
		row := w[r] * k[r][r]
		for c := r + 1; c < 6; c++ {
			row += 2 * w[c] * k[r][c]
		}
		sum += w[r] * row
	}
	return sum
}

// band is the 90 % band of w x.
func (p *panel) band(w *vec6) quantity.Band[float64] {
	together := 0.0
	for c := range p.shared {
		d := dot6(w, &p.shared[c])
		together += d * d
	}
	return spread(dot6(w, &p.x), dot6(w, &p.mean), math.Max(together, p.pieces.form(w))+p.rest.form(w))
}

// local is the 90 % band of v (strain at z - free strain) in a layer: a strain it
// is kept from (v a row of the turn) or a stress (v a row of its stiffness).
func (p *panel) local(l *ply, z float64, v *vec3, stress bool) quantity.Band[float64] {
	w := vec6{v[0], v[1], v[2], z * v[0], z * v[1], z * v[2]}
	value := dot6(&w, &p.x) - dot3(v, &l.e)
	mean := dot6(&w, &p.mean) - dot3(v, &l.mean)
	apart, rest, together := p.pieces.form(&w), p.rest.form(&w), 0.0
	for c := range causes {
		d, own := dot6(&w, &l.x[c]), 0.0
		switch {
		case c < byElastic:
			own = dot3(v, &l.d[c])
		case stress:
			own = -stiffnessCV * value
		}
		change := own * (own - 2*d) // (d - own)^2 - d^2
		if c >= byLength {
			rest += change
			continue
		}
		apart += change
		all := dot6(&w, &p.shared[c]) - own
		together += all * all
	}
	return spread(value, mean, math.Max(apart, together)+rest)
}

func spread(value, mean, variance float64) quantity.Band[float64] {
	b := quantity.NormalBand(mean, math.Sqrt(math.Max(0, variance)))
	b.Value = value
	b.Low, b.High = math.Min(b.Low, b.Value), math.Max(b.High, b.Value)
	return b
}
