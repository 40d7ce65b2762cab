package laminate

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Glue is the layer of glue; its zero value stands for 0.1 mm of 300 MPa in shear
// (both assumed, of the order of a set white or hide glue; a thicker or softer line
// lowers the stress).
type Glue struct {
	Thickness    quantity.Length   // 1 micrometre to 10 mm, 0 for the default
	ShearModulus quantity.Pressure // 1 MPa to 10 GPa, 0 for the default
}

// Glue that is taken where none is told; both assumed, see Glue.
const (
	UsualGlueThickness = 0.1 * quantity.Millimetre
	UsualGlueShear     = 300 * quantity.Megapascal
)

const (
	// glueFactor is how far the estimate may be off either way. Assumed; in six
	// finite-element cases shear was 0.9 to 2.1 times the estimate and peel 0.5 to 2.0.
	glueFactor = 3
	// peelShare is the peel over the shear at the edge, both as means over one
	// thickness of the glue: 1.6 to 5.9 of the estimated shear in six finite-element
	// cases (testdata/laminate/glue_line.csv).
	peelShare = 3
)

func (g Glue) check(n *method.Notes) (Glue, error) {
	if g.Thickness == 0 {
		g.Thickness = UsualGlueThickness
	}
	if g.ShearModulus == 0 {
		g.ShearModulus = UsualGlueShear
	}
	if err := n.Use(&glueRow, "glue_thickness", tidy(g.Thickness.Millimetres())); err != nil {
		return g, err
	}
	return g, n.Use(&glueRow, "glue_shear_modulus", tidy(g.ShearModulus.Pascals()/1e6))
}

// GlueLine is an estimate of what the glue between two layers carries at the edges of
// the panel. It grows within a few millimetres of the edge; inside it is nothing.
type GlueLine struct {
	AtEnds  Edge // the edges across the length
	AtSides Edge // the edges along the length
	// FreeLength and FreeWidth are the changes of the upper layer less those of the lower,
	// over the length and the width, had they not been glued. The band takes both layers
	// as independent.
	FreeLength, FreeWidth quantity.Band[quantity.Length]
}

// Edge is the order of the stresses at one pair of edges: value, and a third and
// three times of it (assumed, not a 90 % band).
type Edge struct {
	Force quantity.Band[float64] // N per m of edge that goes through the glue, with the same factor
	Shear quantity.Band[quantity.Pressure]
	Peel  quantity.Band[quantity.Pressure] // size; whether it opens or closes depends on the stack
	Zone  quantity.Length                  // over which the force builds up, 1/beta
}

// glueLines: the force of all layers below must be handed over near the edge
// (Volkersen; Chen and Nelson 1979).
func (p *panel) glueLines(length, width float64, g Glue) []GlueLine {
	lines := make([]GlueLine, len(p.plies)-1)
	var force vec3 // of the layers below
	var below, whole [2]span
	for i := range p.plies {
		for c := range whole {
			whole[c].add(&p.plies[i], c)
		}
	}
	for i := range lines {
		l, next := &p.plies[i], &p.plies[i+1]
		n, _ := p.resultants(l)
		for r := range 3 {
			force[r] += n[r]
		}
		for c := range below {
			below[c].add(l, c)
			above := span{whole[c].s0 - below[c].s0, whole[c].s1 - below[c].s1, whole[c].s2 - below[c].s2}
			// in full size: forces times h, compliances of span over h
			through := float64(g.Thickness)/float64(g.ShearModulus) + p.h*(l.t/(3*l.through(c))+next.t/(3*next.through(c)))
			beta := math.Sqrt(joint(&below[c], &above) / (p.h * through))
			f := math.Abs(force[c]) * p.h
			size := length
			if c == 1 {
				size = width
			}
			shear := f * beta * math.Tanh(beta*size/2)
			e := Edge{
				Force: order[float64](f), Zone: quantity.Length(1 / beta),
				Shear: order[quantity.Pressure](shear), Peel: order[quantity.Pressure](peelShare * shear),
			}
			if c == 0 {
				lines[i].AtEnds = e
			} else {
				lines[i].AtSides = e
			}
		}
	}
	return lines
}

// through is the shear modulus through the thickness in the panel's direction.
func (p *ply) through(direction int) float64 {
	c2, s2 := p.cos*p.cos, p.sin*p.sin
	if direction == 1 {
		c2, s2 = s2, c2
	}
	return c2*p.plane.gLz + s2*p.plane.gwz
}

// span is a part of the stack as a beam in one direction.
type span struct{ s0, s1, s2 float64 } // sums of E t, E t z, E (t z^2 + t^3/12)

func (s *span) add(p *ply, direction int) {
	q := p.q[direction][direction]
	s.s0 += q * p.t
	s.s1 += q * p.t * p.z
	s.s2 += q * (p.t*p.z*p.z + p.t*p.t*p.t/12)
}

// joint is the compliance of two parts to a force between them, stretching and
// bending: 1/EA1 + 1/EA2 + d^2/(D1 + D2), d between their centres.
func joint(a, b *span) float64 {
	za, zb := a.s1/a.s0, b.s1/b.s0
	d := math.Max(0, a.s2-za*a.s1) + math.Max(0, b.s2-zb*b.s1)
	return 1/a.s0 + 1/b.s0 + (za-zb)*(za-zb)/d
}

func order[T ~float64](v float64) quantity.Band[T] {
	return quantity.Band[T]{Value: T(v), Low: T(v / glueFactor), High: T(v * glueFactor)}
}
