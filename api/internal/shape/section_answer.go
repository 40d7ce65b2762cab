package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/section"
)

// SectionShapeResult is what becomes of the shape of a section.
type SectionShapeResult struct {
	Wood       shelf.WoodUsed   `json:"wood" required:"true" description:"the wood, with the figures the answer rests on"`
	Summary    string           `json:"summary" required:"true" description:"the answer in a sentence"`
	From       wire.Band        `json:"from_mc" required:"true" description:"moisture content at the start; of a profile the mean, in which nothing counts for more than fibre saturation"`
	To         wire.Band        `json:"to_mc" required:"true" description:"moisture content at the end; of a profile the mean, in which nothing counts for more than fibre saturation"`
	Radial     wire.Band        `json:"radial_strain" required:"true" description:"change across the rings in percent of the size; positive is swelling"`
	Tangential wire.Band        `json:"tangential_strain" required:"true" description:"change along the rings in percent of the size; positive is swelling"`
	Start      SectionStart     `json:"start" required:"true" description:"the section before the change"`
	Shape      *SectionShape    `json:"shape,omitempty" description:"the section after the change, free of stress. Left out for a section that holds the pith: it has no such shape"`
	Heart      *BoxedHeart      `json:"boxed_heart,omitempty" description:"what happens to a section that holds the pith. Left out for any other"`
	Gradient   *GradientBend    `json:"gradient,omitempty" description:"the bend by the difference between shell and core. Left out without a profile"`
	Lengthwise *LengthwiseShape `json:"lengthwise_shape,omitempty" description:"how the piece bends and twists along its length. Left out without lengthwise"`
	Outline    *SectionOutline  `json:"outline,omitempty" detail:"full" description:"the edge of the end grain before and after, by middle values. Left out for a section that holds the pith. Left out with ?detail=summary"`

	// What the drawing and the table take.
	report  wire.Reporter
	given   string // its sizes as they were sent
	section section.Section
	heart   *section.Heart
	outline *section.Outline
}

// SectionStart is the section before the change.
type SectionStart struct {
	Width     wire.Quantity `json:"width" required:"true" description:"from the near edge to the far edge"`
	Thickness wire.Quantity `json:"thickness" required:"true" description:"from face 1 to face 2"`
	Pith      *PithPlace    `json:"pith,omitempty" description:"where the pith lies. Left out where the rings are taken as straight"`
	Rings     RingAngles    `json:"ring_angles" required:"true" description:"angles between the rings and face 1 at mid-thickness: 0 flatsawn, 90 quartersawn"`
}

// PithPlace is where the pith is.
type PithPlace struct {
	Y      wire.Quantity `json:"y" required:"true" description:"from the near edge across"`
	Z      wire.Quantity `json:"z" required:"true" description:"from face 1 into the wood; beyond the thickness it lies behind face 2"`
	Inside bool          `json:"inside" required:"true" description:"the section holds the pith: a boxed heart"`
}

// RingAngles are the ring angles across a section.
type RingAngles struct {
	Near   float64 `json:"near_ring_angle_deg" required:"true" description:"at the near edge"`
	Middle float64 `json:"middle_ring_angle_deg" required:"true" description:"in the middle of the width"`
	Far    float64 `json:"far_ring_angle_deg" required:"true" description:"at the far edge"`
}

// FaceCup is the cup of one face.
type FaceCup struct {
	Face         string     `json:"face" required:"true" enum:"face_1,face_2,near,far" description:"which face or edge"`
	Cup          wire.Band  `json:"cup" required:"true" description:"how far it departs from straight. Positive: its curve opens towards the bark; negative: towards the pith"`
	HollowSide   string     `json:"hollow_side" required:"true" enum:"bark,pith,none" description:"which way the curve opens, with the gradient where there is one; none: it stays straight"`
	Detail       string     `json:"detail" required:"true" description:"the same in words"`
	WithGradient *wire.Band `json:"with_gradient,omitempty" description:"the cup and the bend by the gradient together; the band adds both, because they come from one piece. Left out without a profile, and for an edge"`
}

// SectionShape is the section after the change, free of stress.
type SectionShape struct {
	Faces            []FaceCup    `json:"faces" required:"true" nullable:"false" description:"face 1, face 2, the near edge and the far edge"`
	WidthFace1       wire.Band    `json:"face_1_width" required:"true" description:"straight from corner to corner along face 1"`
	WidthMiddle      wire.Band    `json:"middle_width" required:"true" description:"straight from edge to edge at mid-thickness"`
	WidthFace2       wire.Band    `json:"face_2_width" required:"true" description:"straight from corner to corner along face 2"`
	ThicknessNear    wire.Band    `json:"near_thickness" required:"true" description:"straight from corner to corner along the near edge"`
	ThicknessMiddle  wire.Band    `json:"middle_thickness" required:"true" description:"from face to face in the middle of the width"`
	ThicknessFar     wire.Band    `json:"far_thickness" required:"true" description:"straight from corner to corner along the far edge"`
	DiagonalFace1    wire.Band    `json:"diagonal_from_near_face_1" required:"true" description:"from the corner of the near edge and face 1 to that of the far edge and face 2. Unlike the other where the section goes out of square"`
	DiagonalFace2    wire.Band    `json:"diagonal_from_near_face_2" required:"true" description:"from the corner of the near edge and face 2 to that of the far edge and face 1"`
	Corners          CornerAngles `json:"corners" required:"true" description:"angles between the straight lines from corner to corner"`
	Flat             wire.Band    `json:"planed_flat" required:"true" description:"thickness left when both faces are planed flat over the full width, without any gradient"`
	RippedFlat       wire.Band    `json:"ripped_planed_flat" required:"true" description:"the same for the worse half after ripping down the middle, kerf not counted, without any gradient"`
	HalvesRipped     []RippedHalf `json:"ripped_halves" required:"true" nullable:"false" description:"cup of the wide faces of each half. It does not matter whether the board is ripped before or after it moves"`
	FlatWithGradient *wire.Band   `json:"planed_flat_with_gradient,omitempty" description:"about what the gradient leaves of planed_flat, taken off both faces over the full width. Left out without a profile"`
}

// RippedHalf is one half of a section ripped down the middle.
type RippedHalf struct {
	Half  string    `json:"half" required:"true" enum:"near,far" description:"the half at the near or at the far edge"`
	Face1 wire.Band `json:"face_1_cup" required:"true" description:"cup of its face 1. Positive: its curve opens towards the bark"`
	Face2 wire.Band `json:"face_2_cup" required:"true" description:"cup of its face 2. Positive: its curve opens towards the bark"`
}

// CornerAngles are the corners, 90 degrees before.
type CornerAngles struct {
	NearFace1 wire.Band `json:"near_face_1" required:"true" description:"between the near edge and face 1"`
	FarFace1  wire.Band `json:"far_face_1" required:"true" description:"between the far edge and face 1"`
	NearFace2 wire.Band `json:"near_face_2" required:"true" description:"between the near edge and face 2"`
	FarFace2  wire.Band `json:"far_face_2" required:"true" description:"between the far edge and face 2"`
}

// BoxedHeart is what happens to a section that holds the pith.
type BoxedHeart struct {
	Opens    bool      `json:"opens" required:"true" description:"a check opens; false: nothing opens, and old checks close"`
	Opening  wire.Band `json:"opening" required:"true" description:"angle by which the full circle of the rings fails to close, of one check or shared by several"`
	Face1Gap wire.Band `json:"face_1_gap" required:"true" description:"how wide one check from the pith square to face 1 opens there, if it takes all of the opening"`
	Face2Gap wire.Band `json:"face_2_gap" required:"true" description:"the same of a check to face 2"`
	NearGap  wire.Band `json:"near_gap" required:"true" description:"the same of a check to the near edge"`
	FarGap   wire.Band `json:"far_gap" required:"true" description:"the same of a check to the far edge"`
	Detail   string    `json:"detail" required:"true" description:"what happens, in words"`
}

// GradientBend is the bend by a difference between shell and core.
type GradientBend struct {
	Curvature   wire.Band `json:"curvature" required:"true" description:"curvature across the grain. Positive: hollow on face 1"`
	Cup         wire.Band `json:"cup" required:"true" description:"bend over the width. Positive: hollow on face 1"`
	WidthStrain wire.Band `json:"width_strain" required:"true" description:"change of the width in percent, mean over the thickness; positive is swelling"`
	Detail      string    `json:"detail" required:"true" description:"which face draws hollow, in words"`
}

// LengthwiseShape is how the piece bends and twists along its length.
type LengthwiseShape struct {
	Twist *wire.Band `json:"twist,omitempty" description:"twist from end to end, in the sense of the spiral where it dries. Left out without spiral_deg"`
	Crook *wire.Band `json:"crook,omitempty" description:"bend of the edges over the length. Positive: hollow on the far edge. Left out without near_minus_far_strain_pct"`
	Bow   *wire.Band `json:"bow,omitempty" description:"bend of the faces over the length. Positive: hollow on face 1. Left out without face_2_minus_face_1_strain_pct"`
}

// SectionOutline is the edge of the section before and after.
type SectionOutline struct {
	Before []OutlinePoint `json:"before" required:"true" nullable:"false" description:"points along face 1 from the near edge to the far edge, along the far edge, and back along face 2 and the near edge"`
	After  []OutlinePoint `json:"after" required:"true" nullable:"false" description:"the same points after the change, with the bend by a gradient if there is one. The middle of the section and the direction of its ring have not moved"`
}

// OutlinePoint is a place on the end grain.
type OutlinePoint struct {
	Y    float64 `json:"y" required:"true" description:"from the near edge across, as it was before"`
	Z    float64 `json:"z" required:"true" description:"from face 1 into the wood, as it was before"`
	Unit string  `json:"unit" required:"true" description:"unit of both"`
}
