package drying

import "math"

// gammaRos makes ROS2 L-stable; with a split into two directions it stays stable
// for any step because it is at least 1/4 (Hundsdorfer and Verwer 2003, p. 400,
// from memory).
const gammaRos = 1 - math.Sqrt2/2

// attempt computes one step of ROS2:
//
//	(I - g h J_x)(I - g h J_y) k1 = F(t, y)
//	(I - g h J_x)(I - g h J_y) k2 = F(t+h, y + h k1) - 2 k1
//	new y = y + 3/2 h k1 + 1/2 h k2, error estimate h (k1 + k2)/2
//
// It returns the estimated error, a root mean square over the section. The
// scheme is of second order for any J, so no derivative by time is needed.
func (r *Rectangle) attempt(cl *Climate, t, h float64) float64 {
	s := &r.line
	gh := gammaRos * h
	out := r.rates(s.now, r.y, r.k1, true)
	r.factorise(gh)
	g1 := r.solve(r.k1, gh, -out)
	for i, k := range r.k1 {
		r.trial[i] = r.y[i] + h*k
	}
	c, _, rh, _ := cl.at(t+h, &s.cursor)
	s.fill(s.next, c, rh, r.trial[0])
	out = r.rates(s.next, r.trial, r.k2, false)
	for i, k := range r.k1 {
		r.k2[i] -= 2 * k
	}
	g2 := r.solve(r.k2, gh, -out-2*g1)
	r.out = -h * (1.5*g1 + 0.5*g2)

	sum, n := 0.0, r.n
	for i := range n {
		for j := range n {
			p := i*n + j
			e := h * (r.k1[p] + r.k2[p]) / 2
			r.trial[p] = r.y[p] + h*(1.5*r.k1[p]+0.5*r.k2[p])
			sum += r.volume[i] * r.volume[j] * e * e
		}
	}
	return math.Sqrt(sum)
}

// rates fills f with dM/dt at profile y; withSlopes also the diffusivities and
// the slopes of the face flux. It returns what leaves through the faces.
func (r *Rectangle) rates(m *moment, y, f []float64, withSlopes bool) float64 {
	s, n := &r.line, r.n
	phi := r.phi
	for p, v := range y {
		a, d := m.row.at(v)
		phi[p] = a
		if withSlopes {
			r.d[p] = d
		}
	}
	out := 0.0
	clear(f)
	for i := range n {
		for j := range n {
			p := i*n + j
			if i < n-1 {
				g := r.scale[0] * r.grid.conduct[i] * (phi[p+n] - phi[p])
				f[p] += g / r.volume[i]
				f[p+n] -= g / r.volume[i+1]
			}
			if j < n-1 {
				g := r.scale[1] * r.grid.conduct[j] * (phi[p+1] - phi[p])
				f[p] += g / r.volume[j]
				f[p+1] -= g / r.volume[j+1]
			}
		}
	}
	for axis := range 2 {
		for j := range n {
			p := r.face(axis, j)
			q, dq := s.flux(m, y[p])
			f[p] -= r.film[axis] * q / r.volume[n-1]
			out += r.film[axis] * q * r.volume[j]
			if withSlopes {
				r.dq[axis][j] = r.film[axis] * dq
			}
		}
	}
	return out
}

// factorise prepares the lines of I - gh J in both directions.
func (r *Rectangle) factorise(gh float64) {
	n := r.n
	for axis := range 2 {
		step, lines := n, 1 // along i
		if axis == 1 {
			step, lines = 1, n
		}
		for line := range n {
			base, off := line*lines, axis*n*n
			prevUp, prevInv, left := 0.0, 0.0, 0.0
			for i := range n {
				p := base + i*step
				right := 0.0
				if i < n-1 {
					right = r.scale[axis] * r.grid.conduct[i]
				}
				w := gh / r.volume[i]
				diag := 1 + w*(left+right)*r.d[p]
				if i == n-1 {
					diag += w * r.dq[axis][line]
				}
				if i > 0 {
					low := -w * left * r.d[p-step] * prevInv
					diag -= low * prevUp
					r.low[off+p] = low
				}
				prevInv = 1 / diag
				r.inv[off+p] = prevInv
				if i < n-1 {
					prevUp = -w * right * r.d[p+step]
					r.up[off+p] = prevUp
				}
				left = right
			}
		}
	}
}

// solve replaces v by the solution in both directions. gain is the sum of the
// right side known from the faces alone; the same sum of the solution is
// returned, so that the balance can be checked.
func (r *Rectangle) solve(v []float64, gh, gain float64) float64 {
	n := r.n
	for axis := range 2 {
		step, lines := n, 1
		if axis == 1 {
			step, lines = 1, n
		}
		low, up, inv := r.low[axis*n*n:], r.up[axis*n*n:], r.inv[axis*n*n:]
		for line := range n {
			p := line * lines
			last := v[p]
			for range n - 1 {
				p += step
				last = v[p] - low[p]*last
				v[p] = last
			}
			last *= inv[p]
			v[p] = last
			gain -= gh * r.volume[line] * r.dq[axis][line] * last
			for range n - 1 {
				p -= step
				last = (v[p] - up[p]*last) * inv[p]
				v[p] = last
			}
		}
	}
	return gain
}
