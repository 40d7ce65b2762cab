package laminate

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Layer is one layer of a panel.
type Layer struct {
	Name      string // for people; empty where it has none
	Wood      wood.Wood
	Elastic   Elastic
	Thickness quantity.Length // 0.01 mm to 10 m
	Grain     quantity.Angle  // from the panel's length to the grain, anticlockwise from above, -360 to 360 degrees
	Ring      quantity.Angle  // ring angle to the face, 0 flatsawn to 90 degrees quartersawn
	AtGlueUp  quantity.Band[quantity.Moisture]
	Later     quantity.Band[quantity.Moisture]
	// Tilt is the moisture content Later at the layer's upper face less that at its lower
	// face, of a straight line through the thickness, -1 to 1; 0 for a layer that is even.
	Tilt quantity.Moisture
	// TwoAirs says that AtGlueUp and Later are those of airs, so that the errors of the
	// piece in both go together; GlueUp narrows them.
	TwoAirs bool
}

type (
	vec3 [3]float64
	vec6 [6]float64
	mat3 [3][3]float64
	mat6 [6][6]float64
)

// causes of deviation of a layer.
const (
	byPiece   = iota // its shrinkage, radial and tangential together
	byFirst          // moisture content at glue-up
	bySecond         // moisture content later
	byLength         // its movement along the grain
	byElastic        // its stiffness
	causes
)

// stiffnessCV: modulus of elasticity varies by 22 % (Wood Handbook ch. 5, from
// memory), its ratios add to that; assumed.
const stiffnessCV = 0.25

// ply is a layer made ready. Thickness and place are shares of the panel's.
type ply struct {
	along, across quantity.Band[float64] // free strain in its own axes
	plane         plane
	cos, sin      float64 // of the grain
	t, z          float64
	q             mat3            // in panel axes
	e, mean       vec3            // free strain in panel axes
	d             [byElastic]vec3 // deviation of the free strain by cause, 1 SD
	tilt          vec3            // free strain at the upper face less that at the lower
	tiltPiece     vec3            // its deviation by the piece, 1 SD
	x             [causes]vec6    // what that does to the panel
}

func (p *ply) fill(n *method.Notes, l *Layer) error {
	if err := n.Use(&panelRow, "grain_deg", tidy(l.Grain.Degrees())); err != nil {
		return err
	}
	if err := n.Use(&panelRow, "ring_angle_deg", tidy(l.Ring.Degrees())); err != nil {
		return err
	}
	e, err := movement.StrainsBetween(n, l.AtGlueUp, l.Later, &l.Wood)
	if err != nil {
		return method.Renamed(err, [2]string{"from_mc_pct", "at_glue_up_mc_pct"}, [2]string{"to_mc_pct", "later_mc_pct"})
	}
	movement.NoteAlong(&l.Wood, n)
	r, err := l.Elastic.resolve(n)
	if err != nil {
		return err
	}
	ringSin, ringCos := math.Sincos(float64(l.Ring))
	if p.plane, err = r.at(float64(l.Elastic.EL), ringCos, ringSin); err != nil {
		return err
	}
	p.sin, p.cos = math.Sincos(float64(l.Grain))
	p.q = p.plane.turned(p.cos, p.sin)
	w := e.Across(l.Ring)
	p.along, p.across = e.Longitudinal.Band(), w.Band()
	p.e, p.mean = p.turn(e.Longitudinal.Value, w.Value), p.turn(e.Longitudinal.Mean, w.Mean)
	p.d[byPiece] = p.turn(0, math.Copysign(w.Wood(), w.Value))
	p.d[byLength] = p.turn(e.Longitudinal.Piece, 0)
	p.d[byFirst] = p.turn(e.Longitudinal.From, w.From)
	p.d[bySecond] = p.turn(e.Longitudinal.To, w.To)
	return p.lean(n, l, e.Longitudinal.Value, w.Value)
}

// lean fills in what a moisture that is not even through the layer does to its free strain:
// the strain between the moisture contents at its two faces, of the size when it was glued,
// which has the share of the piece that its shrinkage has. along and across are the strains
// of its mean.
func (p *ply) lean(n *method.Notes, l *Layer, along, across float64) error {
	if l.Tilt == 0 {
		return nil
	}
	if err := n.Use(&panelRow, "tilt_mc_points", l.Tilt.Percent()); err != nil {
		return err
	}
	mean := quantity.Band[quantity.Moisture]{Value: l.Later.Value, Low: l.Later.Value, High: l.Later.Value}
	for _, half := range [...]quantity.Moisture{l.Tilt / 2, -l.Tilt / 2} {
		m := max(l.Later.Value+half, 0)
		e, err := movement.StrainsBetween(n, mean, quantity.Band[quantity.Moisture]{Value: m, Low: m, High: m}, &l.Wood)
		if err != nil {
			return err
		}
		w := e.Across(l.Ring)
		up := p.turn((1+along)*e.Longitudinal.Value, (1+across)*w.Value)
		piece := p.turn(0, math.Copysign(w.Wood(), w.Value))
		for r := range 3 { // the upper face less the lower
			p.tilt[r] += math.Copysign(1, float64(half*l.Tilt)) * up[r]
			p.tiltPiece[r] += math.Copysign(1, float64(half*l.Tilt)) * piece[r]
		}
	}
	return nil
}

// turn takes strains along and across the grain to the panel's axes.
func (p *ply) turn(along, across float64) vec3 {
	c, s := p.cos, p.sin
	return vec3{along*c*c + across*s*s, along*s*s + across*c*c, 2 * c * s * (along - across)}
}

// rows returns what takes a strain in panel axes to the strain along the grain,
// across it, and the shear of both.
func (p *ply) rows() [3]vec3 {
	c, s := p.cos, p.sin
	return [3]vec3{{c * c, s * s, c * s}, {s * s, c * c, -c * s}, {-2 * c * s, 2 * c * s, c*c - s*s}}
}

// turned is the stiffness in panel axes, the grain at the angle with this cosine and
// sine to x. Jones ch. 2 (from memory).
func (p *plane) turned(c, s float64) mat3 {
	c2, s2 := c*c, s*s
	c4, s4, m := c2*c2, s2*s2, c2*s2
	a, b := p.q11-p.q12-2*p.q66, p.q12-p.q22+2*p.q66
	q16 := a*c2*c*s + b*s2*s*c
	q26 := a*s2*s*c + b*c2*c*s
	q12 := (p.q11+p.q22-4*p.q66)*m + p.q12*(c4+s4)
	return mat3{
		{p.q11*c4 + 2*(p.q12+2*p.q66)*m + p.q22*s4, q12, q16},
		{q12, p.q11*s4 + 2*(p.q12+2*p.q66)*m + p.q22*c4, q26},
		{q16, q26, (p.q11+p.q22-2*p.q12-2*p.q66)*m + p.q66*(c4+s4)},
	}
}

func (m *mat3) times(v *vec3) vec3 {
	return vec3{
		m[0][0]*v[0] + m[0][1]*v[1] + m[0][2]*v[2],
		m[1][0]*v[0] + m[1][1]*v[1] + m[1][2]*v[2],
		m[2][0]*v[0] + m[2][1]*v[1] + m[2][2]*v[2],
	}
}

func dot3(a, b *vec3) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func dot6(a, b *vec6) float64 {
	return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] + a[3]*b[3] + a[4]*b[4] + a[5]*b[5]
}

// same reports whether two layers are alike but for their thickness.
func same(a, b *Layer) bool {
	return a.Grain == b.Grain && a.Ring == b.Ring && a.AtGlueUp == b.AtGlueUp && a.Later == b.Later && a.Tilt == b.Tilt && a.Wood == b.Wood && a.Elastic == b.Elastic
}

// called is what a warning about the layer names.
func (l *Layer) called() string {
	if l.Name != "" {
		return l.Name
	}
	return l.Wood.Name
}
