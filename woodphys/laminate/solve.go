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
		n, m, lean := l.q.times(&l.e), l.q.times(&l.mean), l.q.times(&l.tilt)
		for r := range 3 {
			for c := range 3 {
				q := l.q[r][c]
				p.k[r][c] += q * t
				p.k[r][c+3] += q * t * z
				p.k[r+3][c+3] += q * d
			}
			load[r] += n[r] * t
			load[r+3] += n[r]*t*z + lean[r]*t*t/12 // a tilt has no force, and this moment
			mean[r] += m[r] * t
			mean[r+3] += m[r]*t*z + lean[r]*t*t/12
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
			var lean vec3
			if c == byPiece {
				lean = l.q.times(&l.tiltPiece)
			}
			tt := t * t / 12
			l.x[c] = p.inverse.times(&vec6{n[0] * t, n[1] * t, n[2] * t, n[0]*tz + lean[0]*tt, n[1]*tz + lean[1]*tt, n[2]*tz + lean[2]*tt})
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
		moment[r] = l.z*mid[r]*l.t + p.x[r+3]*l.t*l.t*l.t/12 - l.tilt[r]*l.t*l.t/12
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
	return spread(dot6(w, &p.x), dot6(w, &p.mean), max(together, p.pieces.form(w))+p.rest.form(w))
}

// place is a height in a layer: the strain it is held from, and the covariance of
// that strain in the two ways of deviating.
type place struct {
	held, mean      vec3 // strain there less the free strain
	apart, together sym3 // by piece and moisture
	strain, stress  sym3 // by movement along the grain and by stiffness, for strain and for stress over stiffness
}

// fill fills the place, so far empty, at the height z (a share of the thickness) of
// a layer. With w = (v, z v) a form w K w is v (K11 + z (K12 + K21) + z^2 K22) v.
func (p *panel) fill(out *place, l *ply, z float64) {
	out.held, out.mean, out.apart, out.strain = there(&p.x, z), there(&p.mean, z), p.pieces.there(z), p.rest.there(z)
	up := (z - l.z) / l.t // -1/2 at the lower face, 1/2 at the upper
	for r := range 3 {
		out.held[r] -= l.e[r] + up*l.tilt[r]
		out.mean[r] -= l.mean[r] + up*l.tilt[r]
	}
	for c := range byElastic {
		own := l.d[c]
		if c == byPiece {
			for r := range 3 {
				own[r] += up * l.tiltPiece[r]
			}
		}
		all := there(&l.x[c], z)
		into := &out.apart
		if c == byLength {
			into = &out.strain
		} else {
			shared := there(&p.shared[c], z)
			for r := range 3 {
				shared[r] -= own[r]
			}
			out.together.add(&shared)
		}
		into.less(&all, &own) // its own free strain deviates too
	}
	out.stress = out.strain
	all := there(&l.x[byElastic], z)
	out.stress.less(&all, &vec3{-stiffnessCV * out.held[0], -stiffnessCV * out.held[1], -stiffnessCV * out.held[2]})
}

// band is the 90 % band of v times the strain held from; rest is strain or stress.
func (h *place) band(v *vec3, rest *sym3) quantity.Band[float64] {
	return spread(dot3(v, &h.held), dot3(v, &h.mean), max(h.apart.form(v), h.together.form(v))+rest.form(v))
}

// there is the strain at the height z of mid-plane strains and curvatures.
func there(x *vec6, z float64) vec3 { return vec3{x[0] + z*x[3], x[1] + z*x[4], x[2] + z*x[5]} }

// there reduces a covariance, of which the upper half is filled, to the height z.
func (k *mat6) there(z float64) sym3 {
	at := func(r, c int) float64 { return k[r][c] + z*(k[r][c+3]+k[c][r+3]) + z*z*k[r+3][c+3] }
	return sym3{at(0, 0), at(1, 1), at(2, 2), at(0, 1), at(0, 2), at(1, 2)}
}

// sym3 is a symmetric matrix: 11, 22, 33, 12, 13, 23.
type sym3 [6]float64

// add adds the outer product of v.
func (s *sym3) add(v *vec3) {
	s[0] += v[0] * v[0]
	s[1] += v[1] * v[1]
	s[2] += v[2] * v[2]
	s[3] += v[0] * v[1]
	s[4] += v[0] * v[2]
	s[5] += v[1] * v[2]
}

// less turns the outer product of v, which it holds among others, into that of
// v - d.
func (s *sym3) less(v, d *vec3) {
	s[0] += d[0] * (d[0] - 2*v[0])
	s[1] += d[1] * (d[1] - 2*v[1])
	s[2] += d[2] * (d[2] - 2*v[2])
	s[3] += d[0]*(d[1]-v[1]) - v[0]*d[1]
	s[4] += d[0]*(d[2]-v[2]) - v[0]*d[2]
	s[5] += d[1]*(d[2]-v[2]) - v[1]*d[2]
}

func (s *sym3) form(v *vec3) float64 {
	return v[0]*(s[0]*v[0]+2*s[3]*v[1]+2*s[4]*v[2]) + v[1]*(s[1]*v[1]+2*s[5]*v[2]) + s[2]*v[2]*v[2]
}

func spread(value, mean, variance float64) quantity.Band[float64] {
	b := quantity.NormalBand(mean, math.Sqrt(max(0, variance)))
	b.Value = value
	b.Low, b.High = min(b.Low, b.Value), max(b.High, b.Value)
	return b
}
