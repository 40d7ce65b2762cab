package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
)

// LaminateResult is what becomes of layers glued flat.
type LaminateResult struct {
	Summary    string                 `json:"summary" required:"true" description:"the answer in a sentence"`
	Cup        wire.Band              `json:"cup" required:"true" description:"bend over the width. Positive: hollow on face 1"`
	Bow        wire.Band              `json:"bow" required:"true" description:"bend over the length. Positive: hollow on face 1"`
	CornerLift wire.Band              `json:"corner_lift" required:"true" description:"with three corners down, how far the fourth stands up; the sign says which diagonal"`
	Length     wire.Band              `json:"length_change" required:"true" description:"change of the length at mid-thickness; positive is swelling"`
	Width      wire.Band              `json:"width_change" required:"true" description:"change of the width at mid-thickness; positive is swelling"`
	ShearDeg   wire.Band              `json:"shear" required:"true" description:"change of the corners in the plane of the panel"`
	Across     wire.Band              `json:"curvature_across" required:"true" description:"curvature over the width. Positive: hollow on face 1"`
	Along      wire.Band              `json:"curvature_along" required:"true" description:"curvature over the length. Positive: hollow on face 1"`
	Twist      wire.Band              `json:"twist" required:"true" description:"engineering twist curvature of the surface; the corner lift is this times length times width over 2"`
	Symmetric  bool                   `json:"symmetric" required:"true" description:"the layers are a mirror image about mid-thickness: the panel stays flat but for differences between pieces, which are in the bands"`
	Square     bool                   `json:"stays_square" required:"true" description:"the corners keep their angles in the plane of the panel; it may still cup, bow or twist"`
	Layers     []LayerStress          `json:"layers" required:"true" nullable:"false" description:"the layers from face 1, the top, down"`
	GlueLines  []shelf.GlueLineStress `json:"glue_lines" required:"true" nullable:"false" description:"the glue between each layer and the next below, from face 1 down"`
	Creep      shelf.CreepLeft        `json:"creep" required:"true" description:"what is left of stress and bend after weeks and months"`
	Strip      *StripBent             `json:"strip,omitempty" description:"two layers with the grain along the length as plain strips across the width alone, as for a cap on a body. Left out for any other panel"`

	// What the drawing takes.
	report wire.Reporter
	given  [2]string // length and width as they were sent
	stack  laminate.Stack
	glued  *laminate.Glued
}

// LayerStress is what a layer holds.
type LayerStress struct {
	ID       string           `json:"id" required:"true" description:"your id of the layer, or its position"`
	Name     string           `json:"name,omitempty" description:"your name for the layer"`
	Wood     shelf.WoodUsed   `json:"wood" required:"true" description:"the wood, with the figures the answer rests on"`
	GlueUp   wire.Band        `json:"glue_up_mc" required:"true" description:"moisture content when it was glued"`
	Later    wire.Band        `json:"later_mc" required:"true" description:"moisture content that it comes to"`
	Modulus  wire.Quantity    `json:"modulus_along" required:"true" description:"modulus of elasticity along the grain, 1.10 times that from bending"`
	FreeLong wire.Band        `json:"free_strain_along" required:"true" description:"change along the grain in percent, had it not been glued"`
	FreeWide wire.Band        `json:"free_strain_across" required:"true" description:"change across the grain in percent, had it not been glued"`
	Face1    shelf.FaceStress `json:"face_1" required:"true" description:"at the face of the layer that looks to face 1 of the panel"`
	Face2    shelf.FaceStress `json:"face_2" required:"true" description:"at its other face"`
}

// StripBent is the strip of two layers.
type StripBent struct {
	Difference wire.Band      `json:"strain_difference" required:"true" description:"change of layer 2 less that of layer 1, in percent; positive: layer 1 becomes the narrower"`
	Free       wire.Band      `json:"free_difference" required:"true" description:"difference of the widths, had they not been glued"`
	Ratio      float64        `json:"stiffness_ratio" required:"true" resolution:"0.0001" description:"stiffness of layer 1 over that of layer 2, across the grain"`
	Curvature  wire.Band      `json:"curvature" required:"true" description:"curvature over the width. Positive: hollow on face 1"`
	Radius     *wire.Quantity `json:"radius,omitempty" description:"radius of the bend. Left out where it stays flat"`
	Cup        wire.Band      `json:"cup" required:"true" description:"bend over the width. Positive: hollow on face 1"`
	Note       string         `json:"note" required:"true" description:"what the strip leaves out"`
}
