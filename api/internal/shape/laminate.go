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
	Layers   []shelf.Layer    `json:"layers" validate:"required,min=1,max=32,dive" description:"the layers from face 1, the top, down"`
	Length   *wire.Length     `json:"length" validate:"required,gte=0.001,lte=30" description:"length of the panel"`
	Width    *wire.Length     `json:"width" validate:"required,gte=0.001,lte=10" description:"width of the panel"`
	AtGlueUp *shelf.Condition `json:"glue_up_condition,omitempty" description:"condition of the layers when they were glued flat, of each that has none of its own"`
	Later    *shelf.Condition `json:"later_condition,omitempty" description:"condition that the layers come to, of each that has none of its own"`
	Glue     *shelf.GlueLayer `json:"glue,omitempty" description:"the glue between the layers, for its stress at the edges. Left out: 0.1 mm of 300 MPa"`
	Strip    *StripAsked      `json:"strip,omitempty" description:"your own stiffness for the plain strip that the answer shows of two layers with the grain along the length. Left out: that of the tables"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
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

// StripAsked is what the strip of two layers takes in place of the tables.
type StripAsked struct {
	Ratio *float64 `json:"stiffness_ratio" validate:"required,gte=0.01,lte=100" description:"stiffness of layer 1 over that of layer 2, both across the grain; 1 where they are equally stiff"`
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
	notes.Merge(wire.AtMembers(glued.Notes, req.pointed))
	req.idle(&notes)
	return describeLaminate(req, &stack, &glued, woods, wire.ReportIn(req.ReportIn)), notes, nil
}

// stack is the panel in SI, with the wood of each layer.
func (req *LaminateRequest) stack(t *shelf.Tables, notes *method.Notes) (laminate.Stack, []*shelf.Wood, error) {
	s := laminate.Stack{Panel: laminate.Panel{Length: req.Length.SI, Width: req.Width.SI,
		Layers: make([]laminate.Layer, len(req.Layers))}}
	woods := make([]*shelf.Wood, len(req.Layers))
	var wrong []error
	for i := range req.Layers {
		wood, err := req.layer(t, i, &s.Layers[upside(i, req)], notes)
		woods[i], wrong = wood, append(wrong, err)
	}
	s.GlueTold, s.Glue = req.Glue != nil, req.Glue.Told()
	if len(req.Layers) > 1 {
		req.Glue.TellAssumed(wire.ReportIn(req.ReportIn), notes)
	}
	if req.Strip != nil {
		s.StripRatio = *req.Strip.Ratio
	}
	return s, woods, errors.Join(append(wrong, s.Check())...)
}

// idle names what has no bearing on the answer.
func (req *LaminateRequest) idle(notes *method.Notes) {
	var idle shelf.NotUsed
	used := append([]string{"later_condition"}, shelf.LayerUsed...)
	for i := range req.Layers {
		idle.Look("layers/"+strconv.Itoa(i), &req.Layers[i], used...)
	}
	if req.Glue != nil {
		idle.Look("glue", req.Glue, "thickness", "shear_modulus")
	}
	idle.Tell(notes)
}

// upside is the number of a layer from the bottom, as the chapter counts, by that from the
// top, or the other way round.
func upside(i int, req *LaminateRequest) int { return len(req.Layers) - 1 - i }

// fromTop turns the numbers of layers from the bottom, as the chapter counts, into those from
// the top.
func (req *LaminateRequest) fromTop() [][2]string {
	var names [][2]string
	for i := range req.Layers {
		there, here := "layers/"+strconv.Itoa(upside(i, req)), "layers/"+strconv.Itoa(i)
		names = append(names, [2]string{there, here}, [2]string{there + "/", here + "/"})
	}
	return names
}

// layer makes one layer ready.
func (req *LaminateRequest) layer(t *shelf.Tables, i int, l *laminate.Layer, notes *method.Notes) (*shelf.Wood, error) {
	in := &req.Layers[i]
	member := "layers/" + strconv.Itoa(i)
	var own method.Notes
	read, wood, notRead := in.Read(t, &req.Width.SI, i, &own)
	notes.MergeFor(member, read.Name, own)
	*l = read
	first, atFirst, noFirst := conditions(in.AtGlueUp, req.AtGlueUp, member, "glue_up_condition", wood, notes)
	later, atLater, noLater := conditions(in.Later, req.Later, member, "later_condition", wood, notes)
	if err := errors.Join(wire.Under(member, notRead), noFirst, noLater); err != nil {
		return wood, err
	}
	l.AtGlueUp, l.Later, l.TwoAirs = first, later, atFirst.InAir() && atLater.InAir()
	return wood, nil
}

// conditions are those of the layer, or of the panel.
func conditions(own, shared *shelf.Condition, member, name string, w *shelf.Wood,
	notes *method.Notes) (quantity.Band[quantity.Moisture], *shelf.Condition, error) {
	switch {
	case own != nil:
		mc, err := own.Moisture(member+"/"+name, w, notes)
		return mc, own, err
	case shared != nil:
		mc, err := shared.Moisture(name, w, notes)
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
		at, there := "layers/"+strconv.Itoa(i)+"/", "layers/"+strconv.Itoa(upside(i, req))+"/"
		first, later := "glue_up_condition", "later_condition"
		if in.AtGlueUp != nil {
			first = at + first
		}
		if in.Later != nil {
			later = at + later
		}
		for _, n := range append(shelf.WoodNames(""), [2]string{"modulus_along", "wood/modulus_of_elasticity"},
			[2]string{"modulus", "wood/modulus_of_elasticity"}, [2]string{"ring_angle_deg", "rings"}, [2]string{"grain_deg", "grain_angle_deg"}) {
			names = append(names, [2]string{there + n[0], at + n[1]})
		}
		names = append(names, [2]string{there + "at_glue_up_mc_pct", first}, [2]string{there + "later_mc_pct", later},
			[2]string{there + "from_mc_pct", first}, [2]string{there + "to_mc_pct", later}, [2]string{there, at})
	}
	return method.Renamed(err, append(names, req.fromTop()...)...)
}
