package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
)

// LaminateResult is what becomes of layers glued flat.
type LaminateResult struct {
	Summary    string           `json:"summary" required:"true" description:"The answer in a sentence."`
	Cup        wire.Band        `json:"cup" required:"true" description:"Bend over the width. Positive: hollow on face 1."`
	Bow        wire.Band        `json:"bow" required:"true" description:"Bend over the length. Positive: hollow on face 1."`
	CornerLift wire.Band        `json:"corner_lift" required:"true" description:"With three corners down, how far the fourth stands up; the sign says which diagonal."`
	Length     wire.Band        `json:"length_change" required:"true" description:"Change of the length at mid-thickness; positive is swelling."`
	Width      wire.Band        `json:"width_change" required:"true" description:"Change of the width at mid-thickness; positive is swelling."`
	ShearDeg   wire.Band        `json:"shear" required:"true" description:"Change of the corners in the plane of the panel."`
	Across     wire.Band        `json:"curvature_across" required:"true" description:"Curvature over the width. Positive: hollow on face 1."`
	Along      wire.Band        `json:"curvature_along" required:"true" description:"Curvature over the length. Positive: hollow on face 1."`
	Twist      wire.Band        `json:"twist" required:"true" description:"Engineering twist curvature of the surface; the corner lift is this times length times width over 2."`
	Symmetric  bool             `json:"symmetric" required:"true" description:"The layers are a mirror image about mid-thickness: the panel stays flat but for differences between pieces, which are in the bands."`
	Balanced   bool             `json:"balanced" required:"true" description:"The plane of the panel does not shear."`
	Layers     []LayerStress    `json:"layers" required:"true" nullable:"false" description:"The layers from face 1, the top, down."`
	GlueLines  []GlueLineStress `json:"glue_lines" required:"true" nullable:"false" description:"The glue between each layer and the next below, from face 1 down."`
	Creep      CreepLeft        `json:"creep" required:"true" description:"What is left of stress and bend after weeks and months."`
	Strip      *StripBent       `json:"strip,omitempty" description:"Two layers with the grain along the length as plain strips across the width alone, as for a cap on a body. Left out for any other panel."`

	// What the drawing takes.
	report wire.Reporter
	stack  laminate.Stack
	glued  *laminate.Glued
}

// StressBand is a stress with the ends of its 90 % band.
type StressBand = wire.Band

// LayerStress is what a layer holds.
type LayerStress struct {
	ID       string         `json:"id" required:"true" description:"Your id of the layer, or its position."`
	Name     string         `json:"name,omitempty" description:"Your name for the layer."`
	Wood     shelf.WoodUsed `json:"wood" required:"true" description:"The wood, with the figures the answer rests on."`
	GlueUp   wire.Band      `json:"glue_up_mc" required:"true" description:"Moisture content when it was glued."`
	Later    wire.Band      `json:"later_mc" required:"true" description:"Moisture content that it comes to."`
	Modulus  wire.Quantity  `json:"modulus_along" required:"true" description:"Modulus of elasticity along the grain, 1.10 times that from bending."`
	FreeLong wire.Band      `json:"free_strain_along" required:"true" description:"Change along the grain in percent, had it not been glued."`
	FreeWide wire.Band      `json:"free_strain_across" required:"true" description:"Change across the grain in percent, had it not been glued."`
	Face1    FaceStress     `json:"face_1" required:"true" description:"At the face of the layer that looks to face 1 of the panel."`
	Face2    FaceStress     `json:"face_2" required:"true" description:"At its other face."`
}

// FaceStress is the state at one face of a layer, positive in tension.
type FaceStress struct {
	StrainAlong  wire.Band  `json:"strain_along" required:"true" description:"Strain along the grain in percent of the size it would have free; positive: it is pulled."`
	StrainAcross wire.Band  `json:"strain_across" required:"true" description:"Strain across the grain in percent of the size it would have free; positive: it is pulled."`
	StressAlong  StressBand `json:"stress_along" required:"true" description:"Elastic stress along the grain, positive in tension; creep takes off a part."`
	StressAcross StressBand `json:"stress_across" required:"true" description:"Elastic stress across the grain, positive in tension; creep takes off a part."`
}

// OrderBand is an order of magnitude, not a 90 % band.
type OrderBand struct {
	Value float64 `json:"value" required:"true" description:"The order of magnitude."`
	Low   float64 `json:"low" required:"true" description:"A third of it."`
	High  float64 `json:"high" required:"true" description:"Three times it."`
	Unit  string  `json:"unit" required:"true" description:"Unit of the three."`
}

// GlueLineStress is what the glue between two layers carries at the edges.
type GlueLineStress struct {
	Length  wire.Band `json:"free_difference_along" required:"true" description:"Change of the upper layer less that of the lower over the length, had they not been glued; the band takes both layers as independent."`
	Width   wire.Band `json:"free_difference_across" required:"true" description:"The same over the width."`
	AtEnds  GlueEdge  `json:"at_ends" required:"true" description:"At the two edges across the length."`
	AtSides GlueEdge  `json:"at_sides" required:"true" description:"At the two edges along the length."`
	Note    string    `json:"note" required:"true" description:"How far the estimate goes."`
}

// GlueEdge is the order of the stress at one pair of edges.
type GlueEdge struct {
	Shear OrderBand     `json:"shear" required:"true" description:"Shear stress in the glue at the edge."`
	Peel  OrderBand     `json:"peel" required:"true" description:"Stress that peels the joint, its size only: whether it opens or closes the joint depends on the stack."`
	Zone  wire.Quantity `json:"zone" required:"true" description:"How far in from the edge the stress falls to about a third."`
}

// CreepLeft says what creep leaves.
type CreepLeft struct {
	Stress  wire.Range `json:"stress_share" required:"true" description:"Share of the elastic stress that is left."`
	Bending wire.Range `json:"bending_share" required:"true" description:"Share of the elastic cup, bow and twist that is left."`
	Note    string     `json:"note" required:"true" description:"What the shares rest on."`
}

// StripBent is the strip of two layers.
type StripBent struct {
	Difference wire.Band      `json:"strain_difference" required:"true" description:"Change of layer 2 less that of layer 1, in percent; positive: layer 1 becomes the narrower."`
	Free       wire.Band      `json:"free_difference" required:"true" description:"Difference of the widths, had they not been glued."`
	Ratio      float64        `json:"stiffness_ratio" required:"true" description:"Stiffness of layer 1 over that of layer 2, across the grain."`
	Curvature  wire.Band      `json:"curvature" required:"true" description:"Curvature over the width. Positive: hollow on face 1."`
	Radius     *wire.Quantity `json:"radius,omitempty" description:"Radius of the bend. Left out where it stays flat."`
	Cup        wire.Band      `json:"cup" required:"true" description:"Bend over the width. Positive: hollow on face 1."`
	Note       string         `json:"note" required:"true" description:"What the strip leaves out."`
}
