package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
)

// LaminateResult is what becomes of layers glued flat.
type LaminateResult struct {
	Summary    string      `json:"summary" required:"true" description:"the answer in a sentence"`
	Cup        wire.Band   `json:"cup" required:"true" description:"over the width; positive: hollow above"`
	Bow        wire.Band   `json:"bow" required:"true" description:"over the length; positive: hollow above"`
	CornerLift wire.Band   `json:"corner_lift" required:"true" description:"three corners down, how far the fourth stands up; the sign says which diagonal"`
	Length     wire.Band   `json:"change_of_length" required:"true" description:"at mid-thickness; positive is swelling"`
	Width      wire.Band   `json:"change_of_width" required:"true"`
	ShearDeg   wire.Band   `json:"shear" required:"true" description:"change of the corners in the plane of the panel"`
	Across     wire.Band   `json:"curvature_across" required:"true" description:"over the width; positive: hollow above"`
	Along      wire.Band   `json:"curvature_along" required:"true" description:"over the length; positive: hollow above"`
	Twist      wire.Band   `json:"twist" required:"true" description:"engineering twist curvature of the surface; the corner lift is this times length times width over 2"`
	Symmetric  bool        `json:"symmetric" required:"true" description:"the layup is a mirror image about mid-thickness: it stays flat but for differences between pieces, which are in the bands"`
	Balanced   bool        `json:"balanced" required:"true" description:"no shear of the plane"`
	Layers     []LayerHeld `json:"layers" required:"true" nullable:"false" description:"from the bottom up"`
	GlueLines  []GlueHeld  `json:"glue_lines" required:"true" nullable:"false" description:"between each layer and the next above"`
	Creep      CreepLeft   `json:"creep" required:"true"`
	Strip      *StripBent  `json:"strip,omitempty" description:"for two layers with the grain along the length: across the width alone, as for a cap on a body"`

	// What the drawing takes.
	report wire.Reporter
	stack  laminate.Stack
	glued  *laminate.Glued
}

// StressBand is a stress with the ends of its 90 % band.
type StressBand = wire.Band

// LayerHeld is what a layer holds.
type LayerHeld struct {
	Wood     shelf.WoodUsed `json:"wood" required:"true"`
	AtGlueUp wire.Band      `json:"glue_up_condition" required:"true" description:"moisture content"`
	Later    wire.Band      `json:"later_mc" required:"true"`
	Modulus  wire.Quantity  `json:"modulus_along" required:"true" description:"of elasticity along the grain, 1.10 of that from bending"`
	FreeLong wire.Band      `json:"free_along" required:"true" description:"change along the grain, had it not been glued"`
	FreeWide wire.Band      `json:"free_across" required:"true" description:"change across the grain, had it not been glued"`
	Lower    FaceHeld       `json:"lower_face" required:"true"`
	Upper    FaceHeld       `json:"upper_face" required:"true"`
}

// FaceHeld is the state at one face of a layer, positive in tension.
type FaceHeld struct {
	StrainAlong  wire.Band  `json:"strain_along" required:"true" description:"along the grain, from the size it would have free"`
	StrainAcross wire.Band  `json:"strain_across" required:"true"`
	StressAlong  StressBand `json:"stress_along" required:"true" description:"elastic; see creep"`
	StressAcross StressBand `json:"stress_across" required:"true"`
}

// OrderBand is an order of magnitude, not a 90 % band.
type OrderBand struct {
	Value float64 `json:"value" required:"true"`
	Low   float64 `json:"third" required:"true"`
	High  float64 `json:"threefold" required:"true"`
	Unit  string  `json:"unit" required:"true"`
}

// GlueHeld is what the glue between two layers carries at the edges.
type GlueHeld struct {
	Length  wire.Band `json:"free_difference_along" required:"true" description:"change of the upper layer less that of the lower over the length, had they not been glued; the band takes both layers as independent"`
	Width   wire.Band `json:"free_difference_across" required:"true" description:"the same over the width"`
	AtEnds  GlueEdge  `json:"at_ends" required:"true" description:"edges across the length"`
	AtSides GlueEdge  `json:"at_sides" required:"true" description:"edges along the length"`
	Limits  string    `json:"limits" required:"true" description:"how far the estimate goes"`
}

// GlueEdge is the order of the stress at one pair of edges.
type GlueEdge struct {
	Shear OrderBand     `json:"shear" required:"true"`
	Peel  OrderBand     `json:"peel" required:"true" description:"size only: whether it opens or closes the joint depends on the stack"`
	Zone  wire.Quantity `json:"zone" required:"true" description:"how far in from the edge the stress falls to about a third"`
}

// CreepLeft says what creep leaves.
type CreepLeft struct {
	StressLow  float64 `json:"stress_low" required:"true" description:"share of the elastic stress that is left after weeks and months"`
	StressHigh float64 `json:"stress_high" required:"true"`
	BendLow    float64 `json:"bending_low" required:"true" description:"share of the elastic cup, bow and twist"`
	BendHigh   float64 `json:"bending_high" required:"true"`
	Remark     string  `json:"remark" required:"true"`
}

// StripBent is the strip of two layers.
type StripBent struct {
	Difference wire.Band      `json:"strain_difference" required:"true" description:"change of the lower layer less that of the upper; positive: the upper becomes the narrower"`
	Free       wire.Band      `json:"free_difference" required:"true" description:"of the widths, had they not been glued"`
	Ratio      float64        `json:"stiffness_ratio" required:"true" description:"of the upper layer over the lower"`
	Curvature  wire.Band      `json:"curvature" required:"true" description:"positive: hollow above"`
	Radius     *wire.Quantity `json:"radius,omitempty" description:"left out where it stays flat"`
	Cup        wire.Band      `json:"cup" required:"true" description:"over the width; positive: hollow above"`
	Remark     string         `json:"remark" required:"true"`
}
