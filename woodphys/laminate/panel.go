package laminate

import (
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// MaxLayers is the largest number of layers of a panel.
const MaxLayers = 32

// Panel is a stack of layers glued flat.
type Panel struct {
	Layers []Layer         // 1 to 32, from the bottom
	Length quantity.Length // along x, 0.01 mm to 100 m
	Width  quantity.Length // along y
	Glue   Glue
}

// Warped is a panel after the change of moisture content.
type Warped struct {
	ChangeLength, ChangeWidth quantity.Band[quantity.Length] // at mid-thickness
	Shear                     quantity.Band[quantity.Angle]  // of the plane
	CurvatureX, CurvatureY    quantity.Band[float64]         // 1/m; positive: hollow below
	TwistXY                   quantity.Band[float64]         // 1/m, engineering (2 w_xy)
	Bow                       quantity.Band[quantity.Length] // sagitta along the length; positive: hollow above
	Cup                       quantity.Band[quantity.Length] // sagitta across the width; positive: hollow above
	CornerLift                quantity.Band[quantity.Length] // three corners down, the fourth up; the sign says which way
	Symmetric                 bool                           // mirror image about mid-thickness: no bending but for differences between pieces
	Balanced                  bool                           // no shear of the plane: A16 = A26 = 0
	Stiffness                 Stiffness
	Layers                    []Kept
	GlueLines                 []GlueLine // between layer i and i+1
	Creep                     Creep
	Notes                     method.Notes
}

// Stiffness holds the matrices of the panel: A in N/m, B in N, D in N m, in the order
// x, y, xy.
type Stiffness struct{ A, B, D [3][3]float64 }

// Kept is what a layer keeps: the strain it is held from, and the elastic stress of
// that, at its lower and upper face.
type Kept struct {
	Along, Across quantity.Band[float64] // free strain, had it not been glued
	Lower, Upper  Held
}

// Held is the state at one face of a layer, in its own axes, positive in tension.
type Held struct {
	StrainAlong, StrainAcross quantity.Band[float64]
	StressAlong, StressAcross quantity.Band[quantity.Pressure]
	Shear                     quantity.Pressure // middle value
}

// Creep are the shares of the elastic answer that are left after weeks and months:
// a range, not a 90 % band.
type Creep struct{ StressLow, StressHigh, BendingLow, BendingHigh float64 }

// Bend returns what becomes of a panel that was glued flat, every layer at its
// moisture content AtGlueUp, when every layer has come to Later.
//
// Errors: out_of_range for length, width, layers (their number), layers/N/thickness,
// layers/N/grain_deg, layers/N/ring_angle_deg, layers/N/at_glue_up_mc_pct,
// layers/N/later_mc_pct, layers/N/tilt_mc_points, figures of the wood and elastic constants under layers/N/,
// glue_thickness, glue_shear_modulus; missing, contradictory and unsupported as
// AcrossGrain and package section.
// Accuracy: package comment; elastic, so stresses and as a rule bending are upper
// bounds (Creep). Small deflection: a cup beyond the thickness of the panel is too
// large when it bends both ways.
// Source: classical lamination theory, Jones ch. 4 (from memory).
func Bend(in Panel) (Warped, error) {
	var out Warped
	out.Notes.Basis = make([]string, 0, 8)
	var p panel
	var few [8]ply // most panels have no more, and then these need no heap
	if p.plies = few[:min(len(in.Layers), len(few))]; len(in.Layers) > len(few) && len(in.Layers) <= MaxLayers {
		p.plies = make([]ply, len(in.Layers))
	}
	if err := p.prepare(&out.Notes, &in); err != nil {
		return Warped{}, err
	}
	glue, err := in.Glue.check(&out.Notes)
	if err != nil {
		return Warped{}, err
	}
	if !p.solve() {
		return Warped{}, &method.Error{Code: method.Contradictory, Input: "layers", Detail: "the stiffness of this panel is not positive; check the elastic constants"}
	}
	out.shape(&p, &in)
	out.Layers = make([]Kept, len(p.plies))
	for i := range p.plies {
		p.keep(&p.plies[i], &out.Layers[i])
	}
	if k := &out.Layers[0]; len(p.plies) == 1 && in.Layers[0].Grain == 0 { // it moves as its wood does
		out.ChangeLength, out.ChangeWidth = alone(out.ChangeLength, k.Along), alone(out.ChangeWidth, k.Across)
	}
	if len(p.plies) > 1 {
		out.Notes.Rest(&glueRow)
		out.GlueLines = p.glueLines(float64(in.Length), float64(in.Width), glue)
	}
	out.Notes.Rest(&creepRow)
	out.Creep = Creep{StressLow: 0.3, StressHigh: 0.8, BendingLow: 0.5, BendingHigh: 1}
	return out, nil
}

// alone cuts the band of a layer by itself where that of its free strain ends at 0, which wood that
// dries or takes up moisture does not pass.
func alone(change quantity.Band[quantity.Length], free quantity.Band[float64]) quantity.Band[quantity.Length] {
	if free.High == 0 {
		change.High = min(change.High, 0)
	}
	if free.Low == 0 {
		change.Low = max(change.Low, 0)
	}
	return change
}

func (p *panel) prepare(n *method.Notes, in *Panel) error {
	if err := n.Use(&panelRow, "layers", float64(len(in.Layers))); err != nil {
		return err
	}
	if err := n.Use(&panelRow, "length", tidy(in.Length.Millimetres())); err != nil {
		return err
	}
	if err := n.Use(&panelRow, "width", tidy(in.Width.Millimetres())); err != nil {
		return err
	}
	for i := range in.Layers {
		l := &in.Layers[i]
		var size method.Notes
		err := size.Use(&panelRow, "thickness", tidy(l.Thickness.Millimetres()))
		n.MergeFor("layers/"+strconv.Itoa(i), l.called(), size)
		if err != nil {
			return method.Below(err, "layers/"+strconv.Itoa(i))
		}
		p.h += float64(l.Thickness)
		if j := alike(in.Layers[:i], l); j >= 0 {
			p.plies[i] = p.plies[j]
			continue
		}
		var own method.Notes
		err = p.plies[i].fill(&own, l)
		n.MergeFor("layers/"+strconv.Itoa(i), l.called(), own)
		if err != nil {
			return method.Below(err, "layers/"+strconv.Itoa(i))
		}
	}
	z := -0.5
	for i := range p.plies {
		t := float64(in.Layers[i].Thickness) / p.h
		p.plies[i].t, p.plies[i].z = t, z+t/2
		z += t
	}
	return nil
}

// alike returns the number of a layer before l that differs in thickness at most, or -1.
func alike(before []Layer, l *Layer) int {
	for j := len(before) - 1; j >= 0; j-- {
		if same(&before[j], l) {
			return j
		}
	}
	return -1
}

func (w *Warped) shape(p *panel, in *Panel) {
	l, b := float64(in.Length), float64(in.Width)
	unit := func(i int, scale float64) quantity.Band[float64] {
		var v vec6
		v[i] = scale
		return p.band(&v)
	}
	w.ChangeLength, w.ChangeWidth = as[quantity.Length](unit(0, l)), as[quantity.Length](unit(1, b))
	w.Shear = as[quantity.Angle](unit(2, 1))
	w.CurvatureX, w.CurvatureY, w.TwistXY = unit(3, 1/p.h), unit(4, 1/p.h), unit(5, 1/p.h)
	// kappa = -w_xx: hollow below is positive, the sagitta kappa l^2/8 hollow above the other way
	w.Bow, w.Cup = as[quantity.Length](unit(3, -l*l/(8*p.h))), as[quantity.Length](unit(4, -b*b/(8*p.h)))
	// w = -kappa_xy x y/2: the corners stand out by kappa_xy l b/8 each, the fourth over three by 4 of that
	w.CornerLift = as[quantity.Length](unit(5, l*b/(2*p.h)))
	w.Symmetric, w.Balanced = p.symmetric(), p.balanced()
	for r := range 3 {
		for c := range 3 {
			w.Stiffness.A[r][c] = p.k[r][c] * p.h
			w.Stiffness.B[r][c] = p.k[r][c+3] * p.h * p.h
			w.Stiffness.D[r][c] = p.k[r+3][c+3] * p.h * p.h * p.h
		}
	}
}

// nought is the share below which a figure counts as nothing.
const nought = 1e-10

func (p *panel) symmetric() bool {
	for i, j := 0, len(p.plies)-1; i <= j; i, j = i+1, j-1 {
		a, b := &p.plies[i], &p.plies[j]
		if math.Abs(a.t-b.t) > nought {
			return false
		}
		for r := range 3 {
			if math.Abs(a.e[r]-b.e[r]) > nought || math.Abs(a.tilt[r]+b.tilt[r]) > nought {
				return false
			}
			for c := range 3 {
				if math.Abs(a.q[r][c]-b.q[r][c]) > nought*(a.q[0][0]+a.q[1][1]) {
					return false
				}
			}
		}
	}
	return true
}

func (p *panel) balanced() bool {
	most := nought * (p.k[0][0] + p.k[1][1])
	return math.Abs(p.k[0][2]) < most && math.Abs(p.k[1][2]) < most
}

// keep fills in the states at both faces of a layer.
func (p *panel) keep(l *ply, into *Kept) {
	turn := l.rows()
	var stress [3]vec3 // rows of the stiffness in the layer's own axes times the turn
	for c := range 3 {
		stress[0][c] = l.plane.q11*turn[0][c] + l.plane.q12*turn[1][c]
		stress[1][c] = l.plane.q12*turn[0][c] + l.plane.q22*turn[1][c]
		stress[2][c] = l.plane.q66 * turn[2][c]
	}
	into.Along, into.Across = l.along, l.across
	for _, face := range [...]struct {
		z float64
		h *Held
	}{{l.z - l.t/2, &into.Lower}, {l.z + l.t/2, &into.Upper}} {
		var there place
		p.fill(&there, l, face.z)
		face.h.StrainAlong, face.h.StrainAcross = there.band(&turn[0], &there.strain), there.band(&turn[1], &there.strain)
		face.h.StressAlong = as[quantity.Pressure](there.band(&stress[0], &there.stress))
		face.h.StressAcross = as[quantity.Pressure](there.band(&stress[1], &there.stress))
		face.h.Shear = quantity.Pressure(dot3(&stress[2], &there.held))
	}
}

func as[T ~float64](b quantity.Band[float64]) quantity.Band[T] {
	return quantity.Band[T]{Value: T(b.Value), Low: T(b.Low), High: T(b.High)}
}
