package shape

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// LaminateRequest asks what becomes of layers glued flat.
type LaminateRequest struct {
	Layers   []GluedLayer      `json:"layers" validate:"required,min=1,max=32,dive" description:"from the bottom up"`
	Length   *wire.Length      `json:"length" validate:"required,gte=0.001,lte=30" description:"of the panel"`
	Width    *wire.Length      `json:"width" validate:"required,gte=0.001,lte=10" description:"of the panel"`
	AtGlueUp *shelf.Conditions `json:"glue_up_condition,omitempty" description:"of every layer that has no glue_up_condition of its own; exactly one of mc_pct, air and green"`
	Later    *shelf.Conditions `json:"later_condition,omitempty" description:"of every layer that has no later of its own"`
	Glue     *GlueLayer        `json:"glue,omitempty"`
	Strip    *StripAsked       `json:"strip,omitempty" description:"for two layers with the grain along the length, where the plain strip is shown in any case"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *LaminateRequest) System() string { return req.ReportIn }

// Bytes of an answer, at most: those that any has, and those of a layer. Measured and
// rounded up.
const (
	panelBytes = 16 << 10
	layerBytes = 7 << 10
)

// Bulk is how many bytes the answer holds at most.
func (req *LaminateRequest) Bulk() int { return panelBytes + len(req.Layers)*layerBytes }

// GluedLayer is one layer.
type GluedLayer struct {
	Wood      *shelf.WoodAsked  `json:"wood,omitempty" description:"its name, or figures of your own"`
	Thickness *wire.Length      `json:"thickness" validate:"required,gte=0.0001,lte=1"`
	Grain     *float64          `json:"grain_angle_deg,omitempty" validate:"omitempty,gte=-180,lte=180" default:"0" description:"from the length of the panel to the grain, anticlockwise from above: 0 along the length, 90 across it"`
	Ring      *float64          `json:"ring_angle_deg" validate:"required,gte=0,lte=90" description:"between the rings and the face: 0 flatsawn, 90 quartersawn"`
	AtGlueUp  *shelf.Conditions `json:"glue_up_condition,omitempty" description:"in place of that of the panel"`
	Later     *shelf.Conditions `json:"later_condition,omitempty" description:"in place of that of the panel"`
}

// GlueLayer is the glue between two layers.
type GlueLayer struct {
	Thickness *wire.Length    `json:"thickness,omitempty" validate:"omitempty,gte=0.000001,lte=0.01" description:"default 0.1 mm, assumed"`
	Modulus   *wire.Stiffness `json:"shear_modulus,omitempty" validate:"omitempty,gte=1e6,lte=10e9" description:"default 300 MPa, assumed; softer glue carries less at the edge"`
}

// StripAsked is what the strip of two layers takes in place of the tables.
type StripAsked struct {
	Ratio *float64 `json:"stiffness_ratio" validate:"required,gte=0.01,lte=100" description:"of the upper layer over the lower, across the grain; 1 for equal stiffness"`
}

// ComputeLaminate answers what becomes of layers glued flat.
func ComputeLaminate(_ context.Context, t *shelf.Tables, req *LaminateRequest) (*LaminateResult, method.Notes, error) {
	var notes method.Notes
	stack, woods, err := req.stack(t, &notes)
	if err != nil {
		return nil, notes, err
	}
	glued, err := laminate.GlueUp(stack)
	if err != nil {
		return nil, notes, req.pointed(err)
	}
	notes.Merge(glued.Notes)
	return describeLaminate(&stack, &glued, woods, wire.ReportIn(req.ReportIn)), notes, nil
}

// stack is the panel in SI, with the wood of each layer.
func (req *LaminateRequest) stack(t *shelf.Tables, notes *method.Notes) (laminate.Stack, []*shelf.Wood, error) {
	s := laminate.Stack{Panel: laminate.Panel{Length: req.Length.SI, Width: req.Width.SI,
		Layers: make([]laminate.Layer, len(req.Layers))}}
	woods := make([]*shelf.Wood, len(req.Layers))
	var wrong []error
	for i := range req.Layers {
		wood, err := req.layer(t, i, &s.Layers[i], notes)
		woods[i], wrong = wood, append(wrong, err)
	}
	if g := req.Glue; g != nil {
		s.GlueTold = true
		if g.Thickness != nil {
			s.Glue.Thickness = g.Thickness.SI
		}
		if g.Modulus != nil {
			s.Glue.ShearModulus = g.Modulus.SI
		}
	}
	if req.Strip != nil {
		s.StripRatio = *req.Strip.Ratio
	}
	return s, woods, errors.Join(append(wrong, s.Check())...)
}

// layer makes one layer ready.
func (req *LaminateRequest) layer(t *shelf.Tables, i int, l *laminate.Layer, notes *method.Notes) (*shelf.Wood, error) {
	in := &req.Layers[i]
	member := "layers/" + strconv.Itoa(i)
	wood, noWood := t.WoodOf(in.Wood, notes)
	rich := wood.SettlesLower()
	first, atFirst, noFirst := conditions(in.AtGlueUp, req.AtGlueUp, member, "glue_up_condition", rich, notes)
	later, atLater, noLater := conditions(in.Later, req.Later, member, "later_condition", rich, notes)
	var notElastic error
	if wood != nil {
		*l, notElastic = laminate.LayerOf(wood.Value, notes)
	}
	l.Thickness, l.Ring = in.Thickness.SI, quantity.Angle(*in.Ring)*quantity.Degree
	if in.Grain != nil {
		l.Grain = quantity.Angle(*in.Grain) * quantity.Degree
	}
	if err := errors.Join(wire.Under(member, noWood), noFirst, noLater, wire.Under(member, notElastic, shelf.WoodNames("")...)); err != nil {
		return wood, err
	}
	l.AtGlueUp, l.Later, l.TwoAirs = first, later, atFirst.InAir() && atLater.InAir()
	return wood, nil
}

// conditions are those of the layer, or of the panel.
func conditions(own, shared *shelf.Conditions, member, name string, rich bool,
	notes *method.Notes) (quantity.Band[quantity.Moisture], *shelf.Conditions, error) {
	switch {
	case own != nil:
		mc, err := own.Moisture(member+"/"+name, rich, notes)
		return mc, own, err
	case shared != nil:
		mc, err := shared.Moisture(name, rich, notes)
		return mc, shared, err
	}
	return quantity.Band[quantity.Moisture]{}, nil, wire.Missing(member+"/"+name,
		"say "+name+" of this layer, or once for the panel")
}

// pointed points at the members of this request.
func (req *LaminateRequest) pointed(err error) error {
	names := [][2]string{{"glue_thickness", "glue/thickness"}, {"glue_shear_modulus", "glue/shear_modulus"}}
	for i := range req.Layers {
		in := &req.Layers[i]
		at := "layers/" + strconv.Itoa(i) + "/"
		names = append(names, shelf.WoodNames(at)...)
		first, later := "glue_up_condition", "later_condition"
		if in.AtGlueUp != nil {
			first = at + first
		}
		if in.Later != nil {
			later = at + later
		}
		names = append(names, [2]string{at + "at_glue_up_mc_pct", first}, [2]string{at + "later_mc_pct", later},
			[2]string{at + "from_mc_pct", first}, [2]string{at + "to_mc_pct", later},
			[2]string{at + "modulus_along", at + "wood/modulus_of_elasticity"}, [2]string{at + "modulus", at + "wood/modulus_of_elasticity"})
	}
	return wire.Under("", err, names...)
}
