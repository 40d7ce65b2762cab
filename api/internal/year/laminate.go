package year

import (
	"errors"
	"slices"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/sorption"
)

// ServiceLaminate is finished work of glued layers.
type ServiceLaminate struct {
	ID     string           `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the laminate; no two laminates, nor a laminate and a part, have the same. Left out: its position in the list, such as \"1\""`
	Name   string           `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Layers []shelf.Layer    `json:"layers" validate:"required,min=1,max=32,dive" description:"the layers from face 1, the outside, down; of a neck of staves from one side to the other. Their later_condition has no bearing: the room says what they come to"`
	Length *wire.Length     `json:"length" validate:"required,gte=0.001,lte=30" description:"length of the laminate"`
	Width  *wire.Length     `json:"width" validate:"required,gte=0.001,lte=10" description:"width of the laminate, in the plane of its layers"`
	Build  *shelf.Condition `json:"build_condition,omitempty" description:"condition of the layers when they were glued flat, of each that has no glue_up_condition. Left out: that of all parts"`
	Finish *Finishes        `json:"finish,omitempty" description:"what is on face 1, the outside, and on face 2; moisture passes these two faces and not the edges. Left out: bare"`
	Glue   *shelf.GlueLayer `json:"glue,omitempty" description:"the glue between the layers. Left out: 0.1 mm of 300 MPa, through which moisture passes unhindered"`
}

// names are what the request calls the inputs of a laminate that stands at a place.
func (l *ServiceLaminate) names(at string) [][2]string {
	names := [][2]string{{at + "glue_thickness", at + "glue/thickness"}, {at + "glue_shear_modulus", at + "glue/shear_modulus"},
		{at + "glue_resistance", at + "glue/resistance_s_per_m"}, {at + "max_steps", "/room"}}
	for i := range l.Layers {
		there := at + "layers/" + strconv.Itoa(i) + "/"
		built := "/build_condition"
		switch {
		case l.Layers[i].AtGlueUp != nil:
			built = there + "glue_up_condition"
		case l.Build != nil:
			built = at + "build_condition"
		}
		names = append(append(names, shelf.WoodNames(there)...), [2]string{there + "modulus_along", there + "wood/modulus_of_elasticity"},
			[2]string{there + "ring_angle_deg", there + "rings"}, [2]string{there + "grain_deg", there + "grain_angle_deg"},
			[2]string{there + "drying_factor", there + "wood/drying_factor/value"}, [2]string{there + "at_glue_up_mc_pct", built},
			[2]string{there + "from_mc_pct", built})
	}
	return names
}

// layered is a laminate ready for the physics.
type layered struct {
	inservice.Layered
	req     *ServiceLaminate
	id      string
	woods   []*shelf.Wood
	factors []drying.Factor
}

// laminates reads the laminates and tells what is wrong with any of them at once.
func (a *parts) laminates(requests []ServiceLaminate) ([]*layered, error) {
	problems := []error{ids("laminates", len(requests), func(i int) string { return requests[i].ID })}
	all := make([]*layered, len(requests))
	for i := range requests {
		at := "laminates/" + strconv.Itoa(i)
		l, err := a.laminate(&requests[i], i)
		problems = append(problems, wire.Under("", wire.Under(at, err), requests[i].names(at+"/")...))
		all[i] = l
	}
	return all, errors.Join(problems...)
}

// laminate reads a laminate; errors are relative to it.
func (a *parts) laminate(req *ServiceLaminate, i int) (*layered, error) {
	l := &layered{req: req, id: shelf.IDOf(req.ID, i), Layered: inservice.Layered{
		Name: calledBy(req.Name, req.ID, "laminate", i), Length: req.Length.SI, Width: req.Width.SI, Glue: req.Glue.Told(),
		Layers: make([]inservice.GluedLayer, len(req.Layers))}}
	if req.Glue != nil && req.Glue.Vapour != nil {
		l.GlueVapour = *req.Glue.Vapour
	}
	problems := []error{ids("layers", len(req.Layers), func(k int) string { return req.Layers[k].ID })}
	if req.Glue != nil && len(req.Layers) == 1 {
		problems = append(problems, wire.Contradictory("glue", "one layer has no glue line"))
	}
	var noFaces error
	l.Faces, noFaces = req.Finish.faces()
	problems = append(problems, noFaces)
	for k := range req.Layers {
		wood, factor, err := a.layer(req, i, k, &l.Layers[k])
		problems = append(problems, wire.Under("layers/"+strconv.Itoa(k), err))
		l.woods, l.factors = append(l.woods, wood), append(l.factors, factor)
	}
	return l, errors.Join(problems...)
}

// layer reads a layer; errors are relative to it.
func (a *parts) layer(req *ServiceLaminate, i, k int, into *inservice.GluedLayer) (*shelf.Wood, drying.Factor, error) {
	in := &req.Layers[k]
	layer, wood, err := in.Read(a.tables, &req.Width.SI, k, &into.Notes)
	into.Layer = layer
	if err != nil || wood == nil {
		return wood, drying.Factor{}, err
	}
	if _, err := wood.BasicGravity(&into.Notes); err != nil {
		return wood, drying.Factor{}, err
	}
	factor, err := drying.FactorOf(&into.Wood, into.Thickness, into.Ring, in.Wood.DryingFactor())
	if err != nil {
		return wood, factor, err
	}
	into.Notes.Merge(factor.Notes)
	into.Factor, into.FactorSpread, into.Curves = factor.Median, factor.SpreadLog, sorption.CurvesOf(&into.Wood)
	if into.Transport, err = a.transport(into.Wood); err != nil {
		return wood, factor, err
	}
	into.TwoAirs, err = a.glued(req, i, in, wood, into)
	return wood, factor, err
}

// glued is the moisture content of a layer at glue-up, and whether an air says it.
func (a *parts) glued(req *ServiceLaminate, i int, in *shelf.Layer, wood *shelf.Wood, into *inservice.GluedLayer) (inAir bool, err error) {
	told := a.made
	switch {
	case in.AtGlueUp != nil:
		told = in.AtGlueUp
		into.AtGlueUp, err = told.Moisture("glue_up_condition", wood, &into.Notes)
	case req.Build != nil:
		told = req.Build
		into.AtGlueUp, err = told.Moisture("/laminates/"+strconv.Itoa(i)+"/build_condition", wood, a.notes)
	default:
		into.AtGlueUp, err = a.shared(wood)
	}
	return err == nil && told.InAir(), err
}

// allLayered are the laminates as the physics takes them.
func allLayered(all []*layered) []inservice.Layered {
	out := make([]inservice.Layered, 0, len(all))
	for _, l := range all {
		out = append(out, l.Layered)
	}
	return out
}

// idleLaminates names what has no bearing on the year of laminates.
func idleLaminates(requests []ServiceLaminate, notes *method.Notes) {
	used := slices.Concat(shelf.LayerUsed, []string{"wood/specific_gravity", "wood/drying_factor"})
	var idle shelf.NotUsed
	for i := range requests {
		for k := range requests[i].Layers {
			idle.Look("laminates/"+strconv.Itoa(i)+"/layers/"+strconv.Itoa(k), &requests[i].Layers[k], used...)
		}
	}
	idle.Tell(notes)
}
