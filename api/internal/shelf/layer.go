package shelf

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Layer is one layer.
type Layer struct {
	ID        string       `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the layer. Left out: its position in the list, such as \"1\""`
	Name      string       `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Wood      *WoodAsked   `json:"wood,omitempty" description:"its name, or figures of your own"`
	Thickness *wire.Length `json:"thickness" validate:"required,gte=0.0001,lte=1" description:"thickness of the layer"`
	Grain     *float64     `json:"grain_angle_deg,omitempty" validate:"omitempty,gte=-180,lte=180" default:"0" description:"angle from the length of the panel to the grain, anticlockwise as seen on face 1: 0 along the length, 90 across it"`
	Rings     *Rings       `json:"rings" validate:"required" description:"how the growth rings lie in the layer, seen on the end of its grain; only their angle to the face counts here"`
	AtGlueUp  *Condition   `json:"glue_up_condition,omitempty" description:"condition of this layer when it was glued. Left out: that of the panel"`
	Later     *Condition   `json:"later_condition,omitempty" description:"condition that this layer comes to. Left out: that of the panel"`
}

// GlueLayer is the glue between two layers.
type GlueLayer struct {
	Thickness *wire.Length    `json:"thickness,omitempty" validate:"omitempty,gte=0.000001,lte=0.01" description:"thickness of the glue line. Left out: 0.1 mm, assumed"`
	Modulus   *wire.Stiffness `json:"shear_modulus,omitempty" validate:"omitempty,gte=1e6,lte=10e9" description:"shear modulus of the cured glue; softer glue carries less at the edge. Left out: 300 MPa, assumed"`
	Vapour    *float64        `json:"resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9" description:"resistance of each glue line to vapour, which sets the layers apart through the year; has no bearing where each layer says what it comes to. Left out: none"`
}

// LayerUsed are the members of a layer that any laminate rests on.
var LayerUsed = slices.Concat([]string{"thickness", "grain_angle_deg", "glue_up_condition", "wood/group", "wood/modulus_of_elasticity"},
	Below("wood", WoodInMovement...), Below("rings", "pith", "readings", "chord", "angle_deg", "pith_side"))

// Told is the glue as the chapter takes it; the usual one where none is told.
func (g *GlueLayer) Told() laminate.Glue {
	var glue laminate.Glue
	if g == nil {
		return glue
	}
	if g.Thickness != nil {
		glue.Thickness = g.Thickness.SI
	}
	if g.Modulus != nil {
		glue.ShearModulus = g.Modulus.SI
	}
	return glue
}

// TellAssumed tells what is taken of the glue of several layers where it was not given.
func (g *GlueLayer) TellAssumed(report wire.Reporter, notes *method.Notes) {
	var taken []string
	if g == nil || g.Thickness == nil {
		taken = append(taken, laminate.UsualGlueThickness.Format(report.LengthUnit)+" thick")
	}
	if g == nil || g.Modulus == nil {
		modulus := report.Stress(laminate.UsualGlueShear)
		taken = append(taken, "of a shear modulus of "+quantity.FormatNumber(modulus.Value, 0)+" "+modulus.Unit)
	}
	if len(taken) > 0 {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "glue",
			Detail: "the glue is taken as " + strings.Join(taken, " and ") + ", assumed, of the order of a set white or hide glue; the stress at its edges rests on that"})
	}
}

// Read is the layer at a position of a panel of a width, with its wood, which is nil where it
// is not known; its moisture contents are still to be set. Errors and notes are relative to
// the layer.
func (l *Layer) Read(t *Tables, width *quantity.Length, i int, notes *method.Notes) (laminate.Layer, *Wood, error) {
	var out laminate.Layer
	wood, noWood := t.WoodOf(l.Wood, notes)
	told := len(notes.Warnings)
	ring, noRing := l.Rings.Ring(width, l.Thickness.SI, notes)
	notes.Place(told, "rings")
	var notElastic error
	if wood != nil {
		told = len(notes.Warnings)
		out, notElastic = laminate.LayerOf(wood.Value, notes)
		notes.RenameFrom(told, WoodNames("")...)
	}
	out.Name, out.Thickness, out.Ring = l.called(wood, i), l.Thickness.SI, ring.Angle
	if l.Grain != nil {
		out.Grain = quantity.Angle(*l.Grain) * quantity.Degree
	}
	return out, wood, errors.Join(noWood, wire.Under("rings", noRing), wire.Under("", notElastic, WoodNames("")...))
}

// called is what people read of the layer: its name, its id, or its position with its wood.
func (l *Layer) called(wood *Wood, i int) string {
	switch {
	case l.Name != "":
		return l.Name
	case l.ID != "":
		return l.ID
	case wood != nil:
		return "layer " + strconv.Itoa(i+1) + ", " + wood.Common
	}
	return "layer " + strconv.Itoa(i+1)
}
