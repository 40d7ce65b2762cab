package cut

import (
	"math"

	"latewood/woodphys/resaw/match"
)

// lines chooses the rings to draw, not closer than the eye can part.
func (m *matchDrawing) lines() ringLines {
	scale := m.pairScale()
	middle := m.match.Leaves[len(m.match.Leaves)/2].Middle
	r := ringLines{pith: m.match.Pith}
	sin := math.Max(middle.Sin(), 0.02)
	if rw := float64(m.in.RingWidth); rw > 0 {
		r.every = max(1, int(math.Ceil(leastGap/scale/rw)))
		r.step = rw * float64(r.every)
	} else {
		r.step = wantedGap / scale * math.Max(sin, 0.1)
	}
	low, high := m.span(&r, sin)
	for (high-low)/r.step > mostLines {
		r.step *= 2
		r.every *= 2
	}
	r.first = int(math.Ceil(low / r.step))
	for i := r.first; float64(i)*r.step <= high; i++ {
		r.at = append(r.at, float64(i)*r.step)
	}
	return r
}

// span is the least and the largest radius (or x) of a ring in the stack.
func (m *matchDrawing) span(r *ringLines, sin float64) (low, high float64) {
	w, depth := float64(m.in.Width), float64(m.match.Faces[len(m.match.Faces)-1].Back)
	if r.pith == nil {
		r.step /= sin // along the face
		angle := m.match.Leaves[0].Middle
		r.slope = angle.Cos() / math.Max(angle.Sin(), 1e-3)
		if m.in.Rings.Lean == match.LeansNear {
			r.slope = -r.slope
		}
		return math.Min(0, -r.slope*depth), math.Max(w, w-r.slope*depth)
	}
	x, z := float64(r.pith.X), float64(r.pith.Z)
	out := func(v, most float64) float64 { return math.Max(0, math.Max(-v, v-most)) }
	far := func(v, most float64) float64 { return math.Max(math.Abs(v), math.Abs(v-most)) }
	return math.Hypot(out(x, w), out(z, depth)), math.Hypot(far(x, w), far(z, depth))
}

// cross returns where ring i meets a plane at depth z.
func (r *ringLines) cross(i int, z float64) []float64 {
	if r.pith == nil {
		return []float64{r.at[i] + r.slope*z}
	}
	dz := z - float64(r.pith.Z)
	q := r.at[i]*r.at[i] - dz*dz
	if q < 0 {
		return nil
	}
	return []float64{float64(r.pith.X) - math.Sqrt(q), float64(r.pith.X) + math.Sqrt(q)}
}

func (r *ringLines) style(i int) string {
	if (r.first+i)%fifth == 0 {
		return fifthRing
	}
	return ringLine
}
