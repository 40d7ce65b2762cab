package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
)

// LaminateResult is what becomes of layers glued flat.
type LaminateResult struct {
	Summary    string           `json:"summary" required:"true" description:"the answer in a sentence"`
	Cup        wire.Band        `json:"cup" required:"true" description:"bend over the width. Positive: hollow on face 1"`
	Bow        wire.Band        `json:"bow" required:"true" description:"bend over the length. Positive: hollow on face 1"`
	CornerLift wire.Band        `json:"corner_lift" required:"true" description:"with three corners down, how far the fourth stands up; the sign says which diagonal"`
	Length     wire.Band        `json:"length_change" required:"true" description:"change of the length at mid-thickness; positive is swelling"`
	Width      wire.Band        `json:"width_change" required:"true" description:"change of the width at mid-thickness; positive is swelling"`
	ShearDeg   wire.Band        `json:"shear" required:"true" description:"change of the corners in the plane of the panel"`
	Across     wire.Band        `json:"curvature_across" required:"true" description:"curvature over the width. Positive: hollow on face 1"`
	Along      wire.Band        `json:"curvature_along" required:"true" description:"curvature over the length. Positive: hollow on face 1"`
	Twist      wire.Band        `json:"twist" required:"true" description:"engineering twist curvature of the surface; the corner lift is this times length times width over 2"`
	Symmetric  bool             `json:"symmetric" required:"true" description:"the layers are a mirror image about mid-thickness: the panel stays flat but for differences between pieces, which are in the bands"`
	Balanced   bool             `json:"balanced" required:"true" description:"the plane of the panel does not shear"`
	Layers     []LayerStress    `json:"layers" required:"true" nullable:"false" description:"the layers from face 1, the top, down"`
	GlueLines  []GlueLineStress `json:"glue_lines" required:"true" nullable:"false" description:"the glue between each layer and the next below, from face 1 down"`
	Creep      CreepLeft        `json:"creep" required:"true" description:"what is left of stress and bend after weeks and months"`
	Strip      *StripBent       `json:"strip,omitempty" description:"two layers with the grain along the length as plain strips across the width alone, as for a cap on a body. Left out for any other panel"`

	// What the drawing takes.
	report wire.Reporter
	stack  laminate.Stack
	glued  *laminate.Glued
}

// StressBand is a stress with the ends of its 90 % band.
type StressBand = wire.Band

// LayerStress is what a layer holds.
type LayerStress struct {
	ID       string         `json:"id" required:"true" description:"your id of the layer, or its position"`
	Name     string         `json:"name,omitempty" description:"your name for the layer"`
	Wood     shelf.WoodUsed `json:"wood" required:"true" description:"the wood, with the figures the answer rests on"`
	GlueUp   wire.Band      `json:"glue_up_mc" required:"true" description:"moisture content when it was glued"`
	Later    wire.Band      `json:"later_mc" required:"true" description:"moisture content that it comes to"`
	Modulus  wire.Quantity  `json:"modulus_along" required:"true" description:"modulus of elasticity along the grain, 1.10 times that from bending"`
	FreeLong wire.Band      `json:"free_strain_along" required:"true" description:"change along the grain in percent, had it not been glued"`
	FreeWide wire.Band      `json:"free_strain_across" required:"true" description:"change across the grain in percent, had it not been glued"`
	Face1    FaceStress     `json:"face_1" required:"true" description:"at the face of the layer that looks to face 1 of the panel"`
	Face2    FaceStress     `json:"face_2" required:"true" description:"at its other face"`
}

// FaceStress is the state at one face of a layer, positive in tension.
type FaceStress struct {
	StrainAlong  wire.Band  `json:"strain_along" required:"true" description:"strain along the grain in percent of the size it would have free; positive: it is pulled"`
	StrainAcross wire.Band  `json:"strain_across" required:"true" description:"strain across the grain in percent of the size it would have free; positive: it is pulled"`
	StressAlong  StressBand `json:"stress_along" required:"true" description:"elastic stress along the grain, positive in tension; creep takes off a part"`
	StressAcross StressBand `json:"stress_across" required:"true" description:"elastic stress across the grain, positive in tension; creep takes off a part"`
}

// GlueLineStress is what the glue between two layers carries at the edges.
type GlueLineStress struct {
	Length  wire.Band `json:"free_difference_along" required:"true" description:"change of the upper layer less that of the lower over the length, had they not been glued; the band takes both layers as independent"`
	Width   wire.Band `json:"free_difference_across" required:"true" description:"the same over the width"`
	AtEnds  GlueEdge  `json:"at_ends" required:"true" description:"at the two edges across the length"`
	AtSides GlueEdge  `json:"at_sides" required:"true" description:"at the two edges along the length"`
	Note    string    `json:"note" required:"true" description:"how far the estimate goes"`
}

// GlueEdge is the order of the stress at one pair of edges.
type GlueEdge struct {
	Shear wire.Band     `json:"shear" required:"true" description:"shear stress in the glue at the edge, an order of magnitude: low and high are a third of it and three times it, no 90 % band"`
	Peel  wire.Band     `json:"peel" required:"true" description:"stress that peels the joint, its size only: whether it opens or closes the joint depends on the stack. An order of magnitude as shear is"`
	Zone  wire.Quantity `json:"zone" required:"true" description:"how far in from the edge the stress falls to about a third"`
}

// CreepLeft says what creep leaves.
type CreepLeft struct {
	Stress  wire.Range `json:"stress_share" required:"true" description:"share of the elastic stress that is left"`
	Bending wire.Range `json:"bending_share" required:"true" description:"share of the elastic cup, bow and twist that is left"`
	Note    string     `json:"note" required:"true" description:"what the shares rest on"`
}

// StripBent is the strip of two layers.
type StripBent struct {
	Difference wire.Band      `json:"strain_difference" required:"true" description:"change of layer 2 less that of layer 1, in percent; positive: layer 1 becomes the narrower"`
	Free       wire.Band      `json:"free_difference" required:"true" description:"difference of the widths, had they not been glued"`
	Ratio      float64        `json:"stiffness_ratio" required:"true" description:"stiffness of layer 1 over that of layer 2, across the grain"`
	Curvature  wire.Band      `json:"curvature" required:"true" description:"curvature over the width. Positive: hollow on face 1"`
	Radius     *wire.Quantity `json:"radius,omitempty" description:"radius of the bend. Left out where it stays flat"`
	Cup        wire.Band      `json:"cup" required:"true" description:"bend over the width. Positive: hollow on face 1"`
	Note       string         `json:"note" required:"true" description:"what the strip leaves out"`
}
