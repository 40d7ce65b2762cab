package shape

import (
	"context"
	"errors"
	"math"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// LaminateRequest asks what becomes of layers glued flat.
type LaminateRequest struct {
	Layers   []GluedLayer      `json:"layers" validate:"required,min=1,max=32,dive" description:"from the bottom up"`
	Length   *wire.Length      `json:"length" validate:"required,gte=0.001,lte=30" description:"of the panel"`
	Width    *wire.Length      `json:"width" validate:"required,gte=0.001,lte=10" description:"of the panel"`
	AtGlueUp *shelf.Conditions `json:"at_glue_up,omitempty" description:"of every layer that has no at_glue_up of its own; exactly one of mc_pct, air and green"`
	Later    *shelf.Conditions `json:"later,omitempty" description:"of every layer that has no later of its own"`
	Glue     *GlueLayer        `json:"glue,omitempty"`
	Strip    *StripAsked       `json:"strip,omitempty" description:"for two layers with the grain along the length, where the plain strip is shown in any case"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *LaminateRequest) System() string { return r.ReportIn }

// GluedLayer is one layer.
type GluedLayer struct {
	Species   string            `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood      *shelf.OwnWood    `json:"wood,omitempty"`
	Modulus   *wire.Pressure    `json:"bending_modulus,omitempty" validate:"omitempty,gte=500e6,lte=50e9" description:"of elasticity, at about 12 %; default: that of the species. Along the grain 1.10 of it is used"`
	Group     string            `json:"group,omitempty" validate:"omitempty,oneof=hardwood softwood" description:"whose mean stands for elastic ratios that are not known; needed for your own wood"`
	Thickness *wire.Length      `json:"thickness" validate:"required,gte=0.0001,lte=1"`
	Grain     *float64          `json:"grain_deg,omitempty" validate:"omitempty,gte=-180,lte=180" default:"0" description:"from the length of the panel to the grain, anticlockwise from above: 0 along the length, 90 across it"`
	Ring      *float64          `json:"ring_angle_deg" validate:"required,gte=0,lte=90" description:"between the rings and the face: 0 flatsawn, 90 quartersawn"`
	AtGlueUp  *shelf.Conditions `json:"at_glue_up,omitempty" description:"in place of that of the panel"`
	Later     *shelf.Conditions `json:"later,omitempty" description:"in place of that of the panel"`
}

// GlueLayer is the glue between two layers.
type GlueLayer struct {
	Thickness *wire.Length   `json:"thickness,omitempty" validate:"omitempty,gte=0.000001,lte=0.01" description:"default 0.1 mm, assumed"`
	Modulus   *wire.Pressure `json:"shear_modulus,omitempty" validate:"omitempty,gte=1e6,lte=10e9" description:"default 300 MPa, assumed; softer glue carries less at the edge"`
}

// StripAsked is what the strip of two layers takes in place of the tables.
type StripAsked struct {
	Ratio *float64 `json:"stiffness_ratio" validate:"required,gte=0.01,lte=100" description:"of the upper layer over the lower, across the grain; 1 for equal stiffness"`
}

// laminateWork is the work on one request.
type laminateWork struct {
	req    *LaminateRequest
	woods  []*shelf.Wood
	panel  laminate.Panel
	notes  method.Notes
	report wire.Reporter
}

func ComputeLaminate(_ context.Context, t *shelf.Tables, req *LaminateRequest) (*LaminateResult, method.Notes, error) {
	w := &laminateWork{req: req, report: wire.ReportIn(req.ReportIn)}
	w.panel = laminate.Panel{Length: req.Length.SI, Width: req.Width.SI, Layers: make([]laminate.Layer, len(req.Layers))}
	var all []error
	for i := range req.Layers {
		all = append(all, w.layer(t, i))
	}
	all = append(all, w.strange())
	if err := errors.Join(all...); err != nil {
		return nil, w.notes, err
	}
	if g := req.Glue; g != nil {
		if g.Thickness != nil {
			w.panel.Glue.Thickness = g.Thickness.SI
		}
		if g.Modulus != nil {
			w.panel.Glue.ShearModulus = g.Modulus.SI
		}
	}
	warped, err := laminate.Bend(w.panel)
	if err != nil {
		return nil, w.notes, w.pointed(err)
	}
	w.notes.Merge(warped.Notes)
	result := w.describe(&warped)
	if err := w.strip(result); err != nil {
		return nil, w.notes, err
	}
	w.remarkDeflection(&warped)
	return result, w.notes, nil
}

// strange are contradictions of the panel as a whole.
func (w *laminateWork) strange() error {
	var one, two error
	if len(w.req.Layers) < 2 && w.req.Glue != nil {
		one = wire.Contradictory("glue", "one layer has no glue line")
	}
	if w.req.Strip != nil && !w.stripped() {
		two = wire.Contradictory("strip", "the strip is that of two layers, both with the grain along the length (grain_deg 0 or 180)")
	}
	return errors.Join(one, two)
}

// layer makes one layer ready.
func (w *laminateWork) layer(t *shelf.Tables, i int) error {
	in := &w.req.Layers[i]
	member := "layers/" + strconv.Itoa(i)
	wood, noWood := t.WoodOf(in.Species, in.Wood, &w.notes)
	w.woods = append(w.woods, wood)
	rich := wood.SettlesLower()
	first, atFirst, noFirst := w.conditions(in.AtGlueUp, w.req.AtGlueUp, member, "at_glue_up", rich)
	later, atLater, noLater := w.conditions(in.Later, w.req.Later, member, "later", rich)
	elastic, notElastic := w.elastic(in, wood)
	if err := errors.Join(wire.Under(member, noWood), noFirst, noLater, wire.Under(member, notElastic)); err != nil {
		return err
	}
	if atFirst.Air != nil && atLater.Air != nil { // the errors of one piece in two airs go together
		first, later = sorption.SamePiece(first, later)
	}
	grain := 0.0
	if in.Grain != nil {
		grain = *in.Grain
	}
	w.panel.Layers[i] = laminate.Layer{
		Wood: wood.Value, Elastic: elastic, Thickness: in.Thickness.SI, Grain: quantity.Angle(grain) * quantity.Degree,
		Ring: quantity.Angle(*in.Ring) * quantity.Degree, AtGlueUp: first, Later: later,
	}
	wood.RemarkOnset(&w.notes)
	return nil
}

// conditions are those of the layer, or of the panel.
func (w *laminateWork) conditions(own, shared *shelf.Conditions, member, name string, rich bool) (quantity.Band[quantity.Moisture], *shelf.Conditions, error) {
	switch {
	case own != nil:
		mc, err := own.Moisture(member+"/"+name, rich, &w.notes)
		return mc, own, err
	case shared != nil:
		mc, err := shared.Moisture(name, rich, &w.notes)
		return mc, shared, err
	}
	return quantity.Band[quantity.Moisture]{}, nil, wire.Missing(member+"/"+name, "say "+name+" of this layer, or once for the panel")
}

// alongOverBending is the modulus along the grain over that from bending, which
// holds shear too: Wood Handbook p. 5-2, from memory.
const alongOverBending = 1.10

// elastic is the stiffness of the wood: from the tables, the caller and, where
// both are silent, the mean of the group.
func (w *laminateWork) elastic(in *GluedLayer, wood *shelf.Wood) (laminate.Elastic, error) {
	var e laminate.Elastic
	if wood == nil {
		return e, nil // which is told on its own
	}
	if wood.Row != nil {
		r := &wood.Row.Elastic
		e = laminate.Elastic{
			ETEL: shelf.Figure(r.ETEL, 1), EREL: shelf.Figure(r.EREL, 1), GLREL: shelf.Figure(r.GLREL, 1), GLTEL: shelf.Figure(r.GLTEL, 1), GRTEL: shelf.Figure(r.GRTEL, 1),
			PoissonLR: shelf.Figure(r.PoissonLR, 1), PoissonLT: shelf.Figure(r.PoissonLT, 1), PoissonRT: shelf.Figure(r.PoissonRT, 1),
		}
	}
	switch e.Group = laminate.Group(in.Group); {
	case e.Group != laminate.None:
	case wood.Row != nil:
		e.Group = ratioGroup(wood.Row)
	default:
		return e, wire.Missing("group", "say whether your own wood is a hardwood or a softwood; the mean of that group stands for its elastic ratios")
	}
	if in.Modulus != nil {
		e.EL = alongOverBending * in.Modulus.SI
		return e, nil
	}
	if wood.Row == nil {
		return e, wire.Missing("bending_modulus", "say the bending_modulus of your own wood, such as 11000 MPa")
	}
	mpa, known := wood.Row.ModulusOfElasticity12.Get()
	if !known {
		return e, wire.Missing("bending_modulus", "the tables hold no modulus of elasticity of "+wood.Common+"; say bending_modulus")
	}
	wood.Recalled(wood.Row.ModulusOfElasticity12, "modulus_of_elasticity", &w.notes)
	e.EL = alongOverBending * quantity.Pressure(mpa) * quantity.Megapascal
	return e, nil
}

// conifers are the genera among the imported woods that are softwoods; the
// tables group those by where they grow. General botany.
var conifers = []string{"Pinus", "Picea", "Abies", "Araucaria", "Podocarpus", "Agathis", "Cupressus", "Cedrus", "Larix"}

func ratioGroup(row *species.Wood) laminate.Group {
	genus, _, _ := strings.Cut(row.Botanical, " ")
	if row.Group == species.Softwood {
		return laminate.Softwood
	}
	for _, c := range conifers {
		if genus == c {
			return laminate.Softwood
		}
	}
	return laminate.Hardwood
}

// pointed points at the members of this request.
func (w *laminateWork) pointed(err error) error {
	err = wire.Under("", err, [2]string{"glue_thickness", "glue/thickness"}, [2]string{"glue_shear_modulus", "glue/shear_modulus"})
	for i := range w.req.Layers {
		in := &w.req.Layers[i]
		at := "layers/" + strconv.Itoa(i) + "/"
		first, later, wood := "at_glue_up", "later", at+"species"
		if in.AtGlueUp != nil {
			first = at + first
		}
		if in.Later != nil {
			later = at + later
		}
		if in.Wood != nil {
			wood = at + "wood"
		}
		renames := [][2]string{
			{at + "at_glue_up_mc_pct", first}, {at + "later_mc_pct", later}, {at + "from_mc_pct", first}, {at + "to_mc_pct", later},
			{at + "modulus_along", at + "bending_modulus"}, {at + "wood", wood}, {at + "radial_pct", wood}, {at + "tangential_pct", wood}, {at + "longitudinal_pct", wood},
			{at + "fibre_saturation_pct", wood}, {at + "coefficient_radial", wood}, {at + "coefficient_tangential", wood},
		}
		for _, ratio := range []string{"et_el", "er_el", "glr_el", "glt_el", "grt_el", "nu_lr", "nu_lt", "nu_rt"} {
			renames = append(renames, [2]string{at + ratio, wood})
		}
		err = wire.Under("", err, renames...)
	}
	return err
}

// stripped says that the strip of two layers holds.
func (w *laminateWork) stripped() bool {
	if len(w.req.Layers) != 2 {
		return false
	}
	for i := range w.req.Layers {
		if g := w.req.Layers[i].Grain; g != nil && *g != 0 && math.Abs(*g) != 180 {
			return false
		}
	}
	return true
}

// strip adds the plain strip of two layers beside the panel.
func (w *laminateWork) strip(r *LaminateResult) error {
	if !w.stripped() {
		return nil
	}
	var members [2]laminate.Member
	for i := range members {
		l := &w.panel.Layers[i]
		across, err := laminate.AcrossGrain(l.Elastic, l.Ring)
		if err != nil {
			return w.pointed(wire.Under("layers/"+strconv.Itoa(i), err))
		}
		members[i] = laminate.Member{Wood: l.Wood, Direction: movement.WidthAt(l.Ring, 0), Strip: laminate.Strip{Thickness: l.Thickness, Modulus: across.Modulus}, From: l.AtGlueUp, To: l.Later}
	}
	if w.req.Strip != nil {
		members[1].Strip.Modulus = members[0].Strip.Modulus * quantity.Pressure(*w.req.Strip.Ratio)
	}
	pair, err := laminate.CapAndBody(members[1], members[0], w.panel.Width)
	if err != nil {
		var renames [][2]string
		for i, part := range []string{"body/", "cap/"} {
			for _, in := range []string{"from_mc_pct", "to_mc_pct", "wood", "radial_pct", "tangential_pct", "fibre_saturation_pct", "coefficient_radial", "coefficient_tangential", "thickness"} {
				renames = append(renames, [2]string{part + in, "layers/" + strconv.Itoa(i) + "/" + in})
			}
			renames = append(renames, [2]string{part + "modulus", "layers/" + strconv.Itoa(i) + "/bending_modulus"})
		}
		return w.pointed(wire.Under("", err, renames...))
	}
	w.notes.Merge(pair.Notes)
	r.Strip = w.describeStrip(&pair, members[1].Strip.Modulus/members[0].Strip.Modulus)
	return nil
}

// remarkDeflection warns where the theory of small deflection is left.
func (w *laminateWork) remarkDeflection(p *laminate.Warped) {
	thick := quantity.Length(0)
	for i := range w.panel.Layers {
		thick += w.panel.Layers[i].Thickness
	}
	large := func(l quantity.Length) bool { return math.Abs(float64(l)) > float64(thick) }
	if large(p.Bow.Value) || large(p.Cup.Value) || large(p.CornerLift.Value) {
		w.notes.Warn(method.Warning{Code: method.OutsideFitted, Method: "laminate.panel", Input: "length",
			Detail: "the panel bends by more than it is thick; where it bends both ways or twists, so large a deflection is less than told"})
	}
}
